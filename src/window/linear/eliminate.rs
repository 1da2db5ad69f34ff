//! Small systems of linear equations, by elimination with row exchange.

/// Pivots below this count as zero; all rows here have entries of the order of one.
const NO_PIVOT: f64 = 1e-12;

/// Solves `matrix · x = right` in place; `None` where the rows are not independent.
pub(super) fn solve(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Option<Vec<f64>> {
    let size = right.len();
    for column in 0..size {
        let size_of = |row: &usize| matrix[*row][column].abs();
        let pivot = (column..size).max_by(|a, b| size_of(a).total_cmp(&size_of(b)))?;
        if matrix[pivot][column].abs() < NO_PIVOT {
            return None;
        }
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        let top = matrix[column].clone();
        let above = right[column];
        for row in column + 1..size {
            let factor = matrix[row][column] / top[column];
            if factor != 0.0 {
                let entries = matrix[row].iter_mut().zip(&top).skip(column);
                entries.for_each(|(entry, top)| *entry -= factor * top);
                right[row] -= factor * above;
            }
        }
    }
    for row in (0..size).rev() {
        let known: f64 = (row + 1..size).map(|column| matrix[row][column] * right[column]).sum();
        right[row] = (right[row] - known) / matrix[row][row];
    }
    Some(right)
}
