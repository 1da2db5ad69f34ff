//! What the judgements of a procedure's proposals come to.

use std::collections::BTreeSet;

use sha2::{Digest, Sha256};

use super::{
    judged::{JudgedAtRelease, NotJudgedClause, RecordJudgedBy, RememberedRule},
    places::pointer,
};
use crate::{
    http::problem::FieldError,
    procedures::ProcedureDocument,
    qualifications::RecordInUse,
    qualify::{Finding, Judgement, Pack, Ruling, Standing, VariableClass},
    trade::{CodeEdition, Coded, Confidence},
};

/// One finding, with what it is about and where the procedure says it.
#[derive(Debug, Clone)]
pub(in crate::procedures) struct Reviewed {
    /// Joint, groups and position.
    pub about: String,
    /// JSON Pointer into the procedure.
    pub pointer: String,
    /// The finding.
    pub finding: Finding,
}

/// A procedure against its qualification records, or against fixed limits.
#[derive(Debug)]
pub(in crate::procedures) struct Review {
    /// The rules.
    pub pack: Pack,
    /// Their revision, where the organisation wrote them.
    pub pack_revision: Option<i32>,
    /// Whether the rules are fixed limits, which need no record.
    pub prequalified: bool,
    /// Records that support nothing, and why.
    pub refused: Vec<FieldError>,
    /// Records that were judged.
    pub records: Vec<RecordJudgedBy>,
    /// The ruling: that of the worst proposal.
    pub ruling: Ruling,
    /// What lies outside and needs a new qualification.
    pub breaches: Vec<Reviewed>,
    /// What lies outside and only has to be stated in the procedure, which it is.
    pub stated_only: Vec<Reviewed>,
    /// What could not be judged.
    pub not_judged: Vec<Reviewed>,
    /// Codes of the procedure that these rules do not speak for.
    pub other_codes: Vec<CodeEdition>,
    /// Test pieces that support a part of it.
    pub pieces: BTreeSet<String>,
    /// Clauses that it is inside of, each once, in the order of the rules.
    pub clauses: Vec<String>,
    /// What is inside limits that were only remembered and that nobody signed.
    pub remembered: Vec<Reviewed>,
    /// Rules that it is inside of and that the organisation signed.
    pub signed_rules: BTreeSet<String>,
}

impl Review {
    pub(super) fn new(
        document: &ProcedureDocument,
        pack: &Pack,
        refused: Vec<FieldError>,
        supporting: &[&RecordInUse],
    ) -> Self {
        let codes = document.codes.iter().map(crate::wire::CodeEditionDocument::compile);
        let record = |own: &&RecordInUse| RecordJudgedBy {
            record: own.number.clone(),
            revision: own.revision,
            document_hash: hex::encode(&own.document_hash),
        };
        let nothing =
            if supporting.is_empty() { Ruling::NeedsNewQualification } else { Ruling::Qualified };
        Self {
            pack: pack.clone(),
            pack_revision: None,
            prequalified: false,
            refused,
            records: supporting.iter().map(record).collect(),
            ruling: nothing,
            breaches: Vec::new(),
            stated_only: Vec::new(),
            not_judged: Vec::new(),
            other_codes: codes.filter(|code| *code != pack.code).collect(),
            pieces: BTreeSet::new(),
            clauses: Vec::new(),
            remembered: Vec::new(),
            signed_rules: BTreeSet::new(),
        }
    }

    /// A procedure that is held to fixed limits, without records.
    pub(super) fn prequalified(document: &ProcedureDocument, pack: &Pack) -> Self {
        let ruling = Ruling::Qualified;
        Self { prequalified: true, ruling, ..Self::new(document, pack, Vec::new(), &[]) }
    }

    /// Takes the judgement of one proposal: of each position its best box.
    pub(super) fn take(
        &mut self,
        document: &ProcedureDocument,
        about: &str,
        judgement: &Judgement,
    ) {
        self.ruling = self.ruling.max(judgement.ruling);
        for position in &judgement.positions {
            let Some(best) = position.boxes.first() else { continue };
            let place = position.position.map(|at| format!(", {at}")).unwrap_or_default();
            let about = format!("{about}{place}");
            let pieces = best.pieces.iter();
            self.pieces.extend(pieces.map(|own| format!("{} piece {}", own.record, own.piece)));
            for finding in &best.findings {
                self.sort(document, &about, finding);
            }
        }
    }

    fn sort(&mut self, document: &ProcedureDocument, about: &str, finding: &Finding) {
        let list = match (&finding.standing, finding.class) {
            (Standing::Inside, class) => {
                if !self.clauses.contains(&finding.clause) {
                    self.clauses.push(finding.clause.clone());
                }
                match finding.confidence {
                    Confidence::Memory if class != VariableClass::Nonessential => {
                        &mut self.remembered
                    }
                    Confidence::PrintChecked => {
                        self.signed_rules.insert(finding.rule.clone());
                        return;
                    }
                    _ => return,
                }
            }
            (Standing::Informative, _) => return,
            (Standing::Outside, VariableClass::Nonessential) => &mut self.stated_only,
            (Standing::Outside, _) => &mut self.breaches,
            (Standing::NotJudged(_), _) => &mut self.not_judged,
        };
        // What several joints, groups, fillers or run classes have in common is said once.
        let pointer = pointer(document, finding.variable, finding.run_class);
        let alike = |own: &Reviewed| {
            own.finding.rule == finding.rule
                && own.finding.standing == finding.standing
                && own.finding.given == finding.given
                && own.pointer == pointer
        };
        if !list.iter().any(alike) {
            list.push(Reviewed { about: about.to_owned(), pointer, finding: finding.clone() });
        }
    }

    /// Why it cannot be released: one entry per breach, each with its clause, and per record that supports
    /// nothing. Empty where it can.
    pub(in crate::procedures) fn refusals(&self) -> Vec<FieldError> {
        let breach = |own: &Reviewed| {
            let finding = &own.finding;
            let given = finding.given.as_deref().unwrap_or("what it says");
            FieldError {
                pointer: own.pointer.clone(),
                detail: format!(
                    "{}, {}: {}, {given} is outside {} ({}; {})",
                    self.pack.code,
                    finding.clause,
                    finding.variable,
                    finding.allowed,
                    finding.working,
                    own.about
                ),
            }
        };
        self.refused.iter().cloned().chain(self.breaches.iter().map(breach)).collect()
    }

    /// What a released revision keeps of it.
    pub(in crate::procedures) fn kept(&self) -> JudgedAtRelease {
        let fact = |own: &Reviewed| match &own.finding.standing {
            Standing::NotJudged(missing) => missing.to_string(),
            _ => String::new(),
        };
        let mut not_judged: Vec<NotJudgedClause> = Vec::new();
        let open = self
            .not_judged
            .iter()
            .map(|own| NotJudgedClause { clause: own.finding.clause.clone(), missing: fact(own) });
        let codes = self.other_codes.iter().map(|code| NotJudgedClause {
            clause: code.to_string(),
            missing: "no record judged by its rules".to_owned(),
        });
        for one in open.chain(codes) {
            if !not_judged.contains(&one) {
                not_judged.push(one);
            }
        }
        let mut remembered: Vec<RememberedRule> = Vec::new();
        for own in &self.remembered {
            let (rule, clause) = (own.finding.rule.clone(), own.finding.clause.clone());
            if !remembered.iter().any(|known| known.rule == rule) {
                remembered.push(RememberedRule { rule, clause });
            }
        }
        JudgedAtRelease {
            rules: rules(&self.pack),
            pack: self.pack.key.clone(),
            prequalified: self.prequalified,
            ruling: self.ruling.code().to_owned(),
            records: self.records.clone(),
            pieces: self.pieces.iter().cloned().collect(),
            clauses: self.clauses.clone(),
            not_judged,
            pack_revision: self.pack_revision,
            pack_hash: hex::encode(Sha256::digest(self.pack.text())),
            rests_on_memory: !self.remembered.is_empty(),
            remembered,
            signed_rules: self.signed_rules.iter().cloned().collect(),
        }
    }
}

/// `ISO 15614-1:2017+A1:2019, level 2`.
fn rules(pack: &Pack) -> String {
    let level = pack.level.map(|level| format!(", level {level}")).unwrap_or_default();
    format!("{}{level}", pack.code)
}
