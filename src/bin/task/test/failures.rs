//! What the tests that failed said, so that it can be told once more at the end of the run, where it is found.

/// Lines of one part of the run that are told again; the rest stands further up.
const MOST_LINES: usize = 60;

/// What Rust's tests (natively and in the browser) and Node's print of those that failed: from its heading to the counts, which
/// Node prints first.
pub fn failures(lines: &[String]) -> Vec<String> {
    let mut told = Vec::new();
    let mut is_told = false;
    for line in lines {
        match line.trim() {
            "failures:" | "✖ failing tests:" => is_told = true,
            ended if ended.contains("test result: ") => is_told = false,
            "" => {}
            _ if is_told => told.push(line.clone()),
            _ => {}
        }
    }
    let more = told.len().saturating_sub(MOST_LINES);
    if more > 0 {
        told.truncate(MOST_LINES);
        told.push(format!("… and {more} lines more, further up"));
    }
    told
}

#[cfg(test)]
mod tests {
    use super::{MOST_LINES, failures};

    fn of(text: &str) -> Vec<String> {
        failures(&text.lines().map(str::to_string).collect::<Vec<_>>())
    }

    #[test]
    fn each_program_of_rusts_tests_says_what_failed() {
        let printed = "test a ... FAILED\n\
             successes:\n\
             ---- b stdout ----\n\
             \n\
             failures:\n\
             ---- a stdout ----\n\
             left: 1\n\
             \n\
             failures:\n    a\n\
             \n\
             test result: FAILED. 1 passed; 1 failed; 0 ignored\n\
             running 1 test\n\
             test result: ok. 1 passed; 0 failed; 0 ignored";
        assert_eq!(of(printed), ["---- a stdout ----", "left: 1", "    a"]);
    }

    #[test]
    fn nodes_tests_say_at_the_end_what_failed() {
        let printed = "✖ a key (31ms)\nℹ pass 1\nℹ fail 1\n\n✖ failing tests:\n\ntest at a.mjs:3:1\n✖ a key (31ms)\n  Error: no";
        assert_eq!(of(printed), ["test at a.mjs:3:1", "✖ a key (31ms)", "  Error: no"]);
    }

    #[test]
    fn what_is_too_long_says_where_the_rest_is() {
        let told = of(&format!("failures:\n{}", "line\n".repeat(MOST_LINES + 3)));
        assert_eq!(told.len(), MOST_LINES + 1);
        assert_eq!(told.last().map(String::as_str), Some("… and 3 lines more, further up"));
    }

    #[test]
    fn where_nothing_failed_there_is_nothing_to_tell() {
        assert!(of("test a ... ok\ntest result: ok. 1 passed; 0 failed").is_empty());
    }
}
