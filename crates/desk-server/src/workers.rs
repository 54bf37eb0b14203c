//! The threads that answers are made on.

use std::sync::Arc;
use std::thread::available_parallelism;
use std::time::Duration;

use axum::response::Response;
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::task::spawn_blocking;
use tokio::time::timeout;

use crate::refused::{busy, mistake};

/// How many threads there are for answers, on any machine.
pub(crate) const MOST_AT_WORK: usize = 64;

/// How many slow answers are made at once.
const MOST_SLOW: usize = 2;

/// How long an answer may take, with the wait for its turn.
const PATIENCE: Duration = Duration::from_secs(10);

/// What answers are made by: as many at once as the machine has processors, and a few slow ones beside them.
#[derive(Clone, Debug)]
pub(crate) struct Workers {
    quick: Arc<Semaphore>,
    slow: Arc<Semaphore>,
    /// How long an answer may take, with the wait for its turn.
    patience: Duration,
}

impl Workers {
    /// Those that suit this machine.
    pub(crate) fn new() -> Self {
        let processors = available_parallelism().map_or(1, usize::from).max(2);
        Self {
            quick: Arc::new(Semaphore::new(processors.min(MOST_AT_WORK - MOST_SLOW))),
            slow: Arc::new(Semaphore::new(MOST_SLOW)),
            patience: PATIENCE,
        }
    }

    /// Makes an answer as soon as it is its turn.
    ///
    /// # Errors
    ///
    /// The refusal: it takes too long, or the work panicked.
    pub(crate) async fn quick<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Result<T, Response> {
        let turn = Arc::clone(&self.quick).acquire_owned();
        self.in_time(async {
            match turn.await {
                Ok(turn) => done(turn, work).await,
                Err(_) => Err(mistake()),
            }
        })
        .await
    }

    /// Makes an answer that takes long, unless as many of those are being made as may be.
    ///
    /// # Errors
    ///
    /// The refusal: there are too many, or it takes too long, or the work panicked.
    pub(crate) async fn slow<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Result<T, Response> {
        match Arc::clone(&self.slow).try_acquire_owned() {
            Ok(turn) => self.in_time(done(turn, work)).await,
            Err(_) => Err(busy("other files are being made; ask again in a few seconds")),
        }
    }

    async fn in_time<T>(&self, answer: impl Future<Output = Result<T, Response>>) -> Result<T, Response> {
        match timeout(self.patience, answer).await {
            Ok(answer) => answer,
            Err(_) => Err(busy("the answer takes too long; ask again, or for less")),
        }
    }
}

/// Work that is done while its turn lasts, even if nobody waits for it any more.
async fn done<T: Send + 'static>(
    turn: OwnedSemaphorePermit,
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, Response> {
    let worked = spawn_blocking(move || {
        let answer = work();
        drop(turn);
        answer
    });
    worked.await.map_err(|_| mistake())
}

#[cfg(test)]
mod tests {
    use std::sync::mpsc::channel;

    use tokio::runtime::Runtime;

    use super::*;

    fn panics() -> u8 {
        panic!("as a test wants it")
    }

    #[test]
    fn a_panic_is_one_refusal_and_takes_nothing_down() {
        let runtime = Runtime::new().expect("the system has threads");
        let workers = Workers::new();
        runtime.block_on(async {
            for _ in 0..100 {
                let refused = workers.quick(panics).await.expect_err("it panicked");
                assert_eq!(refused.status(), 500);
                let refused = workers.slow(panics).await.expect_err("it panicked");
                assert_eq!(refused.status(), 500);
            }
            assert_eq!(workers.quick(|| 7).await.expect("it goes on"), 7);
            assert_eq!(workers.slow(|| 7).await.expect("it goes on"), 7);
        });
    }

    #[test]
    fn an_answer_that_takes_too_long_is_not_waited_for_and_keeps_its_place_until_it_is_done() {
        let runtime = Runtime::new().expect("the system has threads");
        let workers = Workers { patience: Duration::from_millis(20), ..Workers::new() };
        runtime.block_on(async {
            let (release, wait) = channel::<()>();
            let work = move || wait.recv().expect("it is released");
            let refused = workers.slow(work).await.expect_err("it waits for ever");
            assert_eq!(refused.status(), 503);
            assert!(refused.headers().contains_key("retry-after"));
            assert_eq!(workers.slow.available_permits(), MOST_SLOW - 1);
            release.send(()).expect("it waits");
            while workers.slow.available_permits() < MOST_SLOW {
                tokio::task::yield_now().await;
            }
        });
    }

    #[test]
    fn past_two_slow_answers_the_next_is_told_to_come_later_and_quick_ones_go_on() {
        let runtime = Runtime::new().expect("the system has threads");
        let workers = Workers::new();
        runtime.block_on(async {
            let mut waiting = Vec::new();
            for _ in 0..MOST_SLOW {
                let (release, wait) = channel::<()>();
                let workers = workers.clone();
                let (begun, has_begun) = tokio::sync::oneshot::channel();
                let answer = tokio::spawn(async move {
                    let work = move || {
                        begun.send(()).expect("it is waited for");
                        wait.recv().expect("it is released")
                    };
                    workers.slow(work).await
                });
                has_begun.await.expect("it begins");
                waiting.push((release, answer));
            }
            let refused = workers.slow(|| ()).await.expect_err("two are being made");
            assert_eq!(refused.status(), 503);
            assert!(refused.headers().contains_key("retry-after"));
            workers.quick(|| ()).await.expect("it is not slow");
            for (release, answer) in waiting {
                release.send(()).expect("it waits");
                answer.await.expect("it ran").expect("it was answered");
            }
            workers.slow(|| ()).await.expect("there is room again");
        });
    }
}
