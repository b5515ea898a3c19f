//! Whole answers: the cost card, and changes tried.

use costcard::cost::card::{Effort, card};
use costcard::cost::changes::{Accuracy, ready};
use costcard::cost::infer::Assume;
use costcard::course::embedded as demo;
use costcard::player::change::Change;
use costcard::player::{Sex, embedded, levels};
use costcard::rules::Rulebook;
use criterion::Criterion;

/// The cost card of a demo, everything from the files.
pub fn whole_rank(c: &mut Criterion) {
    let (Ok(player), Ok(goal)) = (embedded::player("rowan"), levels::level(9.0, Sex::Men)) else {
        return;
    };
    let Ok(course) = demo::course("parkland") else {
        return;
    };
    let mut group = c.benchmark_group("card");
    group.sample_size(10);
    let effort = Effort {
        rounds: 20_000,
        seed: 1,
    };
    group.bench_function("of a demo", |b| {
        b.iter(|| card(&player, &goal, &course, effort, &|_| {}))
    });
    group.finish();
}

/// Changes tried on a course that stands ready, as a page would that asks again and again.
pub fn tries(c: &mut Criterion) {
    let (Ok(player), Ok(course)) = (embedded::player("rowan"), demo::course("parkland")) else {
        return;
    };
    let rules = Rulebook::default();
    let mut group = c.benchmark_group("try");
    group.sample_size(10);
    let asked = ready(
        &player,
        (&course, &rules),
        Assume::Level,
        &|_| (),
        |ready| {
            for text in [
                "putting level 5",
                "driver direction_spread -20%",
                "6 iron backspin +500",
                "mid irons dynamic_loft +4",
                "irons dynamic_loft +4",
                "all clubs mishits half",
            ] {
                let Ok(change) = text.parse::<Change>() else {
                    continue;
                };
                for (accuracy, name) in [(Accuracy::Quick, "quick"), (Accuracy::Full, "full")] {
                    group.bench_function(format!("{text}, {name}"), |b| {
                        b.iter(|| {
                            let after = change.apply(ready.golfer()).ok();
                            after.map(|after| ready.saved(&[&after], accuracy))
                        })
                    });
                }
            }
        },
    );
    if let Err(error) = asked {
        println!("{error}");
    }
    group.finish();
}
