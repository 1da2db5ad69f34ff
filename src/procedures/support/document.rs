//! What stands behind a procedure, on the wire.

use super::{JudgedAtRelease, RememberedRule};
use crate::{
    check::{
        Demands,
        record::{JudgedSupport, Support, UnjudgedClause},
    },
    http::problem::{FieldError, Problem},
    qualifications::JobFactsIn,
    qualify::{JobFacts, Pack, PackRoute},
    quantity::UnitSystem,
    rule_packs::built_in,
    trade::{CodeEdition, coded},
    wire::{Code, wire_object},
};

coded! {
    /// Kind of support of a procedure.
    pub enum SupportKind: "support kind" {
        /// Somebody declares that it is qualified; the service has not judged it.
        Declared = "declared-not-judged",
        /// Qualification records, by which the service judges it.
        Records = "qualification-records",
        /// Fixed limits of a code that asks for no test, by which the service judges it.
        Prequalified = "prequalified",
    }
}

coded! {
    /// The way in which a procedure is qualified (ISO 15607, from memory).
    pub enum QualificationRoute: "qualification route" {
        /// A procedure test.
        ProcedureTest = "procedure-test",
        /// Tested consumables.
        TestedConsumables = "tested-consumables",
        /// Previous experience.
        PreviousExperience = "previous-experience",
        /// A standard procedure.
        StandardProcedure = "standard-procedure",
        /// A test before production.
        PreProductionTest = "pre-production-test",
        /// Rules of the code that need no test.
        Prequalified = "prequalified",
    }
}

wire_object! {
    /// What stands behind a procedure.
    pub struct SupportDocument {
        /// Kind of support.
        pub kind: SupportKind,
        /// The way in which it is qualified.
        pub route: Option<QualificationRoute>,
        /// The declaration: which tests or records, where they are kept. Needed where it is declared.
        pub statement: Option<String>,
        /// Numbers of the qualification records. Needed where records support it.
        pub records: Vec<Code>,
        /// Key of the rules it is judged by. Needed where records support it, and where it is prequalified.
        pub pack: Option<String>,
        /// Printed columns that hold for a prequalified procedure, where the code has two: they are rounded apart.
        pub columns: Option<UnitSystem>,
        /// Tests that the jobs of this procedure demand, and what a person states.
        pub job: Option<JobFactsIn>,
    }
}

fn fault(member: &str, detail: &str) -> Vec<FieldError> {
    vec![FieldError { pointer: format!("/support/{member}"), detail: detail.to_owned() }]
}

/// Clauses of remembered rules, each once.
fn clauses(remembered: &[RememberedRule]) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for own in remembered {
        if !all.contains(&own.clause) {
            all.push(own.clause.clone());
        }
    }
    all
}

/// Most records that one procedure can name.
const MOST_RECORDS: usize = 50;

impl SupportDocument {
    /// What is wrong across fields of a procedure that is written for these codes.
    pub(in crate::procedures) fn faults(&self, codes: &[CodeEdition]) -> Vec<FieldError> {
        let mut faults = Vec::new();
        let mut fault = |pointer: &str, detail: String| {
            faults.push(FieldError { pointer: format!("/support/{pointer}"), detail });
        };
        match self.kind {
            SupportKind::Declared => {
                if self.statement.is_none() {
                    fault(
                        "statement",
                        "say which tests or records, and where they are kept".into(),
                    );
                }
                let none = "a declaration is not judged; only what is judged has this";
                let given = [
                    ("records", !self.records.is_empty()),
                    ("pack", self.pack.is_some()),
                    ("columns", self.columns.is_some()),
                    ("job", self.job.is_some()),
                ];
                for (name, _) in given.into_iter().filter(|(_, given)| *given) {
                    fault(name, none.to_owned());
                }
            }
            SupportKind::Records => {
                if self.records.is_empty() {
                    fault("records", "name at least one qualification record".into());
                }
                if self.records.len() > MOST_RECORDS {
                    fault("records", format!("name at most {MOST_RECORDS} records"));
                }
                for (index, record) in self.records.iter().enumerate().take(MOST_RECORDS) {
                    if self.records[..index].iter().any(|own| own.as_str() == record.as_str()) {
                        fault(&format!("records/{index}"), format!("{record} is named twice"));
                    }
                }
                if self.columns.is_some() {
                    fault(
                        "columns",
                        "each record is judged by the columns of its own units".into(),
                    );
                }
                faults.extend(self.faults_of_rules(codes));
            }
            SupportKind::Prequalified => {
                if !self.records.is_empty() {
                    fault("records", "a prequalified procedure rests on no record".into());
                }
                faults.extend(self.faults_of_rules(codes));
            }
        }
        faults
    }

    /// What is wrong with the rules that it is to be judged by, as far as they are built in. Own rules of the
    /// organisation are a reference, and judged by with the review.
    fn faults_of_rules(&self, codes: &[CodeEdition]) -> Vec<FieldError> {
        let Some(key) = self.pack.as_deref() else {
            return fault("pack", "name the rules; GET /v1/rule-packs lists them");
        };
        built_in(key).map_or_else(Vec::new, |pack| self.unfit(pack, codes))
    }

    /// Key of rules that are not built in: the organisation has to have them.
    pub(in crate::procedures) fn own_rules(&self) -> Option<&str> {
        self.pack
            .as_deref()
            .filter(|key| self.kind != SupportKind::Declared && built_in(key).is_none())
    }

    /// Why these rules cannot judge a procedure that is written for these codes.
    pub(in crate::procedures) fn unfit(
        &self,
        pack: &Pack,
        codes: &[CodeEdition],
    ) -> Vec<FieldError> {
        let route = match self.kind {
            SupportKind::Prequalified => PackRoute::Prequalified,
            SupportKind::Records | SupportKind::Declared => PackRoute::Tested,
        };
        if pack.route != route {
            let own = pack.route;
            let detail = format!("these rules are {own}; this kind of support needs {route} ones");
            return fault("pack", &detail);
        }
        if !codes.contains(&pack.code) {
            let detail = format!(
                "these are rules of {}, which is not among the codes of the procedure",
                pack.code
            );
            return fault("pack", &detail);
        }
        let several = route == PackRoute::Prequalified && pack.systems.len() > 1;
        if several && self.columns.is_none() {
            let detail = "the code prints two columns that are rounded apart: state metric or us";
            return fault("columns", detail);
        }
        self.facts(pack).map_or_else(|problem| problem.errors().to_vec(), |_| Vec::new())
    }

    /// The facts of the job as these rules read them.
    ///
    /// # Errors
    /// Statements that the rules do not ask for, each at its place.
    pub(in crate::procedures) fn facts(&self, pack: &Pack) -> Result<JobFacts, Problem> {
        match &self.job {
            Some(job) => job.compile(pack).map_err(|problem| problem.under("/support")),
            None => Ok(JobFacts::default()),
        }
    }

    /// As the check reads it.
    pub(in crate::procedures) fn compile(
        &self,
        judged: Option<JudgedAtRelease>,
        signed_by: Option<String>,
    ) -> Support {
        if self.kind == SupportKind::Declared {
            return Support::Declared { signed_by };
        }
        let judged = judged.unwrap_or_else(JudgedAtRelease::none);
        let open = |one: super::NotJudgedClause| UnjudgedClause {
            clause: one.clause,
            missing: one.missing,
        };
        Support::Judged(Box::new(JudgedSupport {
            rules: judged.rules,
            prequalified: judged.prequalified,
            pieces: judged.pieces,
            clauses: judged.clauses,
            unjudged: judged.not_judged.into_iter().map(open).collect(),
            rests_on_memory: judged.rests_on_memory,
            remembered: clauses(&judged.remembered),
            demands: self.demands(),
            signed_by,
        }))
    }

    /// Tests that the jobs of this procedure demand.
    fn demands(&self) -> Demands {
        self.job.as_ref().map_or_else(Demands::default, |job| Demands {
            impact_required: job.impact_required,
            impact_temperature: job.impact_temperature,
            hardness_required: job.hardness_required,
        })
    }
}
