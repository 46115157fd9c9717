//! The developers' own task runner.
fn main() {}
