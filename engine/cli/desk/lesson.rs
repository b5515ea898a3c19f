//! The lesson as it stands: who, where, against which goal, and what is known of it by now. Every tab of the page shows
//! the same one.

use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard};
use std::time::Instant;

use rayon::ThreadPool;
use serde::Serialize;
use tokio::sync::watch;

use costcard::cost::card::{Card, Effort};
use costcard::cost::costly::CostlyHole;
use costcard::cost::infer::{Assume, Inference};
use costcard::course::{Course, Day};
use costcard::player::club::Club;
use costcard::player::{Golfer, levels};
use costcard::round::clubs::beside::Beside;
use costcard::rules::Rulebook;
use costcard::show::reading::Reading;

use super::answers::{Answer, Question};
use super::folder::Folder;
use super::lanes::{Lane, lock};
use super::seats::{CourseSeat, PlayerSeat};
use crate::cli::args::Rules;

/// A goal that is so much better than the player is taken where none is named.
const USUAL_STEP: f64 = 3.0;

/// What a desk is, from its start to its end.
#[derive(Debug)]
pub struct Desk {
    /// What may be read and written.
    pub folder: Folder,
    /// Rounds and seed of every card.
    pub effort: Effort,
    /// What nobody measured.
    pub assume: Assume,
    /// Scripts named with the command.
    pub scripts: Rules,
    /// Units people read.
    pub reading: Reading,
    /// Where quick answers are worked out, so that they never wait behind longer work.
    pub quick: ThreadPool,
    /// Held while shots join a player or another takes his place: whoever comes second finds what the first left.
    pub seating: Mutex<()>,
    lesson: Mutex<Lesson>,
    version: watch::Sender<u64>,
}

/// The lesson.
#[derive(Debug, Default)]
pub struct Lesson {
    /// Who.
    pub player: Option<PlayerSeat>,
    /// Where.
    pub course: Option<CourseSeat>,
    /// The goal's handicap index, where it was named.
    pub goal: Option<f64>,
    /// Turf and wind.
    pub day: Day,
    /// The player as he is played, once it is known, and his expected score on a usual day.
    pub usual: Option<Usual>,
    /// Which set-up is the newest.
    pub set_ups: u64,
    /// Which card is the newest.
    pub cards: u64,
    /// The set-up that runs.
    pub setting_up: Option<Arc<Work>>,
    /// The course that stands ready.
    pub standing: Option<Arc<Standing>>,
    /// The card that is being worked out.
    pub carding: Option<Arc<Work>>,
    /// The newest card.
    pub card: Option<Arc<Carded>>,
    /// The card before shots were added.
    pub before_shots: Option<Arc<Carded>>,
    /// Why the last set-up or card failed.
    pub trouble: Option<String>,
}

/// A player on a course as its file describes it.
#[derive(Debug, Clone)]
pub struct Usual {
    /// With what was inferred of him.
    pub golfer: Golfer,
    /// What that was.
    pub inference: Option<Inference>,
    /// His expected score; none where he has not been played there yet.
    pub expected: Option<f64>,
}

/// Who plays where: what a set-up and a card are made of.
#[derive(Debug)]
pub struct Cast {
    /// Which set-up it is.
    pub number: u64,
    /// The player as he was read; on an unusual day with what a usual one infers.
    pub player: Golfer,
    /// The course on the day.
    pub course: Course,
    /// What nobody measured, still to be settled.
    pub assume: Assume,
    /// What was settled of it already.
    pub inference: Option<Inference>,
    /// The rules in force.
    pub rules: Rulebook,
    /// The day.
    pub day: Day,
}

/// A course that stands ready for the player.
#[derive(Debug)]
pub struct Standing {
    /// Who and where.
    pub cast: Arc<Cast>,
    /// The player as he is played.
    pub golfer: Golfer,
    /// His expected score.
    pub expected: f64,
    /// Questions while something is dragged.
    pub quick: Lane<Question, Answer>,
    /// Questions for the score, once it is let go.
    pub score: Lane<Question, Answer>,
    /// Questions for everything.
    pub all: Lane<Question, Answer>,
}

impl Standing {
    /// Ends its lanes, and with them whatever waits in them.
    pub fn close(&self) {
        self.quick.close();
        self.score.close();
        self.all.close();
    }
}

/// A card and what is drawn beside it.
#[derive(Debug)]
pub struct Carded {
    /// Who and where.
    pub cast: Arc<Cast>,
    /// The goal's golfer.
    pub goal: Golfer,
    /// The card.
    pub card: Card,
    /// The holes that cost most.
    pub holes: Vec<CostlyHole>,
    /// The clubs behind it.
    pub clubs: Vec<Beside>,
}

/// Work that runs, and how far it is.
#[derive(Debug)]
pub struct Work {
    /// What, as the page says it.
    pub what: String,
    /// Rounds there will be at most.
    pub of: u64,
    done: AtomicU64,
    since: Instant,
    rules: Rulebook,
}

/// How far work is, for the page.
#[derive(Debug, Serialize)]
pub struct Progress {
    what: String,
    rounds_done: u64,
    rounds: u64,
    seconds: u64,
}

impl Work {
    /// Begins work by rules of its own.
    pub fn begin(what: String, of: u64, rules: Rulebook) -> Self {
        Self {
            what,
            of,
            done: AtomicU64::new(0),
            since: Instant::now(),
            rules,
        }
    }

    /// The rules it is done by; whoever works by them stops when it is given up.
    pub const fn rules(&self) -> &Rulebook {
        &self.rules
    }

    /// Notes rounds that are finished.
    pub fn advance(&self, rounds: u64) {
        self.done.fetch_add(rounds, Ordering::Relaxed);
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        Progress {
            what: self.what.clone(),
            rounds_done: self.done.load(Ordering::Relaxed).min(self.of),
            rounds: self.of,
            seconds: self.since.elapsed().as_secs(),
        }
    }
}

impl Lesson {
    /// The goal's handicap index: as named, or a few strokes better than the player's.
    pub fn goal_handicap(&self) -> f64 {
        let own = self
            .player
            .as_ref()
            .map_or(0.0, |seat| seat.golfer.handicap);
        self.goal.unwrap_or_else(|| goal_for(own))
    }

    /// Ends the work that nobody asks for any more.
    pub fn give_up_card(&mut self) {
        self.cards += 1;
        if let Some(work) = self.carding.take() {
            work.rules().give_up();
        }
    }

    /// The clubs of the player who was chosen; while he is being set up, another may stand ready still.
    pub fn clubs(&self) -> Vec<Club> {
        let golfer = self.player.as_ref().map(|seat| &seat.golfer);
        golfer.map_or_else(Vec::new, |golfer| {
            golfer.clubs.iter().map(|entry| entry.club).collect()
        })
    }
}

fn goal_for(handicap: f64) -> f64 {
    (handicap - USUAL_STEP).floor().max(levels::LOWEST)
}

impl Desk {
    /// A desk with nobody at it.
    pub fn new(
        folder: Folder,
        (effort, assume): (Effort, Assume),
        scripts: Rules,
        reading: Reading,
    ) -> anyhow::Result<Self> {
        let quick = rayon::ThreadPoolBuilder::new()
            .num_threads(rayon::current_num_threads())
            .build()?;
        Ok(Self {
            folder,
            effort,
            assume,
            scripts,
            reading,
            quick,
            seating: Mutex::default(),
            lesson: Mutex::default(),
            version: watch::Sender::new(1),
        })
    }

    /// The lesson, to be looked at.
    pub fn lesson(&self) -> MutexGuard<'_, Lesson> {
        lock(&self.lesson)
    }

    /// Changes the lesson and tells every tab.
    pub fn change<R>(&self, change: impl FnOnce(&mut Lesson) -> R) -> R {
        let result = change(&mut lock(&self.lesson));
        self.version.send_modify(|version| *version += 1);
        result
    }

    /// The number of the lesson's last change.
    pub fn version(&self) -> u64 {
        *self.version.borrow()
    }

    /// Hears of changes.
    pub fn watch(&self) -> watch::Receiver<u64> {
        self.version.subscribe()
    }
}
