//! A look at JSON text that is plain: no escapes, and what one takes there is what one expects. `None` from any step
//! leaves the whole text to those who can say what is wrong with it.

use std::borrow::Cow;

use super::{
    Members, Node,
    json_text::{is_special, special_in},
};

/// Levels of objects and lists that are read here.
pub(super) const DEEPEST: usize = 16;

/// Members of most objects at most.
const MEMBERS: usize = 12;

/// Items of most lists at most.
const ITEMS: usize = 4;

/// JSON without escapes, and a place in it.
#[derive(Debug)]
pub struct PlainText<'a> {
    text: &'a str,
    at: usize,
}

/// Name of a member. Its first bytes, as a number, tell most names apart.
#[derive(Debug, Clone, Copy)]
pub struct PlainName<'a> {
    start: u64,
    name: &'a [u8],
}

impl<'a> PlainName<'a> {
    /// The name.
    #[must_use]
    pub const fn as_bytes(&self) -> &'a [u8] {
        self.name
    }

    /// Whether it is this name, which starts with these bytes: [`start_of`] says them.
    #[inline]
    #[must_use]
    pub fn is(&self, start: u64, name: &str) -> bool {
        self.start == start && self.name == name.as_bytes()
    }
}

/// The first eight bytes of a name as a number, with zeros behind a shorter one.
#[must_use]
pub const fn start_of(name: &str) -> u64 {
    let (name, mut start, mut at) = (name.as_bytes(), 0, 0);
    while at < name.len() && at < 8 {
        start |= (name[at] as u64) << (8 * at);
        at += 1;
    }
    start
}

impl<'a> PlainText<'a> {
    /// Reads a text that holds one value and nothing else.
    pub fn whole<T>(text: &'a str, read: impl FnOnce(&mut Self) -> Option<T>) -> Option<T> {
        let mut text = Self { text, at: 0 };
        let value = read(&mut text)?;
        text.peek().is_none().then_some(value)
    }

    /// The value that stands next, whatever it is.
    pub fn value(&mut self) -> Option<Node<'a>> {
        let first = self.peek()?;
        self.value_from(first, DEEPEST)
    }

    /// Goes into an object; whether it has a member, whose [`Self::name`] stands next.
    pub fn into_object(&mut self) -> Option<bool> {
        self.into_many(b'{', b'}')
    }

    /// Goes into a list; whether it has an item, which stands next.
    pub fn into_list(&mut self) -> Option<bool> {
        self.into_many(b'[', b']')
    }

    fn into_many(&mut self, start: u8, end: u8) -> Option<bool> {
        if self.peek()? != start {
            return None;
        }
        let any = self.peek_line()? != end;
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

    fn more(&mut self, end: u8) -> Option<bool> {
        match self.peek_mark()? {
            b',' => {
                self.peek_line()?;
                Some(true)
            }
            mark => {
                self.at += 1;
                (mark == end).then_some(false)
            }
        }
    }

    /// The name of the member that stands next; its value stands next then. What is no JSON in a name is in no name
    /// that is known, so only its end is looked for. Some value follows it in eight bytes, but for the shortest texts.
    pub fn name(&mut self) -> Option<PlainName<'a>> {
        let (quote, rest) = self.text.as_bytes().get(self.at..)?.split_first()?;
        if *quote != b'"' {
            return None;
        }
        let first = u64::from_le_bytes(*rest.first_chunk()?);
        let (mut length, mut quote) = (0, quote_in(first));
        // Of a name that ends among the first bytes, what follows is no part.
        let start = if quote == 0 { first } else { first & (quote ^ (quote - 1)) >> 8 };
        while quote == 0 {
            length += 8;
            quote = quote_in(u64::from_le_bytes(*rest.get(length..)?.first_chunk()?));
        }
        length += quote.trailing_zeros() as usize / 8;
        self.at += length + 2;
        if self.peek()? != b':' {
            return None;
        }
        self.at += 1;
        Some(PlainName { start, name: &rest[..length] })
    }

    /// Whether `null` stands next; goes behind it then.
    pub fn null(&mut self) -> Option<bool> {
        let is_null = self.peek()? == b'n';
        if is_null {
            self.left_to_library()?;
        }
        Some(is_null)
    }

    /// A value that starts with this byte, which stands next.
    fn value_from(&mut self, first: u8, levels: usize) -> Option<Node<'a>> {
        match first {
            b'"' => self.plain_text().map(as_node),
            b'{' => self.object(levels.checked_sub(1)?),
            b'[' => self.list(levels.checked_sub(1)?),
            _ => self.left_to_library(),
        }
    }

    fn object(&mut self, levels: usize) -> Option<Node<'a>> {
        let mut members = Vec::with_capacity(MEMBERS);
        let mut next = self.peek_line()?;
        while next != b'}' || !members.is_empty() {
            if next != b'"' {
                return None;
            }
            let name = Cow::Borrowed(self.plain_text()?);
            if self.peek()? != b':' {
                return None;
            }
            self.at += 1;
            // Most values are texts: no call, and no copy of what it gives.
            match self.peek()? {
                b'"' => members.push((name, as_node(self.plain_text()?))),
                first => members.push((name, self.value_from(first, levels)?)),
            }
            match self.peek_mark()? {
                b',' => next = self.peek_line()?,
                b'}' => break,
                _ => return None,
            }
        }
        self.at += 1;
        Some(Node::Object(Members::from(members)))
    }

    fn list(&mut self, levels: usize) -> Option<Node<'a>> {
        let mut items = Vec::with_capacity(ITEMS);
        let mut next = self.peek_line()?;
        while next != b']' || !items.is_empty() {
            items.push(self.value_from(next, levels)?);
            match self.peek_mark()? {
                b',' => next = self.peek_line()?,
                b']' => break,
                _ => return None,
            }
        }
        self.at += 1;
        Some(Node::List(items))
    }

    /// The text whose opening quote stands next.
    fn plain_text(&mut self) -> Option<&'a str> {
        let rest = self.text.get(self.at + 1..)?;
        let length = plain_length(rest.as_bytes());
        self.at += length + 2;
        if rest.as_bytes().get(length) == Some(&b'"') { rest.get(..length) } else { None }
    }

    /// A number or a word.
    fn left_to_library(&mut self) -> Option<Node<'a>> {
        let rest = &self.text[self.at..];
        let ends = |byte| matches!(byte, b',' | b'}' | b']') || is_space(byte);
        let length = rest.bytes().position(ends).unwrap_or(rest.len());
        self.at += length;
        serde_json::from_str(&rest[..length]).ok()
    }

    /// The byte that stands next behind spaces, after the mark that stands here.
    fn peek_line(&mut self) -> Option<u8> {
        self.at += 1;
        self.skip_line();
        self.peek()
    }

    /// The mark behind a value. A comma mostly stands right there, the end of an object on a line of its own.
    fn peek_mark(&mut self) -> Option<u8> {
        if self.text.as_bytes().get(self.at) != Some(&b',') {
            self.skip_line();
        }
        self.peek()
    }

    /// Goes to the first word of the next line in one step, where a line ends here.
    fn skip_line(&mut self) {
        if let Some(next) = self.text.as_bytes().get(self.at..).and_then(<[u8]>::first_chunk) {
            self.at += indent(*next);
        }
    }

    /// The byte that stands next behind spaces.
    fn peek(&mut self) -> Option<u8> {
        loop {
            let byte = *self.text.as_bytes().get(self.at)?;
            if !is_space(byte) {
                return Some(byte);
            }
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

/// Bytes before the first control, quote or backslash; all where there is none. Not copied to each place that asks,
/// where its numbers would be written anew in each round.
#[inline(never)]
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

/// Not zero where one of eight bytes is a quote; the lowest bit that is set is the highest one of the first quote.
const fn quote_in(word: u64) -> u64 {
    const EACH: u64 = 0x0101_0101_0101_0101;
    let others = word ^ (b'"' as u64 * EACH);
    others.wrapping_sub(EACH) & !others & (0x80 * EACH)
}

const fn is_space(byte: u8) -> bool {
    matches!(byte, b' ' | b'\n' | b'\t' | b'\r')
}
