//! From records and a pack to boxes of limits.

mod allow;
mod apply;
mod combine;
mod gas;
mod metals;
mod numbers;
mod results;
mod words;

pub(super) use apply::{Applies, all_of};

use self::allow::allow;
use super::{
    JobFacts, Pack, PackRoute, PieceReference, QualifiedBox, QualifiedRange, RunBox, VariableClass,
    facts::{Fact, piece_fact, processes_of, recorded_process, recorded_run},
    pack::{Per, Rule},
    range::{Allowed, Limit, Missing, Whose},
    record::{Deposit, Record, Run, TestLevel, TestPiece},
    variable::{Home, QualifiedVariable},
};
use crate::{
    quantity::UnitSystem,
    trade::{CodeEdition, Process},
};

/// A record that a pack does not speak about.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum WrongPack {
    /// Another code or edition. An old record keeps the rules of its own edition.
    #[error("record {record} was made by {made_by}; the rules are those of {rules}")]
    Edition {
        /// Number of the record.
        record: String,
        /// Code and edition of the record.
        made_by: CodeEdition,
        /// Code and edition of the pack.
        rules: CodeEdition,
    },
    /// Rules that judge no record, or that judge by records only.
    #[error("{rules} are rules of the {route} route")]
    Route {
        /// Key of the pack.
        rules: String,
        /// Its route.
        route: PackRoute,
    },
    /// A level that does not serve the pack's.
    #[error(
        "record {record} was tested to {}; the rules are those of level {needed}",
        tested.map_or_else(|| "a level it does not state".to_owned(), |level| format!("level {level}"))
    )]
    Level {
        /// Number of the record.
        record: String,
        /// Level of the record.
        tested: Option<TestLevel>,
        /// Level of the pack.
        needed: TestLevel,
    },
}

/// What a record qualifies by the rules of a pack, for a job. One box per test piece, and one more for
/// each two pieces whose tests the code combines.
///
/// # Errors
/// [`WrongPack`] where the record is of another code, edition or level.
pub fn derive(record: &Record, pack: &Pack, job: &JobFacts) -> Result<QualifiedRange, WrongPack> {
    derive_all(&[record], pack, job)
}

/// What several records qualify together: the union of their boxes, and what the code lets two tests
/// qualify together. Never the envelope of their limits.
///
/// # Errors
/// As [`derive()`].
pub fn derive_all(
    records: &[&Record],
    pack: &Pack,
    job: &JobFacts,
) -> Result<QualifiedRange, WrongPack> {
    of_route(pack, PackRoute::Tested)?;
    let mut welded = Vec::new();
    for record in records {
        fitting(record, pack)?;
        welded.extend(record.pieces.iter().map(|piece| Welded { record, piece }));
    }
    let own = |welded: &Welded<'_>| {
        let (record, piece) = (welded.record, welded.piece);
        let pieces =
            vec![PieceReference { record: record.number.clone(), piece: piece.mark.clone() }];
        one_box(pieces, piece, record.units, pack, job)
    };
    let mut boxes: Vec<_> = welded.iter().map(own).collect();
    let combined = combine::pairs(&welded, &boxes, pack, job);
    boxes.extend(combined);
    Ok(range_of(pack, boxes))
}

/// The limits of a pack of fixed limits for these processes, in one box: no test piece stands behind it.
/// `columns` is the system of units whose printed figures hold; a code with one system has only those.
///
/// # Errors
/// [`WrongPack::Route`] where the pack judges by records.
pub fn without_test(
    pack: &Pack,
    processes: &[Process],
    columns: UnitSystem,
    job: &JobFacts,
) -> Result<QualifiedRange, WrongPack> {
    of_route(pack, PackRoute::Prequalified)?;
    let deposit = |process: &Process| Deposit { process: *process, thickness: None };
    let unwelded =
        TestPiece { deposits: processes.iter().map(deposit).collect(), ..TestPiece::default() };
    Ok(range_of(pack, vec![one_box(Vec::new(), &unwelded, columns, pack, job)]))
}

fn of_route(pack: &Pack, wanted: PackRoute) -> Result<(), WrongPack> {
    if pack.route == wanted {
        return Ok(());
    }
    Err(WrongPack::Route { rules: pack.key.clone(), route: pack.route })
}

fn range_of(pack: &Pack, boxes: Vec<QualifiedBox>) -> QualifiedRange {
    QualifiedRange {
        pack: pack.key.clone(),
        code: pack.code.clone(),
        level: pack.level,
        boxes,
        open: pack.open.clone(),
    }
}

/// Level 2 serves level 1 as well (ISO 15614-1:2017, introduction).
fn fitting(record: &Record, pack: &Pack) -> Result<(), WrongPack> {
    if record.code != pack.code {
        return Err(WrongPack::Edition {
            record: record.number.clone(),
            made_by: record.code.clone(),
            rules: pack.code.clone(),
        });
    }
    match pack.level {
        Some(needed) if record.level.is_none_or(|tested| tested < needed) => {
            Err(WrongPack::Level { record: record.number.clone(), tested: record.level, needed })
        }
        _ => Ok(()),
    }
}

/// A piece with its record.
#[derive(Clone, Copy)]
struct Welded<'a> {
    record: &'a Record,
    piece: &'a TestPiece,
}

/// What a rule looks at: the piece, and of it a process or a run.
#[derive(Clone, Copy)]
struct Scene<'a> {
    piece: &'a TestPiece,
    process: Option<Process>,
    run: Option<&'a Run>,
    job: &'a JobFacts,
    system: UnitSystem,
}

impl Scene<'_> {
    fn fact(&self, variable: QualifiedVariable) -> Option<Fact> {
        match (variable.home(), self.process, self.run) {
            (Home::Piece, ..) => piece_fact(self.piece, variable),
            (Home::Run, _, Some(run)) => recorded_run(run, variable),
            (Home::Process | Home::Run, Some(process), _) => {
                recorded_process(self.piece, process, variable)
            }
            (Home::Process | Home::Run, None, _) => None,
        }
    }
}

fn one_box(
    pieces: Vec<PieceReference>,
    piece: &TestPiece,
    own: UnitSystem,
    pack: &Pack,
    job: &JobFacts,
) -> QualifiedBox {
    // A code with one system of units is judged in it, whatever the record was typed in.
    let system = if pack.systems.contains(&own) { own } else { pack.systems[0] };
    let scene = Scene { piece, process: None, run: None, job, system };
    let processes = processes_of(piece);
    let strange = processes.iter().find(|process| !pack.processes.contains(process));
    let mut limits = Vec::new();
    for rule in &pack.rules {
        match rule.per {
            Per::TestPiece | Per::Part => {
                limits.extend(limit(rule, scene).map(|own| known_process(own, strange)));
            }
            Per::Process => {
                let each =
                    processes.iter().map(|process| Scene { process: Some(*process), ..scene });
                limits.extend(each.filter_map(|scene| limit(rule, scene)));
            }
            Per::Run | Per::FillerDiameter | Per::RunClass => {}
        }
    }
    let runs = vec![run_boxes(pack, scene)];
    QualifiedBox { pieces, limits, runs, alike: pack.alike_processes() }
}

/// No process passes that the pack has no rules for.
fn known_process(mut limit: Limit, strange: Option<&Process>) -> Limit {
    use QualifiedVariable::{Process as One, ProcessSequence as Sequence};
    if let (One | Sequence, Some(process)) = (limit.variable, strange) {
        let missing = Missing::new(Whose::Pack, format!("rules for process {process}"));
        limit.working = missing.to_string();
        limit.allowed = Allowed::Unknown(missing);
    }
    limit
}

/// One box per run; a process without runs has one that knows nothing. Runs with the same limits share one.
fn run_boxes(pack: &Pack, scene: Scene<'_>) -> Vec<RunBox> {
    let has = |per: Per| pack.rules.iter().any(|rule| rule.per == per);
    let (by_diameter, by_class) = (has(Per::FillerDiameter), has(Per::RunClass));
    let mut boxes: Vec<RunBox> = Vec::new();
    let welded = |process: &Process| scene.piece.runs.iter().any(|run| run.process == *process);
    let unknown = processes_of(scene.piece).into_iter().filter(|process| !welded(process));
    let unknown: Vec<_> = unknown.map(|process| Run::new(0, process)).collect();
    for run in scene.piece.runs.iter().chain(&unknown) {
        let scene = Scene { process: Some(run.process), run: Some(run), ..scene };
        let per_run =
            |rule: &&Rule| matches!(rule.per, Per::Run | Per::FillerDiameter | Per::RunClass);
        let limits: Vec<_> =
            pack.rules.iter().filter(per_run).filter_map(|rule| limit(rule, scene)).collect();
        let diameter = run.filler.as_ref().and_then(|filler| filler.diameter);
        let new = RunBox {
            process: run.process,
            runs: vec![run.number],
            diameter: diameter.filter(|_| by_diameter),
            class: run.class.filter(|_| by_class),
            limits,
        };
        let same = |known: &&mut RunBox| {
            known.process == new.process
                && known.diameter == new.diameter
                && known.class == new.class
                && known.limits == new.limits
        };
        match boxes.iter_mut().find(same) {
            Some(known) => known.runs.push(run.number),
            None => boxes.push(new),
        }
    }
    boxes
}

/// The limit of a rule; `None` where the rule does not apply.
fn limit(rule: &Rule, scene: Scene<'_>) -> Option<Limit> {
    let mut only_if = match apply::applies(&rule.when, scene) {
        Applies::No => return None,
        Applies::Yes => Vec::new(),
        Applies::If(missing) => missing,
    };
    // Supplementary variables count only where impact tests are required.
    if rule.class == VariableClass::Supplementary && rule.when.impact.is_none() {
        match apply::impact(scene.job) {
            Applies::No => return None,
            Applies::Yes => {}
            Applies::If(missing) => only_if.extend(missing),
        }
    }
    let found = allow(rule, scene);
    let process = scene.process.map(|process| format!("{process}: ")).unwrap_or_default();
    let from = found.from.map(|from| format!(" {from}")).unwrap_or_default();
    let working = match &found.allowed {
        Allowed::Unknown(missing) => format!("{process}{missing}"),
        allowed => format!("{process}{}{from}: {allowed}", rule.variable.label()),
    };
    Some(Limit {
        rule: rule.id.clone(),
        clause: rule.clause.clone(),
        variable: rule.variable,
        class: rule.class,
        confidence: found.confidence.unwrap_or(rule.confidence),
        process: scene.process,
        allowed: found.allowed,
        working,
        note: rule.note.clone(),
        only_if,
        beyond: found.beyond,
        one_of: rule.one_of.clone(),
        when: rule.when.clone(),
        per: rule.per,
    })
}
