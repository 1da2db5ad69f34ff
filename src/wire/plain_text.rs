//! A look at JSON text that is plain: no escapes, and what one takes there is what one expects. `None` from any step
//! leaves the whole text to those who can say what is wrong with it.

use std::{borrow::Cow, mem::forget};

use serde_json::Value;

use super::{
    Errors, Members, Node,
    json_text::{is_special, special_in},
    node::doubled,
};

/// Levels of objects and lists that are read here.
pub(super) const DEEPEST: usize = 16;

/// Members of most objects at most.
const MEMBERS: usize = 12;

/// Digits of a short number at most.
const SHORT: usize = 9;

/// Items of most lists at most.
const ITEMS: usize = 4;

/// JSON without escapes, and a place in it: what stands next, never a space before it.
#[derive(Debug)]
pub struct PlainText<'a> {
    text: &'a str,
    at: usize,
    /// Noted by the rules of reading. One is enough to leave the text to the longer way.
    errors: Errors,
}

/// Name of a member in its quotes. Its first bytes, as a number, tell most names apart.
#[derive(Debug, Clone, Copy)]
pub struct PlainName {
    quoted: &'static str,
    start: u64,
    /// The bits of a number that are those of the name, where it is shorter.
    mask: u64,
}

impl PlainName {
    /// A name in its quotes.
    #[must_use]
    pub const fn new(quoted: &'static str) -> Self {
        let (bytes, mut start, mut mask, mut at) = (quoted.as_bytes(), 0, 0, 0);
        while at < bytes.len() && at < 8 {
            start |= (bytes[at] as u64) << (8 * at);
            mask |= 0xff << (8 * at);
            at += 1;
        }
        Self { quoted, start, mask }
    }
}

impl<'a> PlainText<'a> {
    /// Reads a text that holds one value and nothing else.
    pub fn whole<T>(text: &'a str, read: impl FnOnce(&mut Self) -> Option<T>) -> Option<T> {
        let mut text = Self { text, at: 0, errors: Errors::default() };
        text.skip();
        let value = read(&mut text)?;
        text.skip();
        (text.at == text.text.len() && text.errors.met.is_empty()).then_some(value)
    }

    /// The value that stands next, whatever it is.
    pub fn value(&mut self) -> Option<Node<'a>> {
        self.value_within(DEEPEST)
    }

    /// Reads the value that stands next by its rule for nodes.
    #[inline]
    pub fn leaf<T>(&mut self, rule: impl FnOnce(&Node<'a>, &mut Errors) -> Option<T>) -> Option<T> {
        let is_text = self.byte() == b'"';
        let node = if is_text { as_node(self.plain_text()?) } else { self.value_within(DEEPEST)? };
        let read = rule(&node, &mut self.errors);
        if is_text {
            // It is borrowed, so that there is nothing to drop; without this, each leaf asks.
            forget(node);
        }
        read
    }

    /// Whether `null` stands next, or nothing that could be read.
    #[inline]
    #[must_use]
    pub fn is_at_null(&self) -> bool {
        self.byte() == b'n'
    }

    /// Goes into an object; whether it has a member, whose name stands next.
    pub fn enter_object(&mut self) -> Option<bool> {
        self.enter(b'{', b'}')
    }

    /// Goes into a list; whether it has an item, which stands next.
    pub fn enter_list(&mut self) -> Option<bool> {
        self.enter(b'[', b']')
    }

    #[inline]
    fn enter(&mut self, start: u8, end: u8) -> Option<bool> {
        if self.byte() != start {
            return None;
        }
        self.go_on();
        let any = self.byte() != end;
        self.at += usize::from(!any);
        Some(any)
    }

    /// Behind a member: whether another one stands next, or the object ends.
    pub fn more_members(&mut self) -> Option<bool> {
        self.more(b'}')
    }

    /// Behind an item: whether another one stands next, or the list ends.
    pub fn more_items(&mut self) -> Option<bool> {
        self.more(b']')
    }

    #[inline]
    fn more(&mut self, end: u8) -> Option<bool> {
        // A comma mostly stands right there, the end of an object on a line of its own.
        if self.byte() <= b' ' {
            self.skip_line();
        }
        match self.byte() {
            b',' => {
                self.go_on();
                Some(true)
            }
            mark => {
                self.at += 1;
                (mark == end).then_some(false)
            }
        }
    }

    /// The first bytes of what stands next, for [`Self::is_at`]; zero where there are not eight, so that the shortest
    /// texts are left to the longer way.
    #[inline]
    #[must_use]
    pub fn start(&self) -> u64 {
        self.rest().first_chunk().map_or(0, |start| u64::from_le_bytes(*start))
    }

    /// Whether the member of this name stands next, where [`Self::start`] says this.
    #[inline]
    #[must_use]
    pub fn is_at(&self, start: u64, name: PlainName) -> bool {
        start & name.mask == name.start
            && (name.quoted.len() <= 8 || self.rest().starts_with(name.quoted.as_bytes()))
    }

    /// Goes over the name that stands next, to its value.
    #[inline]
    pub fn go_to_value(&mut self, name: &str) -> Option<()> {
        self.at += name.len() + 2;
        self.colon()
    }

    #[inline]
    fn rest(&self) -> &'a [u8] {
        self.text.as_bytes().get(self.at..).unwrap_or_default()
    }

    /// Goes over the colon behind a name.
    #[inline]
    fn colon(&mut self) -> Option<()> {
        match *self.rest() {
            [b':', b' ', next, ..] if next > b' ' => self.at += 2,
            [b':', next, ..] if next > b' ' => self.at += 1,
            _ => return self.colon_among_spaces(),
        }
        Some(())
    }

    #[inline(never)]
    fn colon_among_spaces(&mut self) -> Option<()> {
        self.skip();
        let is_colon = self.byte() == b':';
        self.at += 1;
        self.skip();
        is_colon.then_some(())
    }

    fn value_within(&mut self, levels: usize) -> Option<Node<'a>> {
        match self.byte() {
            b'"' => self.plain_text().map(as_node),
            b'{' => self.object(levels.checked_sub(1)?),
            b'[' => self.list(levels.checked_sub(1)?),
            _ => self.short_number().or_else(|| self.left_to_library()),
        }
    }

    /// A whole number of few digits.
    fn short_number(&mut self) -> Option<Node<'a>> {
        let rest = self.rest();
        let length = rest.iter().take(SHORT + 1).take_while(|byte| byte.is_ascii_digit()).count();
        let (digits, after) = rest.split_at_checked(length)?;
        let ends = after.first().is_none_or(|byte| ends_value(*byte));
        let plain = matches!(digits, [b'1'..=b'9', ..] | [b'0']);
        if !ends || !plain || length > SHORT {
            return None;
        }
        self.at += length;
        let number = digits.iter().fold(0, |sum, digit| 10 * sum + u64::from(digit - b'0'));
        Some(Node::Number(number.into()))
    }

    fn object(&mut self, levels: usize) -> Option<Node<'a>> {
        let mut more = self.enter_object()?;
        let mut members = Vec::with_capacity(MEMBERS);
        while more {
            let name = Cow::Borrowed(self.plain_text()?);
            self.colon()?;
            members.push((name, self.value_within(levels)?));
            more = self.more_members()?;
        }
        // Only the longer way says which one it is.
        doubled(&members).is_empty().then(|| Node::Object(Members::from(members)))
    }

    fn list(&mut self, levels: usize) -> Option<Node<'a>> {
        let mut more = self.enter_list()?;
        let mut items = Vec::with_capacity(ITEMS);
        while more {
            items.push(self.value_within(levels)?);
            more = self.more_items()?;
        }
        Some(Node::List(items))
    }

    /// The text that stands next. Not copied to each place that asks, where its numbers would be written anew in each
    /// round.
    #[inline(never)]
    fn plain_text(&mut self) -> Option<&'a str> {
        if self.byte() != b'"' {
            return None;
        }
        let rest = self.text.get(self.at + 1..)?;
        let length = plain_length(rest.as_bytes());
        self.at += length + 2;
        if rest.as_bytes().get(length) == Some(&b'"') { rest.get(..length) } else { None }
    }

    /// A number or a word.
    fn left_to_library(&mut self) -> Option<Node<'a>> {
        let rest = self.text.get(self.at..)?;
        let length = rest.bytes().position(ends_value).unwrap_or(rest.len());
        self.at += length;
        match serde_json::from_str(&rest[..length]).ok()? {
            Value::Null => Some(Node::Null),
            Value::Bool(value) => Some(Node::Bool(value)),
            Value::Number(number) => Some(Node::Number(number)),
            _ => None,
        }
    }

    /// The byte that stands here; behind the end a zero, which no JSON has.
    #[inline]
    fn byte(&self) -> u8 {
        self.text.as_bytes().get(self.at).copied().unwrap_or(0)
    }

    /// Goes over the mark that stands here, to what stands next: right behind it, or on the next line.
    #[inline]
    fn go_on(&mut self) {
        self.at += 1;
        if self.byte() <= b' ' {
            self.skip_line();
        }
    }

    /// Goes to the first word of the next line in one step, where a line ends here.
    #[inline]
    fn skip_line(&mut self) {
        if let Some(next) = self.rest().first_chunk() {
            self.at += indent(*next);
        }
        self.skip();
    }

    /// Goes to what stands next.
    #[inline]
    fn skip(&mut self) {
        if self.byte() <= b' ' {
            self.skip_spaces();
        }
    }

    #[inline(never)]
    fn skip_spaces(&mut self) {
        while is_space(self.byte()) {
            self.at += 1;
        }
    }
}

/// A text as a value.
const fn as_node(text: &str) -> Node<'_> {
    Node::Text(Cow::Borrowed(text))
}

/// How many of eight bytes are the start of a line and the spaces before its first word.
#[inline]
const fn indent(bytes: [u8; 8]) -> usize {
    let others = u64::from_le_bytes(bytes) ^ u64::from_le_bytes(*b"\n       ");
    others.trailing_zeros() as usize / 8
}

/// Bytes before the first control, quote or backslash; all where there is none.
#[inline]
fn plain_length(text: &[u8]) -> usize {
    let mut rest = text;
    while let Some((eight, after)) = rest.split_first_chunk() {
        let special = special_in(*eight);
        if special != 0 {
            return text.len() - rest.len() + special.trailing_zeros() as usize / 8;
        }
        rest = after;
    }
    let in_rest = rest.iter().position(|byte| is_special(*byte));
    text.len() - rest.len() + in_rest.unwrap_or(rest.len())
}

/// Whether a number or a word ends before this byte.
const fn ends_value(byte: u8) -> bool {
    matches!(byte, b',' | b'}' | b']') || is_space(byte)
}

const fn is_space(byte: u8) -> bool {
    matches!(byte, b' ' | b'\n' | b'\t' | b'\r')
}
