//! Line drawings, in units of their own: x to the right, y down.

/// A drawing with what it shows.
#[derive(Debug, Clone)]
pub struct Drawing {
    /// Width and height in its own units, from (0, 0).
    pub size: (f64, f64),
    /// Width on paper in millimetres.
    pub printed_width: f64,
    /// Shapes, the lowest first.
    pub shapes: Vec<Shape>,
    /// What it shows.
    pub caption: String,
}

/// How a shape is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Filled black.
    Black,
    /// Filled grey, with an edge.
    Part,
    /// Filled light, with an edge.
    Weld,
    /// A thin line.
    Thin,
}

/// Where a label stands to its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Begins there.
    Start,
    /// Is centred there.
    Middle,
    /// Ends there.
    End,
}

/// One shape.
#[derive(Debug, Clone)]
pub enum Shape {
    /// A closed outline, or an open line of the tone `Thin`.
    Path(Vec<(f64, f64)>, Tone),
    /// Words.
    Label {
        /// Foot of the letters.
        at: (f64, f64),
        /// The words.
        words: String,
        /// Where they stand to it.
        anchor: Anchor,
    },
}

impl Drawing {
    /// Millimetres on paper of one unit.
    #[must_use]
    pub fn scale(&self) -> f64 {
        self.printed_width / self.size.0
    }

    /// Height on paper in millimetres.
    #[must_use]
    pub fn printed_height(&self) -> f64 {
        self.size.1 * self.scale()
    }
}
