//! The shape of a weld for cooling times: one of the standard's, or factors of one's own.

use crate::{
    quantity::{ShareKind, Span},
    trade::{ShapeFactors, WeldShape, shape_factors},
    wire::wire_object,
};

wire_object! {
    /// Shape factors, each one value or an interval.
    pub struct ShapeFactorsIn {
        /// `F2`, for thin plate.
        pub two_dimensional: Span<ShareKind>,
        /// `F3`, for thick plate.
        pub three_dimensional: Span<ShareKind>,
    }
}

/// The factors given, else those of the shape; with what an answer says about them.
pub(crate) fn factors(
    shape: Option<WeldShape>,
    given: Option<&ShapeFactorsIn>,
) -> Result<(ShapeFactors, String), String> {
    let (factors, origin) = match (given, shape) {
        (Some(given), _) => {
            let (two_dimensional, three_dimensional) =
                (given.two_dimensional, given.three_dimensional);
            (
                ShapeFactors { two_dimensional, three_dimensional },
                "as given by the caller".to_owned(),
            )
        }
        (None, Some(shape)) => {
            let factors = shape_factors(shape).map_err(|error| error.to_string())?;
            (factors, format!("of {shape}, {}", shape.source()))
        }
        (None, None) => return Err("the weld shape, or its shape factors, are missing".to_owned()),
    };
    let ends =
        |span: &Span<ShareKind>| format!("{} to {}", span.low().ratio(), span.high().ratio());
    let (two, three) = (ends(&factors.two_dimensional), ends(&factors.three_dimensional));
    Ok((factors, format!("shape factors F2 {two}, F3 {three}: {origin}")))
}
