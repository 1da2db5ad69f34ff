//! The private PostgreSQL as the demo and the tests use it: real server programs, real processes.
//!
//! What is expected comes from the service's own promises (no port, nothing left over, nothing
//! lost), so there is no outside source to cite except where named.

#![cfg(target_os = "linux")]

#[cfg(test)]
mod private_postgres_clients;
#[cfg(test)]
mod private_postgres_killed;
#[cfg(test)]
mod private_postgres_support;

use std::{fs, os::unix::fs::PermissionsExt, time::Duration};

use arcbounds::database::private::{
    Durability, Options, PrivateError, PrivatePostgres,
    roles::{self, APP, OWNER},
};
use private_postgres_support::{
    self as support, Holder, Scratch, ask, connect, is_root, postmaster, runs, until,
};

fn durable(scratch: &Scratch) -> Options {
    Options { data_dir: scratch.data(), durability: Durability::Durable }
}

#[tokio::test]
async fn throwaway_server_answers_and_leaves_nothing_behind() {
    let options = Options::throwaway();
    let folder = options.data_dir.clone();
    let server = PrivatePostgres::start(options).await.unwrap();
    let url = server.url("postgres", "postgres");
    assert_eq!(ask(&url, "select (6 * 7)::text").await, "42");
    assert_eq!(ask(&url, "show fsync").await, "off");
    assert_eq!(ask(&url, "show max_connections").await, "100");

    let pid = postmaster(&folder);
    assert!(runs(pid));
    server.stop().await.unwrap();
    assert!(!runs(pid), "the server still runs");
    assert!(!folder.exists(), "the folder is still there");
}

#[tokio::test]
async fn durable_server_is_private_safe_and_plainly_set() {
    let scratch = Scratch::new();
    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    let url = server.url("postgres", "postgres");
    for (setting, value) in [
        ("fsync", "on"),
        ("synchronous_commit", "on"),
        ("full_page_writes", "on"),
        ("data_checksums", "on"),
        ("listen_addresses", ""),
        ("unix_socket_permissions", "0700"),
        ("server_encoding", "UTF8"),
        ("lc_collate", "C"),
    ] {
        let shown = match setting {
            // No setting of its own any more from PostgreSQL 16 on.
            "lc_collate" => "select datcollate from pg_database where datname = 'postgres'".into(),
            other => format!("show {other}"),
        };
        assert_eq!(ask(&url, &shown).await, value, "{setting}");
    }
    for private in ["cluster", "sockets"] {
        let mode = fs::metadata(scratch.data().join(private)).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o700, "{private}");
    }
    server.stop().await.unwrap();
    assert!(scratch.data().join("cluster/PG_VERSION").exists(), "durable data stays");
}

#[tokio::test]
async fn dropping_stops_the_server() {
    let scratch = Scratch::new();
    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    let pid = postmaster(&scratch.data());
    drop(server);
    assert!(!runs(pid));
}

#[tokio::test]
async fn server_that_died_is_reported_when_stopped() {
    let scratch = Scratch::new();
    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    support::signal(postmaster(&scratch.data()), "QUIT");
    // Longer than the supervisor's one-second watch.
    tokio::time::sleep(Duration::from_millis(1500)).await;
    let outcome = server.stop().await;
    assert!(matches!(outcome, Err(PrivateError::Ended { .. })), "{outcome:?}");
}

#[tokio::test]
async fn second_start_on_the_same_folder_names_the_holder() {
    let scratch = Scratch::new();
    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    let message = PrivatePostgres::start(durable(&scratch)).await.unwrap_err().to_string();
    let holder = format!("in use by another arcbounds (process {})", std::process::id());
    assert!(message.contains(&holder), "{message}");
    // The refused start did no harm to the running one.
    assert_eq!(ask(&server.url("postgres", "postgres"), "select 'alive'").await, "alive");
    server.stop().await.unwrap();
}

#[tokio::test]
async fn killed_program_loses_nothing_committed() {
    let scratch = Scratch::new();
    let mut holder = Holder::start(&scratch.data(), "durable");
    let url = holder.url();
    let pid = postmaster(&scratch.data());
    ask(&url, "create table kept (n int)").await;
    ask(&url, "insert into kept values (76)").await;
    holder.kill();

    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    let kept = ask(&server.url("postgres", "postgres"), "select n::text from kept").await;
    assert_eq!(kept, "76");
    assert!(!runs(pid), "the killed program's server still runs");
    server.stop().await.unwrap();
}

#[tokio::test]
async fn killed_program_takes_its_server_along() {
    if !support::setpriv_can_tie() {
        // Without it the next start stops the server; see the tests above and below.
        return;
    }
    let scratch = Scratch::new();
    let mut holder = Holder::start(&scratch.data(), "durable");
    let pid = postmaster(&scratch.data());
    holder.kill();
    until("the server has ended", || !runs(pid)).await;
    // A clean shutdown puts the file away, a crash would leave it.
    assert!(!scratch.data().join("cluster/postmaster.pid").exists());
}

#[tokio::test]
async fn killed_program_leaves_no_throwaway_folder_and_no_server() {
    let scratch = Scratch::new();
    let mut holder = Holder::start(&scratch.data(), "throwaway");
    let pid = postmaster(&scratch.data());
    ask(&holder.url(), "select 'up'").await;
    holder.kill();
    until("the server has ended", || !runs(pid)).await;
    until("the folder is gone", || !scratch.data().exists()).await;
}

#[tokio::test]
async fn orphan_is_replaced_and_its_data_found() {
    let scratch = Scratch::new();
    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    server.stop().await.unwrap();
    let orphan = support::start_orphan(&scratch.data());
    let orphan_url = server_url_of(&scratch);
    ask(&orphan_url, "create table kept (n int)").await;
    ask(&orphan_url, "insert into kept values (3)").await;

    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    let url = server.url("postgres", "postgres");
    assert_eq!(ask(&url, "select n::text from kept").await, "3");
    assert_ne!(postmaster(&scratch.data()), orphan);
    assert!(!runs(orphan), "the orphan still runs");
    server.stop().await.unwrap();
}

/// The address of whatever server listens in the scratch folder.
fn server_url_of(scratch: &Scratch) -> String {
    let sockets = scratch.data().join("sockets");
    format!("postgres://postgres@localhost:5432/postgres?host={}", sockets.display())
}

#[tokio::test]
async fn stale_pid_file_of_an_unrelated_process_is_no_obstacle() {
    if !is_root() {
        // PostgreSQL itself refuses to start if the process is of its own user.
        return;
    }
    let scratch = Scratch::new();
    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    server.stop().await.unwrap();
    // As after a restart of the machine: the number now belongs to another program.
    let mut bystander = support::bystander();
    let sockets = scratch.data().join("sockets");
    let text = format!("{}\n/x\n1\n5432\n{}\n\n1 1\nready   \n", bystander.id(), sockets.display());
    fs::write(scratch.data().join("cluster/postmaster.pid"), text).unwrap();
    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    server.stop().await.unwrap();
    assert!(bystander.try_wait().unwrap().is_none(), "the bystander was stopped");
    bystander.kill().unwrap();
    bystander.wait().unwrap();
}

#[tokio::test]
async fn data_folder_with_a_long_path_gets_its_socket_elsewhere() {
    let scratch = Scratch::new();
    let data_dir = scratch.data().join("a".repeat(120));
    let options = Options { data_dir: data_dir.clone(), durability: Durability::Throwaway };
    let server = PrivatePostgres::start(options).await.unwrap();
    let sockets = ask(&server.url("postgres", "postgres"), "show unix_socket_directories").await;
    let sockets = sockets.trim_matches('"').to_owned();
    // unix(7): 108 bytes with the closing zero; the name takes 14 with its slash.
    assert!(sockets.len() + 14 <= 107, "{sockets}");
    assert!(!data_dir.join("sockets").exists());
    server.stop().await.unwrap();
    assert!(!fs::exists(&sockets).unwrap(), "the socket folder is still there");
}

#[tokio::test]
async fn odd_characters_in_the_path_do_no_harm() {
    let scratch = Scratch::new();
    let data_dir = scratch.data().join("it's, \"one\" & 50% ü");
    let options = Options { data_dir, durability: Durability::Throwaway };
    let server = PrivatePostgres::start(options).await.unwrap();
    assert_eq!(ask(&server.url("postgres", "postgres"), "select 'yes'").await, "yes");
    server.stop().await.unwrap();
}

#[tokio::test]
async fn folder_with_other_things_in_it_is_refused_and_left_alone() {
    let scratch = Scratch::new();
    fs::create_dir(scratch.data()).unwrap();
    fs::write(scratch.data().join("letter.txt"), "dear").unwrap();
    let outcome = PrivatePostgres::start(durable(&scratch)).await;
    assert!(matches!(outcome, Err(PrivateError::ForeignFolder(_))), "{outcome:?}");
    assert_eq!(fs::read_dir(scratch.data()).unwrap().count(), 1);
}

#[tokio::test]
async fn broken_off_first_start_is_begun_anew() {
    let scratch = Scratch::new();
    let unfinished = scratch.data().join("cluster.unfinished");
    fs::create_dir_all(&unfinished).unwrap();
    fs::write(unfinished.join("PG_VERSION"), "15\n").unwrap();
    fs::write(scratch.data().join("arcbounds.lock"), "1\n").unwrap();
    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    assert_eq!(ask(&server.url("postgres", "postgres"), "select 'whole'").await, "whole");
    assert!(!unfinished.exists());
    server.stop().await.unwrap();
}

#[tokio::test]
async fn damaged_cluster_shows_the_end_of_the_log() {
    let scratch = Scratch::new();
    let server = PrivatePostgres::start(durable(&scratch)).await.unwrap();
    server.stop().await.unwrap();
    fs::remove_file(scratch.data().join("cluster/global/pg_control")).unwrap();
    let message = PrivatePostgres::start(durable(&scratch)).await.unwrap_err().to_string();
    assert!(message.starts_with("PostgreSQL ended by itself"), "{message}");
    // The server's own words, PostgreSQL 15.18.
    assert!(message.contains("could not find the database system"), "{message}");
}

#[tokio::test]
async fn wrong_bindir_is_named() {
    let scratch = Scratch::new();
    let said = Holder::refused(&scratch.data(), &[("ARCBOUNDS_PG_BINDIR", "/nowhere/bin")]);
    assert!(said.contains("ARCBOUNDS_PG_BINDIR is /nowhere/bin, but"), "{said}");
    assert!(!scratch.data().exists(), "nothing is made before the programs are found");
}

#[tokio::test]
async fn plain_user_needs_no_database_account() {
    if !is_root() {
        // Every other test of this file ran as a plain user already.
        return;
    }
    let scratch = Scratch::open_to_all();
    let mut holder = Holder::start_as("nobody", &scratch.data());
    assert_eq!(ask(&holder.url(), "select 'up'").await, "up");
    assert_eq!(support::owner_of(postmaster(&scratch.data())), support::owner_of(holder.id()));
    holder.end();
}

#[tokio::test]
async fn root_drops_to_an_account_even_from_a_folder_it_cannot_enter() {
    if !is_root() {
        // Only root has another account to drop to.
        return;
    }
    let scratch = Scratch::new();
    let mut holder = Holder::start_from(&scratch.closed_folder(), &scratch.data());
    let server = postmaster(&scratch.data());
    assert_ne!(support::owner_of(server), 0);
    assert_eq!(support::supplementary_groups(server), "");
    holder.end();
}

#[tokio::test]
async fn data_folder_the_account_cannot_enter_is_refused_by_name() {
    if !is_root() {
        return;
    }
    let scratch = Scratch::new();
    let data_dir = scratch.closed_folder().join("data");
    let options = Options { data_dir: data_dir.clone(), durability: Durability::Durable };
    let message = PrivatePostgres::start(options).await.unwrap_err().to_string();
    assert!(message.contains("may not enter") && message.contains("data"), "{message}");
}

#[tokio::test]
async fn roles_are_made_once_and_stay_bound() {
    let server = PrivatePostgres::start(Options::throwaway()).await.unwrap();
    let superuser = server.url("postgres", "postgres");
    let (first, second) =
        tokio::join!(roles::ensure(&superuser, "shop"), roles::ensure(&superuser, "shop"));
    first.unwrap();
    second.unwrap();
    // A role made more powerful by hand is brought back.
    ask(&superuser, "alter role arcbounds_app superuser bypassrls createdb createrole").await;
    roles::ensure(&superuser, "shop").await.unwrap();

    let powers = "select concat(rolsuper, rolbypassrls, rolcreatedb, rolcreaterole, rolreplication) \
                  from pg_roles where rolname = current_user";
    let create = "create table weld (n int)";
    for role in [OWNER, APP] {
        let url = server.url("shop", role);
        assert_eq!(ask(&url, powers).await, "fffff", "{role}");
    }
    let app = server.url("shop", APP);
    let refused = support::execute(&app, create).await.unwrap_err();
    // SQLSTATE of insufficient_privilege: PostgreSQL 15 manual, appendix A.
    assert_eq!(refused.as_database_error().unwrap().code().unwrap(), "42501");
    ask(&server.url("shop", OWNER), create).await;
    let owner = "select pg_get_userbyid(datdba)::text from pg_database where datname = 'shop'";
    assert_eq!(ask(&superuser, owner).await, OWNER);

    let bad = roles::ensure(&superuser, "shop; drop role x").await.unwrap_err();
    assert!(matches!(bad, roles::RolesError::Name(_)));
    server.stop().await.unwrap();
}

#[tokio::test]
async fn script_for_a_server_of_your_own_makes_the_same_roles() {
    let state = "select string_agg(line, ' | ' order by line) from (\
                 select concat_ws(' ', rolname, rolcanlogin, rolsuper, rolbypassrls, rolcreatedb, \
                 rolcreaterole, rolreplication) as line from pg_roles where rolname like 'arc%' \
                 union all select concat_ws(' ', datname, pg_get_userbyid(datdba), datacl) \
                 from pg_database where datname = 'arcbounds') as lines";
    let (by_script, by_service) = tokio::join!(
        PrivatePostgres::start(Options::throwaway()),
        PrivatePostgres::start(Options::throwaway())
    );
    let (by_script, by_service) = (by_script.unwrap(), by_service.unwrap());
    let superuser = by_service.url("postgres", "postgres");
    roles::ensure(&superuser, "arcbounds").await.unwrap();

    let scripted = by_script.url("postgres", "postgres");
    let awkward = r#"it's "one" \ `id` $HOME"#;
    support::create_roles(&ask(&scripted, "show unix_socket_directories").await, awkward);
    assert_eq!(ask(&scripted, state).await, ask(&superuser, state).await);
    assert!(ask(&scripted, state).await.contains("arcbounds arcbounds_owner {"));
    // The private server asks for no password, so what was stored is looked at: the md5 form is
    // 'md5' and the digest of password and role name (PostgreSQL 15 manual, pg_authid).
    let stored = "select (rolpassword = 'md5' || md5('";
    let stored = format!(
        "{stored}{}arcbounds_app'))::text from pg_authid where rolname = '{APP}'",
        awkward.replace('\'', "''")
    );
    assert_eq!(ask(&scripted, &stored).await, "true");
    by_script.stop().await.unwrap();
    by_service.stop().await.unwrap();
}

/// Not a test of its own: the program that the tests above start again as another process.
#[tokio::test]
#[ignore = "started by other tests as a process of its own"]
async fn holder() {
    support::hold().await;
}

#[tokio::test]
async fn two_servers_run_side_by_side() {
    let (one, two) = tokio::join!(
        PrivatePostgres::start(Options::throwaway()),
        PrivatePostgres::start(Options::throwaway())
    );
    let (one, two) = (one.unwrap(), two.unwrap());
    let (first, second) = (one.url("postgres", "postgres"), two.url("postgres", "postgres"));
    ask(&first, "create database only_here").await;
    let count = "select count(*)::text from pg_database where datname = 'only_here'";
    assert_eq!(ask(&first, count).await, "1");
    assert_eq!(ask(&second, count).await, "0");
    // An open connection does not keep a server from stopping.
    let open = connect(&first).await.unwrap();
    one.stop().await.unwrap();
    two.stop().await.unwrap();
    drop(open);
}
