//! Rebuilds when a migration changes, since migrations live inside the program.

fn main() {
    println!("cargo:rerun-if-changed=migrations");
}
