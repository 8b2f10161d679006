//! Owns the colours of the pictures: one set for light, one for dark, and how they are read from the page's style sheet.

/// A colour of eight bits a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour(pub u8, pub u8, pub u8);

impl Colour {
    /// From `0xRRGGBB`.
    #[must_use]
    pub const fn hex(rgb: u32) -> Self {
        Self((rgb >> 16) as u8, (rgb >> 8) as u8, rgb as u8)
    }

    /// Reads `#RRGGBB`, `#RGB` or `rgb(r, g, b)` as a style sheet gives it.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim();
        if let Some(digits) = text.strip_prefix('#') {
            let rgb = u32::from_str_radix(digits, 16).ok()?;
            return match digits.len() {
                6 => Some(Self::hex(rgb)),
                3 => Some(Self::hex((rgb >> 8 & 0xF) * 0x11_0000 + (rgb >> 4 & 0xF) * 0x1100 + (rgb & 0xF) * 0x11)),
                _ => None,
            };
        }
        let inner = text.strip_prefix("rgb(")?.strip_suffix(')')?;
        let mut parts = inner.split(',').map(|part| part.trim().parse::<u8>());
        match (parts.next(), parts.next(), parts.next()) {
            (Some(Ok(red)), Some(Ok(green)), Some(Ok(blue))) => Some(Self(red, green, blue)),
            _ => None,
        }
    }

    /// Contrast ratio of WCAG 2.2 against another colour, 1 to 21.
    #[must_use]
    pub fn contrast(self, other: Self) -> f64 {
        let (mine, theirs) = (self.luminance(), other.luminance());
        (mine.max(theirs) + 0.05) / (mine.min(theirs) + 0.05)
    }

    fn luminance(self) -> f64 {
        let channel = |value: u8| {
            let share = f64::from(value) / 255.0;
            if share <= 0.040_45 { share / 12.92 } else { libm::pow((share + 0.055) / 1.055, 2.4) }
        };
        0.2126 * channel(self.0) + 0.7152 * channel(self.1) + 0.0722 * channel(self.2)
    }
}

macro_rules! tokens {
    ($($(#[$doc:meta])* $field:ident, $variable:literal, $light:literal, $dark:literal;)+) => {
        /// Every colour a picture may use. On screen it is read from the page's CSS variables, so page and pictures cannot differ.
        #[derive(Clone, Debug, PartialEq, Eq)]
        pub struct Theme { $($(#[$doc])* pub $field: Colour,)+ }

        impl Theme {
            /// The light set; print always uses it.
            #[must_use]
            pub const fn light() -> Self { Self { $($field: Colour::hex($light),)+ } }

            /// The dark set, for screens only.
            #[must_use]
            pub const fn dark() -> Self { Self { $($field: Colour::hex($dark),)+ } }

            /// Takes each colour from `lookup` (a CSS variable's name to its text) where that gives one, else keeps its own.
            #[must_use]
            pub fn read(mut self, lookup: impl Fn(&str) -> Option<String>) -> Self {
                $(if let Some(colour) = lookup($variable).as_deref().and_then(Colour::parse) { self.$field = colour; })+
                self
            }

            /// The CSS variables with their light and dark values, for the style sheet and its test.
            pub const VARIABLES: &'static [(&'static str, u32, u32)] = &[$(($variable, $light, $dark),)+];
        }
    };
}

tokens! {
    /// Ground of everything.
    slab, "--slab", 0xFC_FC_F9, 0x1B_18_20;
    /// Joints, the page behind.
    mortar, "--mortar", 0xCF_D1_CC, 0x0C_0A_0F;
    /// Assumed fields, the bodies of ovens.
    inset, "--inset", 0xEE_EF_EA, 0x26_22_2D;
    /// Text and the floor line.
    soot, "--soot", 0x1A_15_20, 0xF5_F2_EB;
    /// Second text.
    smoke, "--smoke", 0x4F_47_57, 0xC4_BD_CB;
    /// Ticks and control edges.
    edge, "--edge", 0x6F_67_77, 0x93_8B_9D;
    /// Grid lines.
    hair, "--hair", 0xD3_D2_D6, 0x3B_35_43;
    /// The chosen moment.
    press, "--press", 0x1C_4A_9C, 0xA3_C0_FF;
    /// Heat from the floor; the coolest spot.
    hearth, "--hearth", 0x64_20_5A, 0xCF_7C_BD;
    /// Heat from above.
    chamber, "--chamber", 0xF5_DD_9C, 0x3A_2F_14;
    /// Its dots and edge.
    chamber_edge, "--chamber-edge", 0x7D_5C_00, 0xF0_CF_72;
    /// Wood.
    oak, "--oak", 0xA9_76_3F, 0xA9_76_3F;
    /// Its grain.
    oak_grain, "--oak-grain", 0x5A_35_10, 0x2A_18_06;
    /// Its sawn end.
    oak_end, "--oak-end", 0xE9_CD_A4, 0xE9_CD_A4;
    /// Kindling.
    oak_stick, "--oak-stick", 0x7A_4A_18, 0xD3_A0_6A;
    /// Gas assist.
    gas, "--gas", 0x0A_6A_63, 0x62_C9_BD;
    /// Between its bars.
    gas_gap, "--gas-gap", 0xD5_EC_E8, 0x14_35_2F;
    /// Under the band.
    short, "--short", 0xB0_21_0B, 0xFF_92_7A;
    /// Ground of what is under the band.
    short_wash, "--short-wash", 0xFB_E7_E1, 0x3A1C16;
    /// Doorway glow, the chosen rung's arch.
    lit, "--lit", 0xF2_CB_5E, 0xF2_CB_5E;
    /// Ground of the chosen rung.
    lit_wash, "--lit-wash", 0xFB_EB_C0, 0x40_36_1B;
    /// A dish's band.
    zone, "--zone", 0xE9_EC_EF, 0x2A_27_33;
    /// Its edge.
    zone_edge, "--zone-edge", 0x6F_67_77, 0x93_8B_9D;
    /// Covers.
    plate, "--plate", 0x91_8B_99, 0x80_78_89;
    /// Loss through the shell.
    shell, "--shell", 0xB9_B4_BE, 0x5B5464;
}

/// The heat ramp of the floor plan, coolest first, the same in light and dark; its lightness rises evenly, so it reads in grey.
pub const HEAT_RAMP: [Colour; 11] = [
    Colour::hex(0x15_1F_38),
    Colour::hex(0x2D_2C_54),
    Colour::hex(0x4D_37_6C),
    Colour::hex(0x74_40_77),
    Colour::hex(0x9D_4A_75),
    Colour::hex(0xC2_59_65),
    Colour::hex(0xDF_6F_5A),
    Colour::hex(0xF3_8B_53),
    Colour::hex(0xFF_AA_59),
    Colour::hex(0xFF_CD_78),
    Colour::hex(0xFD_EF_BA),
];

/// Number on a dark tile of the ramp.
pub const ON_DARK_TILE: Colour = Colour::hex(0xFF_FD_F5);

/// Number on a light tile of the ramp.
pub const ON_LIGHT_TILE: Colour = Colour::hex(0x12_0E_17);

/// The colour of a number on step `step` of the ramp: whichever of the two reads better.
#[must_use]
pub fn on_tile(step: usize) -> Colour {
    let tile = HEAT_RAMP[step.min(HEAT_RAMP.len() - 1)];
    if tile.contrast(ON_DARK_TILE) >= tile.contrast(ON_LIGHT_TILE) { ON_DARK_TILE } else { ON_LIGHT_TILE }
}
