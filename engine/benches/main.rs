//! Speed of the engine: `cargo bench`.

use std::hint::black_box;

use costcard::ball::Strike;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::fly;
use costcard::ball::turf::{Firmness, Slope, Surface, Turf};
use costcard::units::{Angle, Speed, Spin};
use criterion::{Criterion, criterion_group, criterion_main};

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

criterion_group!(speed, flights, runs);
criterion_main!(speed);
