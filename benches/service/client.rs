//! A plain client over kept-open connections, and what it measures.

use std::{
    ops::Range,
    time::{Duration, Instant},
};

use tokio::{
    io::{AsyncReadExt, AsyncWriteExt},
    net::TcpStream,
};

use crate::Failure;

/// Length of one turn.
const TURN: Duration = Duration::from_secs(2);

/// The bytes of one request.
pub fn request(path: &str, key: &str, body: &str) -> Vec<u8> {
    format!(
        "POST {path} HTTP/1.1\r\nhost: bench\r\nauthorization: Bearer {key}\r\n\
         content-type: application/json\r\ncontent-length: {}\r\n\r\n{body}",
        body.len()
    )
    .into_bytes()
}

/// The body that is answered to one request.
pub async fn body(address: &str, request: &[u8]) -> Result<Vec<u8>, Failure> {
    let mut stream = TcpStream::connect(address).await?;
    stream.write_all(request).await?;
    let mut buffer = vec![0_u8; 256 * 1024];
    let body = answer(&mut stream, &mut buffer).await?;
    Ok(buffer[body].to_vec())
}

/// One service that is asked the same thing again and again.
pub struct Side {
    name: &'static str,
    address: String,
    request: Vec<u8>,
    times: Vec<Duration>,
    took: Duration,
    busy: Duration,
}

impl Side {
    pub fn new(name: &'static str, address: &str, request: Vec<u8>) -> Self {
        let (times, took, busy) = (Vec::new(), Duration::ZERO, Duration::ZERO);
        Self { name, address: address.to_owned(), request, times, took, busy }
    }

    /// Asks from so many connections for one turn.
    pub async fn turn(&mut self, connections: usize, counted: bool) -> Result<(), Failure> {
        let end = Instant::now() + TURN;
        let mut tasks = Vec::new();
        for _ in 0..connections {
            let stream = TcpStream::connect(&self.address).await?;
            stream.set_nodelay(true)?;
            tasks.push(tokio::spawn(ask(stream, self.request.clone(), end)));
        }
        let (started, before) = (Instant::now(), busy());
        for task in tasks {
            let times = task.await??;
            if counted {
                self.times.extend(times);
            }
        }
        if counted {
            self.took += started.elapsed();
            self.busy += busy().saturating_sub(before);
            self.times.sort_unstable();
        }
        Ok(())
    }

    #[expect(clippy::cast_precision_loss, reason = "a count of requests")]
    pub fn per_second(&self) -> f64 {
        self.times.len() as f64 / self.took.as_secs_f64()
    }

    /// The time within which so many of a hundred requests are answered.
    pub fn percentile(&self, share: usize) -> Duration {
        let index = self.times.len().saturating_sub(1) * share / 100;
        self.times.get(index).copied().unwrap_or_default()
    }

    /// Processor time of this process for one request, client included: what other processes do slows it little.
    #[expect(clippy::cast_precision_loss, reason = "a count of requests")]
    pub fn busy(&self) -> f64 {
        self.busy.as_secs_f64() * 1e6 / self.times.len() as f64
    }

    pub fn print(&self) {
        println!(
            "{:24} {:7.0} a second, p50 {:5.0} us, p99 {:5.0} us, {:4.0} us of processor time",
            self.name,
            self.per_second(),
            self.percentile(50).as_secs_f64() * 1e6,
            self.percentile(99).as_secs_f64() * 1e6,
            self.busy()
        );
    }
}

/// One request after the other, until the end.
async fn ask(
    mut stream: TcpStream,
    request: Vec<u8>,
    end: Instant,
) -> Result<Vec<Duration>, Failure> {
    let (mut times, mut buffer) = (Vec::new(), vec![0_u8; 256 * 1024]);
    while Instant::now() < end {
        let started = Instant::now();
        stream.write_all(&request).await?;
        answer(&mut stream, &mut buffer).await?;
        times.push(started.elapsed());
    }
    Ok(times)
}

/// Reads one whole answer of known length, and insists on 200; gives where its body stands.
async fn answer(stream: &mut TcpStream, buffer: &mut [u8]) -> Result<Range<usize>, Failure> {
    let (mut filled, mut body) = (0, None);
    loop {
        let read = stream.read(&mut buffer[filled..]).await?;
        if read == 0 {
            return Err("the connection was closed".into());
        }
        filled += read;
        if body.is_none() {
            body = place(&buffer[..filled])?;
        }
        if let Some(body) = body.take_if(|body| filled >= body.end) {
            return Ok(body);
        }
    }
}

/// Where the body will stand behind its head, once the head is there.
fn place(text: &[u8]) -> Result<Option<Range<usize>>, Failure> {
    let Some(head) = text.windows(4).position(|bytes| bytes == b"\r\n\r\n") else {
        return Ok(None);
    };
    let lines = std::str::from_utf8(&text[..head])?;
    if !lines.starts_with("HTTP/1.1 200") {
        return Err(format!("not answered: {}", String::from_utf8_lossy(text)).into());
    }
    let length = lines.lines().find_map(|line| line.strip_prefix("content-length: "));
    let length: usize = length.ok_or("the answer has no length")?.parse()?;
    Ok(Some(head + 4..head + 4 + length))
}

/// Processor time this process has used, in the hundredths of a second that Linux counts.
fn busy() -> Duration {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after_name = stat.rsplit_once(") ").map_or("", |(_, rest)| rest);
    let ticks = after_name.split(' ').skip(11).take(2).filter_map(|text| text.parse::<u64>().ok());
    Duration::from_millis(10 * ticks.sum::<u64>())
}
