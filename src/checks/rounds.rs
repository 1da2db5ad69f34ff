//! Checks that are asked at the same moment are judged together.
//!
//! The code of one check is more than a processor keeps at hand, so a check on its own fetches most of it anew.
//! Checks that wait together take each step side by side, and its code is fetched once for all of them. A check
//! that comes alone waits for nobody: it is judged where it is asked, for to hand it over and wake somebody takes
//! longer than to judge it.

use std::{
    num::NonZero,
    panic::{AssertUnwindSafe, catch_unwind},
    sync::{
        Arc,
        atomic::{AtomicUsize, Ordering},
    },
    thread::available_parallelism,
};

use tokio::{
    sync::{mpsc, oneshot},
    task::yield_now,
};

use super::{
    answer_out::CheckAnswer,
    answering::{answer, written},
    question::{Question, QuestionQuery},
};
use crate::{
    access::Caller,
    http::{JsonText, problem::Problem},
    rulebook::Rulebooks,
};

/// Checks judged together at most: more would crowd out of the processor's memory what they share.
const TOGETHER: usize = 16;

/// A check that is asked.
#[derive(Clone)]
pub(super) struct Asked {
    /// Whoever asks, with the rulebook that the check is held to.
    pub(super) caller: Caller,
    pub(super) query: QuestionQuery,
    pub(super) text: JsonText,
}

/// What became of it.
pub(super) enum Done {
    /// The answer as JSON text.
    Answered(Vec<u8>),
    /// It asks to be kept; it is read, and not judged yet.
    ToKeep(Asked, Question),
}

/// A check that was read, on its way.
enum Read {
    Judged(Box<CheckAnswer>),
    ToKeep(Question),
}

type Outcome<T> = Result<T, Problem>;
type Waiting = (Asked, oneshot::Sender<Outcome<Done>>);

/// Where checks are asked. There is a lane for each processor; while one judges, the next one gathers.
#[derive(Debug)]
pub struct Rounds {
    rulebooks: Arc<Rulebooks>,
    lanes: Vec<mpsc::UnboundedSender<Waiting>>,
    turns: Arc<Turns>,
    /// Checks that are asked and not answered.
    under_way: AtomicUsize,
}

/// One check under way, until it is answered or its caller hangs up.
struct UnderWay<'r> {
    all: &'r AtomicUsize,
    others: usize,
}

impl<'r> UnderWay<'r> {
    fn with_others(all: &'r AtomicUsize) -> Self {
        Self { all, others: all.fetch_add(1, Ordering::Relaxed) }
    }
}

impl Drop for UnderWay<'_> {
    fn drop(&mut self) {
        self.all.fetch_sub(1, Ordering::Relaxed);
    }
}

/// Which lane gathers: the next one, once a round is full or begins to be judged.
#[derive(Debug)]
struct Turns {
    lanes: usize,
    /// Places given so far; each round has [`TOGETHER`] of them.
    places: AtomicUsize,
}

impl Turns {
    const fn of(lanes: usize) -> Self {
        Self { lanes, places: AtomicUsize::new(0) }
    }

    const fn lane_at(&self, place: usize) -> usize {
        place / TOGETHER % self.lanes
    }

    /// The lane of one more check.
    fn lane(&self) -> usize {
        self.lane_at(self.places.fetch_add(1, Ordering::Relaxed))
    }

    /// A lane judges what it gathered.
    fn begins(&self, lane: usize) {
        let next_round = |place: usize| {
            let gathers = self.lane_at(place) == lane;
            gathers.then(|| (place / TOGETHER + 1).wrapping_mul(TOGETHER))
        };
        // Where another lane gathers already, nothing changes.
        let _ = self.places.fetch_update(Ordering::Relaxed, Ordering::Relaxed, next_round);
    }
}

impl Rounds {
    /// Opens the lanes, each a task of the runtime it is called in; they close when this is dropped.
    #[must_use]
    pub fn open(rulebooks: &Arc<Rulebooks>) -> Self {
        let turns = Arc::new(Turns::of(available_parallelism().map_or(1, NonZero::get)));
        let open = |lane| {
            let (ask, asked) = mpsc::unbounded_channel();
            tokio::spawn(serve(Arc::clone(rulebooks), asked, lane, Arc::clone(&turns)));
            ask
        };
        let lanes = (0..turns.lanes).map(open).collect();
        let rulebooks = Arc::clone(rulebooks);
        Self { rulebooks, lanes, turns, under_way: AtomicUsize::new(0) }
    }

    /// Asks one check.
    pub(super) async fn ask(&self, asked: Asked) -> Outcome<Done> {
        let under_way = UnderWay::with_others(&self.under_way);
        if under_way.others == 0 {
            return alone(&self.rulebooks, asked);
        }
        let closed = || Problem::internal("no check is judged any more");
        let (reply, replied) = oneshot::channel();
        let lane = self.lanes.get(self.turns.lane()).ok_or_else(closed)?;
        lane.send((asked, reply)).map_err(|_| closed())?;
        replied.await.map_err(|_| closed())?
    }
}

/// Judges round after round.
async fn serve(
    rulebooks: Arc<Rulebooks>,
    mut asked: mpsc::UnboundedReceiver<Waiting>,
    lane: usize,
    turns: Arc<Turns>,
) {
    while let Some(first) = asked.recv().await {
        // All who are ready to ask do so meanwhile.
        yield_now().await;
        turns.begins(lane);
        let mut round = Vec::with_capacity(TOGETHER);
        round.push(first);
        while round.len() < TOGETHER
            && let Ok(next) = asked.try_recv()
        {
            round.push(next);
        }
        judge(&rulebooks, round);
    }
}

/// Takes every step with one check.
fn alone(rulebooks: &Rulebooks, asked: Asked) -> Outcome<Done> {
    let read = asked.read(rulebooks, on_its_own(|| asked.question()))?;
    on_its_own(|| read.done(asked))
}

/// Takes every step with all checks of a round before the next one.
fn judge(rulebooks: &Rulebooks, mut round: Vec<Waiting>) {
    // Whoever hung up needs no answer.
    round.retain(|(_, reply)| !reply.is_closed());
    let questions: Vec<_> =
        round.iter().map(|(asked, _)| on_its_own(|| asked.question())).collect();
    let read: Vec<_> = round
        .iter()
        .zip(questions)
        .map(|((asked, _), question)| asked.read(rulebooks, question))
        .collect();
    let done: Vec<_> = round
        .into_iter()
        .zip(read)
        .map(|((asked, reply), read)| {
            (reply, read.and_then(|read| on_its_own(|| read.done(asked))))
        })
        .collect();
    for (reply, done) in done {
        // A caller may hang up at any time.
        let _ = reply.send(done);
    }
}

/// A step that breaks down takes no other check with it.
fn on_its_own<T>(step: impl FnOnce() -> Outcome<T>) -> Outcome<T> {
    catch_unwind(AssertUnwindSafe(step))
        .unwrap_or_else(|_| Err(Problem::internal("a check panicked")))
}

impl Asked {
    fn question(&self) -> Outcome<Question> {
        Question::of_check(&self.caller, Arc::clone(&self.caller.rulebook), self.text.read()?)
    }

    /// A question that was resolved, judged unless it asks to be kept.
    fn read(&self, rulebooks: &Rulebooks, question: Outcome<Question>) -> Outcome<Read> {
        match question? {
            question if question.sent.keep == Some(true) => Ok(Read::ToKeep(question)),
            question => on_its_own(|| self.judged(rulebooks, &question)),
        }
    }

    fn judged(&self, rulebooks: &Rulebooks, question: &Question) -> Outcome<Read> {
        let answer = answer(rulebooks, &self.caller, &self.query, question)?;
        Ok(Read::Judged(Box::new(answer)))
    }
}

impl Read {
    fn done(self, asked: Asked) -> Outcome<Done> {
        match self {
            Self::Judged(answer) => written(&answer).map(Done::Answered),
            Self::ToKeep(question) => Ok(Done::ToKeep(asked, question)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_lane_gathers_once_a_round_is_full_or_begins() {
        let turns = Turns::of(3);
        let lanes = |count: usize| (0..count).map(|_| turns.lane()).collect::<Vec<_>>();
        assert_eq!(lanes(TOGETHER), [0; TOGETHER]);
        assert_eq!(lanes(2), [1, 1]);
        // It was full, and the next one gathers already.
        turns.begins(0);
        assert_eq!(lanes(1), [1]);
        turns.begins(1);
        assert_eq!(lanes(1), [2]);
        turns.begins(2);
        assert_eq!(lanes(1), [0]);
    }

    #[test]
    fn a_check_is_under_way_until_it_is_answered() {
        let all = AtomicUsize::new(0);
        let first = UnderWay::with_others(&all);
        let second = UnderWay::with_others(&all);
        assert_eq!((first.others, second.others), (0, 1));
        drop(first);
        assert_eq!(UnderWay::with_others(&all).others, 1);
        drop(second);
        assert_eq!(UnderWay::with_others(&all).others, 0);
    }

    #[test]
    fn a_step_that_panics_is_an_error_of_its_check_alone() {
        let steps: [fn() -> Outcome<u8>; 3] = [|| Ok(1), || panic!("on purpose"), || Ok(3)];
        let taken = steps.map(|step| on_its_own(step).ok());
        assert_eq!(taken, [Some(1), None, Some(3)]);
    }
}
