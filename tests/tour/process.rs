//! The demo as a process: it starts from nothing, leaves nothing behind, loses nothing, and says why it
//! cannot start.

use std::{
    net::TcpListener,
    time::{Duration, Instant},
};

use rustix::process::Signal;
use serde_json::Value;

use crate::demo::{Demo, Scratch, client, processes_on, refused};

#[tokio::test]
async fn ctrl_c_stops_the_service_and_its_database() {
    let scratch = Scratch::new();
    let demo = Demo::start(&scratch.data());
    let answer = demo.post("ERP", "/v1/checks", "demo/setup-allowed.json").send().await.unwrap();
    assert_eq!(answer.json::<Value>().await.unwrap()["verdict"], "allowed");
    let running = processes_on(&scratch.data());
    assert!(running.iter().any(|process| process.contains("postgres")), "{running:#?}");

    let second = refused(&scratch.data(), "127.0.0.1:0");
    assert!(second.contains("is in use by another arcbounds"), "{second}");
    assert!(second.contains(&demo.process().to_string()), "{second}");

    assert!(demo.end(Signal::INT).success());
    none_left(&scratch);
}

#[tokio::test]
async fn what_was_written_is_there_after_a_kill() {
    let scratch = Scratch::new();
    let demo = Demo::start(&scratch.data());
    let order = r#"{"number": "WO-9001", "code": {"name": "AWS D1.1", "edition": "2020"}}"#;
    let made = demo.post_text("ERP", "/v1/work-orders", order.to_owned()).send().await.unwrap();
    assert_eq!(made.status(), 201);
    let old_key = demo.key("READER").to_owned();
    demo.end(Signal::KILL);

    let demo = Demo::start(&scratch.data());
    assert!(!demo.printed.contains("Loading the demo scenario"), "{}", demo.printed);
    let found = demo.get("READER", "/v1/work-orders/WO-9001").send().await.unwrap();
    assert_eq!(found.status(), 200);
    let answer = demo.post("ERP", "/v1/checks", "demo/setup.json").send().await.unwrap();
    assert_eq!(answer.json::<Value>().await.unwrap()["verdict"], "not-allowed");
    let with_old_key =
        client().get(format!("{}/v1/work-orders/WO-9001", demo.address())).bearer_auth(old_key);
    assert_eq!(with_old_key.send().await.unwrap().status(), 401);
    assert!(demo.end(Signal::TERM).success());
    none_left(&scratch);
}

#[test]
fn a_taken_port_is_said_before_a_database_is_made() {
    let scratch = Scratch::new();
    let taken = TcpListener::bind("127.0.0.1:0").unwrap();
    let address = taken.local_addr().unwrap().to_string();
    let said = refused(&scratch.data(), &address);
    assert!(said.contains(&format!("cannot listen on {address}")), "{said}");
    assert!(said.contains("--listen"), "{said}");
    assert!(!scratch.data().exists());
}

/// No process is left on the demo's folder, the database's helpers included.
fn none_left(scratch: &Scratch) {
    let deadline = Instant::now() + Duration::from_secs(5);
    loop {
        let left = processes_on(&scratch.data());
        if left.is_empty() {
            return;
        }
        assert!(Instant::now() < deadline, "still running: {left:#?}");
        std::thread::sleep(Duration::from_millis(50));
    }
}
