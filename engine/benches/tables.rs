//! The tables that rounds read, written for a round loop in another language: `rounds.py`. Holes are in still air, so
//! that a swing has one list of shots from each kind of ground.
//!
//! Arrays are plain little-endian numbers of 32 bits, `.f32` or `.i32`, without a head; `course.json` has the rest.

use std::collections::HashMap;
use std::error::Error;
use std::path::Path;
use std::sync::LazyLock;
use std::time::Instant;

use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::fly_all;
use costcard::ball::putts::MOST_PUTTS;
use costcard::course::{Lie, embedded as demo};
use costcard::player::skill::Touch;
use costcard::player::{Golfer, Sex, levels};
use costcard::round::bank::SwingShots;
use costcard::round::choose::{Choice, SwingId};
use costcard::round::draws::unit_pairs;
use costcard::round::finish::Spot;
use costcard::round::place::Xy;
use costcard::round::play::Rounds;
use costcard::round::solve::{Play, Solved};
use costcard::round::stage::Stage;
use costcard::round::values::{LAYER_LIES, LAYERS, Meshes};
use costcard::rules::lies::touch_factor;
use costcard::units::Speed;
use serde_json::{Value, json};

use crate::flights::bag;

type Result<T> = std::result::Result<T, Box<dyn Error>>;

/// Rounds that are played beside, for the mean score and the speed.
const ROUNDS: u64 = 40_000;
/// How often what is timed is done; the quickest counts, since others may use the machine.
const TIMES: usize = 5;
/// Nodes of the table of putts, evenly spaced in the root of the distance up to 400 ft, as in `ball/putts.rs`.
const PUTT_NODES: usize = 385;
/// Corners of a square of 4 yd, from its middle, and the middle itself: a square that reaches into the short game is
/// asked about where it does not.
const IN_SQUARE: [(f32, f32); 5] = [
    (0.0, 0.0),
    (1.9, 1.9),
    (-1.9, 1.9),
    (1.9, -1.9),
    (-1.9, -1.9),
];

/// Writes everything into a folder that is there.
pub fn write(folder: &Path) -> Result<()> {
    let mut course = demo::course("parkland")?;
    for hole in &mut course.holes {
        hole.air.wind = Speed::ZERO;
    }
    let golfer = levels::named("scratch", Sex::Men)?;
    let golfers = [&golfer];
    let stage = Stage::new(&course, &golfers);
    let banks = stage.hole_banks();
    let side = stage.side(|_| 0);
    let solved = stage.solve(&banks, &side, None);
    let mut holes = Vec::new();
    for (hole, solved) in course.holes.iter().zip(&solved) {
        let out = Out {
            folder,
            hole: hole.number,
        };
        out.grid(&hole.grid)?;
        holes.push(out.solved(solved, &Meshes::of(hole))?);
    }
    let rounds = Rounds {
        holes: &course.holes,
        golfer: &solved,
        goal: None,
        seed: 1,
    };
    let one = rayon::ThreadPoolBuilder::new().num_threads(1).build()?;
    let tally = rounds.play(ROUNDS, &|_| {});
    let seconds = one.install(|| quickest(|| rounds.play(ROUNDS, &|_| {})));
    let told = json!({
        "holes": holes,
        "touch": touch(&golfer),
        "rounds": ROUNDS,
        "score_mean": tally.score_mean(),
        "score_sd": tally.score_sd(),
        "rounds_per_second": ROUNDS as f64 / seconds,
        "flights_per_second": flights_per_second(),
    });
    std::fs::write(folder.join("course.json"), told.to_string())?;
    Ok(())
}

fn quickest<T>(mut work: impl FnMut() -> T) -> f64 {
    let mut time = || {
        let start = seconds();
        std::hint::black_box(work());
        seconds() - start
    };
    (0..TIMES).map(|_| time()).fold(f64::INFINITY, f64::min)
}

/// Processor time of this thread where Linux tells it, since others use the machine; the clock's elsewhere.
fn seconds() -> f64 {
    static START: LazyLock<Instant> = LazyLock::new(Instant::now);
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let nanoseconds = told.split(' ').next().and_then(|n| n.parse::<f64>().ok());
    nanoseconds.map_or_else(|| START.elapsed().as_secs_f64(), |ns| ns * 1e-9)
}

/// On one thread, in still air.
fn flights_per_second() -> f64 {
    let strikes = bag().repeat(256);
    let calm = Atmosphere::new(&Air::standard());
    strikes.len() as f64 / quickest(|| fly_all(&strikes, &calm))
}

/// The errors of short shots, and what they are scaled by.
fn touch(golfer: &Golfer) -> Value {
    let figures = |touch: &Touch| {
        json!({
            "along_pct": touch.along_pct,
            "across_pct": touch.across_pct,
            "base_ft": touch.base_ft,
            "mishit_pct": touch.mishit_pct,
        })
    };
    json!({
        "grass": figures(&golfer.short_game.0),
        "sand": figures(&golfer.sand.0),
        "factors": LAYER_LIES.map(touch_factor),
        "normal": unit_pairs(64),
        "mishits": unit_pairs(32),
    })
}

/// Where a hole's tables go.
struct Out<'a> {
    folder: &'a Path,
    hole: u32,
}

/// The shots that are played from somewhere, each list once.
#[derive(Default)]
struct Lists {
    numbers: HashMap<(u8, u8, Lie), usize>,
    /// Eight numbers a shot, 128 normal ones and then 64 mishits.
    shots: Vec<f32>,
    /// Share of mishits, and the mean pitch of the others.
    heads: Vec<f32>,
}

impl Lists {
    fn number(&mut self, SwingId { bank, swing }: SwingId, lie: Lie, shots: &SwingShots) -> usize {
        let next = self.numbers.len();
        let number = *self.numbers.entry((bank, swing, lie)).or_insert(next);
        if number == next {
            for shot in shots.normal.iter().chain(&shots.mishit) {
                let Xy { x, y } = shot.run_green;
                self.shots.extend([shot.pitch.x, shot.pitch.y]);
                self.shots.extend([shot.heading.x, shot.heading.y]);
                self.shots
                    .extend([shot.run_fairway_yd, shot.run_rough_yd, x, y]);
            }
            self.heads
                .extend([shots.mishit_share, shots.centre.x, shots.centre.y]);
        }
        number
    }
}

impl Out<'_> {
    fn write(&self, name: &str, bytes: impl Iterator<Item = [u8; 4]>) -> Result<()> {
        let path = self.folder.join(format!("{}-{name}", self.hole));
        Ok(std::fs::write(path, bytes.flatten().collect::<Vec<u8>>())?)
    }

    fn floats(&self, name: &str, all: &[f32]) -> Result<()> {
        self.write(
            &format!("{name}.f32"),
            all.iter().map(|number| number.to_le_bytes()),
        )
    }

    fn whole(&self, name: &str, all: impl Iterator<Item = i32>) -> Result<()> {
        self.write(&format!("{name}.i32"), all.map(i32::to_le_bytes))
    }

    fn grid(&self, grid: &costcard::course::LieGrid) -> Result<()> {
        self.whole("lies", grid.lies.iter().map(|lie| *lie as i32))?;
        self.whole("clear", grid.clearance_yd.iter().map(|yd| i32::from(*yd)))?;
        self.floats("to-green", &grid.to_green_yd)?;
        let corner = [grid.left_yd as f32, grid.near_yd as f32];
        self.floats("corner", &corner)?;
        self.whole("columns", std::iter::once(grid.columns as i32))
    }

    /// What is played and expected from each square of each lie, the shots, the putts; the rest as JSON.
    fn solved(&self, solved: &Solved<'_>, meshes: &Meshes) -> Result<Value> {
        let squares = &meshes.squares;
        let mut lists = Lists::default();
        let tee = solved.tee_spot();
        let mut played = Vec::new();
        let mut targets = Vec::new();
        let mut expected = Vec::new();
        let mut add = |spot: Spot| {
            let choice = full(solved, spot);
            played.push(choice.map_or(-1, |(spot, choice)| {
                let (_, shots) = solved.choosing(spot).line(spot, choice);
                lists.number(choice.swing, spot.lie, shots) as i32
            }));
            let target = choice.map_or(Xy::default(), |(_, choice)| choice.target);
            targets.extend([target.x, target.y]);
            expected.push(solved.expected(spot));
        };
        for lie in LAYER_LIES {
            for square in 0..squares.len() {
                let at = squares.place(square);
                add(Spot { at, lie });
            }
        }
        add(tee);
        self.whole("played", played.into_iter())?;
        self.floats("targets", &targets)?;
        self.floats("expected", &expected)?;
        self.floats("shots", &lists.shots)?;
        self.floats("heads", &lists.heads)?;
        self.floats("putts", &putts(solved))?;
        let first = squares.place(0);
        let across = (0..squares.len())
            .take_while(|square| squares.place(*square).y == first.y)
            .count();
        Ok(json!({
            "number": self.hole,
            "tee": [tee.at.x, tee.at.y],
            "pin": [solved.pin().x, solved.pin().y],
            "first_square": [first.x, first.y],
            "square_yd": squares.place(1).x - first.x,
            "squares": squares.len(),
            "squares_across": across,
            "layers": LAYERS,
        }))
    }
}

/// A full shot from a spot or, within its square, where one is played.
fn full(solved: &Solved<'_>, spot: Spot) -> Option<(Spot, Choice)> {
    IN_SQUARE.iter().find_map(|&(x, y)| {
        let spot = Spot {
            at: Xy::new(spot.at.x + x, spot.at.y + y),
            ..spot
        };
        match solved.play(spot) {
            Some(Play::Full(choice)) => Some((spot, choice)),
            _ => None,
        }
    })
}

/// By node: the chance of at most 1, 2, … putts.
fn putts(solved: &Solved<'_>) -> Vec<f32> {
    let node = |node: usize| {
        let root = node as f64 * 20.0 / (PUTT_NODES - 1) as f64;
        let chances = solved.values.putts().chances(root * root);
        let within = chances.iter().scan(0.0, |sum, chance| {
            *sum += chance;
            Some(*sum as f32)
        });
        within.collect::<Vec<f32>>()
    };
    let within: Vec<f32> = (0..PUTT_NODES).flat_map(node).collect();
    debug_assert_eq!(within.len(), PUTT_NODES * MOST_PUTTS);
    within
}
