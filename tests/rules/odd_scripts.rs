//! A hundred thousand scripts, generated from a grammar and by breaking the examples: each is refused with its place, or
//! gives runs that can be; none panics, hangs, or passes over what went wrong.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

use costcard::ball::turf::Firmness;
use costcard::files::Faults;
use costcard::rules::hold::{ACROSS_YD, ALONG_YD};
use costcard::rules::script::{Function, Script, script, script_names, trial};
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use rayon::prelude::*;

use super::hold::seven_iron;

const SCRIPTS: u64 = 100_000;

/// A piece of a script: texts to choose from, in which `$` stands for an expression and `%` for a statement.
const EXPRESSIONS: &[&str] = &[
    "1",
    "0",
    "-3",
    "2.5",
    "1e308",
    "9223372036854775807",
    "\"a\"",
    "'c'",
    "true",
    "()",
    "[1, 2]",
    "#{ run: 1 }",
    "landing",
    "green",
    "landing.speed_mph",
    "landing.club",
    "landing.lie",
    "green.from_front_yd",
    "green.firmness",
    "green.nothing",
    "x",
    "nothing",
    "usual_run(landing, green)",
    "usual_run(landing, green, 0.5, 10)",
    "usual_run($, $)",
    "($ + $)",
    "($ - $)",
    "($ * $)",
    "($ / $)",
    "($ % $)",
    "($ ** $)",
    "($ << $)",
    "($ == $)",
    "($ < $)",
    "(!$)",
    "(-$)",
    "$.run_yd",
    "$[$]",
    "$.len()",
    "if $ { $ } else { $ }",
    "switch $ { 1 => $, _ => $ }",
    "{ % $ }",
    "helper($)",
    "hold($, $)",
    "|a| a + $",
    "Fn(\"helper\").call($)",
    "sqrt($)",
    "max($, $)",
    "`t${$}`",
    "[$, $].map(|v| v * 2)",
    "#{ run_yd: $, side_yd: $ }",
    "to_float($)",
    "parse_int($)",
    "abs($)",
    "range(0, $)",
];
const STATEMENTS: &[&str] = &[
    "let x = $;",
    "x = $;",
    "x += $;",
    "while $ { % }",
    "loop { % if $ { break; } }",
    "for i in 0..9 { % }",
    "for v in $ { % }",
    "if $ { % }",
    "return $;",
    "throw $;",
    "try { % } catch (e) { % }",
    "print($);",
    "let x = usual_run(landing, green);",
    "x.run_yd = $;",
    "x.push($);",
    "do { % } while $;",
    "const y = $;",
    "$;",
];

fn expression(random: &mut ChaCha8Rng, depth: u32) -> String {
    let simple = 22;
    let among = if depth == 0 {
        simple
    } else {
        EXPRESSIONS.len()
    };
    let index = random_index(random, among);
    filled(random, EXPRESSIONS[index], depth)
}

fn statement(random: &mut ChaCha8Rng, depth: u32) -> String {
    if depth == 0 {
        return String::new();
    }
    let index = random_index(random, STATEMENTS.len());
    filled(random, STATEMENTS[index], depth)
}

fn random_index(random: &mut ChaCha8Rng, among: usize) -> usize {
    random.random_range(0..among)
}

fn filled(random: &mut ChaCha8Rng, piece: &str, depth: u32) -> String {
    let mut out = String::new();
    let mut before = ' ';
    for c in piece.chars() {
        match c {
            // In a quoted text `${` begins an expression of its own.
            '$' if before == 't' => out.push('$'),
            '$' => out += &expression(random, depth.saturating_sub(1)),
            '%' if before == '{' || before == ' ' && !piece.contains("$ % $") => {
                out += &statement(random, depth.saturating_sub(1));
            }
            other => out.push(other),
        }
        before = c;
    }
    out
}

fn grown(random: &mut ChaCha8Rng) -> String {
    let body: String = (0..random.random_range(0..3))
        .map(|_| statement(random, 3))
        .collect();
    let last = expression(random, 3);
    format!("fn helper(x) {{ x }}\nfn hold(landing, green) {{ let x = 1; {body} {last} }}")
}

/// An example with a piece left out, doubled, or another put in.
fn broken(random: &mut ChaCha8Rng, texts: &[String]) -> String {
    let mut text: Vec<char> = texts[random_index(random, texts.len())].chars().collect();
    for _ in 0..random.random_range(1..6) {
        let at = random.random_range(0..text.len());
        let end = (at + random.random_range(0..12)).min(text.len());
        let piece: Vec<char> = match random.random_range(0..4) {
            0 => Vec::new(),
            1 => text[at..end].repeat(2),
            2 => expression(random, 1).chars().collect(),
            _ => vec!['\u{0}', '}', '{', '"', 'é', '`', '(', '\n'][random_index(random, 8)..][..1]
                .to_vec(),
        };
        text.splice(at..end, piece);
        if text.is_empty() {
            return String::new();
        }
    }
    text.into_iter().collect()
}

/// What became of a script.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fate {
    Refused,
    Failed,
    Gave,
}

fn tried(text: &str) -> Result<Fate, Faults> {
    let script: Script = match super::script(text) {
        Ok(script) => script,
        Err(faults) => return told(&faults).map(|()| Fate::Refused),
    };
    if !script.defined().contains(&Function::Hold) {
        return match trial::sound(&script) {
            Ok(()) => Ok(Fate::Gave),
            Err(faults) => told(&faults).map(|()| Fate::Failed),
        };
    }
    for firmness in [Firmness::SOFT, Firmness::FIRM] {
        match trial::on_level_green(&script, &seven_iron(), firmness, 10.0) {
            Ok((run, _)) => {
                let (along, across) = (run.along.yd(), run.across.yd());
                assert!(
                    ALONG_YD.contains(&along) && ACROSS_YD.contains(&across),
                    "{run:?}"
                );
            }
            Err(faults) => return told(&faults).map(|()| Fate::Failed),
        }
    }
    Ok(Fate::Gave)
}

/// A fault has its place, unless the script as a whole is at fault, and says something.
fn told(faults: &Faults) -> Result<(), Faults> {
    let sound = faults.list().iter().all(|fault| {
        let whole = ["defines no rule", "longer than"];
        let has_place = fault
            .span
            .as_ref()
            .is_some_and(|span| fault.source.text.get(span.clone()).is_some());
        !fault.message.trim().is_empty()
            && (has_place || whole.iter().any(|say| fault.message.contains(say)))
    });
    if sound && !faults.list().is_empty() {
        Ok(())
    } else {
        Err(faults.clone())
    }
}

#[test]
fn a_hundred_thousand_odd_scripts_are_refused_or_give_runs_that_can_be() {
    let texts: Vec<String> = script_names()
        .iter()
        .map(|name| {
            script(name)
                .unwrap_or_else(|faults| panic!("{faults}"))
                .text
                .to_string()
        })
        .collect();
    let fates: Vec<Fate> = (0..SCRIPTS)
        .into_par_iter()
        .map(|seed| {
            let mut random = ChaCha8Rng::seed_from_u64(seed);
            let text = if seed % 3 == 0 {
                broken(&mut random, &texts)
            } else {
                grown(&mut random)
            };
            let begun = Instant::now();
            let fate = catch_unwind(AssertUnwindSafe(|| tried(&text)));
            assert!(
                begun.elapsed() < Duration::from_secs(5),
                "too slow:\n{text}"
            );
            match fate {
                Ok(Ok(fate)) => fate,
                Ok(Err(faults)) => panic!("{faults}\nof\n{text}"),
                Err(_) => panic!("this script panics:\n{text}"),
            }
        })
        .collect();
    let count = |of| fates.iter().filter(|fate| **fate == of).count();
    let counts = [Fate::Refused, Fate::Failed, Fate::Gave].map(count);
    println!("refused, failed, gave: {counts:?}");
    // The generator must reach all three, or it proves little.
    assert!(counts.iter().all(|count| *count > 3000), "{counts:?}");
}
