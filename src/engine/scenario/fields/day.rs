//! Owns the rows of the field table about service, feeding, promise and planning.

use super::{Field, PRACTICE, made};
use crate::units::typed::Unit::{
    Cm, Covers, Days, Grams, Kg, Kw, Minutes, MoneyPerKg, MoneyPerKwh, None as Bare, Percent, Pieces, Seconds,
};

/// Largest whole number that every JSON reader keeps exactly, 2^53 - 1.
const LARGEST_EXACT: f64 = 9_007_199_254_740_991.0;

/// Rows of `service`, `feeding`, `promise` and `planning`.
pub(super) static ROWS: &[Field] = &[
    Field::group("service", "Service").note("The evening."),
    Field::clock("service.start", "First order").note("When the first order may come."),
    Field::clock("service.end", "Last order")
        .note("When the last order is taken; past midnight go on counting, 25:30."),
    Field::list("service.covers", "Covers", 1, 200)
        .note("Covers in each quarter hour from the first order, one number a quarter."),
    Field::number("service.covers[]", "Covers", Covers, 0.0, 500.0).frame("A quarter hour brings {}."),
    Field::choice("service.arrivals", "Arrivals", &["even", "parties"])
        .fixed("\"even\"", PRACTICE)
        .note("Evenly spaced, or in parties at random."),
    Field::number("service.party_mean", "Party size", Covers, 1.0, 20.0)
        .frame("A party is {} on average.")
        .fixed("2.7", PRACTICE)
        .note("Mean size of a party; only used with parties."),
    Field::whole("service.seed", "Seed", Bare, 0.0, LARGEST_EXACT)
        .frame("A seed is {}.")
        .fixed("1", "any number: the same seed brings the same evening")
        .note("Which random evening; the same number brings the same one."),
    Field::whole("service.hands", "Hands", Bare, 1.0, 12.0)
        .frame("{} hands work at a hearth.")
        .fixed("2", PRACTICE)
        .note("People who load, turn and lift at the same time."),
    Field::number("service.load_s", "To load", Seconds, 1.0, 120.0)
        .frame("Loading a piece takes {}.")
        .fixed("8", PRACTICE)
        .note("Seconds to load one piece."),
    Field::number("service.turn_s", "To turn", Seconds, 0.0, 120.0)
        .frame("Turning a piece takes {}.")
        .fixed("5", PRACTICE)
        .note("Seconds to turn one piece."),
    Field::number("service.lift_s", "To lift", Seconds, 1.0, 120.0)
        .frame("Lifting a piece takes {}.")
        .fixed("8", PRACTICE)
        .note("Seconds to lift one piece."),
    Field::number("service.peel_gap_cm", "Gap for the peel", Cm, 0.0, 20.0)
        .frame("The gap for a peel is {}.")
        .fixed("2", PRACTICE)
        .note("Free floor kept about a piece so that the peel gets under it."),
    Field::number("service.patience_min", "Patience", Minutes, 0.0, 120.0)
        .frame("A dish waits {} for a hot spot.")
        .fixed("3", PRACTICE)
        .note("How long a dish waits for a spot in its band before it goes on the best one there is."),
    Field::choice("service.spot_rule", "Which spot", &["hottest", "longest_rested"])
        .fixed("\"hottest\"", PRACTICE)
        .note("Among the spots that would do: the hottest, or the one left alone longest."),
    Field::list("service.wipes", "Wet wipes", 0, 50).empty().note("When the floor is wiped with a wet cloth."),
    Field::clock("service.wipes[]", "At").note("When."),
    Field::number("service.wipe_water_g", "Water of a wipe", Grams, 0.0, 1000.0)
        .frame("A wipe leaves {} of water.")
        .fixed("60", PRACTICE)
        .note("Water left on the floor by one wipe."),
    Field::list("service.batches", "Batch work", 0, 100)
        .empty()
        .note("Loads outside the orders: bread before, a roast after."),
    Field::group("service.batches[]", "Batch").note("One batch."),
    Field::text("service.batches[].dish", "Dish", 80).note("Name of a dish of the menu."),
    Field::clock("service.batches[].at", "At").note("When it is to go in."),
    Field::whole("service.batches[].pieces", "Pieces", Pieces, 1.0, 500.0)
        .frame("A batch is {}.")
        .note("How many pieces."),
    Field::group("feeding", "Feeding").note("When the fire is lit and how it is fed."),
    Field::clock("feeding.light_at", "Lit at")
        .made(
            "three hours before the first order",
            made::light_at,
            "common practice, no source: about two hours to heat a warm oven, one to even out",
        )
        .note("When the match is struck."),
    Field::number("feeding.kindling_kg", "Kindling", Kg, 0.0, 20.0)
        .frame("Kindling is {}.")
        .made(
            "2.5, less under a small doorway: a tenth of what it could burn in an hour",
            made::kindling_kg,
            "common practice, no source: 2 to 3 kg; the tenth is our choice, from runs of the model",
        )
        .note("Kindling and small splits at the match."),
    Field::list("feeding.phases", "Rhythm", 0, 40)
        .made(
            "by size of doorway and floor, what the dishes are baked at and covers: for 120 cm, 330 °C about 5 kg an hour until \
             the first order, then 2 kg an hour and 25 g for each cover of the busiest hour, until 30 min before the last",
            made::phases,
            "our choice, from runs of the model: a fifth of what the doorway could ever burn has the floor near the menu's bakes in three hours",
        )
        .note("How often and how much, by stretch of the day. An empty list: no wood after the kindling."),
    Field::group("feeding.phases[]", "Stretch").note("A stretch with one rhythm."),
    Field::clock("feeding.phases[].from", "From").note("First pieces at."),
    Field::clock("feeding.phases[].to", "To").note("No piece at this time or after."),
    Field::number("feeding.phases[].every_min", "Every", Minutes, 1.0, 720.0)
        .frame("The fire is fed every {}.")
        .note("Minutes from one feed to the next."),
    Field::number("feeding.phases[].pieces", "Pieces", Pieces, 0.0, 20.0)
        .frame("A feed is {}.")
        .note("Pieces at each feed; half a piece is a thin one."),
    Field::list("feeding.spread_coals", "Spread the coals", 0, 20)
        .empty()
        .note("Coals raked over the floor in a lull, to charge the stone."),
    Field::group("feeding.spread_coals[]", "Spread").note("One time."),
    Field::clock("feeding.spread_coals[].at", "At").note("When they are spread."),
    Field::number("feeding.spread_coals[].for_min", "For", Minutes, 1.0, 120.0)
        .frame("Coals lie spread for {}.")
        .fixed("15", PRACTICE)
        .note("For how long."),
    Field::group("promise", "Promise").note("What \"carries\" means in this kitchen."),
    Field::number("promise.wait_p90_s", "Wait, nine in ten", Seconds, 0.0, 7200.0)
        .frame("Nine orders in ten wait {} at most.")
        .fixed("300", PRACTICE)
        .note("Nine orders in ten wait at most this long until their bake starts."),
    Field::number("promise.bake_slower_max_percent", "Slower bakes", Percent, 0.0, 300.0)
        .frame("A bake may get {} slower.")
        .fixed("33", "no source: a third slower shows in the crust")
        .note("How much slower than its known bake a dish may get in the worst hour."),
    Field::number("promise.share_in_band_percent", "Loads in their band", Percent, 0.0, 100.0)
        .frame("Between {} of the loads start in their band.")
        .fixed("90", PRACTICE)
        .note("Least share of loads that start on a floor inside their band."),
    Field::clock("promise.queue_gone_by", "Last piece out by")
        .made("20 minutes after the last order", made::queue_gone_by, PRACTICE)
        .note("When the last piece must be out."),
    Field::group("planning", "Planning").note("Facts only the plans use."),
    Field::number("planning.wood_price_kg", "Wood", MoneyPerKg, 0.0, 1000.0)
        .frame("A kilogram of wood costs {}.")
        .optional()
        .note("What a kilogram of wood costs, in your own money."),
    Field::number("planning.gas_price_kwh", "Gas", MoneyPerKwh, 0.0, 1000.0)
        .frame("A kilowatt hour of gas costs {}.")
        .optional()
        .note("What a kilowatt hour of gas costs, in your own money."),
    Field::number("planning.days_open_per_week", "Days open", Days, 0.0, 7.0)
        .frame("A kitchen is open {} a week.")
        .fixed("6", PRACTICE)
        .note("Days open in a week."),
    Field::number("planning.growth_percent", "Room to grow", Percent, 0.0, 300.0)
        .frame("Growth to leave room for is {}.")
        .fixed("15", PRACTICE)
        .note("Growth to leave room for when a floor is chosen."),
    Field::number("planning.floor_smallest_cm", "Smallest floor", Cm, 50.0, 300.0)
        .frame("A floor on offer is {}.")
        .fixed("90", PRACTICE)
        .note("Smallest floor on offer."),
    Field::number("planning.floor_largest_cm", "Largest floor", Cm, 50.0, 300.0)
        .frame("A floor on offer is {}.")
        .fixed("150", PRACTICE)
        .note("Largest floor on offer."),
    Field::number("planning.floor_step_cm", "Step", Cm, 1.0, 100.0)
        .frame("Floors on offer are {} apart.")
        .fixed("10", PRACTICE)
        .note("Step between the floors on offer."),
    Field::number("planning.assist_rated_kw", "Burner on offer", Kw, 1.0, 100.0)
        .frame("A burner under the floor is rated {}.")
        .fixed("15", PRACTICE)
        .note("Rated burner tried under each floor."),
];
