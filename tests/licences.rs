//! Every crate that the program is built of, or tested with, may be used as this project is: under a licence that asks
//! for no more than to be named. Advisories on crates are not looked up: that takes a network.

#![allow(clippy::expect_used)] // a test may stop

use std::process::Command;

use serde_json::Value;
use spdx::{Expression, LicenseReq};

/// Licences that let anyone use and pass on what they cover, as it is, in a program under any licence. (MPL-2.0 asks that
/// changed files stay under it; nothing is changed here.)
const ALLOWED: [&str; 12] = [
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MIT-0",
    "MPL-2.0",
    "Unicode-3.0",
    "Zlib",
];

#[test]
fn every_crate_may_be_used_as_this_project_is() {
    let packages = packages();
    assert!(packages.len() > 100, "{} crates", packages.len());
    for package in &packages {
        let name = package["name"].as_str().expect("a name");
        let licence = package["license"].as_str().unwrap_or_default();
        assert!(is_allowed(licence), "{name}: {licence:?} is not allowed");
    }
}

#[test]
fn a_licence_that_asks_for_more_is_refused() {
    for allowed in [
        "MIT",
        "MIT OR GPL-3.0-only",
        "MIT/Apache-2.0",
        "(MIT OR Zlib) AND ISC",
    ] {
        assert!(is_allowed(allowed), "{allowed}");
    }
    for refused in ["", "GPL-3.0-only", "MIT AND GPL-3.0-only", "no licence"] {
        assert!(!is_allowed(refused), "{refused}");
    }
}

fn is_allowed(licence: &str) -> bool {
    // Old packages write a stroke for OR.
    let licence = licence.replace('/', " OR ");
    let allowed = |asked: &LicenseReq| {
        let id = asked.license.id();
        id.is_some_and(|id| ALLOWED.contains(&id.name))
    };
    Expression::parse(&licence).is_ok_and(|expression| expression.evaluate(allowed))
}

/// What cargo knows of this project's crates on this machine.
fn packages() -> Vec<Value> {
    let told = cargo(&["--version", "--verbose"]);
    let host = told.lines().find_map(|line| line.strip_prefix("host: "));
    let told = cargo(&[
        "metadata",
        "--format-version=1",
        "--locked",
        "--all-features",
        "--filter-platform",
        host.expect("a host"),
    ]);
    let metadata: Value = serde_json::from_str(&told).expect("JSON");
    metadata["packages"].as_array().expect("a list").clone()
}

fn cargo(words: &[&str]) -> String {
    let told = Command::new(env!("CARGO"))
        .args(words)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo runs");
    assert!(
        told.status.success(),
        "{}",
        String::from_utf8_lossy(&told.stderr)
    );
    String::from_utf8(told.stdout).expect("text")
}
