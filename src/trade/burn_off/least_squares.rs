//! Least squares of two coefficients, by orthogonal columns.

use super::BurnOffError;

/// One equation `y = c1 x1 + c2 x2`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    pub(super) x: [f64; 2],
    pub(super) y: f64,
}

/// The solution, with what is needed to state its uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Solution {
    pub(super) coefficients: [f64; 2],
    /// Standard deviation of the residuals; `None` without a degree of freedom.
    pub(super) sigma: Option<f64>,
    /// Mean of the absolute right-hand sides, the scale of `sigma`.
    pub(super) mean: f64,
    degrees_of_freedom: usize,
    /// Upper triangle of the orthogonal factorisation: r11, r12, r22.
    triangle: [f64; 3],
}

/// Second columns that leave less than this of themselves beside the first are the same direction.
const RANK_TOLERANCE: f64 = 1e-6;

/// Two-sided 95 % quantiles of Student's t for 1 to 30 degrees of freedom (standard table).
const STUDENT: [f64; 30] = [
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160,
    2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086, 2.080, 2.074, 2.069, 2.064, 2.060, 2.056,
    2.052, 2.048, 2.045, 2.042,
];

/// Solves the rows.
///
/// # Errors
/// [`BurnOffError::TooFewPoints`] for fewer than two rows, [`BurnOffError::OneDirection`] where the
/// rows do not separate the coefficients.
pub(super) fn solve(rows: &[Row]) -> Result<Solution, BurnOffError> {
    if rows.len() < 2 {
        return Err(BurnOffError::TooFewPoints { given: rows.len(), needed: 2 });
    }
    let norm = |column: &dyn Fn(&Row) -> f64| {
        rows.iter().map(|row| column(row).powi(2)).sum::<f64>().sqrt()
    };
    let r11 = norm(&|row| row.x[0]);
    let first = |row: &Row| row.x[0] / r11;
    let r12: f64 = rows.iter().map(|row| first(row) * row.x[1]).sum();
    let rest = |row: &Row| row.x[1] - r12 * first(row);
    let r22 = norm(&rest);
    // Written so that a NaN from an empty column is refused too.
    if !(r11 > 0.0 && r22 > RANK_TOLERANCE * norm(&|row| row.x[1])) {
        return Err(BurnOffError::OneDirection);
    }
    let b1: f64 = rows.iter().map(|row| first(row) * row.y).sum();
    let b2: f64 = rows.iter().map(|row| rest(row) / r22 * row.y).sum();
    let c2 = b2 / r22;
    let coefficients = [(b1 - r12 * c2) / r11, c2];
    Ok(with_scatter(rows, coefficients, [r11, r12, r22]))
}

fn with_scatter(rows: &[Row], coefficients: [f64; 2], triangle: [f64; 3]) -> Solution {
    let [c1, c2] = coefficients;
    let residual = |row: &Row| row.y - c1 * row.x[0] - c2 * row.x[1];
    let squares: f64 = rows.iter().map(|row| residual(row).powi(2)).sum();
    let degrees_of_freedom = rows.len() - 2;
    let sigma = (degrees_of_freedom > 0).then(|| (squares / count(degrees_of_freedom)).sqrt());
    let mean = rows.iter().map(|row| row.y.abs()).sum::<f64>() / count(rows.len());
    Solution { coefficients, sigma, mean, degrees_of_freedom, triangle }
}

/// Counts of operating points are far below where a double skips whole numbers.
#[expect(clippy::cast_precision_loss, reason = "see above")]
const fn count(number: usize) -> f64 {
    number as f64
}

impl Solution {
    /// Half the width of the 95 % prediction interval at a new row; `None` without a degree of
    /// freedom.
    pub(super) fn half_width(&self, x: [f64; 2]) -> Option<f64> {
        let [r11, r12, r22] = self.triangle;
        let z1 = x[0] / r11;
        let z2 = (x[1] - r12 * z1) / r22;
        Some(self.student()? * self.sigma? * (1.0 + z1 * z1 + z2 * z2).sqrt())
    }

    /// Half the width of the 95 % interval of the second coefficient.
    pub(super) fn second_half_width(&self) -> Option<f64> {
        Some(self.student()? * self.sigma? / self.triangle[2])
    }

    fn student(&self) -> Option<f64> {
        // Beyond the table its last value is on the safe side.
        let at = self.degrees_of_freedom.min(STUDENT.len());
        at.checked_sub(1).map(|index| STUDENT[index])
    }
}
