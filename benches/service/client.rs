//! A plain client over kept-open connections, and what it measures.

use std::{
    fmt,
    ops::Range,
    time::{Duration, Instant},
};

use tokio::{
    io::{AsyncReadExt, AsyncWriteExt},
    net::TcpStream,
};

use crate::Failure;

/// Length of one turn: short, since a machine that others use too changes its speed within seconds.
const TURN: Duration = Duration::from_millis(400);

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
    turns: Vec<Turn>,
}

/// What one turn came to; times in microseconds.
pub struct Turn {
    /// Requests a second.
    pub per_second: f64,
    /// The time within which half of the requests are answered.
    pub p50: f64,
    /// The time within which 99 of a hundred are.
    pub p99: f64,
    /// Processor time of this process for one request, client included: what other processes do slows it little.
    pub busy: f64,
}

/// What lies a quarter, a half and three quarters up.
pub struct Quartiles {
    low: f64,
    pub middle: f64,
    high: f64,
}

impl Quartiles {
    pub fn of(values: impl Iterator<Item = f64>) -> Self {
        let mut values: Vec<_> = values.collect();
        values.sort_by(f64::total_cmp);
        let at = |quarters| values.get(values.len() * quarters / 4).copied().unwrap_or(f64::NAN);
        Self { low: at(1), middle: at(2), high: at(3) }
    }
}

impl fmt::Display for Quartiles {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.2} ({:.2} to {:.2})", self.middle, self.low, self.high)
    }
}

impl Side {
    pub fn new(name: &'static str, address: &str, request: Vec<u8>) -> Self {
        Self { name, address: address.to_owned(), request, turns: Vec::new() }
    }

    /// Asks for so many turns.
    pub async fn turns(&mut self, turns: usize, connections: usize) -> Result<(), Failure> {
        for _ in 0..turns {
            self.turn(connections).await?;
        }
        Ok(())
    }

    /// Asks from so many connections for one turn.
    pub async fn turn(&mut self, connections: usize) -> Result<(), Failure> {
        let end = Instant::now() + TURN;
        let mut tasks = Vec::new();
        for _ in 0..connections {
            let stream = TcpStream::connect(&self.address).await?;
            stream.set_nodelay(true)?;
            tasks.push(tokio::spawn(ask(stream, self.request.clone(), end)));
        }
        let (started, before) = (Instant::now(), busy());
        let mut times = Vec::new();
        for task in tasks {
            times.extend(task.await??);
        }
        self.turns.push(Turn::of(times, started.elapsed(), busy().saturating_sub(before)));
        Ok(())
    }

    /// Leaves out the first turn, in which all is new.
    pub fn forget_first(&mut self) {
        self.turns.remove(0);
    }

    /// A figure of all turns.
    pub fn all(&self, figure: fn(&Turn) -> f64) -> Quartiles {
        Quartiles::of(self.turns.iter().map(figure))
    }

    /// A figure as so many times that of another side, turn by turn: both were asked within seconds.
    pub fn against(&self, other: &Self, figure: fn(&Turn) -> f64) -> Quartiles {
        let pairs = self.turns.iter().zip(&other.turns);
        Quartiles::of(pairs.map(|(own, other)| figure(own) / figure(other)))
    }

    pub fn print(&self) {
        println!(
            "{:24} {:7.0} a second, p50 {:5.0} us, p99 {:5.0} us, {:4.0} us of processor time",
            self.name,
            self.all(|turn| turn.per_second).middle,
            self.all(|turn| turn.p50).middle,
            self.all(|turn| turn.p99).middle,
            self.all(|turn| turn.busy).middle
        );
    }
}

impl Turn {
    #[expect(clippy::cast_precision_loss, reason = "a count of requests")]
    fn of(mut times: Vec<Duration>, took: Duration, busy: Duration) -> Self {
        times.sort_unstable();
        let within = |share: usize| {
            let at = times.len().saturating_sub(1) * share / 100;
            times.get(at).map_or(f64::NAN, |time| time.as_secs_f64() * 1e6)
        };
        let count = times.len() as f64;
        Self {
            per_second: count / took.as_secs_f64(),
            p50: within(50),
            p99: within(99),
            busy: busy.as_secs_f64() * 1e6 / count,
        }
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
