//! Choices with one printed code each, as the trade or a standard writes them.

/// A closed set of values, each with its code.
pub trait Coded: Copy + Eq + Send + Sync + 'static {
    /// What one value is called, in words.
    const NAME: &'static str;
    /// Every value with its code, in the order a list shows them.
    const ALL: &'static [(Self, &'static str)];

    /// The code of this value.
    #[must_use]
    fn code(self) -> &'static str {
        Self::ALL.iter().find(|(value, _)| *value == self).map_or("", |(_, code)| code)
    }

    /// The value with this code.
    #[must_use]
    fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, known)| *known == code).map(|(value, _)| *value)
    }
}

impl Coded for crate::quantity::UnitSystem {
    const NAME: &'static str = "system of units";
    const ALL: &'static [(Self, &'static str)] = &[(Self::Metric, "metric"), (Self::Us, "us")];
}

/// Declares an enum and its table of codes in one place.
macro_rules! coded {
    (
        $(#[$meta:meta])*
        $vis:vis enum $name:ident: $words:literal {
            $($(#[$variant_meta:meta])* $variant:ident = $code:literal,)+
        }
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        $vis enum $name {
            $($(#[$variant_meta])* $variant,)+
        }

        impl $crate::trade::Coded for $name {
            const NAME: &'static str = $words;
            const ALL: &'static [(Self, &'static str)] = &[$((Self::$variant, $code),)+];

            fn code(self) -> &'static str {
                match self {
                    $(Self::$variant => $code,)+
                }
            }

            fn from_code(code: &str) -> Option<Self> {
                match code {
                    $($code => Some(Self::$variant),)+
                    _ => None,
                }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str($crate::trade::Coded::code(*self))
            }
        }
    };
}
pub(crate) use coded;
