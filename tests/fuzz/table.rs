//! Owns the tables of ingredients and materials under any text: a row is read whole or not at all, and what it gives is finite.

use hearthload::matter::{food, rows};

/// Any text as a table.
pub(crate) fn table(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    for row in rows::rows(&text) {
        for field in &row {
            if let Some(number) = rows::number(field) {
                assert!(number.is_finite(), "{field} read as {number}");
            }
            if let Some([low, high]) = rows::range(field) {
                assert!(low.is_finite() && high.is_finite() && low <= high, "{field}");
            }
            if let Some(points) = rows::points(field) {
                for at in [-1e3, 0.0, 300.0, 1e4] {
                    assert!(!rows::held_linear(&points, at).is_nan(), "{field} at {at}");
                }
            }
        }
        if let Some(composition) = food::read_composition(&row) {
            for t_c in [-30.0, -1.0, 0.0, 20.0, 99.0] {
                let all = [
                    food::cp_j_kg_k(&composition, t_c),
                    food::enthalpy_j_kg(&composition, t_c),
                    food::density_kg_m3(&composition, t_c),
                    food::k_parallel_w_m_k(&composition, t_c),
                    food::k_series_w_m_k(&composition, t_c),
                ];
                assert!(all.iter().all(|value| value.is_finite()), "{row:?} at {t_c}: {all:?}");
            }
        }
    }
}
