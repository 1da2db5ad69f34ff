//! The pure core without HTTP and database: stages of one check, growth with the number of procedures, windows.
//!
//! `cargo bench --bench core` runs all three; `-- stages`, `-- sizes` or `-- windows` one of them. Times are this
//! machine's; ratios are of one run. `scripts/instructions` counts the instructions of each stage, which do not
//! depend on how busy the machine is.

#[path = "../shared/memory.rs"]
mod memory;
#[path = "../shared/scenario.rs"]
mod scenario;
mod sizes;
mod stages;
mod windows;

use std::env;

/// As in the service.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    let asked: Vec<String> = env::args().skip(1).filter(|word| !word.starts_with("--")).collect();
    let wanted = |name: &str| asked.is_empty() || asked.iter().any(|word| word == name);
    if wanted("stages") {
        stages::run();
    }
    if wanted("sizes") {
        sizes::run();
    }
    if wanted("windows") {
        windows::run();
    }
}
