use std::os::unix::fs::PermissionsExt;

use super::*;

/// A scratch folder standing in for the root of a file system, removed at the end.
struct Machine(PathBuf);

impl Machine {
    fn new() -> Self {
        let root = env::temp_dir().join(format!("arcbounds-bin-{}", uuid::Uuid::now_v7()));
        fs::create_dir(&root).unwrap();
        fs::set_permissions(&root, fs::Permissions::from_mode(0o755)).unwrap();
        Self(root)
    }

    fn install(&self, folder: &str, version: &str) -> PathBuf {
        let folder = self.0.join(folder);
        fs::create_dir_all(&folder).unwrap();
        // Written by another process: a program this one has open for writing, even if only in
        // a child forked at the wrong moment, cannot be run ("text file busy").
        let script = r#"for program in initdb postgres; do
            printf '#!/bin/sh\necho "postgres (PostgreSQL) %s"\n' "$2" >"$1/$program"
            chmod 755 "$1/$program"
        done"#;
        let mut shell = Command::new("/bin/sh");
        shell.args(["-c", script, "sh"]).arg(&folder).arg(version);
        assert!(shell.status().unwrap().success());
        folder
    }

    fn find(&self, explicit: Option<&Path>, path: &[&Path]) -> Result<Binaries, PrivateError> {
        let search = Search {
            explicit: explicit.map(Path::to_owned),
            path: Some(env::join_paths(path).unwrap()),
            root: self.0.clone(),
        };
        search.find(&self.0.join("cluster"), &Account::Own)
    }
}

impl Drop for Machine {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}

#[test]
fn major_is_read_from_the_programs_answer() {
    // Answers printed by distribution and beta builds; no source but the programs themselves.
    assert_eq!(parse_major("postgres (PostgreSQL) 15.18 (Debian 15.18-0+deb12u1)\n"), Some(15));
    assert_eq!(parse_major("postgres (PostgreSQL) 19beta1\n"), Some(19));
    assert_eq!(parse_major("postgres: command not understood\n"), None);
}

#[test]
fn explicit_folder_comes_before_path_and_path_before_prefixes() {
    let machine = Machine::new();
    let explicit = machine.install("mine", "15.1");
    let on_path = machine.install("on-path", "16.1");
    let newest = machine.install("usr/lib/postgresql/17/bin", "17.1");
    let folder = |found: Result<Binaries, PrivateError>| found.unwrap().folder;
    assert_eq!(folder(machine.find(Some(&explicit), &[&on_path])), explicit);
    assert_eq!(folder(machine.find(None, &[&on_path])), on_path);
    assert_eq!(folder(machine.find(None, &[])), newest);
}

#[test]
fn highest_major_of_a_family_wins_by_number_not_by_text() {
    let machine = Machine::new();
    machine.install("usr/lib/postgresql/9/bin", "9.6");
    machine.install("usr/lib/postgresql/15/bin", "15.2");
    let newest = machine.install("usr/lib/postgresql/100/bin", "100.0");
    let found = machine.find(None, &[]).unwrap();
    assert_eq!(found, Binaries { folder: newest, major: 100 });
}

#[test]
fn links_on_path_lead_to_the_real_folder() {
    let machine = Machine::new();
    let real = machine.install("usr/lib/postgresql/16/bin", "16.1");
    let links = machine.0.join("links");
    fs::create_dir(&links).unwrap();
    for program in ["initdb", "postgres"] {
        std::os::unix::fs::symlink(real.join(program), links.join(program)).unwrap();
    }
    assert_eq!(machine.find(None, &[&links]).unwrap().folder, real);
}

#[test]
fn existing_data_asks_for_its_own_major() {
    let machine = Machine::new();
    let older = machine.install("usr/lib/postgresql/15/bin", "15.2");
    machine.install("usr/lib/postgresql/17/bin", "17.1");
    fs::create_dir(machine.0.join("cluster")).unwrap();
    fs::write(machine.0.join("cluster/PG_VERSION"), "15\n").unwrap();
    assert_eq!(machine.find(None, &[]).unwrap(), Binaries { folder: older, major: 15 });

    fs::write(machine.0.join("cluster/PG_VERSION"), "16\n").unwrap();
    let message = machine.find(None, &[]).unwrap_err().to_string();
    assert!(message.starts_with("PostgreSQL 16 is needed by the data in "), "{message}");
    assert!(
        message.contains("(PostgreSQL 15)") && message.contains("(PostgreSQL 17)"),
        "{message}"
    );
}

#[test]
fn too_old_a_server_is_named_and_refused() {
    let machine = Machine::new();
    machine.install("usr/lib/postgresql/14/bin", "14.9");
    let message = machine.find(None, &[]).unwrap_err().to_string();
    assert!(message.starts_with("PostgreSQL 15 or newer is needed, but only this"), "{message}");
}

#[test]
fn nothing_found_names_the_three_ways_out() {
    let machine = Machine::new();
    let message = machine.find(None, &[]).unwrap_err().to_string();
    for way in ["apt-get install postgresql", "ARCBOUNDS_PG_BINDIR", "DATABASE_URL"] {
        assert!(message.contains(way), "{way} is missing in: {message}");
    }
}

#[test]
fn explicit_folder_without_programs_is_refused_by_name() {
    let machine = Machine::new();
    machine.install("usr/lib/postgresql/17/bin", "17.1");
    let empty = machine.0.join("empty");
    let message = machine.find(Some(&empty), &[]).unwrap_err().to_string();
    assert!(
        message.starts_with("ARCBOUNDS_PG_BINDIR is ") && message.contains("empty"),
        "{message}"
    );
}
