//! Questions on their way to whoever answers them: of each tab of the page only the newest is worth an answer.

use std::collections::VecDeque;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

use tokio::sync::oneshot;

/// Tabs remembered; more than anyone has open on one player.
const MOST_TABS: usize = 32;

/// Which question of each tab is its newest; those of a tab are numbered upwards.
#[derive(Debug, Default)]
pub struct Newest(Mutex<VecDeque<(String, u64)>>);

impl Newest {
    /// Notes a question; `false` where the tab has asked a newer one.
    fn note(&self, tab: &str, number: u64) -> bool {
        let mut tabs = lock(&self.0);
        let place = tabs.iter().position(|(known, _)| known == tab);
        let last = place.and_then(|place| tabs.remove(place));
        let newest = last.map_or(number, |(_, last)| last.max(number));
        tabs.push_back((tab.to_owned(), newest));
        if tabs.len() > MOST_TABS {
            tabs.pop_front();
        }
        newest == number
    }

    /// Whether a question is still the newest of its tab.
    fn is(&self, tab: &str, number: u64) -> bool {
        let tabs = lock(&self.0);
        tabs.iter()
            .any(|(known, last)| known == tab && *last == number)
    }
}

/// A question and the way back of its answer. Where it is dropped, whoever waits hears that there will be none.
#[derive(Debug)]
struct Ask<Q, A> {
    tab: String,
    number: u64,
    question: Q,
    answer: oneshot::Sender<A>,
}

/// Questions that wait for one thread: one of each tab at most.
#[derive(Debug)]
pub struct Lane<Q, A> {
    newest: Arc<Newest>,
    waiting: Mutex<Waiting<Q, A>>,
    wake: Condvar,
}

#[derive(Debug)]
struct Waiting<Q, A> {
    asks: VecDeque<Ask<Q, A>>,
    is_closed: bool,
}

impl<Q, A> Lane<Q, A> {
    /// An empty lane; lanes that share `newest` drop each other's older questions.
    pub fn new(newest: Arc<Newest>) -> Self {
        Self {
            newest,
            waiting: Mutex::new(Waiting {
                asks: VecDeque::new(),
                is_closed: false,
            }),
            wake: Condvar::new(),
        }
    }

    /// Puts a question in the place of the older one of its tab. The answer never comes where a newer question is known
    /// already, where one comes before this one's turn, and where the lane closes.
    pub fn ask(&self, tab: &str, number: u64, question: Q) -> oneshot::Receiver<A> {
        let (answer, receiver) = oneshot::channel();
        let mut waiting = lock(&self.waiting);
        if self.newest.note(tab, number) && !waiting.is_closed {
            waiting.asks.retain(|ask| ask.tab != tab);
            waiting.asks.push_back(Ask {
                tab: tab.to_owned(),
                number,
                question,
                answer,
            });
            self.wake.notify_one();
        }
        receiver
    }

    /// Answers one question after the other until the lane closes.
    pub fn serve(&self, answer: impl Fn(Q) -> A) {
        while let Some(ask) = self.next() {
            if self.newest.is(&ask.tab, ask.number) && !ask.answer.is_closed() {
                // A question that breaks off is told of on the terminal and has no answer; those after it have theirs.
                let answered = catch_unwind(AssertUnwindSafe(|| answer(ask.question)));
                if let Ok(answered) = answered {
                    // Whoever asked may have gone.
                    let _ = ask.answer.send(answered);
                }
            }
        }
    }

    fn next(&self) -> Option<Ask<Q, A>> {
        let mut waiting = lock(&self.waiting);
        loop {
            if waiting.is_closed {
                return None;
            }
            if let Some(ask) = waiting.asks.pop_front() {
                return Some(ask);
            }
            waiting = self
                .wake
                .wait(waiting)
                .unwrap_or_else(PoisonError::into_inner);
        }
    }

    /// Ends the lane: what waits in it is dropped.
    pub fn close(&self) {
        let mut waiting = lock(&self.waiting);
        waiting.is_closed = true;
        waiting.asks.clear();
        self.wake.notify_all();
    }
}

/// Locks; what a thread that panicked left behind is whole, since nothing is written in two steps.
pub fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may stop
mod tests {
    use tokio::sync::oneshot::error::TryRecvError;

    use super::*;

    #[test]
    fn only_the_newest_of_a_tab_is_answered() {
        let lane: Lane<u64, u64> = Lane::new(Arc::default());
        let mut asked: Vec<_> = (1..=50)
            .map(|number| lane.ask("a", number, number))
            .collect();
        let mut other = lane.ask("b", 7, 100);
        let mut late = lane.ask("a", 20, 20);
        std::thread::scope(|scope| {
            let server = scope.spawn(|| lane.serve(|question| 2 * question));
            while other.is_empty() {
                std::thread::yield_now();
            }
            lane.close();
            server.join().unwrap();
        });
        let last = asked.pop().unwrap().try_recv();
        assert_eq!(last, Ok(100));
        assert_eq!(other.try_recv(), Ok(200));
        assert!(late.try_recv().is_err(), "older than one that was asked");
        assert!(asked.iter_mut().all(|ask| ask.try_recv().is_err()));
    }

    #[test]
    fn a_question_that_breaks_off_takes_none_with_it() {
        let lane = Lane::<u64, u64>::new(Arc::<Newest>::default());
        let mut broken = lane.ask("a", 1, 0);
        let mut sound = lane.ask("b", 1, 2);
        let answer = std::thread::scope(|scope| {
            scope.spawn(|| lane.serve(|question| 4_u64.checked_div(question).unwrap()));
            let answer = loop {
                match sound.try_recv() {
                    Err(TryRecvError::Empty) => std::thread::yield_now(),
                    answer => break answer,
                }
            };
            lane.close();
            answer
        });
        assert_eq!(answer, Ok(2));
        assert_eq!(broken.try_recv(), Err(TryRecvError::Closed));
    }

    #[test]
    fn lanes_drop_each_others_older_questions() {
        let newest = Arc::<Newest>::default();
        let [quick, full] = [(); 2].map(|()| Lane::<u64, u64>::new(Arc::clone(&newest)));
        let mut old = full.ask("a", 1, 1);
        let mut new = quick.ask("a", 2, 2);
        for lane in [&quick, &full] {
            std::thread::scope(|scope| {
                scope.spawn(|| lane.serve(|question| question));
                std::thread::sleep(std::time::Duration::from_millis(20));
                lane.close();
            });
        }
        assert!(old.try_recv().is_err());
        assert_eq!(new.try_recv(), Ok(2));
        assert!(quick.ask("a", 3, 3).try_recv().is_err(), "closed");
    }
}
