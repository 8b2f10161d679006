//! Owns how wide a text is: by a table of advance widths off screen, by the canvas itself on screen.

/// Something that knows how wide text is.
pub trait Measure {
    /// Width in CSS px of `text` in a font of `size` px.
    fn width_px(&self, text: &str, size: f64, bold: bool) -> f64;
}

/// Measures by a table, the same everywhere: for SVG, print and tests, where no font can be asked.
#[derive(Clone, Copy, Debug, Default)]
pub struct ByTable;

/// Advance widths of a plain sans serif, thousandths of the font size, from the space to the tilde (Adobe's Helvetica metrics).
const ADVANCE: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
    556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
    722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
    556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
    260, 334, 584,
];

/// Other signs, thousandths: between a digit and a capital.
const OTHER_ADVANCE: u16 = 600;

/// Bold over plain, a mean over letters.
const BOLD_FACTOR: f64 = 1.07;

/// Room for faces wider than the table's.
const SLACK: f64 = 1.06;

impl Measure for ByTable {
    fn width_px(&self, text: &str, size: f64, bold: bool) -> f64 {
        let thousandths: u32 = text.chars().map(|sign| u32::from(advance(sign))).sum();
        f64::from(thousandths) / 1000.0 * size * SLACK * if bold { BOLD_FACTOR } else { 1.0 }
    }
}

fn advance(sign: char) -> u16 {
    match sign {
        ' '..='~' => ADVANCE[sign as usize - ' ' as usize],
        '\u{a0}' => ADVANCE[0],
        '°' => 400,
        '’' => 222,
        '–' => 556,
        _ => OTHER_ADVANCE,
    }
}
