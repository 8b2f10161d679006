//! Owns the causes: one resource with its two numbers, and how each is said as a clause, an event and a thing with some to spare.

use super::types::Gives;
use super::words::{count, degrees, number, pair, pieces_an_hour, with_unit};

/// Why: one resource and its two numbers.
#[derive(Clone, Debug, PartialEq)]
pub enum Cause {
    /// The floor loses more than it wins back.
    FloorHeat {
        /// Pieces in the worst hour.
        pieces_per_h: f64,
        /// What they pull out of the floor, kW.
        pulled_kw: f64,
        /// What the floor wins back, kW.
        won_back_kw: f64,
    },
    /// The floor holds its own, but too low for the dish.
    FloorCool {
        /// The food's floor at the first order, mean, degC.
        start_c: f64,
        /// The floor under its pieces as they go down, mean, degC.
        floor_c: f64,
        /// The floor it is known to bake on, degC.
        wanted_c: f64,
    },
    /// The floor is above the dish's band.
    TooHot {
        /// The hottest floor a piece went down on, degC.
        floor_c: f64,
        /// Top of the band, degC.
        band_top_c: f64,
    },
    /// The dome is too cool for the tops.
    TopHeat {
        /// The dome at the worst moment, degC.
        dome_c: f64,
        /// What the dish wants, degC.
        wanted_c: f64,
    },
    /// Too little room.
    FloorSpace {
        /// Pieces in the worst hour.
        pieces_per_h: f64,
        /// Pieces that would have to lie side by side.
        wanted_at_once: f64,
        /// How many fit.
        fit: u32,
    },
    /// Too few hands.
    Hands {
        /// Pairs of hands.
        hands: u32,
        /// Minutes of loading, turning and lifting asked for in the worst hour.
        work_min_per_h: f64,
    },
    /// The fire is too small: it burnt down, or too little is fed.
    FireLow {
        /// What burns, kg/h.
        burnt_kg_h: f64,
        /// What would hold the floor, kg/h.
        wanted_kg_h: f64,
    },
    /// The fire gets too little air to burn clean.
    FireDirty {
        /// Least excess-air ratio.
        lambda: f64,
        /// What clean burning wants.
        lambda_clean: f64,
    },
    /// The flames reach the doorway.
    FlameReach {
        /// Longest flame, m.
        flame_m: f64,
        /// Way from the fire to the doorway, m.
        way_m: f64,
    },
    /// The doorway's air is used up.
    DoorwayAir {
        /// What the fire would burn, kg/h.
        burnt_kg_h: f64,
        /// What the doorway's air allows, kg/h.
        allowed_kg_h: f64,
    },
    /// A dish's own cap holds its orders back.
    Capped {
        /// Pieces of it started in a quarter hour at most.
        cap: f64,
        /// Pieces of it ordered in the fullest quarter hour about then.
        ordered: f64,
    },
    /// Nothing came near its limit.
    Nothing,
}

impl Gives {
    /// The name it has in JSON and in tables.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::FloorHeat => "floor_heat",
            Self::TopHeat => "top_heat",
            Self::FloorSpace => "floor_space",
            Self::Hands => "hands",
            Self::Fire => "fire",
            Self::DoorwayAir => "doorway_air",
            Self::Cap => "cap",
            Self::None => "none",
        }
    }

    /// The name it has in a kitchen.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::FloorHeat => "floor heat",
            Self::TopHeat => "top heat",
            Self::FloorSpace => "room on the floor",
            Self::Hands => "hands",
            Self::Fire => "the fire",
            Self::DoorwayAir => "the doorway's air",
            Self::Cap => "a dish's own cap",
            Self::None => "nothing",
        }
    }
}

impl Cause {
    /// Which resource this is about.
    #[must_use]
    pub fn gives(&self) -> Gives {
        match self {
            Self::FloorHeat { .. } | Self::FloorCool { .. } => Gives::FloorHeat,
            Self::TopHeat { .. } => Gives::TopHeat,
            Self::FloorSpace { .. } => Gives::FloorSpace,
            Self::Hands { .. } => Gives::Hands,
            Self::TooHot { .. } | Self::FireLow { .. } | Self::FireDirty { .. } | Self::FlameReach { .. } => {
                Gives::Fire
            }
            Self::DoorwayAir { .. } => Gives::DoorwayAir,
            Self::Capped { .. } => Gives::Cap,
            Self::Nothing => Gives::None,
        }
    }

    /// The cause as a sentence of its own, for the list of what stands how near its limit.
    #[must_use]
    pub fn sentence(&self) -> String {
        let clause = self.held();
        let mut letters = clause.chars();
        letters.next().map_or_else(String::new, |first| format!("{}{}.", first.to_ascii_uppercase(), letters.as_str()))
    }

    /// The same where the promises hold: a floor that wins back less than is pulled lives on what its stone has stored.
    pub(super) fn held(&self) -> String {
        match self {
            Self::FloorHeat { pieces_per_h, pulled_kw, won_back_kw } if won_back_kw < pulled_kw => {
                floor_heat(*pieces_per_h, [*pulled_kw, *won_back_kw], |won| {
                    format!(": it wins back {won} between splits and gives the rest out of its store")
                })
            }
            _ => self.clause(),
        }
    }

    /// The two numbers as a clause, without capital or full stop.
    pub(super) fn clause(&self) -> String {
        match self {
            Self::FloorHeat { pieces_per_h, pulled_kw, won_back_kw } => {
                floor_heat(*pieces_per_h, [*pulled_kw, *won_back_kw], |won| {
                    format!(", and it wins back {won} between splits")
                })
            }
            Self::FloorCool { start_c, floor_c, wanted_c } => {
                let (floor, wanted) = pair(*floor_c, *wanted_c, 0, "°C");
                let sagged = if has_sagged(*start_c, *floor_c) {
                    format!(" where the floor began at {}", degrees(*start_c))
                } else {
                    String::new()
                };
                format!("pieces go down on {floor}{sagged}, and the bake you know was on {wanted}")
            }
            Self::TooHot { floor_c, band_top_c } => {
                format!("pieces go down on up to {}, and the band ends at {}", degrees(*floor_c), degrees(*band_top_c))
            }
            Self::TopHeat { dome_c, wanted_c } => {
                format!("the dome stands at {}, and the tops want {}", degrees(*dome_c), degrees(*wanted_c))
            }
            Self::FloorSpace { pieces_per_h, wanted_at_once, fit } => format!(
                "{} need {} side by side, and {fit} fit",
                pieces_an_hour(*pieces_per_h),
                places(*wanted_at_once, *fit)
            ),
            Self::Hands { hands, work_min_per_h } => hands_clause(*hands, *work_min_per_h),
            Self::FireLow { burnt_kg_h, wanted_kg_h } => {
                let (burnt, wanted) = pair(*burnt_kg_h, *wanted_kg_h, 1, "kg");
                format!("the fire burns {burnt} an hour, and the floor wants {wanted}")
            }
            Self::FireDirty { lambda, lambda_clean } => format!(
                "the fire gets {} times the air it needs, and burning clean takes {} times",
                number(*lambda, 1),
                number(*lambda_clean, 1)
            ),
            Self::FlameReach { flame_m, way_m } => {
                let (flame, way) = pair(*flame_m, *way_m, 1, "m");
                format!("the flame is {flame} long, and the doorway is {way} away")
            }
            Self::DoorwayAir { burnt_kg_h, allowed_kg_h } => {
                let (burnt, allowed) = pair(*burnt_kg_h, *allowed_kg_h, 1, "kg");
                format!(
                    "the fire asks for air for {burnt} of wood an hour, and the doorway lets in enough for {allowed}"
                )
            }
            Self::Capped { cap, ordered } => format!(
                "its own cap lets {} be started in a quarter hour, and {} are ordered in one",
                count(*cap, "piece", "pieces"),
                number(*ordered, 0)
            ),
            Self::Nothing => "nothing comes near its limit".to_owned(),
        }
    }

    /// What happens in the kitchen, to stand after a clock time.
    pub(super) fn event(&self, dish: Option<&str>) -> String {
        let of_dish = dish.map_or_else(String::new, |name| format!(" for {name}"));
        match self {
            Self::FloorCool { start_c, floor_c, .. } if !has_sagged(*start_c, *floor_c) => {
                format!("the floor is too cool{of_dish}")
            }
            Self::FloorHeat { .. } | Self::FloorCool { .. } => format!("the floor runs out of heat{of_dish}"),
            Self::TooHot { .. } => format!("the floor is too hot{of_dish}"),
            Self::TopHeat { .. } => format!("dome and flame are too weak{of_dish}"),
            Self::FloorSpace { .. } => format!("there is no room on the floor{of_dish}"),
            Self::Hands { .. } => format!("there are not enough hands{of_dish}"),
            Self::FireLow { .. } => format!("the fire is too small{of_dish}"),
            Self::FireDirty { .. } => "the fire burns dirty".to_owned(),
            Self::FlameReach { .. } => "the flames reach the doorway".to_owned(),
            Self::DoorwayAir { .. } => format!("the doorway's air holds the fire back{of_dish}"),
            Self::Capped { .. } => format!("its own cap holds orders back{of_dish}"),
            Self::Nothing => String::new(),
        }
    }

    /// What to do when the cause is beyond a limit of the fire.
    pub(super) fn act(&self) -> &'static str {
        match self {
            Self::FlameReach { .. } => "Stop feeding. Do not add air.",
            Self::FireDirty { .. } | Self::DoorwayAir { .. } => "Feed fewer or thinner pieces, further apart.",
            _ => "No feeding is shown for this plan.",
        }
    }

    /// The resource as it stands in "12 % to spare on ...".
    pub(super) fn noun(&self) -> Option<&'static str> {
        Some(match self {
            Self::FloorHeat { .. } | Self::FloorCool { .. } => "the floor's heat",
            Self::TooHot { .. } => "the top of the floor's band",
            Self::TopHeat { .. } => "the dome's heat",
            Self::FloorSpace { .. } => "room on the floor",
            Self::Hands { .. } => "hands",
            Self::FireLow { .. } => "the fire",
            Self::FireDirty { .. } => "clean burning",
            Self::FlameReach { .. } => "the flame's reach",
            Self::DoorwayAir { .. } => "the doorway's air",
            Self::Capped { .. } => "the cap",
            Self::Nothing => return None,
        })
    }
}

fn floor_heat(pieces_per_h: f64, [pulled_kw, won_back_kw]: [f64; 2], won_back: impl Fn(&str) -> String) -> String {
    let (pulled, won) = pair(pulled_kw, won_back_kw, 1, "kW");
    let verb = if number(pieces_per_h, 0) == "1" { "pulls" } else { "pull" };
    let pieces = pieces_an_hour(pieces_per_h);
    format!("{pieces} {verb} {pulled} out of the floor{}", won_back(&won))
}

/// How many places are wanted, never rounded down onto the number that fit.
fn places(wanted: f64, fit: u32) -> String {
    if wanted > f64::from(fit) { count(wanted.ceil(), "place", "places") } else { count(wanted, "place", "places") }
}

fn hands_clause(hands: u32, work_min_per_h: f64) -> String {
    /// Minutes in an hour of one pair of hands.
    const HAND_MIN: f64 = 60.0;
    let have = with_unit(f64::from(hands) * HAND_MIN, 0, "min");
    let who = if hands == 1 { "one pair of hands has".to_owned() } else { format!("{hands} pairs of hands have") };
    format!(
        "loading, turning and lifting take {} of work in the hour, and {who} {have}",
        with_unit(work_min_per_h, 0, "min")
    )
}

/// Whether a floor came down over the evening rather than being too cool from the start: by more than a gun reading wanders.
fn has_sagged(start_c: f64, floor_c: f64) -> bool {
    /// Common practice, no source.
    const WANDERS_K: f64 = 10.0;
    start_c - floor_c > WANDERS_K
}
