//! Work in the background: a course set up for the player, and his cost card. Both can be overtaken: what runs then is
//! given up, and the newest alone is shown.

use std::sync::{Arc, Mutex, MutexGuard};
use std::thread;

use costcard::cost::card::rounds as card_rounds;
use costcard::cost::changes::{Ready, ready};
use costcard::cost::costly::{card_with_holes, clubs_behind};
use costcard::cost::infer::{self, Assume};
use costcard::cost::rating;
use costcard::course::{Course, Day};
use costcard::player::Golfer;
use costcard::round::clubs::beside::beside;
use costcard::rules::Rulebook;

use super::answers;
use super::lanes::{Lane, Newest, lock};
use super::lesson::{Carded, Cast, Desk, Lesson, Standing, Usual, Work};
use super::seats::CourseSeat;
use super::told::told;
use crate::cli::faults::{of_clubs, of_play};
use crate::cli::load;
use crate::cli::report::HOLES;
use crate::cli::usage::Usage;

/// One course is set up at a time: it takes every core there is.
static SETTING_UP: Mutex<()> = Mutex::new(());

/// Who is to be set up where, as the lesson has them.
struct Asked {
    number: u64,
    player: Golfer,
    course: CourseSeat,
    day: Day,
}

/// Sets the course up for the player in the background, once there are both. What stands ready answers until then.
pub fn set_up(desk: &Arc<Desk>) {
    let asked = desk.change(|lesson| {
        lesson.set_ups += 1;
        lesson.trouble = None;
        if let Some(work) = lesson.setting_up.take() {
            work.rules().give_up();
        }
        lesson.give_up_card();
        Some(Asked {
            number: lesson.set_ups,
            player: lesson.player.as_ref()?.golfer.clone(),
            course: lesson.course.clone()?,
            day: lesson.day,
        })
    });
    let Some(asked) = asked else {
        return;
    };
    let number = asked.number;
    match read(desk, asked) {
        Ok((cast, usual)) => begin(desk, cast, usual),
        Err(error) => fail(desk, &error, |lesson| {
            (lesson.set_ups == number).then_some(&mut lesson.setting_up)
        }),
    }
}

/// Player, course and rules as they are to be set up, and course and rules of a usual day where the day is none. Files
/// are read and grids painted here, so nobody may wait for the lesson meanwhile.
fn read(desk: &Desk, asked: Asked) -> anyhow::Result<(Cast, Option<(Course, Rulebook)>)> {
    let on = |day: &Day| asked.course.on(day, &desk.folder);
    let usual = match asked.day.is_usual() {
        true => None,
        false => Some(on(&Day::default())?),
    };
    let (mut today, rules) = on(&asked.day)?;
    if let Some(words) = answers::day_in_words(&asked.day) {
        today.name = format!("{}, {words}", today.name);
    }
    let cast = Cast {
        number: asked.number,
        player: asked.player,
        course: today,
        assume: desk.assume,
        inference: None,
        rules: rules.afresh(),
        day: asked.day,
    };
    Ok((cast, usual))
}

/// Begins to set up, unless something newer was asked for meanwhile.
fn begin(desk: &Arc<Desk>, cast: Cast, usual: Option<(Course, Rulebook)>) {
    let of = infer::rounds(&cast.player, &[&cast.course], cast.assume)
        + rating::rounds(&cast.course, cast.player.sex);
    let what = format!("Setting up {} for {}", cast.course.name, cast.player.name);
    let work = Arc::new(Work::begin(what, of, cast.rules.clone()));
    let begun = desk.change(|lesson| {
        let begins = is_newest(lesson, &cast);
        if begins {
            lesson.setting_up = Some(work);
        }
        begins
    });
    if !begun {
        return;
    }
    let desk = Arc::clone(desk);
    thread::spawn(move || {
        let _ended = Ended {
            desk: &desk,
            left: |lesson| is_newest(lesson, &cast) && lesson.setting_up.take().is_some(),
        };
        let turn = lock(&SETTING_UP);
        if let Err(error) = stand(&desk, &cast, usual.as_ref(), turn) {
            fail(&desk, &error, |lesson| {
                is_newest(lesson, &cast).then_some(&mut lesson.setting_up)
            });
        }
    });
}

const fn is_newest(lesson: &Lesson, cast: &Cast) -> bool {
    lesson.set_ups == cast.number
}

/// The end of a thread that works. Where it broke off, its work is taken out of the lesson, which would otherwise be busy
/// for ever, and it is told.
struct Ended<'a, F: Fn(&mut Lesson) -> bool> {
    desk: &'a Desk,
    /// Takes the thread's work out of the lesson; says whether it was still there.
    left: F,
}

impl<F: Fn(&mut Lesson) -> bool> Drop for Ended<'_, F> {
    fn drop(&mut self) {
        if !(self.left)(&mut self.desk.lesson()) {
            return;
        }
        let error = Usage {
            message: "this went wrong, and nothing came of it".to_owned(),
            hint: "choose the player or the course again".to_owned(),
        };
        self.desk
            .change(|lesson| lesson.trouble = Some(told(&error.into())));
    }
}

/// Sets the course up and answers on it until another stands.
fn stand(
    desk: &Arc<Desk>,
    cast: &Cast,
    usual: Option<&(Course, Rulebook)>,
    turn: MutexGuard<'_, ()>,
) -> anyhow::Result<()> {
    let work = desk.lesson().setting_up.clone();
    let Some(work) = work.filter(|_| is_newest(&desk.lesson(), cast)) else {
        return Ok(());
    };
    let done = |rounds| work.advance(rounds);
    let cast = match usual {
        None => copy(cast),
        Some((course, rules)) => settled(desk, cast, (course, &rules.afresh()), &done)?,
    };
    let cast = Arc::new(cast);
    let (asked, on) = (cast.assume, (&cast.course, &cast.rules));
    ready(&cast.player, on, asked, &done, |ready| {
        if let Some(standing) = take_place(desk, &cast, ready) {
            drop(turn);
            begin_card(desk);
            serve(desk, &standing, ready);
        }
    })
    .map_err(of_play)
}

fn copy(cast: &Cast) -> Cast {
    Cast {
        player: cast.player.clone(),
        course: cast.course.clone(),
        rules: cast.rules.clone(),
        inference: cast.inference.clone(),
        ..*cast
    }
}

/// On an unusual day: what nobody measured is settled by a usual one, since that is where a handicap is made.
fn settled(
    desk: &Desk,
    cast: &Cast,
    usual: (&Course, &Rulebook),
    done: &(dyn Fn(u64) + Sync),
) -> anyhow::Result<Cast> {
    let known = desk.lesson().usual.clone();
    let known = match known {
        Some(known) => known,
        None => {
            let found = infer::inferred(&cast.player, &[usual], cast.assume, done);
            let found = found.map_err(of_play)?;
            Usual {
                golfer: found.golfer,
                inference: found.inference,
                expected: None,
            }
        }
    };
    desk.change(|lesson| {
        if is_newest(lesson, cast) {
            lesson.usual.get_or_insert_with(|| known.clone());
        }
    });
    Ok(Cast {
        player: known.golfer,
        inference: known.inference,
        assume: Assume::Level,
        ..copy(cast)
    })
}

/// Takes the place of the course that stood before; none where a newer set-up is asked for already.
fn take_place(desk: &Desk, cast: &Arc<Cast>, ready: &Ready<'_>) -> Option<Arc<Standing>> {
    let newest = Arc::<Newest>::default();
    let standing = Arc::new(Standing {
        cast: Arc::clone(cast),
        golfer: ready.golfer().clone(),
        expected: ready.expected_strokes(),
        quick: Lane::new(Arc::clone(&newest)),
        score: Lane::new(Arc::clone(&newest)),
        all: Lane::new(newest),
    });
    let stands = desk.change(|lesson| {
        if !is_newest(lesson, cast) || cast.rules.outcome().is_err() {
            return false;
        }
        lesson.setting_up = None;
        if cast.day.is_usual() {
            lesson.usual = Some(Usual {
                golfer: ready.golfer().clone(),
                inference: ready.inference().cloned(),
                expected: Some(ready.expected_strokes()),
            });
        }
        if let Some(before) = lesson.standing.replace(Arc::clone(&standing)) {
            before.close();
        }
        true
    });
    stands.then_some(standing)
}

/// Answers in three threads, so that what is quick never waits for what is long. The set-up's own thread is one of them;
/// another may set up meanwhile.
fn serve(desk: &Desk, standing: &Standing, ready: &Ready<'_>) {
    thread::scope(|scope| {
        scope.spawn(|| {
            let quick = |question| {
                desk.quick
                    .install(|| answers::score(desk, standing, ready, &question))
            };
            standing.quick.serve(quick);
        });
        scope.spawn(|| {
            let score = |question| answers::score(desk, standing, ready, &question);
            standing.score.serve(score);
        });
        let all = |question| answers::all(desk, standing, ready, &question);
        standing.all.serve(all);
    });
}

/// Works the cost card out in the background, for the course that stands ready. While another is being set up there is
/// none to be asked for: one follows as soon as that stands.
pub fn begin_card(desk: &Arc<Desk>) {
    let begun = desk.change(|lesson| {
        lesson.give_up_card();
        if lesson.setting_up.is_some() {
            return None;
        }
        let standing = lesson.standing.as_ref()?;
        let cast = Arc::clone(&standing.cast);
        let of = card_rounds(&cast.player, &cast.course, desk.effort, cast.assume);
        let goal = lesson.goal_handicap();
        let what = "Working out the cost card".to_owned();
        let work = Arc::new(Work::begin(what, of, cast.rules.afresh()));
        lesson.carding = Some(Arc::clone(&work));
        Some((cast, goal, work, lesson.cards))
    });
    let Some((cast, goal, work, number)) = begun else {
        return;
    };
    let desk = Arc::clone(desk);
    thread::spawn(move || {
        let is_newest = |lesson: &Lesson| lesson.cards == number;
        let _ended = Ended {
            desk: &desk,
            left: |lesson| is_newest(lesson) && lesson.carding.take().is_some(),
        };
        match carded(&desk, &cast, goal, &work) {
            Ok(card) => desk.change(|lesson| {
                if is_newest(lesson) {
                    lesson.carding = None;
                    lesson.card = Some(Arc::new(card));
                }
            }),
            Err(error) => fail(&desk, &error, |lesson| {
                is_newest(lesson).then_some(&mut lesson.carding)
            }),
        }
    });
}

fn carded(desk: &Desk, cast: &Arc<Cast>, goal: f64, work: &Work) -> anyhow::Result<Carded> {
    let goal = load::goal(&goal.to_string(), cast.player.sex)?;
    let on = (&cast.course, work.rules());
    let done = |rounds| work.advance(rounds);
    let player = &cast.player;
    let found = card_with_holes(player, &goal, on, desk.effort, cast.assume, HOLES, &done);
    let (mut card, holes) = found.map_err(of_play)?;
    card.inference = card.inference.or_else(|| cast.inference.clone());
    let clubs = clubs_behind(&card, player);
    let clubs = beside(player, &goal, &clubs, work.rules()).map_err(of_clubs)?;
    Ok(Carded {
        cast: Arc::clone(cast),
        goal,
        card,
        holes,
        clubs,
    })
}

/// Tells why work failed, unless it was overtaken, and has no place in the lesson any more: then nobody asks.
fn fail(
    desk: &Desk,
    error: &anyhow::Error,
    place: impl Fn(&mut Lesson) -> Option<&mut Option<Arc<Work>>>,
) {
    desk.change(|lesson| {
        if let Some(work) = place(lesson) {
            *work = None;
            lesson.trouble = Some(told(error));
        }
    });
}

#[cfg(test)]
mod tests {
    #![allow(clippy::expect_used)] // a test may stop

    use costcard::cost::card::Effort;
    use costcard::show::reading::Reading;

    use super::*;
    use crate::cli::args::Rules;
    use crate::cli::desk::folder::Folder;

    fn empty_desk() -> Desk {
        let folder = Folder::here().expect("a folder");
        let asked = (Effort { rounds: 1, seed: 1 }, Assume::Level);
        let scripts = Rules {
            scripts: Vec::new(),
        };
        Desk::new(folder, asked, scripts, Reading::Yards).expect("a desk")
    }

    fn work() -> Arc<Work> {
        Arc::new(Work::begin("At work".to_owned(), 1, Rulebook::default()))
    }

    /// A card that fails while a course is set up is told, and the course goes on being set up.
    #[test]
    fn work_that_fails_ends_no_other() {
        let desk = empty_desk();
        desk.change(|lesson| {
            lesson.setting_up = Some(work());
            lesson.carding = Some(work());
        });
        let error = anyhow::anyhow!("a rule failed");
        fail(&desk, &error, |lesson| Some(&mut lesson.carding));
        assert!(desk.lesson().carding.is_none() && desk.lesson().setting_up.is_some());
        let trouble = desk.lesson().trouble.take();
        assert!(trouble.is_some_and(|told| told.contains("a rule failed")));
        fail(&desk, &error, |_| None);
        assert_eq!(desk.lesson().trouble.take(), None);
    }

    #[test]
    fn work_that_breaks_off_is_told_and_leaves_no_desk_busy() {
        let desk = empty_desk();
        let begin = || {
            desk.change(|lesson| lesson.setting_up = Some(work()));
        };
        let ended = || Ended {
            desk: &desk,
            left: |lesson: &mut Lesson| lesson.setting_up.take().is_some(),
        };
        begin();
        let broken = thread::scope(|scope| {
            let work = || {
                let _ended = ended();
                panic!("broken off");
            };
            scope.spawn(work).join().is_err()
        });
        assert!(broken && desk.lesson().setting_up.is_none());
        let trouble = desk.lesson().trouble.take();
        assert!(trouble.is_some_and(|told| told.contains("went wrong")));
        // What came to its end says nothing.
        begin();
        let end = ended();
        desk.change(|lesson| lesson.setting_up = None);
        let version = desk.version();
        drop(end);
        assert_eq!(
            (desk.version(), desk.lesson().trouble.take()),
            (version, None)
        );
    }
}
