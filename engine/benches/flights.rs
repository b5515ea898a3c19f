//! Balls: flights, runs and putts.

use std::hint::black_box;

use costcard::ball::Strike;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{fly, fly_all};
use costcard::ball::putt::PuttStroke;
use costcard::ball::putts::PuttTable;
use costcard::ball::turf::{Firmness, Slope, Surface, Turf};
use costcard::units::{Angle, Speed, Spin};
use criterion::{Criterion, Throughput};

/// What a bank is made of: drives to wedges, 64 of them, that start and curve left and right.
pub fn bag() -> Vec<Strike> {
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

pub fn flights(c: &mut Criterion) {
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

pub fn runs(c: &mut Criterion) {
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

pub fn bags(c: &mut Criterion) {
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

pub fn putts(c: &mut Criterion) {
    let stroke = PuttStroke {
        direction_sd_deg: 1.346,
        length_sd_pct: 9.34,
        past_ft: 0.868,
    };
    c.bench_function("putt table", |b| {
        b.iter(|| PuttTable::new(black_box(&stroke), 11.0))
    });
}
