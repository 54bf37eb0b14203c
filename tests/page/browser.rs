//! A page in a real browser: headless Chromium, driven by its DevTools protocol.

use std::path::Path;
use std::sync::{Arc, Mutex, PoisonError, Weak};
use std::time::{Duration, Instant};

use headless_chrome::browser::default_executable;
use headless_chrome::browser::tab::ModifierKey;
use headless_chrome::protocol::cdp::types::Event;
use headless_chrome::protocol::cdp::{
    Browser as Whole, Emulation, Input, Network, Page as PageDomain, Runtime, Target,
};
use headless_chrome::types::PrintToPdfOptions;
use headless_chrome::{Browser, LaunchOptions, Tab};
use serde_json::{Value, json};
use tempfile::TempDir;

use crate::left_out::left_out;
use crate::made::Made;

/// How long anything may take on a busy machine.
const PATIENCE: Duration = Duration::from_secs(90);

/// How large a screen is, in CSS pixels: a phone whose browser shows its bars, the lowest that is planned for, one
/// that shows none.
pub(crate) const PHONE: (u32, u32) = (390, 664);
pub(crate) const LOW: (u32, u32) = (360, 560);
pub(crate) const TALL: (u32, u32) = (390, 844);
pub(crate) const NARROWEST: (u32, u32) = (320, 640);
pub(crate) const DESKTOP: (u32, u32) = (1280, 900);

/// A page that is shown in a window of its own.
pub(crate) struct Shown {
    tab: Arc<Tab>,
    /// The profile that its tabs share, and no other test has.
    context: String,
    /// Every address that was requested.
    requests: Arc<Mutex<Vec<String>>>,
    /// The words of every dialog that opened. Each is answered with yes.
    dialogs: Arc<Mutex<Vec<String>>>,
    /// Kept, for the browser ends with the last test that has it.
    shared: Arc<SharedBrowser>,
    /// Kept, for its folder ends with it.
    pub(crate) made: Made,
}

/// The browser that the tests share which run at the same time.
struct SharedBrowser {
    browser: Browser,
    /// Kept, for the browser writes in it: so it comes after the browser.
    _folder: TempDir,
}

static SHARED: Mutex<Weak<SharedBrowser>> = Mutex::new(Weak::new());

/// Sets up the page before its own script runs.
#[derive(Clone, Copy, Default)]
pub(crate) struct Set {
    /// Scripts that run first, on every load.
    pub(crate) scripts: &'static [&'static str],
    /// No script runs at all.
    pub(crate) without_scripts: bool,
    /// The device asks for dark pages.
    pub(crate) dark: bool,
}

/// Shows a page in a window and a profile of its own. Where no browser is installed the test that asks for it ends,
/// as passed.
macro_rules! show {
    ($made:expr, $screen:expr, $set:expr) => {
        match $crate::browser::in_browser($made, $screen, $set) {
            Some(page) => page,
            None => return,
        }
    };
}
pub(crate) use show;

/// Asks the browser for something by its protocol, with the parameters named as the protocol names them.
macro_rules! call {
    ($tab:expr, $method:ty, $parameters:tt) => {{
        let method: $method = serde_json::from_value(json!($parameters)).expect("it is as the protocol asks");
        $tab.call_method(method)
    }};
}

/// A page in a window and a profile of its own; nothing where no browser is installed.
pub(crate) fn in_browser(made: Made, screen: (u32, u32), set: Set) -> Option<Shown> {
    if default_executable().is_err() {
        left_out("a browser (Debian's package chromium)");
        return None;
    }
    let shared = shared_browser();
    let context = shared.browser.new_context().expect("a profile can be made").get_id().to_owned();
    let tab = open_tab(&shared.browser, &context);
    let requests: Arc<Mutex<Vec<String>>> = Arc::default();
    let dialogs: Arc<Mutex<Vec<String>>> = Arc::default();
    let (requesting, opening, answering) = (requests.clone(), dialogs.clone(), Arc::downgrade(&tab));
    tab.add_event_listener(Arc::new(move |event: &Event| match event {
        Event::NetworkRequestWillBeSent(sent) => {
            requesting.lock().expect("no listener panics").push(sent.params.request.url.clone());
        }
        Event::PageJavascriptDialogOpening(dialog) => {
            opening.lock().expect("no listener panics").push(dialog.params.message.clone());
            if let Some(tab) = answering.upgrade() {
                let _ = tab.get_dialog().accept(None);
            }
        }
        _ => {}
    }))
    .expect("the browser can be listened to");
    call!(tab, Network::Enable, {}).expect("requests can be watched");
    let (width, height) = screen;
    call!(tab, Emulation::SetDeviceMetricsOverride, {
        "width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 700
    })
    .expect("the screen can be set");
    // Windows of other tests lie over this one.
    tab.call_method(Emulation::SetFocusEmulationEnabled { enabled: true }).expect("it can have the focus");
    // A page that scrolls smoothly moves away under a tap.
    let mut features = vec![json!({ "name": "prefers-reduced-motion", "value": "reduce" })];
    if set.dark {
        features.push(json!({ "name": "prefers-color-scheme", "value": "dark" }));
    }
    call!(tab, Emulation::SetEmulatedMedia, { "features": features })
        .expect("what the device asks for can be set");
    if set.without_scripts {
        tab.call_method(Emulation::SetScriptExecutionDisabled { value: true })
            .expect("scripts can be stopped");
    }
    for script in set.scripts {
        call!(tab, PageDomain::AddScriptToEvaluateOnNewDocument, { "source": script })
            .expect("a script can be put first");
    }
    let shown = Shown { tab, context, requests, dialogs, made, shared };
    shown.go(&shown.made.path);
    Some(shown)
}

fn shared_browser() -> Arc<SharedBrowser> {
    let mut shared = SHARED.lock().unwrap_or_else(PoisonError::into_inner);
    shared.upgrade().unwrap_or_else(|| {
        let new = Arc::new(SharedBrowser::begin());
        *shared = Arc::downgrade(&new);
        new
    })
}

impl SharedBrowser {
    fn begin() -> Self {
        let folder = tempfile::tempdir().expect("a temporary folder can be made");
        let options = LaunchOptions {
            user_data_dir: Some(folder.path().join("profile")),
            // What it leaves behind when it is ended goes with the folder.
            // The day and the time of day that a page shows are the device's own.
            process_envs: Some(
                [("TMPDIR", folder.path().display().to_string()), ("TZ", "UTC".to_owned())]
                    .map(|(name, value)| (name.to_owned(), value))
                    .into(),
            ),
            sandbox: false,
            idle_browser_timeout: Duration::from_secs(600),
            args: ["--disable-quic", "--disable-component-update", "--disable-gpu"]
                .map(std::ffi::OsStr::new)
                .to_vec(),
            ..LaunchOptions::default()
        };
        let browser = Browser::new(options).expect("the browser starts");
        keep_talking(&browser);
        Self { browser, _folder: folder }
    }
}

fn open_tab(browser: &Browser, context: &str) -> Arc<Tab> {
    let target = json!({ "url": "about:blank", "browserContextId": context });
    let target: Target::CreateTarget = serde_json::from_value(target).expect("it is as the protocol asks");
    let tab = browser.new_tab_with_options(target).expect("a tab opens");
    tab.set_default_timeout(PATIENCE);
    tab
}

/// Lets the browser's first tab say something all the time. The client asks nothing while it listens, which is a
/// tenth of a second where nothing is heard.
fn keep_talking(browser: &Browser) {
    let begun = Instant::now();
    let first = || browser.get_tabs().lock().expect("no listener panics").first().cloned();
    let tab = loop {
        if let Some(tab) = first() {
            break tab;
        }
        assert!(begun.elapsed() < PATIENCE, "a browser has a tab");
        std::thread::sleep(Duration::from_millis(5));
    };
    tab.call_method(Runtime::Enable(None)).expect("what it says is heard");
    tab.evaluate("setInterval(() => console.debug(''), 4); 0", false).expect("it can talk");
}

impl Drop for Shown {
    fn drop(&mut self) {
        // A test that fails may leave a tab that cannot be closed.
        let _ = self.tab.close(false);
    }
}

impl Shown {
    /// The value of an expression of the page; a promise is waited for.
    pub(crate) fn value(&self, expression: &str) -> Value {
        self.try_value(expression).unwrap_or_else(|why| panic!("`{expression}`: {why}"))
    }

    fn try_value(&self, expression: &str) -> Result<Value, String> {
        let answer = call!(self.tab, Runtime::Evaluate, {
            "expression": expression, "returnByValue": true, "awaitPromise": true, "userGesture": true
        });
        let answer = answer.map_err(|error| error.to_string())?;
        if let Some(thrown) = answer.exception_details {
            let what = thrown.exception.and_then(|exception| exception.description);
            return Err(what.unwrap_or(thrown.text));
        }
        Ok(answer.result.value.unwrap_or_default())
    }

    /// The text of an expression of the page.
    pub(crate) fn text(&self, expression: &str) -> String {
        self.value(expression).as_str().map(str::to_owned).unwrap_or_default()
    }

    /// Waits until an expression of the page holds.
    pub(crate) fn wait(&self, condition: &str) {
        let begun = Instant::now();
        while self.value(condition) != Value::Bool(true) {
            assert!(begun.elapsed() < PATIENCE, "`{condition}` never came to hold");
            std::thread::sleep(Duration::from_millis(10));
        }
    }

    /// Taps the middle of an element, as a finger does: what lies over it is hit instead.
    pub(crate) fn tap(&self, selector: &str) {
        self.tap_one(&format!("document.querySelector({selector:?})"));
    }

    /// Taps the button with these words within an element.
    pub(crate) fn tap_words(&self, within: &str, words: &str) {
        self.tap_one(&format!(
            "[...document.querySelectorAll('{within} button')].find((one) => one.textContent === {words:?})"
        ));
    }

    /// Taps the element that an expression finds.
    fn tap_one(&self, element: &str) {
        let middle = self.value(&format!(
            "(() => {{
                const one = {element} ?? null;
                if (one === null) return null;
                const edges = () => one.getBoundingClientRect();
                const {{ left, top, right, bottom }} = edges();
                if (left < 0 || top < 0 || right > innerWidth || bottom > innerHeight)
                    one.scrollIntoView({{ block: 'center', inline: 'center', behavior: 'instant' }});
                const {{ x, y, width, height }} = edges();
                return width > 0 ? [x + width / 2, y + height / 2] : null;
            }})()"
        ));
        assert!(middle.is_array(), "{element} cannot be seen, so it cannot be tapped");
        let event = |kind: &str, button: &str, clicks: u32| {
            call!(self.tab, Input::DispatchMouseEvent, {
                "type": kind, "x": middle[0], "y": middle[1], "button": button, "clickCount": clicks
            })
            .expect("the screen can be touched");
        };
        event("mouseMoved", "none", 0);
        event("mousePressed", "left", 1);
        event("mouseReleased", "left", 1);
    }

    /// Presses a key.
    pub(crate) fn press(&self, key: &str) {
        self.tab.press_key(key).unwrap_or_else(|error| panic!("{key} can be pressed: {error}"));
    }

    /// Presses a key with Shift.
    pub(crate) fn press_with_shift(&self, key: &str) {
        self.tab
            .press_key_with_modifiers(key, Some(&[ModifierKey::Shift]))
            .unwrap_or_else(|error| panic!("{key} can be pressed: {error}"));
    }

    /// Types where the focus is.
    pub(crate) fn type_in(&self, words: &str) {
        self.tab.type_str(words).expect("keys can be pressed");
    }

    /// Types into a box of the first block of the same page in another tab of the same profile, which stays open.
    pub(crate) fn type_in_another_tab(&self, id: &str, words: &str) {
        let tab = open_tab(&self.shared.browser, &self.context);
        let address = format!("file://{}#times", self.made.path.display());
        tab.navigate_to(&address).and_then(|tab| tab.wait_until_navigated()).expect("the page is shown");
        let input = tab.wait_for_element(&format!("#{id}")).expect("the box is there");
        input.click().expect("it can be tapped");
        tab.type_str(words).expect("keys can be pressed");
    }

    /// Shows another file in the same tab.
    pub(crate) fn go(&self, path: &Path) {
        let address = format!("file://{}", path.display());
        self.value("window.wasHereBefore = true");
        self.tab.navigate_to(&address).expect("the file can be shown");
        self.wait_for_new_page();
    }

    /// Loads the page again.
    pub(crate) fn reload(&self) {
        self.value("window.wasHereBefore = true");
        self.tab.reload(false, None).expect("the page can be loaded again");
        self.wait_for_new_page();
    }

    /// Between two pages nothing can be asked.
    fn wait_for_new_page(&self) {
        let is_new = "location.protocol === 'file:' && document.readyState === 'complete' \
                      && window.wasHereBefore === undefined";
        let begun = Instant::now();
        while self.try_value(is_new) != Ok(Value::Bool(true)) {
            assert!(begun.elapsed() < PATIENCE, "the page never came");
            std::thread::sleep(Duration::from_millis(10));
        }
    }

    /// The window as it is seen, one pixel for each of CSS.
    pub(crate) fn picture(&self) -> Vec<u8> {
        let format = PageDomain::CaptureScreenshotFormatOption::Png;
        self.tab.capture_screenshot(format, None, None, true).expect("it can be drawn")
    }

    /// The addresses that were requested so far.
    pub(crate) fn requests(&self) -> Vec<String> {
        self.requests.lock().expect("no listener panics").clone()
    }

    /// The words of the dialogs so far.
    pub(crate) fn dialogs(&self) -> Vec<String> {
        self.dialogs.lock().expect("no listener panics").clone()
    }

    /// Lets downloads go to a folder.
    pub(crate) fn save_downloads_in(&self, folder: &Path) {
        call!(self.tab, Whole::SetDownloadBehavior, {
            "behavior": "allow", "browserContextId": self.context, "downloadPath": folder
        })
        .expect("downloads can be allowed");
    }

    /// Prints to PDF on paper of this size, in inches.
    pub(crate) fn print(&self, width: f64, height: f64) -> Vec<u8> {
        let options = PrintToPdfOptions {
            paper_width: Some(width),
            paper_height: Some(height),
            prefer_css_page_size: Some(false),
            ..PrintToPdfOptions::default()
        };
        self.tab.print_to_pdf(Some(options)).expect("the page can be printed")
    }
}
