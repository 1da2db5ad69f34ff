//! The work that a profile-guided build is trained on: setups of the demo of other jobs than the one that is measured,
//! its windows and its run plans, and the other services as much.

use crate::{
    Failure,
    client::{Side, request},
    stream,
};

/// Connections kept open.
const CONNECTIONS: usize = 8;

/// Turns of each.
const TURNS: usize = 5;

/// Setups of the demo; not those of the job that is measured.
const SETUPS: [&str; 5] = [
    BUTT,
    include_str!("../../demo/setup-electrode.json"),
    include_str!("../../demo/setup-measured.json"),
    include_str!("../../demo/setup-pulsed.json"),
    include_str!("../../demo/setup-unsigned.json"),
];
/// One that is allowed.
const BUTT: &str = include_str!("../../demo/setup-butt.json");
/// Lines of a stream of it.
const LINES: usize = 100_000;
const JOB: &str = include_str!("../../demo/job.json");
const JOINTS: [&str; 2] =
    [include_str!("../../demo/joint.json"), include_str!("../../demo/groove.json")];

/// Asks one service after the other.
pub async fn run([service, echo, query]: [&str; 3], key: &str) -> Result<(), Failure> {
    let mut all = Vec::new();
    for body in SETUPS {
        for detail in ["summary", "full"] {
            let path = format!("/v1/checks?detail={detail}");
            all.push(Side::new("check", service, request(&path, key, body)));
        }
        all.push(Side::new("one query", query, request("/decision", key, body)));
        for path in ["/echo", "/keyed", "/answer"] {
            all.push(Side::new("echo", echo, request(path, key, body)));
        }
    }
    all.push(Side::new("window", service, request("/v1/windows", key, JOB)));
    for body in JOINTS {
        all.push(Side::new("plan", service, request("/v1/run-plans", key, body)));
    }
    let (rate, ..) = stream::run((service, key), BUTT, LINES).await?;
    println!("stream: {rate:.0} lines a second");
    for mut side in all {
        side.turns(TURNS, CONNECTIONS).await?;
        side.print();
    }
    Ok(())
}
