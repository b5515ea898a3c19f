//! A real browser, and what a test does with it.

use std::fs;
use std::future::Future;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use fantoccini::actions::{InputSource, KeyAction, KeyActions};
use fantoccini::key::Key;
use fantoccini::{Client, ClientBuilder};
use serde_json::{Value, json};

use super::{Desk, PATIENCE};
use crate::support::missing;

fn on_path(names: &[&str]) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    let folders: Vec<PathBuf> = std::env::split_paths(&path).collect();
    let found = |name: &&str| {
        folders
            .iter()
            .map(|folder| folder.join(name))
            .find(|file| file.is_file())
    };
    names.iter().find_map(found)
}

/// The driver of a browser, until it is dropped.
pub struct Driver {
    program: Child,
    address: String,
    browser: PathBuf,
}

impl Drop for Driver {
    fn drop(&mut self) {
        let _ = self.program.kill();
        let _ = self.program.wait();
    }
}

impl Driver {
    /// None where this machine has no browser.
    pub fn start() -> Option<Self> {
        let Some(driver) = on_path(&["chromedriver"]) else {
            return missing("there is no chromedriver (Debian: chromium-driver)");
        };
        let Some(browser) = on_path(&["chromium", "google-chrome"]) else {
            return missing("there is no browser (Debian: chromium)");
        };
        let mut program = Command::new(driver)
            .arg("--port=0")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("it runs");
        let stdout = program.stdout.take().expect("stdout");
        let port = BufReader::new(stdout).lines().find_map(|line| {
            let line = line.ok()?;
            let (_, port) = line.split_once("started successfully on port ")?;
            Some(port.trim_end_matches('.').to_owned())
        });
        Some(Self {
            program,
            address: format!("http://127.0.0.1:{}", port.expect("a port")),
            browser,
        })
    }

    /// A screen of this width, light or dark.
    pub async fn screen(&self, width: u32, is_dark: bool) -> Client {
        let mut words = vec![
            "--headless=new".to_owned(),
            "--no-sandbox".to_owned(),
            "--disable-dev-shm-usage".to_owned(),
            "--disable-gpu".to_owned(),
            format!("--window-size={width},1000"),
        ];
        // 0 is dark, 1 is light.
        words.push(format!(
            "--blink-settings=preferredColorScheme={}",
            u8::from(!is_dark)
        ));
        let mut options = json!({ "args": words, "binary": self.browser });
        if width < 500 {
            // A picture shows the screen, so the screen is as long as the page.
            let height = if std::env::var_os("COSTCARD_SCREENSHOTS").is_some() {
                5600
            } else {
                844
            };
            options["mobileEmulation"] = json!({
                "deviceMetrics": { "width": width, "height": height, "pixelRatio": 1.0, "touch": true },
            });
        }
        let mut wanted = serde_json::Map::new();
        wanted.insert("goog:chromeOptions".to_owned(), options);
        let mut builder =
            ClientBuilder::new(hyper_util::client::legacy::connect::HttpConnector::new());
        builder.capabilities(wanted);
        builder.connect(&self.address).await.expect("a browser")
    }
}

pub fn run<R>(work: impl Future<Output = R>) -> R {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build();
    runtime.expect("a runtime").block_on(work)
}

pub async fn script(page: &Client, text: &str) -> Value {
    page.execute(text, Vec::new()).await.expect("a result")
}

/// What the script gives once that is neither nothing nor false.
pub async fn once(page: &Client, what: &str, text: &str) -> Value {
    let begun = Instant::now();
    loop {
        let found = script(page, text).await;
        if !matches!(found, Value::Null | Value::Bool(false)) {
            return found;
        }
        assert!(begun.elapsed() < PATIENCE, "never: {what}");
        tokio::time::sleep(Duration::from_millis(40)).await;
    }
}

/// Opens the desk and waits until everything is worked out. What the page does that its own rules forbid is noted.
pub async fn open(page: &Client, desk: &Desk) {
    page.goto(&desk.address).await.expect("the page");
    let note = "window.bad = [];
        document.addEventListener('securitypolicyviolation', (event) => bad.push(event.violatedDirective + ' ' + event.sourceFile));
        addEventListener('error', (event) => bad.push(event.message));
        addEventListener('unhandledrejection', (event) => bad.push(String(event.reason)));";
    script(page, note).await;
    once(
        page,
        "worked out",
        "return document.getElementById('busy').textContent === 'Everything is worked out.'",
    )
    .await;
    once(
        page,
        "answered",
        "return document.getElementById('result').dataset.depth === 'all'",
    )
    .await;
}

pub async fn nothing_forbidden(page: &Client) {
    assert_eq!(script(page, "return window.bad").await, json!([]));
}

/// What axe-core finds wrong with the page that is open.
pub async fn accessible(page: &Client, what: &str) {
    let Some(path) = std::env::var_os("COSTCARD_AXE") else {
        missing::<()>("COSTCARD_AXE names no axe-core, so accessibility is not checked");
        return;
    };
    let axe = fs::read_to_string(path).expect("axe-core");
    page.execute(&axe, Vec::new()).await.expect("axe-core runs");
    let run = "const done = arguments[arguments.length - 1];
        axe.run(document, { resultTypes: ['violations', 'incomplete'] }).then((found) => done(found.violations.map((one) =>
            one.id + ': ' + one.help + ': ' + one.nodes.map((node) => node.html.slice(0, 200) + ' ' + node.failureSummary).join(' | '))),
            (error) => done(['axe: ' + error]));";
    let found = page.execute_async(run, Vec::new()).await.expect("a result");
    assert_eq!(found, json!([]), "{what}: {found:#}");
}

/// A picture of the whole page, where pictures are asked for.
pub async fn picture(page: &Client, name: &str) {
    let Some(folder) = std::env::var_os("COSTCARD_SCREENSHOTS") else {
        return;
    };
    let height = script(page, "return document.documentElement.scrollHeight").await;
    let (width, _) = page.get_window_size().await.expect("a size");
    let height = height.as_u64().unwrap_or(1000) as u32 + 150;
    let _ = page.set_window_size(width as u32, height).await;
    tokio::time::sleep(Duration::from_millis(300)).await;
    let bytes = page.screenshot().await.expect("a picture");
    fs::write(Path::new(&folder).join(name), bytes).expect("written");
    let _ = page.set_window_size(width as u32, 1000).await;
}

pub async fn text(page: &Client, id: &str) -> String {
    let found = script(
        page,
        &format!("return document.getElementById('{id}').textContent"),
    )
    .await;
    found.as_str().expect("words").to_owned()
}

pub async fn press(page: &Client, keys: &str) {
    // As on a keyboard: a field for files would take them for a path.
    let mut pressed = KeyActions::new("keyboard".to_owned());
    for value in keys.chars() {
        pressed = pressed.then(KeyAction::Down { value });
        pressed = pressed.then(KeyAction::Up { value });
    }
    page.perform_actions(pressed).await.expect("pressed");
}

/// Goes on by the tabulator until an element has the focus; every stop on the way must be seen.
pub async fn tab_to(page: &Client, id: &str) {
    for _ in 0..120 {
        press(page, &Key::Tab.to_string()).await;
        let at = script(page, "const at = document.activeElement; const drop = at.closest('.drop') || at;
            return [at.id, at === document.body || getComputedStyle(drop).outlineStyle !== 'none', at.outerHTML.slice(0, 120)]").await;
        assert_eq!(at[1], true, "the focus is not seen: {at}");
        if at[0] == id {
            return;
        }
    }
    panic!("no way to {id} by keyboard");
}
