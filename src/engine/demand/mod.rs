//! Owns what one dish needs and how it takes it: heat demand, the law of base and top, and its anchor to a known bake.

mod anchor;
mod law;
mod need;

pub use anchor::{BASE_SHARE_UNSEEN, BASE_SHARE_UNSEEN_RANGE, FACTOR_RANGE, anchor, anchor_at_share};
pub use law::{BakeLaw, CONTACT_W_M2_K, CRUST_K_W_M_K, Colour, Contact, TOP_EMISSIVITY, WET_BASE_C};
pub use need::{BOIL_C, BOIL_J_KG, Need, area_m2, need};
