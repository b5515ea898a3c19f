//! What is wrong with a script, where, and what to write instead: whole messages.

use costcard::files::Faults;
use costcard::rules::script::trial;

use super::script;

/// What is told of a script, read and tried.
fn told(text: &str) -> String {
    let outcome: Result<(), Faults> = script(text).and_then(|script| trial::sound(&script));
    match outcome {
        Ok(()) => "sound".to_owned(),
        Err(faults) => faults.to_string(),
    }
}

/// `hold` with a body, which begins at the start of line 2.
fn hold(body: &str) -> String {
    told(&format!("fn hold(landing, green) {{\n{body}\n}}"))
}

#[test]
fn broken_text_is_told_at_its_place() {
    assert_eq!(
        hold("let x = 1\nx"),
        "mine.rhai:3:1: `;` is missing to terminate this statement\n\
         hint: look at the end of what stands before this"
    );
    assert_eq!(
        told("fn hold(landing, green) {"),
        "mine.rhai:1:26: a `{` is not closed\n\
         hint: write the `}` where what it begins is to end"
    );
    assert_eq!(
        hold("if green.firmness = 0.5 { 2.0 } else { 3.0 }"),
        "mine.rhai:2:19: `=` gives a value to a name, and compares nothing\n\
         hint: write `==` to compare"
    );
    assert!(
        hold("\"open").starts_with("mine.rhai:2:"),
        "{}",
        hold("\"open")
    );
}

#[test]
fn an_unknown_field_names_the_fields_there_are() {
    assert_eq!(
        hold("landing.spede_mph"),
        "mine.rhai:2:9: a landing has no field `spede_mph`\n\
         hint: did you mean `speed_mph`? The fields are `speed_mph`, `descent_deg`, `backspin_rpm`, `sidespin_rpm`, \
         `spin_rpm`, `carry_yd`, `club` and `lie`"
    );
    let told = hold("green.height");
    assert!(
        told.contains("`from_front_yd`") && told.contains("`stimp_ft`"),
        "{told}"
    );
    assert!(
        hold("#{ run: 2 }.walk").starts_with("mine.rhai:2:"),
        "{}",
        hold("#{ run: 2 }.walk")
    );
}

#[test]
fn an_unknown_name_or_function_gets_a_hint() {
    assert_eq!(
        hold("usual_rum(landing, green)"),
        "mine.rhai:2:1: there is no function `usual_rum` of a landing and a green\n\
         hint: write `usual_run(landing, green)`, or `usual_run(landing, green, firmness, stimp_ft)`"
    );
    assert_eq!(
        hold("grene.depth_yd"),
        "mine.rhai:2:1: there is no `grene` here\nhint: did you mean `green`?"
    );
    assert!(
        told("const F = 2; fn hold(landing, green) { F }")
            .contains("constants stand inside it too")
    );
}

#[test]
fn what_a_script_is_given_cannot_be_changed() {
    assert_eq!(
        hold("green.firmness = 0.1; 1"),
        "mine.rhai:2:7: `firmness` of a green cannot be changed\n\
         hint: a script only reads what it is given"
    );
}

#[test]
fn nothing_outside_the_rule_can_be_reached() {
    for call in [
        "sleep(1)",
        "exit()",
        "timestamp()",
        "rand()",
        "open(\"/etc/passwd\")",
        "system(\"ls\")",
        "eval(\"1\")",
        "import \"x\" as x;",
    ] {
        let told = hold(call);
        assert!(told.starts_with("mine.rhai:2:"), "{call}: {told}");
        let refused = told.contains("there is no")
            || told.contains("cannot be used")
            || told.contains("reserved");
        assert!(refused, "{call}: {told}");
    }
}

#[test]
fn a_runaway_script_is_stopped_at_its_loop() {
    let begun = std::time::Instant::now();
    assert_eq!(
        hold("for i in 0..3 { i; }\nlet x = 0;\nwhile x >= 0 { x += 1; }\nx"),
        "mine.rhai:4:1: the script took more than 20 000 steps for one answer: it was stopped\n\
         hint: look for a loop that does not come to its end, or do less in it"
    );
    assert_eq!(
        told("fn f(x) { f(x) }\nfn hold(landing, green) { f(1) }"),
        "mine.rhai:1:1: functions call each other too deeply: the script was stopped\n\
         hint: look for a function that calls itself"
    );
    let outside = told("loop {}\nfn worth(part) { 1 }");
    assert!(
        outside.starts_with("mine.rhai:1:") && outside.contains("20 000 steps"),
        "{outside}"
    );
    for greedy in [
        "let s = \"x\"; loop { s += s; }",
        "let a = [1]; loop { a += a; }",
        "let m = #{}; let i = 0; loop { m[`k${i}`] = i; i += 1; }",
    ] {
        let told = hold(greedy);
        assert!(
            told.contains("too large") || told.contains("20 000 steps"),
            "{told}"
        );
        assert!(told.starts_with("mine.rhai:2:"), "{told}");
    }
    assert!(begun.elapsed().as_secs_f64() < 1.0, "{:?}", begun.elapsed());
}

#[test]
fn an_absurd_answer_is_refused_with_its_line_and_inputs() {
    let told = hold("4000");
    assert!(
        told.starts_with(
            "mine.rhai:1:4: `hold` gave a run of 4000 yd, for a landing of a 4 hybrid from fairway: "
        ),
        "{told}"
    );
    for input in ["mph", "descent", "backspin", "firmness"] {
        assert!(told.contains(input), "{told}");
    }
    for (body, gave) in [
        ("1.0 / 0.0", "a run of inf yd"),
        ("0.0 / 0.0", "a run of NaN yd"),
        ("\"far\"", "a text"),
        ("let x = 2;", "nothing"),
        ("true", "true or false"),
        ("[1, 2]", "a list"),
        ("#{ side: 2 }", "a map without `run_yd`"),
        (
            "#{ run_yd: 3.0, run: 5.0 }",
            "a map with both `run_yd` and `run`, which are one",
        ),
        ("#{ run: 2, sied: 1 }", "a map with `sied`"),
        ("#{ run: \"x\" }", "a text for `run`"),
        ("#{ run: 2, side: 800 }", "a run of 800 yd to the side"),
        ("landing", "a landing"),
    ] {
        let told = hold(body);
        assert!(
            told.contains(&format!("`hold` gave {gave}")),
            "{body}: {told}"
        );
    }
    assert!(hold("throw \"no\"").starts_with("mine.rhai:2:1: no"));
}

#[test]
fn runs_are_written_in_many_ways() {
    for body in [
        "3",
        "2.5",
        "#{ run: 2 }",
        "#{ run_yd: 2, side_yd: -1.5 }",
        "usual_run(landing, green)",
        "-usual_run(landing, green) * 0.5 + 2 - 1.0",
        "let r = usual_run(landing, green); r.side_yd = 2; r.run_yd -= 1.0; r",
        "usual_run(landing, green, 1, 12.5)",
        "if landing.club == \"7 iron\" && landing.club.kind == \"iron\" { 1 } else { 2 }",
    ] {
        assert_eq!(hold(body), "sound", "{body}");
    }
}

#[test]
fn what_would_be_silently_wrong_is_refused() {
    assert_eq!(
        hold("usual_run(landing, green) * 1/2"),
        "mine.rhai:2:29: `1/2` divides whole numbers: what is left over would be lost\n\
         hint: write `1/2.0`"
    );
    let told = hold("if usual_run(landing, green) > 5 { 1 } else { 2 }");
    assert_eq!(
        told,
        "mine.rhai:2:30: `>` does not work on a run, but on its fields"
    );
    assert_eq!(
        hold("if landing.lie == \"Ruogh\" { 1 } else { 2 }"),
        "mine.rhai:2:19: `lie` is never `\"Ruogh\"`\nhint: did you mean `\"rough\"`?"
    );
    assert_eq!(
        hold("switch landing.club.kind { \"irons\" => 1, \"putter\" => 2, _ => 3 }"),
        "mine.rhai:2:28: `kind` is never `\"irons\"`\nhint: did you mean `\"iron\"`?\n\
         mine.rhai:2:42: `kind` is never `\"putter\"`\nhint: it is `wood`, `hybrid`, `iron` or `wedge`"
    );
    assert_eq!(
        hold("if landing.lie in [\"tee\", \"bunker\"] { 1 } else { 2 }"),
        "mine.rhai:2:27: `lie` is never `\"bunker\"`\n\
         hint: it is `tee`, `fairway`, `rough`, `sand`, `trees`, `green`, `water` or `out of bounds`"
    );
    let told = hold("usual_run(landing, green, 1.5, 10)");
    assert!(
        told.starts_with("mine.rhai:2:1: firmness lies from 0 to 1, and is not 1.5"),
        "{told}"
    );
}

#[test]
fn a_script_without_a_rule_or_with_other_parameters_is_refused() {
    assert_eq!(
        told("fn holds(landing, green) { 1 }"),
        "mine.rhai:1:4: no rule is called `holds`\nhint: did you mean `hold`?"
    );
    assert_eq!(
        told(""),
        "mine.rhai: this script defines no rule\n\
         hint: a rule is a function called `hold`, `lie_effect`, `worth` or `count`"
    );
    assert_eq!(
        told("fn lie_effect(lie) { 1 }"),
        "mine.rhai:1:4: `lie_effect` is given 2, but takes 1 here\n\
         hint: write `fn lie_effect(lie, club) { … }`"
    );
}

#[test]
fn other_rules_are_checked_too() {
    let of = |text: &str, gave: &str| {
        let told = told(text);
        assert!(
            told.starts_with("mine.rhai:1:4: ") && told.contains(gave),
            "{text}: {told}"
        );
    };
    of(
        "fn lie_effect(lie, club) { #{ speed_factor: 9 } }",
        "`lie_effect` gave 9 times the ball speed",
    );
    of(
        "fn lie_effect(lie, club) { #{ sped: 1 } }",
        "which is no figure of a lie",
    );
    of("fn lie_effect(lie, club) { 2 }", "`lie_effect` gave 2");
    let misspelt = told(
        "fn lie_effect(lie, club) { if club == \"7 irn\" { #{ spin_factor: 0.5 } } else { usual_lie_effect(lie, club) } }",
    );
    assert!(
        misspelt.contains("`7 irn` is no club: did you mean \"7 iron\"?"),
        "{misspelt}"
    );
    of(
        "fn worth(part) { \"much\" }",
        "`worth` gave a text, for tee shots",
    );
    of("fn worth(part) { 1e300 }", "`worth` gave 1");
    of(
        "fn count(shot) { 5 }",
        "`count` gave 5, for stroke 1 on hole 1",
    );
    of("fn count(shot) { \"\" }", "a label of 0 characters");
    assert_eq!(
        told("fn lie_effect(lie, club) { #{ spin_factor: 0.5 } }"),
        "sound"
    );
    assert_eq!(
        told("fn count(shot) { if shot.par == 3 { \"par 3\" } }"),
        "sound"
    );
}

#[test]
fn a_kind_is_no_club_and_percent_is_no_firmness() {
    assert!(
        hold("if landing.club == \"wedge\" { 2.0 } else { 3.0 }").contains(
            "`wedge` is a kind of club, and no club: compare the club's `kind` with it, as in `landing.club.kind == \"wedge\"`"
        )
    );
    let told = hold("usual_run(landing, green, 60, 9)");
    assert!(
        told.contains("firmness lies from 0 to 1, and is not 60: 60 percent are 0.6"),
        "{told}"
    );
}

#[test]
fn a_rule_that_is_misspelt_or_given_too_little_is_told_beside_a_sound_one() {
    assert_eq!(
        told(
            "fn hold(landing, green) { 3 }\nfn lie_effects(lie, club) { usual_lie_effect(lie, club) }"
        ),
        "mine.rhai:2:4: no rule is called `lie_effects`\nhint: did you mean `lie_effect`?"
    );
    assert_eq!(
        told("fn lie_effects(e) { e }\nfn hold(landing, green) { lie_effects(3) }"),
        "sound"
    );
    assert_eq!(
        told("fn hold(landing) { green.depth_yd }"),
        "mine.rhai:1:4: `hold` is given 2, but takes 1 here\nhint: write `fn hold(landing, green) { … }`"
    );
}
