//! A page in a real browser: headless Chromium, driven by its DevTools protocol.

use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use headless_chrome::browser::default_executable;
use headless_chrome::browser::tab::ModifierKey;
use headless_chrome::protocol::cdp::types::Event;
use headless_chrome::protocol::cdp::{Browser as Whole, Emulation, Network, Page as PageDomain, Runtime};
use headless_chrome::types::PrintToPdfOptions;
use headless_chrome::{Browser, LaunchOptions, Tab};
use serde_json::Value;

use crate::left_out::left_out;
use crate::made::Made;

/// How long anything may take on a busy machine.
const PATIENCE: Duration = Duration::from_secs(90);

/// How large a screen is, in CSS pixels.
pub(crate) const PHONE: (u32, u32) = (390, 844);
pub(crate) const NARROWEST: (u32, u32) = (320, 640);
pub(crate) const DESKTOP: (u32, u32) = (1280, 900);

/// A page that is shown.
pub(crate) struct Shown {
    tab: Arc<Tab>,
    /// Everything that was asked for, by address.
    asked: Arc<Mutex<Vec<String>>>,
    /// Every dialog that opened, by its words. Each is answered with yes.
    dialogs: Arc<Mutex<Vec<String>>>,
    /// Kept, for the browser ends with it; before the folder, in which it writes.
    browser: Browser,
    /// Kept, for its folder ends with it.
    pub(crate) made: Made,
}

/// Sets up the page before its own script runs.
#[derive(Clone, Copy, Default)]
pub(crate) struct Set {
    /// A script that runs first, on every load.
    pub(crate) script: Option<&'static str>,
    /// No script runs at all.
    pub(crate) without_scripts: bool,
    /// The device asks for dark pages.
    pub(crate) dark: bool,
}

/// Shows a page in a browser. Where none is installed the test that asks for it ends, as passed.
macro_rules! show {
    ($made:expr, $screen:expr, $set:expr) => {
        match $crate::browser::in_browser($made, $screen, $set) {
            Some(page) => page,
            None => return,
        }
    };
}
pub(crate) use show;

/// A page in a browser of its own; nothing where none is installed.
pub(crate) fn in_browser(made: Made, screen: (u32, u32), set: Set) -> Option<Shown> {
    if default_executable().is_err() {
        left_out("a browser (Debian's package chromium)");
        return None;
    }
    let own = made.folder().join("browser");
    std::fs::create_dir(&own).expect("the folder can be written");
    let options = LaunchOptions {
        user_data_dir: Some(own.join("profile")),
        // What it leaves behind when it is ended goes with the folder.
        process_envs: Some([("TMPDIR".to_owned(), own.display().to_string())].into()),
        sandbox: false,
        idle_browser_timeout: Duration::from_secs(600),
        args: ["--disable-quic", "--disable-component-update", "--disable-gpu"]
            .map(std::ffi::OsStr::new)
            .to_vec(),
        ..LaunchOptions::default()
    };
    let browser = Browser::new(options).expect("the browser starts");
    keep_talking(&browser);
    let tab = browser.new_tab().expect("a tab opens");
    tab.set_default_timeout(PATIENCE);
    let asked: Arc<Mutex<Vec<String>>> = Arc::default();
    let dialogs: Arc<Mutex<Vec<String>>> = Arc::default();
    let (asking, opening, answering) = (asked.clone(), dialogs.clone(), tab.clone());
    tab.add_event_listener(Arc::new(move |event: &Event| match event {
        Event::NetworkRequestWillBeSent(sent) => {
            asking.lock().expect("no listener panics").push(sent.params.request.url.clone());
        }
        Event::PageJavascriptDialogOpening(dialog) => {
            opening.lock().expect("no listener panics").push(dialog.params.message.clone());
            let _ = answering.get_dialog().accept(None);
        }
        _ => {}
    }))
    .expect("the browser can be listened to");
    tab.call_method(Network::Enable {
        max_total_buffer_size: None,
        max_resource_buffer_size: None,
        max_post_data_size: None,
        report_direct_socket_traffic: None,
        enable_durable_messages: None,
    })
    .expect("requests can be watched");
    tab.call_method(Emulation::SetDeviceMetricsOverride {
        width: screen.0,
        height: screen.1,
        device_scale_factor: 1.0,
        mobile: screen.0 < 700,
        scale: None,
        screen_width: None,
        screen_height: None,
        position_x: None,
        position_y: None,
        dont_set_visible_size: None,
        screen_orientation: None,
        viewport: None,
        display_feature: None,
        device_posture: None,
    })
    .expect("the screen can be set");
    if set.dark {
        let feature =
            Emulation::MediaFeature { name: "prefers-color-scheme".to_owned(), value: "dark".to_owned() };
        tab.call_method(Emulation::SetEmulatedMedia { media: None, features: Some(vec![feature]) })
            .expect("the scheme can be set");
    }
    if set.without_scripts {
        tab.call_method(Emulation::SetScriptExecutionDisabled { value: true })
            .expect("scripts can be stopped");
    }
    if let Some(script) = set.script {
        tab.call_method(PageDomain::AddScriptToEvaluateOnNewDocument {
            source: script.to_owned(),
            world_name: None,
            include_command_line_api: None,
            run_immediately: None,
        })
        .expect("a script can be put first");
    }
    let shown = Shown { tab, asked, dialogs, made, browser };
    shown.go(&shown.made.path);
    Some(shown)
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

impl Shown {
    /// The value of an expression of the page; a promise is waited for.
    pub(crate) fn value(&self, expression: &str) -> Value {
        self.try_value(expression).unwrap_or_else(|why| panic!("`{expression}`: {why}"))
    }

    fn try_value(&self, expression: &str) -> Result<Value, String> {
        let answer = self.tab.call_method(Runtime::Evaluate {
            expression: expression.to_owned(),
            return_by_value: Some(true),
            await_promise: Some(true),
            user_gesture: Some(true),
            object_group: None,
            include_command_line_api: None,
            silent: None,
            context_id: None,
            generate_preview: None,
            throw_on_side_effect: None,
            timeout: None,
            disable_breaks: None,
            repl_mode: None,
            allow_unsafe_eval_blocked_by_csp: None,
            unique_context_id: None,
            serialization_options: None,
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
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// Taps the middle of an element, as a finger does: what lies over it is hit instead.
    pub(crate) fn tap(&self, selector: &str) {
        let element =
            self.tab.wait_for_element(selector).unwrap_or_else(|error| panic!("{selector}: {error}"));
        element.click().unwrap_or_else(|error| panic!("{selector} can be tapped: {error}"));
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

    /// Types into a box of the same page in another tab, which stays open.
    pub(crate) fn type_in_another_tab(&self, id: &str, words: &str) {
        let tab = self.browser.new_tab().expect("a tab opens");
        let address = format!("file://{}", self.made.path.display());
        tab.navigate_to(&address).and_then(|tab| tab.wait_until_navigated()).expect("the page is shown");
        let input = tab.wait_for_element(&format!("#{id}")).expect("the box is there");
        input.click().expect("it can be tapped");
        tab.type_str(words).expect("keys can be pressed");
    }

    /// Shows another file in the same browser.
    pub(crate) fn go(&self, path: &Path) {
        let address = format!("file://{}", path.display());
        self.tab.navigate_to(&address).and_then(|tab| tab.wait_until_navigated()).expect("the page is shown");
    }

    /// Loads the page again.
    pub(crate) fn reload(&self) {
        self.value("window.wasHereBefore = true");
        self.tab.reload(false, None).expect("the page can be loaded again");
        // Between the two there is a page of which nothing can be asked.
        let is_new = "location.protocol === 'file:' && document.readyState === 'complete' \
                      && window.wasHereBefore === undefined";
        let begun = Instant::now();
        while self.try_value(is_new) != Ok(Value::Bool(true)) {
            assert!(begun.elapsed() < PATIENCE, "the page never came back");
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// What has been asked for so far, by address.
    pub(crate) fn asked(&self) -> Vec<String> {
        self.asked.lock().expect("no listener panics").clone()
    }

    /// What has been said in dialogs so far.
    pub(crate) fn dialogs(&self) -> Vec<String> {
        self.dialogs.lock().expect("no listener panics").clone()
    }

    /// Lets downloads go to a folder.
    pub(crate) fn save_downloads_in(&self, folder: &Path) {
        self.tab
            .call_method(Whole::SetDownloadBehavior {
                behavior: Whole::SetDownloadBehaviorBehaviorOption::Allow,
                browser_context_id: None,
                download_path: Some(folder.display().to_string()),
                events_enabled: None,
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
