//! The little of `curl` and of the shell that the tour's commands use, so that the tests need neither.
//! Anything else fails the test.

use std::{collections::HashMap, fs, path::Path};

use reqwest::Method;

use crate::demo::client;

/// Variables of the shell.
pub type Variables = HashMap<String, String>;

/// What came back.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    pub etag: Option<String>,
    pub body: String,
}

/// A request as a command states it.
#[derive(Debug, Default, PartialEq)]
struct Request {
    method: Option<String>,
    url: Option<String>,
    headers: Vec<(String, String)>,
    body: Option<String>,
}

/// Sends what a command would send.
pub async fn run(command: &str, variables: &Variables) -> Answer {
    let request = read(command, variables);
    let method = request.method.unwrap_or_else(|| {
        if request.body.is_some() { "POST".to_owned() } else { "GET".to_owned() }
    });
    let method = Method::from_bytes(method.as_bytes()).unwrap();
    let mut sent = client().request(method, request.url.expect("the command has an address"));
    for (name, value) in request.headers {
        sent = sent.header(name, value);
    }
    if let Some(body) = request.body {
        sent = sent.body(body);
    }
    let response = sent.send().await.unwrap();
    let etag = response.headers().get("etag").map(|tag| tag.to_str().unwrap().to_owned());
    Answer { status: response.status().as_u16(), etag, body: response.text().await.unwrap() }
}

fn read(command: &str, variables: &Variables) -> Request {
    let mut words = words(command, variables).into_iter();
    assert_eq!(words.next().as_deref(), Some("curl"), "{command}");
    let mut request = Request::default();
    while let Some(word) = words.next() {
        let mut value = || words.next().unwrap_or_else(|| panic!("{word} needs a value"));
        match word.as_str() {
            "-s" | "-i" => {}
            "-X" => request.method = Some(value()),
            "-H" => {
                let header = value();
                let (name, value) = header.split_once(": ").expect("a header has a name");
                request.headers.push((name.to_owned(), value.to_owned()));
            }
            "-d" | "--data-binary" => request.body = Some(body(&value())),
            option if option.starts_with('-') => panic!("{option} is not known here"),
            _ => assert_eq!(request.url.replace(word), None, "{command}"),
        }
    }
    request
}

/// The text itself, or the file behind `@`, from the repository's folder.
fn body(text: &str) -> String {
    match text.strip_prefix('@') {
        Some(file) => fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(file)).unwrap(),
        None => text.to_owned(),
    }
}

/// The words of a command: blanks part, quotes join, `\` before a line's end goes on, `$NAME` outside
/// single quotes is the variable.
fn words(command: &str, variables: &Variables) -> Vec<String> {
    let mut words = Vec::new();
    let mut word: Option<String> = None;
    let mut quote = None;
    let mut rest = command.trim().chars().peekable();
    while let Some(next) = rest.next() {
        match (quote, next) {
            (None, '\\') if rest.peek() == Some(&'\n') => {}
            (None, ' ' | '\n') => words.extend(word.take()),
            (None, '\'' | '"') => {
                quote = Some(next);
                word.get_or_insert_default();
            }
            (Some(open), _) if open == next => quote = None,
            (None | Some('"'), '$') => {
                let mut name = String::new();
                while let Some(part) = rest.next_if(|c| c.is_ascii_alphanumeric() || *c == '_') {
                    name.push(part);
                }
                let value = variables.get(&name).unwrap_or_else(|| panic!("${name} is not set"));
                word.get_or_insert_default().push_str(value);
            }
            _ => word.get_or_insert_default().push(next),
        }
    }
    assert_eq!(quote, None, "a quote is not closed: {command}");
    words.extend(word);
    words
}

#[test]
fn a_command_reads_as_a_shell_would_read_it() {
    let variables =
        [("HERE".to_owned(), "http://x".to_owned()), ("KEY".to_owned(), "k".to_owned())];
    let variables = Variables::from(variables);
    let command = "curl -s -X PUT \"$HERE/a?b=1\" \\\n  -H \"Authorization: Bearer $KEY\" -d '{\"a\": \"$KEY\"}'\n";
    let expected = Request {
        method: Some("PUT".to_owned()),
        url: Some("http://x/a?b=1".to_owned()),
        headers: vec![("Authorization".to_owned(), "Bearer k".to_owned())],
        body: Some("{\"a\": \"$KEY\"}".to_owned()),
    };
    assert_eq!(read(command, &variables), expected);
}
