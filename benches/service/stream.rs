//! A stream of setups: how many lines a second, and what memory it takes.

use std::time::Instant;

use memchr::memchr_iter;
use tokio::{
    io::{AsyncReadExt, AsyncWriteExt},
    net::TcpStream,
};

use crate::{Failure, memory::resident};

/// Lines written at once.
const TOGETHER: usize = 64;

/// Bytes of the end that hold the summary.
const TAIL: usize = 400;

/// Checks so many lines of a setup that is allowed; how many a second were answered, and the resident memory at a tenth
/// and at the end.
pub async fn run(
    (address, key): (&str, &str),
    setup: &str,
    lines: usize,
) -> Result<(f64, usize, usize), Failure> {
    let setup: serde_json::Value = serde_json::from_str(setup)?;
    let line = format!("{}\n", serde_json::json!({ "id": "1", "setup": setup }));
    let chunk = line.repeat(TOGETHER);
    let chunk = format!("{:x}\r\n{chunk}\r\n", chunk.len()).into_bytes();
    let stream = TcpStream::connect(address).await?;
    let (mut answers, mut questions) = stream.into_split();
    let head = format!(
        "POST /v1/checks/stream HTTP/1.1\r\nhost: bench\r\nauthorization: Bearer {key}\r\n\
         content-type: application/x-ndjson\r\ntransfer-encoding: chunked\r\n\r\n"
    );
    let started = Instant::now();
    let asking = tokio::spawn(async move {
        questions.write_all(head.as_bytes()).await?;
        for _ in 0..lines / TOGETHER {
            questions.write_all(&chunk).await?;
        }
        questions.write_all(b"0\r\n\r\n").await?;
        Ok::<_, std::io::Error>(questions)
    });
    let (mut buffer, mut answered, mut at_a_tenth) = (vec![0_u8; 256 * 1024], 0, 0);
    let mut tail = Vec::new();
    loop {
        let read = answers.read(&mut buffer).await?;
        if read == 0 {
            return Err("the stream was cut off".into());
        }
        answered += memchr_iter(b'\n', &buffer[..read]).count();
        tail.extend_from_slice(&buffer[read.saturating_sub(TAIL)..read]);
        tail.drain(..tail.len().saturating_sub(TAIL));
        if at_a_tenth == 0 && answered > lines / 10 {
            at_a_tenth = resident();
        }
        if tail.ends_with(b"0\r\n\r\n") {
            break;
        }
    }
    let took = started.elapsed();
    drop(asking.await??);
    let last = String::from_utf8_lossy(&tail);
    let expected = format!("\"allowed\":{}", lines / TOGETHER * TOGETHER);
    if !last.contains(&expected) {
        return Err(format!("the stream ended with {last}").into());
    }
    #[expect(clippy::cast_precision_loss, reason = "a count of lines")]
    let rate = lines as f64 / took.as_secs_f64();
    Ok((rate, at_a_tenth, resident()))
}
