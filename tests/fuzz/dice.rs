//! Owns choices made out of bytes, so that a mutated byte is a changed choice. When the bytes run out every choice is the first.

use serde_json::{Value, json};

/// Choices out of bytes.
pub(crate) struct Dice<'a>(&'a [u8]);

impl<'a> Dice<'a> {
    pub(crate) fn new(bytes: &'a [u8]) -> Self {
        Self(bytes)
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    fn byte(&mut self) -> u8 {
        let Some((first, rest)) = self.0.split_first() else { return 0 };
        self.0 = rest;
        *first
    }

    /// One of `count` places.
    pub(crate) fn place(&mut self, count: usize) -> usize {
        let number =
            if count > 256 { usize::from(self.byte()) << 8 | usize::from(self.byte()) } else { self.byte().into() };
        number % count.max(1)
    }

    pub(crate) fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.place(of.len())]
    }

    /// True in `of_256` cases of 256; false when the bytes have run out.
    pub(crate) fn chance(&mut self, of_256: u16) -> bool {
        u16::from(self.byte()) >= 256 - of_256
    }

    /// A number between two, in steps of a hundredth of a percent; one of both in a few cases.
    pub(crate) fn between(&mut self, least: f64, most: f64) -> f64 {
        match self.byte() {
            250..=252 => least,
            253..=255 => most,
            _ => {
                let share = f64::from(u16::from(self.byte()) << 8 | u16::from(self.byte())) / 65_535.0;
                (((least + share * (most - least)) * 1e4).round() / 1e4).clamp(least, most)
            }
        }
    }

    /// The same, whole.
    pub(crate) fn whole(&mut self, least: u32, most: u32) -> u32 {
        self.between(least.into(), most.into()).round() as u32
    }

    /// Any number at all, some of them odd.
    pub(crate) fn number(&mut self) -> Value {
        match self.byte() % 8 {
            0 => json!(0),
            1 => json!(-1),
            2 => json!(1e308),
            3 => json!(-1e308),
            4 => json!(5e-324),
            5 => json!(u64::MAX),
            6 => json!(i64::MIN),
            _ => {
                let mut bits = [0; 8];
                bits.fill_with(|| self.byte());
                json!(f64::from_le_bytes(bits))
            }
        }
    }

    /// The next few bytes as text.
    pub(crate) fn text(&mut self) -> String {
        let length = usize::from(self.byte() % 24).min(self.0.len());
        let (text, rest) = self.0.split_at(length);
        self.0 = rest;
        String::from_utf8_lossy(text).into_owned()
    }
}
