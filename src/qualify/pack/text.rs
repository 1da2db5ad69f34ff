//! The text of one rule within the text of a pack. A signature names its hash, so nothing of the rule may lie outside:
//! the text may hold more than the rule, never less.

/// The rule with this id, from its headline to the next one, without comments behind it.
pub(super) fn rule(text: &str, id: &str) -> Option<String> {
    let mut own: Option<Vec<&str>> = None;
    let mut found = false;
    for line in text.lines() {
        // No value of a list can look like these two, and texts over several lines are refused.
        let headline: String = line.split_whitespace().collect();
        if headline == "[[rule]]" || headline == "[[open]]" {
            if found {
                break;
            }
            own = (headline == "[[rule]]").then(Vec::new);
        } else if let Some(lines) = &mut own {
            found |= is_id(line, id);
            lines.push(line);
        }
    }
    let mut lines = own.filter(|_| found)?;
    while lines.last().is_some_and(|line| line.trim().is_empty() || line.starts_with('#')) {
        lines.pop();
    }
    Some(lines.join("\n"))
}

/// Whether a line gives this id: `id = "process"`.
pub(super) fn is_id(line: &str, id: &str) -> bool {
    let Some((key, value)) = line.split_once('=') else { return false };
    let value = value.trim_start();
    let quoted = |quote: char| {
        let rest = value.strip_prefix(quote).and_then(|rest| rest.strip_prefix(id));
        rest.is_some_and(|rest| rest.starts_with(quote))
    };
    key.trim() == "id" && (quoted('"') || quoted('\''))
}

/// Line of a text that goes over several lines, counted from 1; where a rule ends could not be told then.
pub(super) fn line_of_long_text(text: &str) -> Option<usize> {
    let is_long = |line: &str| line.contains("\"\"\"") || line.contains("'''");
    text.lines().position(is_long).map(|at| at + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "key = \"x\"\n[[rule]]\nid = \"a\"\nlimit = \"same\"\n# of a\nnote = \"x\"\n\n# --- next\n\
         [[ rule ]]\nid='b' # second\n[rule.limit]\nclasses = [\n  [\"1\"],\n]\n[[open]]\nclause = \"1\"\n";

    #[test]
    fn a_rule_is_cut_out_whole() {
        let a = rule(TEXT, "a").unwrap();
        assert_eq!(a, "id = \"a\"\nlimit = \"same\"\n# of a\nnote = \"x\"");
        let b = rule(TEXT, "b").unwrap();
        assert_eq!(b, "id='b' # second\n[rule.limit]\nclasses = [\n  [\"1\"],\n]");
        assert_eq!(rule(TEXT, "c"), None);
    }

    /// Behind a quoted headline the text holds more than the rule: a change of either ends the signature.
    #[test]
    fn never_less_than_the_rule() {
        let text = TEXT.replace("[[ rule ]]", "[[\"rule\"]]");
        assert!(rule(&text, "b").unwrap().contains("classes"));
        assert!(rule(&text, "a").unwrap().contains("classes"));
    }

    #[test]
    fn texts_over_several_lines_are_seen() {
        assert_eq!(line_of_long_text(TEXT), None);
        assert_eq!(line_of_long_text("a = 1\nb = \"\"\"\nx\"\"\""), Some(2));
        assert_eq!(line_of_long_text("b = '''x'''"), Some(1));
    }
}
