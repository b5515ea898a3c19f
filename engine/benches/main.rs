//! Speed of the engine: `cargo bench`.

use std::hint::black_box;
use std::path::Path;

use costcard::ball::Strike;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{fly, fly_all};
use costcard::ball::putt::PuttStroke;
use costcard::ball::putts::PuttTable;
use costcard::ball::turf::{Firmness, Slope, Surface, Turf};
use costcard::cost::card::{Effort, card};
use costcard::cost::changes::{Accuracy, ready};
use costcard::cost::infer::Assume;
use costcard::course::{Course, embedded as demo};
use costcard::files::Source;
use costcard::player::change::Change;
use costcard::player::{Sex, embedded, levels};
use costcard::round::play::Rounds;
use costcard::round::stage::Stage;
use costcard::rules::Rulebook;
use costcard::units::{Angle, Speed, Spin};
use criterion::{Criterion, Throughput, criterion_group, criterion_main};

/// What a bank is made of: drives to wedges, 64 of them, that start and curve left and right.
fn bag() -> Vec<Strike> {
    (0..64)
        .map(|i| {
            let short = f64::from(i) / 63.0;
            let bend = f64::from(i % 7 - 3);
            Strike {
                ball_speed: Speed::from_mph(167.0 - 70.0 * short),
                launch: Angle::from_deg(10.9 + 15.0 * short),
                direction: Angle::from_deg(bend),
                backspin: Spin::from_rpm(2686.0 + 6600.0 * short),
                sidespin: Spin::from_rpm(300.0 * bend),
            }
        })
        .collect()
}

/// A tour drive that curves.
fn drive() -> Strike {
    Strike {
        ball_speed: Speed::from_mph(167.0),
        launch: Angle::from_deg(10.9),
        direction: Angle::from_deg(1.0),
        backspin: Spin::from_rpm(2686.0),
        sidespin: Spin::from_rpm(-300.0),
    }
}

fn flights(c: &mut Criterion) {
    let calm = Atmosphere::new(&Air::standard());
    let windy = Atmosphere::new(&Air {
        wind: Speed::from_mph(12.0),
        ..Air::standard()
    });
    c.bench_function("flight of a drive, calm", |b| {
        b.iter(|| fly(black_box(&drive()), &calm))
    });
    c.bench_function("flight of a drive, wind", |b| {
        b.iter(|| fly(black_box(&drive()), &windy))
    });
}

fn runs(c: &mut Criterion) {
    let landing = fly(&drive(), &Atmosphere::new(&Air::standard())).landing;
    let level = Turf::new(Surface::Fairway, Firmness::MEDIUM, 10.0, Slope::LEVEL);
    let slope = Turf::new(
        Surface::Green,
        Firmness::MEDIUM,
        10.0,
        Slope {
            along_pct: 2.0,
            across_pct: 1.0,
        },
    );
    c.bench_function("run of a drive, level fairway", |b| {
        b.iter(|| level.run(black_box(&landing)))
    });
    c.bench_function("run of a drive, sloping green", |b| {
        b.iter(|| slope.run(black_box(&landing)))
    });
}

fn bags(c: &mut Criterion) {
    let calm = Atmosphere::new(&Air::standard());
    let bag = bag();
    let landings: Vec<_> = bag
        .iter()
        .map(|strike| fly(strike, &calm).landing)
        .collect();
    let green = Turf::new(Surface::Green, Firmness::MEDIUM, 10.0, Slope::LEVEL);
    let mut group = c.benchmark_group("64 shots, drives to wedges");
    group.throughput(Throughput::Elements(64));
    group.bench_function("flights, calm", |b| {
        b.iter(|| fly_all(black_box(&bag), &calm))
    });
    let windy = Atmosphere::new(&Air {
        wind: Speed::from_mph(12.0),
        ..Air::standard()
    });
    group.bench_function("flights, wind", |b| {
        b.iter(|| fly_all(black_box(&bag), &windy))
    });
    group.bench_function("runs on a green", |b| {
        b.iter(|| green.run_all(black_box(&landings)))
    });
}

fn putts(c: &mut Criterion) {
    let stroke = PuttStroke {
        direction_sd_deg: 1.346,
        length_sd_pct: 9.34,
        past_ft: 0.868,
    };
    c.bench_function("putt table", |b| {
        b.iter(|| PuttTable::new(black_box(&stroke), 11.0))
    });
}

/// A 400 yd hole solved, and rounds of 18 holes once everything stands.
fn holes(c: &mut Criterion) {
    let source = Source::read(Path::new(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/profiles/courses/parkland.toml"
    )));
    let (Ok(source), Ok(golfer)) = (source, levels::named("scratch", Sex::Men)) else {
        return;
    };
    let Ok(course) = Course::read(&source) else {
        return;
    };
    let golfers = [&golfer];
    let stage = Stage::new(&course, &golfers);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let solved = stage.solve(&banks, &side, None);
    let nearest_400 = course
        .holes
        .iter()
        .enumerate()
        .min_by(|a, b| {
            (a.1.length_yd - 400.0)
                .abs()
                .total_cmp(&(b.1.length_yd - 400.0).abs())
        })
        .map_or(0, |(index, _)| index);
    c.bench_function("sweeps of a 400 yd hole", |b| {
        b.iter(|| stage.solve_hole(nearest_400, &banks, &side));
    });
    let rounds = Rounds {
        holes: &course.holes,
        golfer: &solved,
        goal: None,
        seed: 1,
    };
    let mut group = c.benchmark_group("rounds");
    group.throughput(Throughput::Elements(20_000));
    group.sample_size(20);
    group.bench_function("of 18 holes", |b| b.iter(|| rounds.play(20_000, &|_| {})));
    group.finish();
}

/// The cost card of a demo, everything from the files.
fn whole_rank(c: &mut Criterion) {
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
fn tries(c: &mut Criterion) {
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
                        b.iter(|| ready.worth(std::slice::from_ref(&change), accuracy))
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

criterion_group!(speed, flights, runs, bags, putts, holes, whole_rank, tries);
criterion_main!(speed);
