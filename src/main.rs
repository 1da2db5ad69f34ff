//! The command line.

use std::{error::Error, io::Write, process::ExitCode};

use arcbounds::{
    audit,
    config::{Command, CommandLine},
    demo, http, import, server,
};
use clap::Parser;

/// A check makes some hundred small allocations; this allocator makes them at about half the cost.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    let command = CommandLine::parse().command;
    if let Command::VerifyAudit(args) = &command {
        return audit::run(args);
    }
    server::log_to_stderr();
    let runtime = match tokio::runtime::Builder::new_multi_thread().enable_all().build() {
        Ok(runtime) => runtime,
        Err(error) => return failed(&error),
    };
    match runtime.block_on(run(command)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => failed(error.as_ref()),
    }
}

async fn run(command: Command) -> Result<(), Box<dyn Error + Send + Sync>> {
    match command {
        Command::Serve(args) => server::serve(args).await,
        Command::Demo(args) => demo::run(args).await,
        Command::Migrate(args) => server::migrate(&args).await,
        Command::Found(args) => server::found(&args).await,
        Command::Import(args) => import::run(&args).await,
        Command::Openapi => {
            print(&http::document()?);
            Ok(())
        }
        Command::Health(args) => server::health(&args).await,
        // Done before anything is started.
        Command::VerifyAudit(_) => Ok(()),
    }
}

/// Prints without minding a reader that has gone away.
fn print(text: &str) {
    let _ = std::io::stdout().write_all(text.as_bytes());
}

/// Prints the error with everything that caused it.
fn failed(error: &dyn Error) -> ExitCode {
    let mut line = error.to_string();
    let mut source = error.source();
    while let Some(cause) = source {
        line = format!("{line}: {cause}");
        source = cause.source();
    }
    let _ = writeln!(std::io::stderr(), "arcbounds: {line}");
    ExitCode::FAILURE
}
