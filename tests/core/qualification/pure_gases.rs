//! Groups of one pure gas are a composition, groups of mixtures are not: ISO 14175:2008, Table 2 (from memory), against
//! the shares of ISO 15614-1:2017, 8.5.2.1 and 8.5.3 (TIG: 0.1 % of anything but helium).

use arcbounds::{
    qualify::{Standing, record::Record},
    trade::Process,
};

use super::fixture::*;

fn record(process: Process, shielding: &str) -> Record {
    let mut record = iso_record();
    record.pieces[0].deposits[0].process = process;
    record.pieces[0].runs[0].process = process;
    record.pieces[0].runs[0].gases.shielding = gas(shielding);
    record
}

fn of(record: &Record, rule: &str, given: &str) -> Standing {
    let mut proposal = repeated(record);
    proposal.runs[0].gas = gas(given);
    standing(&judged(record, iso(), &demanding(), &proposal), rule)
}

#[test]
fn argon_is_argon_by_either_name() {
    for tested in ["I1", "I1-Ar"] {
        let record = record(Process::TigSolidFiller, tested);
        for given in ["I1", "I1-Ar"] {
            assert_eq!(
                of(&record, "shielding-gas-tig", given),
                Standing::Inside,
                "{tested} {given}"
            );
        }
        // 0.5 % and more of helium, hydrogen, nitrogen or carbon dioxide.
        for given in ["I2", "I3", "R1", "N2", "M12", "C1", "N1"] {
            assert_eq!(
                of(&record, "shielding-gas-tig", given),
                Standing::Outside,
                "{tested} {given}"
            );
        }
        assert!(matches!(of(&record, "shielding-gas-tig", "Z"), Standing::NotJudged(_)));
    }
    let carbon_dioxide = record(Process::MagSolidWire, "C1");
    assert_eq!(of(&carbon_dioxide, "shielding-gas-mig-mag", "C1-C"), Standing::Inside);
    assert_eq!(of(&carbon_dioxide, "shielding-gas-mig-mag", "M21"), Standing::Outside);
}

/// 18 % of CO2 by a fifth is 14.4 to 21.6 %: M20 ends at 15 %, M12 at 5 %.
#[test]
fn a_group_of_mixtures_is_outside_where_none_of_them_is_inside() {
    let record = record(Process::MagSolidWire, "M21-ArC-18");
    for given in ["M20", "M21"] {
        let standing = of(&record, "shielding-gas-mig-mag", given);
        assert!(matches!(standing, Standing::NotJudged(_)), "{given}: {standing:?}");
    }
    for given in ["M12", "M26", "M31", "R1", "I1", "C1"] {
        assert_eq!(of(&record, "shielding-gas-mig-mag", given), Standing::Outside, "{given}");
    }
}
