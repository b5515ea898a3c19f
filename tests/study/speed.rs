//! How long cells take where everything is shared. Only on a machine at rest: `cargo test --test all study::speed --
//! --ignored --nocapture`.

use std::time::Instant;

use costcard::cost::card::Effort;
use costcard::cost::changes::ready;
use costcard::cost::field::{Against, field};
use costcard::cost::infer::Assume;
use costcard::player::Sex;
use costcard::rules::Rulebook;

use crate::support::{demo_course, demo_player, level};

const EFFORT: Effort = Effort {
    rounds: 2000,
    seed: 1,
};

#[test]
#[ignore = "speed: only on a machine at rest"]
fn a_cell_of_2000_rounds_on_solved_holes_takes_less_than_50_ms() {
    let (player, course) = (demo_player("rowan"), demo_course("parkland"));
    let on = (&course, &Rulebook::default());
    let times = ready(&player, on, Assume::Level, &|_| (), |ready| {
        let time = |seed| {
            let start = Instant::now();
            let figures = ready.played(Effort { seed, ..EFFORT }, &|_| ());
            assert!(figures.figures.score_mean > 70.0);
            start.elapsed().as_secs_f64() * 1e3
        };
        (1..=8).map(time).collect::<Vec<f64>>()
    })
    .expect("played");
    println!("cells of 2000 rounds, ms: {times:.1?}");
    let mut later = times[1..].to_vec();
    later.sort_by(f64::total_cmp);
    assert!(later[later.len() / 2] < 50.0, "{later:?}");
}

/// What a cell with a goal takes beside: its seven savings are variants of solved holes.
#[test]
#[ignore = "speed: only on a machine at rest"]
fn a_cell_with_a_goal_is_told() {
    let (player, course) = (demo_player("rowan"), demo_course("parkland"));
    let goals = [level("9", Sex::Men), level("5", Sex::Men)];
    let goals = [&goals[0], &goals[1]];
    let rules = Rulebook::default();
    let start = Instant::now();
    field((&course, &rules), &goals, EFFORT, &|_| (), |field| {
        println!(
            "two goals' golfers, s: {:.2}",
            start.elapsed().as_secs_f64()
        );
        let start = Instant::now();
        let done = field.ready(&player, &rules, Assume::Level, &|_| (), |ready| {
            println!("a player, s: {:.2}", start.elapsed().as_secs_f64());
            for goal in 0..2 {
                let start = Instant::now();
                let card = field.card(ready, Against::Goal(goal), false, &|_| ());
                assert!(card.is_ok());
                println!("a goal, s: {:.2}", start.elapsed().as_secs_f64());
            }
        });
        assert!(done.is_ok());
    });
}
