//! What the job demands beyond the code, as sent, and the rules it is judged by.

use std::borrow::Cow;

use sqlx::PgConnection;

use crate::{
    http::problem::{FieldError, Problem},
    qualify::{JobFacts, Pack, PackRoute, packs},
    quantity::Temperature,
    rule_packs::find_pack,
    trade::CodeEdition,
    wire::wire_object,
};

wire_object! {
    /// What a person states, because no record holds it.
    pub struct StatementIn {
        /// Id of the rule that asks.
        pub rule: String,
        /// Whether what it asks holds.
        pub holds: bool,
    }
}

wire_object! {
    /// What the job demands beyond the code. What is left out is unknown: limits that depend on it are not
    /// judged.
    pub struct JobFactsIn {
        /// Whether impact tests are required.
        pub impact_required: Option<bool>,
        /// Test temperature of the required impact tests.
        pub impact_temperature: Option<Temperature>,
        /// Whether hardness tests are required.
        pub hardness_required: Option<bool>,
        /// Answers to what rules ask; `GET /v1/rule-packs/{key}` lists the questions.
        pub stated: Vec<StatementIn>,
    }
}

impl JobFactsIn {
    /// The facts as the rules read them.
    ///
    /// # Errors
    /// Statements about rules that the pack does not have, or two about one rule.
    pub(crate) fn compile(&self, pack: &Pack) -> Result<JobFacts, Problem> {
        let asking: Vec<_> =
            pack.summaries().into_iter().filter(|rule| rule.question.is_some()).collect();
        let mut faults = Vec::new();
        for (index, statement) in self.stated.iter().enumerate() {
            let pointer = format!("/job/stated/{index}/rule");
            let rule = statement.rule.as_str();
            if !asking.iter().any(|own| own.id == rule) {
                let detail =
                    format!("{} has no rule \"{rule}\" that asks for a statement", pack.key);
                faults.push(FieldError { pointer, detail });
            } else if self.stated[..index].iter().any(|other| other.rule == rule) {
                let detail = format!("rule \"{rule}\" is answered twice");
                faults.push(FieldError { pointer, detail });
            }
        }
        if !faults.is_empty() {
            return Err(Problem::fields(faults));
        }
        let stated = self.stated.iter().map(|one| (one.rule.clone(), one.holds));
        Ok(JobFacts {
            impact_required: self.impact_required,
            impact_temperature: self.impact_temperature,
            hardness_required: self.hardness_required,
            stated: stated.collect(),
        })
    }
}

/// The pack with this key, which judges by records.
///
/// # Errors
/// At `/pack`: unknown, out of use, or a pack of fixed limits. A failing database.
pub(super) async fn tested(
    db: &mut PgConnection,
    key: &str,
) -> Result<Cow<'static, Pack>, Problem> {
    let found = find_pack(db, key).await?.filter(|found| !found.is_withdrawn);
    let found = found.ok_or_else(|| {
        let known: Vec<_> = packs().iter().map(|pack| pack.key.as_str()).collect();
        let detail =
            format!("there is no rule pack \"{key}\" in use; built in are {}", known.join(", "));
        Problem::field("/pack", detail)
    })?;
    let pack = found.pack;
    if pack.route == PackRoute::Tested {
        return Ok(pack);
    }
    let detail = format!(
        "{key} has fixed limits, which judge no record; name it as the support of a procedure of kind {}",
        pack.route
    );
    Err(Problem::field("/pack", detail))
}

/// Built-in packs of this code and edition that judge records, the highest level first.
pub(super) fn of_code(code: &CodeEdition) -> Vec<&'static Pack> {
    let mut found: Vec<_> = packs()
        .iter()
        .filter(|pack| pack.code == *code && pack.route == PackRoute::Tested)
        .collect();
    found.sort_by_key(|pack| std::cmp::Reverse(pack.level));
    found
}
