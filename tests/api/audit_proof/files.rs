//! Files that were tampered with, and the program that proves a file.

use super::{expected, export, found, head, part, prove};
use crate::support::Api;

/// The file itself tampered with, by somebody without the database.
#[tokio::test]
async fn a_file_that_was_tampered_with_is_not_whole() {
    let api = Api::furnished().await;
    let text = export(&api, &api.shop).await;
    let whole: Vec<&str> = text.lines().collect();
    let with = |edit: &dyn Fn(&mut Vec<String>)| {
        let mut lines: Vec<String> = whole.iter().map(|line| (*line).to_owned()).collect();
        edit(&mut lines);
        found(&prove(&(lines.join("\n") + "\n"), Vec::new()))
    };
    let swap = |from: &'static str, to: &'static str| {
        move |lines: &mut Vec<String>| {
            let line = lines.iter_mut().find(|line| line.contains(from)).unwrap();
            *line = line.replacen(from, to, 1);
        }
    };
    assert_eq!(with(&|_| ()), []);
    for (edit, faults) in [
        (
            &swap("\"action\":\"released\"", "\"action\":\"returned\"")
                as &dyn Fn(&mut Vec<String>),
            &[("entry-altered", 14)][..],
        ),
        (&swap("First station", "Second station"), &[("document-altered", 16)]),
        (&swap("Test report seen", "Nothing was seen"), &[("details-altered", 15)]),
        (&|lines| drop(lines.remove(14)), &[("entry-missing", 14)]),
        (&|lines| lines.swap(14, 15), &[("entry-missing", 14), ("entry-out-of-order", 14)]),
        (&|lines| lines.insert(15, lines[14].clone()), &[("entry-out-of-order", 14)]),
        (&|lines| lines.truncate(10), &[("chain-cut-off", 10)]),
        (&|lines| drop(lines.drain(18..20)), &[("chain-cut-off", 18), ("chain-cut-off", 18)]),
        (&|lines| lines[5] = "no JSON".to_owned(), &[("line-unreadable", 0), ("entry-missing", 5)]),
        (
            &swap("\"code\":\"ST-1\"", "\"code\":\"ST-2\",\"code\":\"ST-1\""),
            &[("line-unreadable", 0), ("entry-missing", 16)],
        ),
        (&|lines| lines.push(lines[19].clone()), &[("line-unreadable", 0)]),
        (
            &|lines| lines[12] = lines[12].replacen("\"document\":{", "\"other\":{", 1),
            &[("document-missing", 12)],
        ),
    ] {
        assert_eq!(with(edit), expected(faults));
    }
}

/// What the program says of a file, and its exit code.
fn program(arguments: &[&str], input: &str) -> (i32, String) {
    use std::io::Write;

    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_arcbounds"));
    command.arg("verify-audit").args(arguments);
    command.stdin(std::process::Stdio::piped()).stdout(std::process::Stdio::piped());
    let mut child = command.stderr(std::process::Stdio::null()).spawn().unwrap();
    // A program that ends early does not read on.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    let output = child.wait_with_output().unwrap();
    (output.status.code().unwrap(), String::from_utf8(output.stdout).unwrap())
}

#[tokio::test]
async fn the_program_proves_a_file_without_a_database() {
    let api = Api::furnished().await;
    let text = export(&api, &api.shop).await;
    let head = head(&api, &api.shop).await;
    let kept = format!("{}:{}", head["number"], head["hash"].as_str().unwrap());
    let (code, said) = program(&["-"], &text);
    assert_eq!(code, 0, "{said}");
    assert!(said.starts_with("whole\n") && said.contains(&format!("head {kept}")), "{said}");
    let (code, said) = program(&["-", "--head", &kept], &text);
    assert_eq!(code, 0, "{said}");
    assert!(said.contains(&format!("contains the head {kept}")), "{said}");

    let file = std::env::temp_dir().join(format!("arcbounds-{}.ndjson", uuid::Uuid::now_v7()));
    std::fs::write(&file, text.replacen("First station", "Second station", 1)).unwrap();
    let (code, said) = program(&[file.to_str().unwrap(), "--head", &kept], "");
    assert_eq!(code, 1, "{said}");
    assert!(said.contains("entry 16: document-altered, station ST-1 revision 1: "), "{said}");
    assert!(said.contains("faulty\n"), "{said}");
    std::fs::remove_file(&file).unwrap();

    let foreign = format!("3:{}", "ab".repeat(32));
    let (code, said) = program(&["-", "--head", &foreign], &text);
    assert_eq!(code, 1, "{said}");
    assert!(said.contains("does not contain the head 3:"), "{said}");
    let part = part(&api, "from=14").await.text;
    let (code, said) = program(&["-"], &part);
    assert_eq!(code, 0, "{said}");
    assert!(said.contains("whole, a part: entries 14 to 19 of 19"), "{said}");

    let newer = text.replacen("\"form\":1", "\"form\":2", 1);
    for unreadable in ["", "{}", "no JSON\n", &newer, text.split_once('\n').unwrap().1] {
        let (code, said) = program(&["-"], unreadable);
        assert_eq!(code, 2, "{said}");
        assert!(said.starts_with("unreadable: "), "{said}");
    }
    let (code, said) = program(&["/nowhere/at/all"], "");
    assert_eq!((code, said.starts_with("unreadable: cannot read the file: ")), (2, true), "{said}");
    assert_eq!(program(&["-", "--head", "17"], &text).0, 2);
}
