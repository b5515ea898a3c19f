//! What the program says of itself to shells and to `man`.

use std::fs;
use std::process::{Command, Output};

use super::help::COMMANDS;
use super::{costcard_in, stdout, text, told, told_by};
use crate::support::missing;

const SHELLS: [&str; 5] = ["bash", "zsh", "fish", "elvish", "powershell"];

/// What a program of the machine makes of a file; none where the machine lacks it.
fn by(program: &str, words: &[&str]) -> Option<Output> {
    let output = Command::new(program).args(words).output().ok();
    output.or_else(|| missing(&format!("{program} is not there")))
}

/// How `man` has a page set, warnings and all, without bold and underlined letters.
const SETTING: [&str; 5] = ["-man", "-Kutf8", "-Tutf8", "-ww", "-P-cbou"];

fn commands() -> impl Iterator<Item = &'static str> {
    COMMANDS.into_iter().filter(|command| !command.is_empty())
}

#[test]
fn every_shell_learns_every_command() {
    for shell in SHELLS {
        let script = stdout(&["completions", shell]);
        for command in commands() {
            assert!(script.contains(command), "{shell}: {command}");
        }
        assert!(script.contains("keep-speed"), "{shell}");
    }
    assert!(told(&["completions", "cobra"]).contains("bash"));
}

#[test]
fn bash_completes_commands_and_flags() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("costcard.bash");
    fs::write(&path, stdout(&["completions", "bash"])).expect("written");
    let typed = |words: &str, current: &str| {
        let script = format!(
            "source '{}'; COMP_WORDS=({words} '{current}'); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); \
             _costcard costcard '{current}' \"${{COMP_WORDS[COMP_CWORD-1]}}\"; printf '%s\\n' \"${{COMPREPLY[@]}}\"",
            path.display()
        );
        by("bash", &["--norc", "-c", &script])
    };
    let Some(syntax) = by("bash", &["-n", &path.display().to_string()]) else {
        return;
    };
    assert!(syntax.status.success(), "{}", text(&syntax.stderr));
    let complete = |words, current| text(&typed(words, current).expect("bash").stdout);
    assert_eq!(complete("costcard", "ra"), "rank\n");
    assert_eq!(complete("costcard rank", "--keep"), "--keep-speed\n");
}

#[test]
fn the_manual_has_every_command_with_its_flags_and_example() {
    let manual = stdout(&["manual"]);
    for command in commands() {
        let heading = format!(".SH \"COSTCARD {}\"", command.to_uppercase());
        assert!(manual.contains(&heading), "{heading}");
    }
    assert_eq!(manual.matches(".TH ").count(), 1);
    assert!(manual.contains("\\-\\-keep\\-speed"));
    let examples = manual.matches("Example:").count();
    assert_eq!(examples, COMMANDS.len());
}

#[test]
fn the_manual_is_set_without_complaint() {
    let folder = tempfile::tempdir().expect("a folder");
    let output = costcard_in(folder.path(), &["manual", "--out", "pages"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let listed: Vec<String> = text(&output.stdout).lines().map(str::to_owned).collect();
    assert_eq!(listed.len(), COMMANDS.len());
    assert!(
        listed.contains(&"pages/costcard-rank.1".to_owned()),
        "{listed:?}"
    );
    let whole = folder.path().join("whole.1");
    fs::write(&whole, stdout(&["manual"])).expect("written");
    for page in listed
        .iter()
        .map(|page| folder.path().join(page))
        .chain([whole])
    {
        let page = page.display().to_string();
        let Some(set) = by(
            "groff",
            &SETTING
                .iter()
                .copied()
                .chain([page.as_str()])
                .collect::<Vec<_>>(),
        ) else {
            return;
        };
        assert_eq!(text(&set.stderr), "", "{page}");
        let shown = text(&set.stdout);
        assert!(
            shown.contains("SYNOPSIS") && shown.contains("costcard"),
            "{page}"
        );
    }
}

#[test]
fn pages_that_are_there_are_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    let page = folder.path().join("costcard-rank.1");
    fs::write(&page, "mine").expect("written");
    let words = ["manual", "--out", "."];
    let told = told_by(&costcard_in(folder.path(), &words));
    assert!(
        told.contains("costcard-rank.1") && told.contains("--force"),
        "{told}"
    );
    assert_eq!(fs::read_to_string(&page).expect("read"), "mine");
    assert_eq!(fs::read_dir(folder.path()).expect("a folder").count(), 1);
    let forced = costcard_in(folder.path(), &["manual", "--out", ".", "--force"]);
    assert_eq!(forced.status.code(), Some(0));
    assert_ne!(fs::read_to_string(&page).expect("read"), "mine");
}
