//! `POST /v1/calculations/gun-rating`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::{Current, CurrentKind, Span},
    trade::{
        Coded, Confidence, Formula, GUN_DERATING_SOURCE, Gas, GunCooling, GunLimit, GunRating,
        gun_limit,
    },
    wire::wire_object,
};

/// A rating of the gun itself.
const RATED: Formula = Formula {
    name: "gun-rating",
    equation: "the rating for this gas, or for argon mixtures where the gas is carbon dioxide",
    source: "rating of the gun as given",
    validity: "at the duty cycle of the rating; carbon dioxide cools the gun better than argon mixtures",
    confidence: Confidence::Derived,
};

/// A rating for carbon dioxide, reduced.
const REDUCED: Formula = Formula {
    name: "gun-rating-reduced",
    equation: "air-cooled: 50 to 60 % of the rating in carbon dioxide; liquid-cooled: 90 %",
    source: GUN_DERATING_SOURCE.0,
    validity: "advice only: the gun has no rating for this gas; at the duty cycle of the rating",
    confidence: GUN_DERATING_SOURCE.1,
};

wire_object! {
    /// Ratings of a gun at one duty cycle, and the gas it is used with.
    pub struct GunRatingIn {
        /// Rating in carbon dioxide.
        pub carbon_dioxide: Option<Current>,
        /// Rating in argon mixtures (M21).
        pub mixture: Option<Current>,
        /// How the gun is cooled.
        pub cooling: GunCooling,
        /// The gas.
        pub gas: Gas,
        /// The current to be carried.
        pub current: Option<Span<CurrentKind>>,
    }
}

calculation! {
    /// The most a gas-shielded gun carries in a gas: its rating for that gas, else a reduced one as a band.
    "/v1/calculations/gun-rating", calculate_gun_rating(GunRatingIn) => fill,
    summary: "Rating of a gun in a gas",
    example: {
        "carbon_dioxide": "400 A", "cooling": "air", "gas": "M21-ArC-20", "current": "220 A"
    }
}

fn fill(sent: &GunRatingIn, sheet: &mut Sheet) {
    let rating = GunRating {
        carbon_dioxide: sent.carbon_dioxide,
        mixture: sent.mixture,
        cooling: sent.cooling,
    };
    match gun_limit(&rating, &sent.gas) {
        Err(error) => sheet.absent("most-current", error),
        Ok(None) => {
            let reason = "nothing is known: no rating is given, or the gas is neither carbon dioxide nor \
                          an argon mixture of groups M1 to M3";
            sheet.absent("most-current", reason);
            sheet.absent("fit", reason);
        }
        Ok(Some(limit)) => {
            let formula = if limit.basis.advises_only() { &REDUCED } else { &RATED };
            let basis = limit.basis.code();
            sheet.at_most_within::<_, &str>("most-current", Ok(limit.current), formula, &[basis]);
            match sent.current {
                Some(current) => {
                    let words = vec![fit(&limit, &current).to_owned()];
                    sheet.words("fit", words, formula, &[basis]);
                }
                None => sheet.absent("fit", "the current to be carried is not given"),
            }
        }
    }
}

/// How a current lies to the limit.
fn fit(limit: &GunLimit, current: &Span<CurrentKind>) -> &'static str {
    if current.high().at_most(limit.current.low()) {
        "inside"
    } else if current.high().at_most(limit.current.high()) {
        "within the band of the reduced rating: not known to be inside"
    } else {
        "above"
    }
}
