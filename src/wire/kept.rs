//! What a thread keeps of its work because it is needed again.

/// What most is kept at once: answers have few forms, and one that is asked for once shall not stay for ever.
const MOST: usize = 32;

/// Things of one kind, each made where it is not there yet. Every thread has its own, so that none waits for
/// another.
#[derive(Debug)]
pub struct Kept<T> {
    all: Vec<T>,
    /// The one that was asked for last, and mostly is the next time.
    last: usize,
}

impl<T> Kept<T> {
    /// Keeps nothing yet.
    #[must_use]
    pub const fn none() -> Self {
        Self { all: Vec::new(), last: 0 }
    }

    /// The one that fits, made where none does.
    ///
    /// # Errors
    /// Where it cannot be made.
    pub fn fitting<E>(
        &mut self,
        fits: impl Fn(&T) -> bool,
        make: impl FnOnce() -> Result<T, E>,
    ) -> Result<&T, E> {
        if !self.all.get(self.last).is_some_and(&fits) {
            self.last = match self.all.iter().position(fits) {
                Some(at) => at,
                None => self.add(make()?),
            };
        }
        Ok(&self.all[self.last])
    }

    fn add(&mut self, made: T) -> usize {
        if self.all.len() == MOST {
            self.all.clear();
        }
        self.all.push(made);
        self.all.len() - 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_is_made_once_and_not_all_are_kept_for_ever() {
        let (mut kept, mut asked) = (Kept::none(), Vec::new());
        let mut ask = |number: usize| {
            let make = || {
                asked.push(number);
                Ok::<_, ()>(number)
            };
            assert_eq!(kept.fitting(|one| *one == number, make), Ok(&number));
        };
        [1, 1, 2, 1, 2, 2].into_iter().for_each(&mut ask);
        (3..=MOST + 1).for_each(&mut ask);
        ask(1);
        let expected: Vec<_> = (1..=MOST + 1).chain([1]).collect();
        assert_eq!(asked, expected);
    }

    #[test]
    fn what_cannot_be_made_is_not_kept() {
        let mut kept = Kept::none();
        assert_eq!(kept.fitting(|_| true, || Err("no")), Err("no"));
        assert_eq!(kept.fitting(|_| true, || Ok::<_, ()>(7)), Ok(&7));
    }
}
