//! Small systems of linear equations, by elimination with row exchange.

use super::DIM;

/// Pivots below this count as zero; all rows here have entries of the order of one.
const NO_PIVOT: f64 = 1e-12;

/// Rows of a matrix.
pub(super) type Square = [[f64; DIM]; DIM];

/// Solves the first `size` rows of `matrix · x = right` for several right-hand sides at once; `None` where
/// the rows are not independent.
pub(super) fn solve<const R: usize>(
    size: usize,
    mut matrix: Square,
    mut right: [[f64; R]; DIM],
) -> Option<[[f64; R]; DIM]> {
    for column in 0..size {
        let mut pivot = column;
        for row in column + 1..size {
            if matrix[row][column].abs() > matrix[pivot][column].abs() {
                pivot = row;
            }
        }
        if matrix[pivot][column].abs() < NO_PIVOT {
            return None;
        }
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        let (top, above) = (matrix[column], right[column]);
        for row in column + 1..size {
            let factor = matrix[row][column] / top[column];
            if factor != 0.0 {
                for place in column..size {
                    matrix[row][place] -= factor * top[place];
                }
                right[row].iter_mut().zip(&above).for_each(|(own, above)| *own -= factor * above);
            }
        }
    }
    for row in (0..size).rev() {
        let mut rest = right[row];
        for column in row + 1..size {
            let factor = matrix[row][column];
            rest.iter_mut().zip(&right[column]).for_each(|(rest, known)| *rest -= factor * known);
        }
        right[row] = rest.map(|rest| rest / matrix[row][row]);
    }
    Some(right)
}
