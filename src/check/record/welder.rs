//! A welder or operator with what was proven.

use time::Date;

use crate::qualify::welder::{
    QualificationDates, Validity, WelderJob, WelderJudgement, WelderRange, WelderRuling,
    welder_pack,
};
use crate::trade::Confidence;

/// One qualification of a welder.
#[derive(Debug, Clone, PartialEq)]
pub struct WelderQualification {
    /// Id within the welder's record.
    pub id: String,
    /// What it covers.
    pub range: WelderRange,
    /// What decides how long it holds.
    pub dates: QualificationDates,
    /// Whether a responsible person signed that the range agrees with the printed code.
    pub range_signed: bool,
}

/// A person who welds, under a code. The name is no part of what a check reads.
#[derive(Debug, Clone, PartialEq)]
pub struct Welder {
    /// Code in this organisation.
    pub code: String,
    /// Qualifications.
    pub qualifications: Vec<WelderQualification>,
}

/// How one qualification lies to a job on a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proof {
    /// How it stands on the day; `None` where its rules are not there any more.
    pub validity: Option<Validity>,
    /// How its range lies to the job.
    pub judgement: WelderJudgement,
    /// Whether it covers the job by values from memory only, which nobody signed.
    pub unsigned_memory: bool,
}

impl Proof {
    /// What it comes to: within where it holds and covers, outside where it does not hold or not cover.
    #[must_use]
    pub fn ruling(&self) -> WelderRuling {
        let standing = match &self.validity {
            Some(Validity::InForce { .. }) => WelderRuling::Within,
            Some(Validity::Lapsed { .. } | Validity::NotYet { .. }) => WelderRuling::Outside,
            Some(Validity::Unknown(_)) | None => WelderRuling::NotJudged,
        };
        let unsigned =
            if self.unsigned_memory { WelderRuling::NotJudged } else { WelderRuling::Within };
        standing.max(self.judgement.ruling()).max(unsigned)
    }
}

impl WelderQualification {
    /// How it stands on a day.
    #[must_use]
    pub fn validity(&self, day: Date) -> Option<Validity> {
        welder_pack(&self.range.pack).map(|pack| pack.validity(&self.dates, day))
    }

    /// How it lies to a job on a day.
    #[must_use]
    pub fn proof(&self, job: &WelderJob, day: Date) -> Proof {
        let judgement = self.range.judge(job);
        let memory = judgement.findings.iter().any(|one| one.confidence == Confidence::Memory);
        Proof {
            validity: self.validity(day),
            unsigned_memory: memory && !self.range_signed,
            judgement,
        }
    }
}

impl Welder {
    /// The qualification that proves the job best; `None` where the record has none.
    #[must_use]
    pub fn best_proof(&self, job: &WelderJob, day: Date) -> Option<(&WelderQualification, Proof)> {
        let proofs = self.qualifications.iter().map(|one| (one, one.proof(job, day)));
        // Among equals the one that holds tells more than one that has lapsed.
        proofs.min_by_key(|(_, proof)| {
            (proof.ruling(), !matches!(proof.validity, Some(Validity::InForce { .. })))
        })
    }
}
