//! Every environment variable and option, read once.

use std::{net::SocketAddr, num::NonZeroU32, path::PathBuf};

use clap::{Args, Parser, Subcommand};

use crate::audit::Place;

/// Keeps every welding arc inside what was qualified.
#[derive(Debug, Parser)]
#[command(version, about, arg_required_else_help = true)]
pub struct CommandLine {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// What the program can do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Serve the API on a database of your own.
    Serve(ServeArgs),
    /// Serve the API on a private PostgreSQL with the demo scenario.
    Demo(DemoArgs),
    /// Bring the database schema up to date.
    Migrate(MigrateArgs),
    /// Found an organisation and print its first administrator's key, once.
    Found(FoundArgs),
    /// Load records from a file of one JSON object a line.
    Import(ImportArgs),
    /// Print the OpenAPI document.
    Openapi,
    /// Ask a running service whether it is ready.
    Health(HealthArgs),
    /// Prove an export of the audit chain without a database; exit code 0 where it is whole, 1 where something
    /// is wrong, 2 where it cannot be read.
    VerifyAudit(VerifyAuditArgs),
}

/// Where and how to listen.
#[derive(Debug, Clone, Args)]
pub struct ListenArgs {
    /// Address to listen on.
    #[arg(long, env = "ARCBOUNDS_LISTEN", default_value = "127.0.0.1:8080")]
    pub listen: SocketAddr,
    /// Requests a second that one key may make.
    #[arg(long, env = "ARCBOUNDS_RATE_PER_KEY", default_value = "200")]
    pub rate_per_key: NonZeroU32,
}

/// Options of `serve`.
#[derive(Debug, Args)]
pub struct ServeArgs {
    /// Database, as a role that owns nothing.
    #[arg(long, env = "DATABASE_URL", hide_env_values = true)]
    pub database_url: String,
    /// Connections to the database, at least 2: one follows the notices of other replicas.
    #[arg(long, env = "ARCBOUNDS_CONNECTIONS", default_value = "10",
        value_parser = clap::value_parser!(u32).range(2..))]
    pub connections: u32,
    /// Where and how to listen.
    #[command(flatten)]
    pub listen: ListenArgs,
}

/// Options of `demo`.
#[derive(Debug, Args)]
pub struct DemoArgs {
    /// Folder of the private database.
    #[arg(long, env = "ARCBOUNDS_DATA_DIR")]
    pub data_dir: Option<PathBuf>,
    /// Where and how to listen.
    #[command(flatten)]
    pub listen: ListenArgs,
}

/// Options of `migrate`.
#[derive(Debug, Args)]
pub struct MigrateArgs {
    /// Database, as the role that owns it.
    #[arg(long, env = "ARCBOUNDS_OWNER_URL", hide_env_values = true)]
    pub owner_url: String,
}

/// Options of `found`.
#[derive(Debug, Args)]
pub struct FoundArgs {
    /// Database, as a role that owns nothing.
    #[arg(long, env = "DATABASE_URL", hide_env_values = true)]
    pub database_url: String,
    /// Name of the organisation.
    #[arg(long)]
    pub name: String,
    /// Name of its first administrator.
    #[arg(long)]
    pub admin: String,
}

/// Options of `import`.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// The file; `-` for standard input.
    pub file: PathBuf,
    /// Address of the service.
    #[arg(long, env = "ARCBOUNDS_ADDRESS", default_value = "http://127.0.0.1:8080")]
    pub address: String,
    /// Key of the person who writes the records.
    #[arg(long, env = "ARCBOUNDS_AUTHOR_KEY", hide_env_values = true)]
    pub author_key: String,
    /// Key of the second person, who releases and signs; needed only for lines that ask for it.
    #[arg(long, env = "ARCBOUNDS_APPROVER_KEY", hide_env_values = true)]
    pub approver_key: Option<String>,
}

/// Options of `health`.
#[derive(Debug, Args)]
pub struct HealthArgs {
    /// Address of the service.
    #[arg(long, env = "ARCBOUNDS_ADDRESS", default_value = "http://127.0.0.1:8080")]
    pub address: String,
}

/// Options of `verify-audit`.
#[derive(Debug, Args)]
pub struct VerifyAuditArgs {
    /// The export, as `GET /v1/audit/export` gave it; `-` for standard input.
    pub file: PathBuf,
    /// A head that was kept elsewhere, as `NUMBER:HASH`; may be given again.
    #[arg(long, value_parser = head)]
    pub head: Vec<Place>,
}

/// Reads a head, as `NUMBER:HASH`.
fn head(text: &str) -> Result<Place, String> {
    let form = "expected NUMBER:HASH, the hash with 64 hexadecimal digits";
    let (number, hash) = text.split_once(':').ok_or(form)?;
    let number = number.parse().ok().filter(|number| *number >= 0).ok_or(form)?;
    let is_hash = hash.len() == 64 && hash.bytes().all(|byte| byte.is_ascii_hexdigit());
    is_hash
        .then(|| Place { number, hash: hash.to_ascii_lowercase() })
        .ok_or_else(|| form.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_head_is_a_number_and_a_hash() {
        let hash = "AB".repeat(32);
        let read = head(&format!("17:{hash}")).unwrap();
        assert_eq!(read, Place { number: 17, hash: "ab".repeat(32) });
        for wrong in ["17", "x:00", "17:00", &format!("-1:{hash}"), &format!("17:{hash}0")] {
            assert!(head(wrong).is_err(), "{wrong}");
        }
    }
}
