//! What a thumb does on the page, and what an eye sees there. Each act begins and ends on the first screen.

use serde_json::Value;

use crate::browser::Shown;

/// The block of the name of a box or a run: `b1` of `s1-b1-r2`.
fn block_of(id: &str) -> &str {
    id.split('-').nth(1).expect("it names a block")
}

impl Shown {
    /// Sets the clock, in milliseconds from when the page was first shown, and lets the page notice it.
    pub(crate) fn set_clock(&self, ms: u64) {
        self.value(&format!("setClock({ms})"));
    }

    /// Taps an element when the clock shows so many milliseconds.
    pub(crate) fn tap_at(&self, ms: u64, selector: &str) {
        self.set_clock(ms);
        self.tap(selector);
    }

    /// Taps the one button when the clock shows so many milliseconds.
    pub(crate) fn tap_go_at(&self, ms: u64) {
        self.tap_at(ms, "#go");
    }

    /// Taps somebody's name when the clock shows so many milliseconds.
    pub(crate) fn tap_name_at(&self, ms: u64, name: &str) {
        self.set_clock(ms);
        let names = "[...document.querySelectorAll('#names .who')]";
        let slot = self.value(&format!("{names}.findIndex((one) => one.textContent === '{name}') + 1"));
        assert_ne!(slot, 0, "{name} is named");
        self.tap(&format!("#names .name:nth-child({slot})"));
    }

    /// What can be read in an element, with single spaces; nothing where it is hidden.
    pub(crate) fn words(&self, selector: &str) -> String {
        self.text(&format!(
            "(() => {{
                const one = document.querySelector('{selector}');
                return one.getClientRects().length > 0 ? one.innerText.replace(/\\s+/g, ' ').trim() : '';
            }})()"
        ))
    }

    /// What the one button says.
    pub(crate) fn go_words(&self) -> String {
        self.words("#go")
    }

    /// What is told at the top; nothing where nothing is.
    pub(crate) fn notice(&self) -> String {
        self.words("#notice-words")
    }

    /// The names whose clock runs here, in their order.
    pub(crate) fn names_running(&self) -> Value {
        self.value("[...document.querySelectorAll('#names .is-open .who')].map((one) => one.textContent)")
    }

    /// Opens the quiet menu and does one thing of it.
    pub(crate) fn menu(&self, words: &str) {
        let done = self.value(&format!(
            "(() => {{
                document.getElementById('menu-open').click();
                const one = [...document.querySelectorAll('#menu button')].find((one) => one.textContent === {words:?});
                one?.click();
                return one !== undefined;
            }})()"
        ));
        assert_eq!(done, true, "the menu offers `{words}`");
    }

    /// What the quiet menu has: an expression's value while it is open.
    pub(crate) fn in_menu(&self, expression: &str) -> Value {
        self.value(&format!(
            "(() => {{
                document.getElementById('menu-open').click();
                const found = {expression};
                document.getElementById('menu-close').click();
                return found;
            }})()"
        ))
    }

    /// What the quiet menu offers to do.
    pub(crate) fn offered(&self) -> Vec<String> {
        let offered =
            self.in_menu("[...document.querySelectorAll('#menu button')].map((one) => one.textContent)");
        serde_json::from_value(offered).expect("buttons have words")
    }

    /// Opens the quiet menu and chooses what is written so from one of its lists.
    pub(crate) fn choose(&self, list: &str, words: &str) {
        let is_there = self.in_menu(&picked(&format!("document.getElementById('{list}')"), words));
        assert_eq!(is_there, true, "`{words}` can be chosen");
    }

    /// The block that is on, as the menu has it: `s1 b2`.
    pub(crate) fn block_on(&self) -> String {
        self.in_menu("document.getElementById('choose').value")
            .as_str()
            .map(str::to_owned)
            .unwrap_or_default()
    }

    /// The blocks that the menu lists.
    pub(crate) fn blocks(&self) -> Vec<String> {
        let blocks =
            self.in_menu("[...document.getElementById('choose').options].map((one) => one.textContent)");
        serde_json::from_value(blocks).expect("options have words")
    }

    /// What the dialog that is open asks; nothing where none is.
    pub(crate) fn question(&self) -> String {
        self.text("document.querySelector('#menu[open] h2')?.textContent ?? ''")
    }

    /// Shows a part of the page: `run`, `times` or `plan`.
    pub(crate) fn part(&self, name: &str) {
        self.value(&shown(name, "null"));
    }

    /// Shows the times with those of a block open, and has the value of an expression there.
    fn in_times(&self, block: &str, expression: &str) -> Value {
        let opened = format!(
            "(async () => {{
                const block = document.querySelector('details[data-block={block}]');
                block.open = true;
                while (block.querySelector('input') === null) await new Promise((next) => setTimeout(next, 5));
                return {expression};
            }})()"
        );
        self.value(&shown("times", &opened))
    }

    /// Writes a time into a box, in place of what is there.
    pub(crate) fn type_into(&self, id: &str, words: &str) {
        self.in_times(block_of(id), "null");
        self.tap(&format!("#{id}"));
        self.value(&format!("document.getElementById('{id}').select()"));
        self.type_in(words);
        self.part("run");
    }

    /// Chooses a word in place of a time.
    pub(crate) fn give_word(&self, id: &str, word: &str) {
        let list = format!("document.querySelector('.box:has(#{id}) .word')");
        let is_there = self.in_times(block_of(id), &picked(&list, word));
        assert_eq!(is_there, true, "`{word}` can be chosen");
        self.part("run");
    }

    /// Takes what the page thinks was meant in a box.
    pub(crate) fn take_meant(&self, id: &str) {
        self.in_times(block_of(id), "null");
        self.tap(&format!(".box:has(#{id}) .meant"));
        self.part("run");
    }

    /// What is in the boxes of a run or a block, in their order.
    pub(crate) fn times(&self, id: &str) -> Vec<String> {
        let boxes =
            format!("[...document.querySelectorAll('#tables input[id^={id}-]')].map((one) => one.value)");
        let boxes = self.in_times(block_of(id), &boxes);
        self.part("run");
        serde_json::from_value(boxes).expect("boxes hold text")
    }

    /// What is in a box.
    pub(crate) fn in_box(&self, id: &str) -> String {
        let words = self.in_times(block_of(id), &format!("document.getElementById('{id}').value"));
        self.part("run");
        words.as_str().map(str::to_owned).unwrap_or_default()
    }

    /// What is said beside a box: how far it is from its target, and what was likely meant.
    pub(crate) fn beside_box(&self, id: &str) -> (String, String) {
        let beside = self.in_times(
            block_of(id),
            &format!("['.against', '.meant'].map((part) => document.querySelector(`.box:has(#{id}) ${{part}}`)).map((one) => (one.hidden ? '' : one.textContent))"),
        );
        self.part("run");
        serde_json::from_value(beside).expect("both are text")
    }

    /// How many times are taken, and where they are kept.
    pub(crate) fn kept(&self) -> String {
        self.part("times");
        let kept = self.words("#kept");
        self.part("run");
        kept
    }
}

/// Shows a part of the page by its address, then has the value of an expression.
fn shown(part: &str, expression: &str) -> String {
    format!(
        "(async () => {{
            const shown = () => document.documentElement.getAttribute('data-part');
            if (shown() !== '{part}') location.hash = '{part}';
            while (shown() !== '{part}') await new Promise((next) => setTimeout(next, 5));
            return {expression};
        }})()"
    )
}

/// Picks an option of a list, as the device's own list of them does; whether it is there.
fn picked(list: &str, words: &str) -> String {
    format!(
        "(() => {{
            const list = {list};
            const option = [...list.options].find((one) => one.textContent === {words:?});
            if (option === undefined) return false;
            list.value = option.value;
            list.dispatchEvent(new Event('change', {{ bubbles: true }}));
            return true;
        }})()"
    )
}
