//! A hole solved for one golfer: expected strokes everywhere, and what is played from where.

use std::sync::{Arc, OnceLock};

use crate::ball::putts::PuttTable;
use crate::course::{Hole, Lie};
use crate::rules::Stop;

use super::bank::HoleBank;
use super::choose::{Choice, Choosing, SwingId};
use super::finish::Spot;
use super::ground::Ground;
use super::part::Part;
use super::place::Xy;
use super::side::Side;
use super::sweep::{Plan, Sweep};
use super::tee::Tee;
use super::touch::TouchShot;
use super::traffic::Traffic;
use super::values::{LAYERS, Meshes, Values, layer_of};

/// A hole with everything that is needed to solve it, for any side.
#[derive(Debug, Clone, Copy)]
pub struct ReadyHole<'a> {
    /// The hole.
    pub hole: &'a Hole,
    /// Its ground and meshes.
    pub meshes: &'a Meshes,
    /// The golfers' banks on it.
    pub banks: &'a [Arc<HoleBank<'a>>],
    /// Where a failed rule is noted: nothing is solved any further then.
    pub stop: &'a Stop,
}

/// Kinds of lies a ball is played from: those of the layers, and teeing ground. That shares the fairway's layer, but a
/// lie may do something else to shots there; and what is played must not hang on which of two balls in a square that
/// holds both is asked about first.
const PLAYED_FROM: usize = LAYERS + 1;

/// What one part of the game saves on a hole is less than this, strokes, wherever the hole can be played.
const FAR_OFF: f32 = 1.0;

/// By kind of lie and square: what is played, once it is decided.
type Decisions = [Vec<OnceLock<Option<Choice>>>; PLAYED_FROM];

fn undecided(squares: usize) -> Decisions {
    [(); PLAYED_FROM].map(|()| (0..squares).map(|_| OnceLock::new()).collect())
}

const fn played_from(lie: Lie) -> usize {
    match lie {
        Lie::Tee => LAYERS,
        lie => layer_of(lie),
    }
}

/// A hole solved for one golfer.
#[derive(Debug)]
pub struct Solved<'a> {
    /// Expected strokes everywhere.
    pub values: Values<'a>,
    ready: ReadyHole<'a>,
    side: &'a Side,
    field: Choosing<'a>,
    tee: Tee<'a>,
    tee_choice: Option<Choice>,
    plan: Plan,
    traffic: Traffic,
    /// What is played from each small square of each lie, worked out when a ball first lies there.
    decisions: Decisions,
    /// Whose decisions are played wherever the choices are his: those of a golfer with the same swings, from whose
    /// solution this one was begun.
    decided_by: Option<&'a Self>,
}

/// What is to be expected on a hole of a golfer who plays much like another.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Variant {
    /// Expected strokes from the tee.
    pub strokes: f32,
    /// Full shots of each part, tee shots of par 4s and 5s aside; none where they were not counted.
    pub shots: [f32; Part::ALL.len()],
}

/// What is asked of a golfer who plays much like another.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Asked<'s> {
    /// Swings that both have, and that are thought about as if they were new all the same: so that who keeps them can be
    /// compared with who has others in their place.
    pub rethought: &'s [SwingId],
    /// Whether shots are counted.
    pub counted: bool,
}

/// How much a golfer who starts from another's choices in the field thinks about them. Tee shots are always chosen
/// anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Thought {
    /// Every choice that has to do with a new swing is weighed against it and moved about; then so are those where
    /// balls come by that did not before.
    Whole,
    /// The same, once, where balls came by before.
    Once,
    /// New swings are looked at, and taken where clearly better.
    Brisk,
    /// The same clubs at the same targets, as far as there are such clubs.
    Kept,
}

/// What a golfer plays from a spot.
#[derive(Debug, Clone, Copy)]
pub enum Play<'a> {
    /// A full shot.
    Full(Choice),
    /// A chip, pitch or greenside bunker shot.
    Touch(TouchShot<'a>),
}

impl<'a> Solved<'a> {
    /// Solves a hole for `side`.
    #[must_use]
    pub fn new(
        ready: ReadyHole<'a>,
        side: &'a Side,
        putts: &'a PuttTable,
        start: Start<'a>,
    ) -> Self {
        let ReadyHole {
            hole, meshes, stop, ..
        } = ready;
        let (tee, field) = ready.choosing(side);
        let values = Values::guessed(hole, meshes, putts, field.a_stroke_yd());
        let mut sweep = Sweep::new((hole, meshes), field, side, values, stop);
        let (traffic, decided_by) = match start {
            Start::Afresh => (sweep.start_afresh(&tee), None),
            Start::From(start, thought) => {
                sweep = sweep.only(&start.traffic);
                let new = new_swings(side, start.side, &[]);
                let traffic = run(&mut sweep, &tee, side, start, (thought, &new));
                let same = start.side.field == side.field;
                (traffic, same.then_some(start))
            }
        };
        let best = tee.best(&sweep.values);
        let Sweep {
            mut values, plan, ..
        } = sweep;
        if let Some((_, expected)) = best {
            values.tee = expected;
        }
        Self {
            values,
            ready,
            side,
            field,
            tee,
            tee_choice: best.map(|(choice, _)| choice),
            plan,
            traffic,
            decisions: undecided(meshes.squares.len()),
            decided_by,
        }
    }

    /// Where balls come by when this golfer plays the hole.
    #[must_use]
    pub const fn traffic(&self) -> &Traffic {
        &self.traffic
    }

    /// The landmarks of the field, and how many balls come by each and around it when this golfer plays the hole.
    pub(super) fn landmark_balls(&self) -> impl Iterator<Item = (Spot, f32)> {
        let nodes = &self.ready.meshes.nodes;
        let balls = self.traffic.of_landmarks(nodes);
        nodes.far.iter().map(|state| state.spot).zip(balls)
    }

    /// What is to be expected of a golfer who plays much like this one, with the shots of `banks`: decided anew only
    /// where balls come by, and there at every other node each way; elsewhere as this one plays.
    ///
    /// Where shots lead back to where they are played from again and again, over water that a weak golfer cannot carry,
    /// small errors between the nodes that are decided grow great: a figure that is far off this golfer's is worked out
    /// once more with every node where balls come by decided by itself.
    #[must_use]
    pub fn variant<'b>(
        &'b self,
        brings: (&'b Side, &'b PuttTable),
        banks: &'b [Arc<HoleBank<'b>>],
        worth: &Traffic,
        asked: Asked<'_>,
    ) -> Variant {
        let quick = self.variant_by(brings, banks, worth, asked, true);
        if (quick.strokes - self.values.tee).abs() < FAR_OFF {
            return quick;
        }
        self.variant_by(brings, banks, worth, asked, false)
    }

    fn variant_by<'b>(
        &'b self,
        (side, putts): (&'b Side, &'b PuttTable),
        banks: &'b [Arc<HoleBank<'b>>],
        worth: &Traffic,
        asked: Asked<'_>,
        is_led: bool,
    ) -> Variant {
        let ready: ReadyHole<'b> = ReadyHole {
            banks,
            ..self.ready
        };
        let ReadyHole {
            hole, meshes, stop, ..
        } = ready;
        let (tee, field) = ready.choosing(side);
        let values = Values::guessed(hole, meshes, putts, field.a_stroke_yd());
        let mut sweep = Sweep::new((hole, meshes), field, side, values, stop).only(worth);
        if is_led {
            sweep = sweep.led(&self.values);
        }
        let new = new_swings(side, self.side, asked.rethought);
        let _ = run(&mut sweep, &tee, side, self, (Thought::Once, &new));
        let best = tee.best(&sweep.values);
        let mut shots = [0.0; Part::ALL.len()];
        if let (true, Some((choice, _))) = (asked.counted, best) {
            shots = sweep.shots(&tee, choice);
            if hole.par <= 3 {
                shots[field.part(choice) as usize] += 1.0;
            }
        }
        Variant {
            strokes: best.map_or(sweep.values.tee, |(_, expected)| expected),
            shots,
        }
    }

    /// The tee.
    #[must_use]
    pub const fn tee_spot(&self) -> Spot {
        self.tee.spot
    }

    /// The hole in the green.
    #[must_use]
    pub fn pin(&self) -> Xy {
        Xy::from(self.ready.hole.pin)
    }

    /// The ground.
    #[must_use]
    pub const fn ground(&self) -> &'a Ground {
        &self.ready.meshes.ground
    }

    /// Expected strokes from a spot; a ball on its tee lies on the hole's own tee.
    #[must_use]
    pub fn expected(&self, spot: Spot) -> f32 {
        if self.on_tee(spot) {
            self.values.tee
        } else {
            self.values.at(spot)
        }
    }

    /// Whether a spot is the hole's own tee, with the ball to be teed up.
    #[must_use]
    pub fn on_tee(&self, spot: Spot) -> bool {
        spot == self.tee_spot()
    }

    /// What is played from a spot off the green; none where no swing can be made.
    #[must_use]
    pub fn play(&self, spot: Spot) -> Option<Play<'_>> {
        if self.on_tee(spot) {
            return self.tee_choice.map(Play::Full);
        }
        if self.ground().is_short_game(spot.at) {
            let pin = Xy::from(self.ready.hole.pin);
            return Some(Play::Touch(self.side.touch.shot(spot, pin)));
        }
        self.decision(spot).map(Play::Full)
    }

    /// The part that a shot from a spot belongs to; none where no swing can be made.
    #[must_use]
    pub fn part_from(&self, spot: Spot) -> Option<Part> {
        if spot.lie == Lie::Green {
            return Some(Part::Putting);
        }
        Some(match self.play(spot)? {
            Play::Touch(_) => Part::near_green(spot.lie),
            Play::Full(_) if self.on_tee(spot) && self.ready.hole.par >= 4 => Part::TeeShots,
            Play::Full(choice) => self.choosing(spot).part(choice),
        })
    }

    /// The same, by what is played at the nearest node: enough for what many shots lead to on the whole.
    pub(super) fn part_around(&self, spot: Spot) -> Option<Part> {
        let meshes = self.ready.meshes;
        if spot.lie == Lie::Green {
            return Some(Part::Putting);
        }
        if self.ground().is_short_game(spot.at) {
            return Some(Part::near_green(spot.lie));
        }
        if self.on_tee(spot) {
            return self.part_from(spot);
        }
        let mesh = meshes.mesh_at(spot.at);
        let node = meshes.meshes[mesh].nearest(spot.at);
        let choice = self.plan.choices[mesh][layer_of(spot.lie)][node];
        choice.map_or_else(
            || self.part_from(spot),
            |choice| Some(self.field.part(choice)),
        )
    }

    fn decision(&self, spot: Spot) -> Option<Choice> {
        let square = self.ready.meshes.squares.nearest(spot.at);
        let decision = &self.decisions[played_from(spot.lie)][square];
        *decision.get_or_init(|| self.decide(square, spot.lie))
    }

    /// The best, from the middle of a square, of what is played at the nodes around it. Where nothing was thought about
    /// anew since the start from another golfer's solution, nodes still hold his choices: what he hits, this one may not.
    fn decide(&self, square: usize, lie: Lie) -> Option<Choice> {
        let at = self.ready.meshes.squares.place(square);
        let spot = Spot { at, lie };
        let around = self.choices_around(spot);
        if let Some(other) = self.decided_by
            && other.choices_around(spot) == around
        {
            return other.decision(spot);
        }
        let own = |choice| Some(self.field.fitted(spot, self.field.own(choice)?));
        let mut candidates: Vec<Choice> = around.into_iter().flatten().filter_map(own).collect();
        if candidates.is_empty() {
            candidates = self.field.any(spot, self.field.swings);
        }
        self.field.pick(&self.values, spot, &candidates)
    }

    /// What is played at the nodes around a spot.
    fn choices_around(&self, spot: Spot) -> [Option<Choice>; 4] {
        let meshes = self.ready.meshes;
        let mesh = meshes.mesh_at(spot.at);
        let known = &self.plan.choices[mesh][layer_of(spot.lie)];
        let around = meshes.meshes[mesh].corners(spot.at);
        around.map(|node| known[node])
    }

    /// The choosing from a spot with another golfer's clubs.
    #[must_use]
    pub fn with_bank<'b>(&self, spot: Spot, bank: &'b Arc<HoleBank<'b>>) -> Choosing<'b>
    where
        'a: 'b,
    {
        Choosing {
            banks: std::slice::from_ref(bank),
            swings: &[],
            ..*self.choosing(spot)
        }
    }

    /// The choosing that stands behind a full shot from a spot.
    #[must_use]
    pub fn choosing(&self, spot: Spot) -> &Choosing<'a> {
        if self.on_tee(spot) {
            &self.tee.choosing
        } else {
            &self.field
        }
    }
}

/// Where solving a hole starts from.
#[derive(Debug, Clone, Copy)]
pub enum Start<'a> {
    /// From nothing.
    Afresh,
    /// From another golfer's solution, with as much thought about his play.
    From(&'a Solved<'a>, Thought),
}

impl<'a> ReadyHole<'a> {
    /// The choosing from the tee and in the field.
    fn choosing<'b>(&self, side: &'b Side) -> (Tee<'b>, Choosing<'b>)
    where
        'a: 'b,
    {
        let choosing = |swings: &'b [SwingId]| Choosing {
            hole: self.hole,
            ground: &self.meshes.ground,
            banks: self.banks,
            swings,
        };
        let from_tee = match self.hole.par {
            4.. => &side.tee,
            _ => &side.field,
        };
        (Tee::new(choosing(from_tee)), choosing(&side.field))
    }
}

/// Sweeps on from another golfer's solution; tells where balls come by.
///
/// Where nothing is worked out anew, values stay those of the other golfer but for what they gain elsewhere: as they were,
/// they would draw the tee shots of a poorer one.
fn run(
    sweep: &mut Sweep<'_>,
    tee: &Tee<'_>,
    side: &Side,
    start: &Solved<'_>,
    (thought, new): (Thought, &[SwingId]),
) -> Traffic {
    sweep.start_from(&start.values, &start.plan, &start.side.touch, new);
    if !new.is_empty() || side.field != start.side.field {
        match thought {
            Thought::Whole | Thought::Once => sweep.with_new_swings(new),
            Thought::Brisk => sweep.with_new_swings_briskly(new),
            Thought::Kept => sweep.with_counterparts(),
        }
        sweep.gain_elsewhere(&start.values);
        if thought == Thought::Whole {
            sweep.once_more();
            return sweep.follow(tee, start.traffic.clone());
        }
    } else if sweep.is_led_at_all() || !side.plays_field_like(start.side) {
        sweep.with_other_touch();
        sweep.gain_elsewhere(&start.values);
        if !sweep.is_led_at_all() {
            return sweep.follow(tee, start.traffic.clone());
        }
    }
    start.traffic.clone()
}

/// The swings a side plays that are new beside another's, or that are to be thought about anew.
fn new_swings(side: &Side, start: &Side, rethought: &[SwingId]) -> Vec<SwingId> {
    let is_new = |swing: &&SwingId| !start.field.contains(swing) || rethought.contains(swing);
    side.field.iter().filter(is_new).copied().collect()
}
