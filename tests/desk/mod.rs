//! The desk: its server from outside with plain HTTP, and its page in a real browser.

#![allow(clippy::expect_used)] // a test may stop

mod browser;
mod driver;
mod files;
mod lesson;
mod page;
mod server;

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use serde_json::Value;
use tempfile::TempDir;

use crate::program::SHORT;

/// The longest any work of a test may take; a machine that is busy with other things takes long.
const PATIENCE: Duration = Duration::from_secs(240);

/// Who sits at most desks, where, and with which goal.
pub const ROWAN: [&str; 4] = ["demo:rowan", "short.toml", "--goal", "5"];

/// A desk that serves a folder of its own, until it is dropped.
pub struct Desk {
    program: Child,
    pub folder: TempDir,
    /// What it printed.
    pub address: String,
    pub host: String,
    pub token: String,
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = self.program.kill();
        let _ = self.program.wait();
    }
}

/// What came back.
#[derive(Debug)]
pub struct Reply {
    pub status: u16,
    pub head: String,
    pub body: Vec<u8>,
}

impl Reply {
    pub fn text(&self) -> String {
        String::from_utf8(self.body.clone()).expect("UTF-8")
    }

    pub fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|_| panic!("no JSON: {}", self.text()))
    }

    /// What is wrong, as the page tells it.
    pub fn trouble(&self) -> String {
        assert_eq!(self.status, 422, "{}", self.text());
        self.json()["trouble"].as_str().expect("words").to_owned()
    }
}

impl Desk {
    /// A desk in a folder that holds the short course, with more words behind `desk --no-open`.
    pub fn open(words: &[&str]) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("short.toml"), SHORT).expect("written");
        Self::open_in(folder, words)
    }

    pub fn open_in(folder: TempDir, words: &[&str]) -> Self {
        let mut program = Command::new(env!("CARGO_BIN_EXE_costcard"))
            .args(["desk", "--no-open", "--rounds", "200"])
            .args(words)
            .current_dir(folder.path())
            .stdout(Stdio::piped())
            .spawn()
            .expect("it runs");
        let mut address = String::new();
        let stdout = program.stdout.take().expect("stdout");
        BufReader::new(stdout)
            .read_line(&mut address)
            .expect("a line");
        let address = address.trim_end().to_owned();
        let rest = address.strip_prefix("http://").expect("an address");
        let mut parts = rest.split('/').map(str::to_owned);
        let (host, token) = (
            parts.next().expect("a host"),
            parts.next().expect("a token"),
        );
        Self {
            program,
            folder,
            host,
            token,
            address,
        }
    }

    /// Sends bytes as they are.
    pub fn raw(&self) -> TcpStream {
        let stream = TcpStream::connect(&self.host).expect("it listens");
        stream.set_read_timeout(Some(PATIENCE)).expect("a timeout");
        stream
    }

    /// Sends a request with these headers and no others that matter, and does not wait for the reply.
    pub fn send(
        &self,
        method: &str,
        path: &str,
        headers: &[(&str, &str)],
        body: &[u8],
    ) -> TcpStream {
        let mut stream = self.raw();
        let mut head = format!("{method} {path} HTTP/1.1\r\n");
        for (name, value) in headers {
            head += &format!("{name}: {value}\r\n");
        }
        head += &format!(
            "content-length: {}\r\nconnection: close\r\n\r\n",
            body.len()
        );
        stream.write_all(head.as_bytes()).expect("sent");
        // A server that refuses a body need not read it.
        let _ = stream.write_all(body);
        stream
    }

    pub fn plain(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Reply {
        received(self.send(method, path, headers, body))
    }

    /// What the page itself would send.
    pub fn ask(&self, method: &str, path: &str, body: &[u8]) -> Reply {
        self.plain(method, path, &self.own_headers(), body)
    }

    pub fn own_headers(&self) -> [(&str, &str); 2] {
        [("host", &self.host), ("x-costcard-token", &self.token)]
    }

    /// A part of the page.
    pub fn part(&self, part: &str) -> Reply {
        let path = format!("/{}/{part}", self.token);
        self.plain("GET", &path, &[("host", &self.host)], b"")
    }

    pub fn state(&self) -> Value {
        self.ask("GET", "/api/lesson?since=0", b"").json()
    }

    /// The lesson once it is as wanted.
    pub fn state_when(&self, what: &str, is_it: impl Fn(&Value) -> bool) -> Value {
        let begun = Instant::now();
        loop {
            let state = self.state();
            if is_it(&state) {
                return state;
            }
            assert!(begun.elapsed() < PATIENCE, "never: {what}: {state:#}");
            sleep(Duration::from_millis(50));
        }
    }

    /// The lesson once everything is worked out.
    pub fn settled(&self) -> Value {
        self.state_when("worked out", |state| {
            state["busy"].as_array().is_some_and(Vec::is_empty)
                && state["standing"].is_object()
                && state["card_is_new"] == true
        })
    }

    /// What changes are worth.
    pub fn try_changes(&self, number: u64, depth: &str, changes: &[&str]) -> Reply {
        self.ask("POST", "/api/try", &question(number, depth, changes))
    }

    /// The program beside the desk, in its folder: what it tells on stderr.
    pub fn told(&self, words: &[&str]) -> String {
        let output = crate::program::costcard_in(self.folder.path(), words);
        crate::program::text(&output.stderr)
    }

    pub fn path(&self) -> &Path {
        self.folder.path()
    }
}

/// A question as the page sends it.
pub fn question(number: u64, depth: &str, changes: &[&str]) -> Vec<u8> {
    let document = serde_json::json!({
        "tab": "test", "number": number, "depth": depth, "changes": changes,
    });
    document.to_string().into_bytes()
}

/// Reads a reply to its end.
pub fn received(mut stream: TcpStream) -> Reply {
    let mut all = Vec::new();
    let read = stream.read_to_end(&mut all);
    let end = all.windows(4).position(|four| four == b"\r\n\r\n");
    let end = end.unwrap_or_else(|| panic!("no reply: {read:?}"));
    let head = String::from_utf8(all[..end].to_vec()).expect("a head");
    let status = head.split(' ').nth(1).and_then(|word| word.parse().ok());
    Reply {
        status: status.expect("a status"),
        head: head.to_lowercase(),
        body: all[end + 4..].to_vec(),
    }
}

/// Sheets of shots of a driver and a 7 iron: `shift` makes the second other than the first.
pub fn shots(rows: usize, shift: f64) -> String {
    let mut sheet =
        "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n".to_owned();
    for row in 0..rows {
        // Numbers that look thrown together, and are always the same.
        let at = |step: f64| ((row as f64 + 1.0) * step).sin();
        sheet += &format!(
            "7 iron,{:.1},{:.1},{:.1},{:.0},{:.0}\n",
            108.0 + shift + 3.0 * at(1.3),
            16.0 + 1.4 * at(2.1),
            2.0 * at(3.7),
            5600.0 + 400.0 * at(0.7),
            350.0 * at(5.3),
        );
    }
    sheet
}
