//! Whether a welder's range covers a job.

use super::{
    Layers, Sensing, WelderBacking, WelderJob, WelderLimit, WelderRange, WelderVariable,
    pack::JobWhen,
};
use crate::{
    qualify::{
        Allowed, Interval, Missing, Whose,
        pack::PerSystem,
        record::{ProductForm, Transfer},
    },
    quantity::{Amount, Kind, OutsideDiameterKind, UnitSystem, compare},
    trade::{Coded, Confidence, JointKind, Position, coded},
};

coded! {
    /// How a job lies to one limit of a welder's range.
    pub enum WelderRuling: "ruling" {
        /// Inside.
        Within = "within",
        /// A fact is missing.
        NotJudged = "not-judged",
        /// Outside.
        Outside = "outside",
    }
}

/// What one limit says about a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WelderFinding {
    /// Id of the rule.
    pub rule: String,
    /// Clause.
    pub clause: String,
    /// Variable.
    pub variable: WelderVariable,
    /// How well the rule was confirmed.
    pub confidence: Confidence,
    /// How the job lies to the limit.
    pub ruling: WelderRuling,
    /// What the job states, in words; empty where nothing.
    pub given: String,
    /// What is allowed, in words.
    pub allowed: String,
    /// What is missing, where it could not be judged.
    pub missing: Option<Missing>,
}

/// What a range says about a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WelderJudgement {
    /// One finding for each limit that concerns the job.
    pub findings: Vec<WelderFinding>,
}

impl WelderJudgement {
    /// The worst of all findings; a range without any limit judges nothing.
    #[must_use]
    pub fn ruling(&self) -> WelderRuling {
        let worst = self.findings.iter().map(|finding| finding.ruling).max();
        worst.unwrap_or(WelderRuling::NotJudged)
    }

    /// Findings with this ruling.
    pub fn with(&self, ruling: WelderRuling) -> impl Iterator<Item = &WelderFinding> {
        self.findings.iter().filter(move |finding| finding.ruling == ruling)
    }
}

type Ruled = Result<WelderRuling, Missing>;

impl WelderRange {
    /// Lays a job beside every limit that concerns it.
    #[must_use]
    pub fn judge(&self, job: &WelderJob) -> WelderJudgement {
        let finding = |limit: &WelderLimit| {
            let only_if = limit.job.concerns(job, self.system)?;
            let ruled = match self.ruled(limit, job) {
                // Outside a limit that may not apply is not outside.
                Ok(WelderRuling::Outside) => match limit.only_if.iter().chain(&only_if).next() {
                    Some(missing) => Err(missing.clone()),
                    None => Ok(WelderRuling::Outside),
                },
                other => other,
            };
            let (ruling, missing) = match ruled {
                Ok(ruling) => (ruling, None),
                Err(missing) => (WelderRuling::NotJudged, Some(missing)),
            };
            Some(WelderFinding {
                rule: limit.rule.clone(),
                clause: limit.clause.clone(),
                variable: limit.variable,
                confidence: limit.confidence,
                ruling,
                given: given(limit.variable, job),
                allowed: limit.allowed.to_string(),
                missing,
            })
        };
        WelderJudgement { findings: self.limits.iter().filter_map(finding).collect() }
    }

    fn ruled(&self, limit: &WelderLimit, job: &WelderJob) -> Ruled {
        let not_stated = || Missing::new(Whose::Job, limit.variable.to_string());
        match &limit.allowed {
            Allowed::Interval(interval) => {
                let sizes = job.sizes(limit.variable);
                if sizes.is_empty() {
                    return Err(not_stated());
                }
                let inside = sizes.iter().all(|size| contains(interval, *size));
                Ok(if inside { WelderRuling::Within } else { WelderRuling::Outside })
            }
            Allowed::Words(allowed) if limit.variable == WelderVariable::Position => {
                self.position(allowed, job)
            }
            Allowed::Words(allowed) => {
                let words = job.words(limit.variable);
                if !words.is_empty() {
                    all_or_none(allowed, &words)
                } else if is_everything(limit.variable, allowed) {
                    Ok(WelderRuling::Within)
                } else {
                    Err(not_stated())
                }
            }
            Allowed::Unknown(missing) => Err(missing.clone()),
            other => Err(Missing::new(Whose::Pack, format!("a reading of: {other}"))),
        }
    }

    fn position(&self, allowed: &[String], job: &WelderJob) -> Ruled {
        if job.positions.is_empty() {
            return Err(Missing::new(Whose::Job, "the welding position"));
        }
        if !self.us_position_letters {
            return all_or_none(allowed, &job.words(WelderVariable::Position));
        }
        let weld = job.weld.ok_or_else(|| Missing::new(Whose::Job, "butt or fillet"))?;
        let mut rulings = Vec::new();
        for position in &job.positions {
            let letters = letters(*position, weld).ok_or_else(|| {
                Missing::new(Whose::Pack, format!("a US letter for {position} of a {weld} weld"))
            })?;
            rulings.push(letters.iter().all(|letter| allowed.iter().any(|one| one == letter)));
        }
        settled(&rulings)
    }
}

/// Whether every word that the variable can have is allowed, so that none has to be stated.
fn is_everything(variable: WelderVariable, allowed: &[String]) -> bool {
    fn all<T: Coded>(allowed: &[String]) -> bool {
        T::ALL.iter().all(|(_, code)| allowed.iter().any(|one| one == code))
    }
    match variable {
        WelderVariable::Transfer => all::<Transfer>(allowed),
        WelderVariable::Weld => all::<JointKind>(allowed),
        WelderVariable::Backing => all::<WelderBacking>(allowed),
        WelderVariable::Layers => all::<Layers>(allowed),
        WelderVariable::Sensing => all::<Sensing>(allowed),
        _ => false,
    }
}

/// All inside is inside, none is outside; where a claim can mean both, nobody knows.
fn settled(inside: &[bool]) -> Ruled {
    match (inside.iter().all(|one| *one), inside.iter().any(|one| *one)) {
        (true, _) => Ok(WelderRuling::Within),
        (_, false) => Ok(WelderRuling::Outside),
        _ => Err(Missing::new(Whose::Job, "which of the positions that it can mean")),
    }
}

fn all_or_none(allowed: &[String], words: &[String]) -> Ruled {
    settled(&words.iter().map(|word| allowed.contains(word)).collect::<Vec<_>>())
}

fn contains(interval: &Interval, size: Amount) -> bool {
    let at_least = interval.min.is_none_or(|min| {
        size.compare(min.amount).is_some_and(|order| order.is_gt() || min.included && order.is_eq())
    });
    let at_most = interval.max.is_none_or(|max| {
        size.compare(max.amount).is_some_and(|order| order.is_lt() || max.included && order.is_eq())
    });
    at_least && at_most
}

fn given(variable: WelderVariable, job: &WelderJob) -> String {
    let words = job.words(variable);
    let sizes = job.sizes(variable);
    words.into_iter().chain(sizes.iter().map(ToString::to_string)).collect::<Vec<_>>().join(", ")
}

/// US letters that a welder needs for an ISO position; a fixed pipe needs several. `None` where the trade
/// pairs none with it (PB and PD are fillet positions, PC and PE those of butts).
const fn letters(position: Position, weld: JointKind) -> Option<&'static [&'static str]> {
    Some(match (position, weld) {
        (Position::Pa, _) => &["F"],
        (Position::Pc, JointKind::Butt) | (Position::Pb, JointKind::Fillet) => &["H"],
        (Position::Pe, JointKind::Butt) | (Position::Pd, JointKind::Fillet) => &["O"],
        (Position::Pf | Position::Pg, _) => &["V"],
        (Position::Ph | Position::Pj | Position::Pk, _) => &["F", "V", "O"],
        (Position::HL045 | Position::JL045, _) => &["F", "H", "V", "O"],
        _ => return None,
    })
}

impl JobWhen {
    /// Whether the limit concerns the job: `None` where it does not, else the facts that this hangs on.
    fn concerns(&self, job: &WelderJob, system: UnitSystem) -> Option<Vec<Missing>> {
        let small = |size: Option<&PerSystem<f64>>| {
            size.map(|size| is_pipe_up_to(job, size.of(system).copied(), system))
        };
        let answers = [
            (among(&self.welds, job.weld), "butt or fillet"),
            (among(&self.products, job.product), "plate or pipe"),
            (among(&self.backings, job.backing), "the backing"),
            (positions(&self.positions, job), "the welding position"),
            (not(positions_if_any(&self.not_positions, job)), "the welding position"),
            (
                self.rotating.map_or(Some(true), |turned| Some(job.rotating? == turned)),
                "whether the pipe is turned",
            ),
            (small(self.pipe_up_to.as_ref()).unwrap_or(Some(true)), "the outside diameter"),
            (
                not(small(self.not_pipe_up_to.as_ref()).unwrap_or(Some(false))),
                "plate or pipe, and the outside diameter",
            ),
        ];
        let mut hangs_on = Vec::new();
        for (answer, fact) in answers {
            match answer {
                Some(true) => {}
                Some(false) => return None,
                None => hangs_on.push(Missing::new(Whose::Job, fact)),
            }
        }
        Some(hangs_on)
    }
}

const fn not(answer: Option<bool>) -> Option<bool> {
    match answer {
        Some(answer) => Some(!answer),
        None => None,
    }
}

/// Whether a fact is in a list; an empty list asks nothing.
fn among<T: Coded>(list: &[T], value: Option<T>) -> Option<bool> {
    if list.is_empty() { Some(true) } else { value.map(|value| list.contains(&value)) }
}

fn positions(list: &[Position], job: &WelderJob) -> Option<bool> {
    if list.is_empty() { Some(true) } else { positions_if_any(list, job) }
}

/// Whether the job's positions are in the list: `None` where none is stated or only some are; none of them
/// are in an empty list.
fn positions_if_any(list: &[Position], job: &WelderJob) -> Option<bool> {
    if list.is_empty() {
        return Some(false);
    }
    let inside = |position: &Position| list.contains(position);
    match job.positions.as_slice() {
        [] => None,
        stated if stated.iter().all(inside) => Some(true),
        stated if !stated.iter().any(inside) => Some(false),
        _ => None,
    }
}

/// Whether the job is a pipe of at most this diameter.
fn is_pipe_up_to(job: &WelderJob, size: Option<f64>, system: UnitSystem) -> Option<bool> {
    match job.product? {
        ProductForm::Pipe => {
            let unit = OutsideDiameterKind::INFO.answer_unit(system);
            let number = unit.number(job.outside_diameter?.canonical());
            Some(compare(number, size?, 0.0).is_le())
        }
        _ => Some(false),
    }
}
