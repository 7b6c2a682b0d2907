//! The stem in words: pipe, stopper and joint, and how sure each of it is.

use dappledome::base::units::{fixed, plain};
use dappledome::orders::stems::Stems;
use dappledome::recipe::wind::{USUAL_GUST, Wind};
use dappledome::recipe::{Face, Joint, Pipe, Recipe, SOLD_IN, Stem};
use dappledome::shop::stem::{StemNeeds, TUBE};

/// What is chosen of the stem.
pub const PIPE: &str = "Pipe, in";
/// See above.
pub const STOPPER: &str = "Stopper";
/// See above.
pub const JOINT: &str = "Silicone";
/// See above.
pub const SET_ON: &str = "Set on";
/// Head of its lines in the ticket.
pub const STEM_AND_JOINT: &str = "Stem and joint";
/// What is bought for the joint.
pub const SILICONE: &str = "Silicone";

/// A pipe by its nominal size, in inches.
pub fn pipe(pipe: Pipe) -> &'static str {
    match pipe {
        Pipe::Half => "½",
        Pipe::ThreeQuarters => "¾",
        Pipe::One => "1",
        Pipe::OneAndAQuarter => "1¼",
        Pipe::OneAndAHalf => "1½",
        Pipe::Two => "2",
    }
}

/// A stopper by its number.
pub fn stopper(number: u32) -> String {
    format!("No. {number}")
}

/// A face of the dome.
pub fn face(face: Face) -> &'static str {
    match face {
        Face::Inside => "inside",
        Face::Outside => "outside",
    }
}

/// Where the silicone lies.
pub fn silicone_lies(joint: Joint) -> &'static str {
    match joint {
        Joint::Holed { .. } => "full face",
        Joint::Dabs { .. } => "ring of dabs",
    }
}

/// The stem in one line.
pub fn stem(recipe: &Recipe) -> String {
    recipe.stem.map_or_else(String::new, |stem| {
        format!("{} in, {} high, {}", pipe(stem.pipe), stem.length, stopper(stem.stopper))
    })
}

/// A pipe to cut.
pub fn pipe_to_cut(needs: &StemNeeds) -> String {
    format!("{} in pipe", pipe(needs.pipe))
}

/// A stopper to have ready.
pub fn stopper_to_have(needs: &StemNeeds) -> String {
    format!("{} {}, {}", STOPPER, stopper(needs.stopper), if needs.holed { "holed" } else { "solid" })
}

/// How deep it goes in.
pub fn goes_in(needs: &StemNeeds) -> String {
    format!("{} mm in", fixed(needs.inserted[1].0, 0))
}

/// Silicone, mL.
pub fn milliliters(volume: f64) -> String {
    format!("{} mL", fixed(volume, 1))
}

/// How stopper and pipe go together.
pub fn fit(stem: &Stem, needs: &StemNeeds) -> String {
    let [least, mean, most] = stem.pipe.bore().map(|bore| fixed(bore, 1));
    let [shallow, _, deep] = needs.inserted.map(|inserted| fixed(inserted.0, 0));
    let faces = stem
        .stopper()
        .map_or_else(String::new, |it| format!(", {} to {} mm,", plain(it.top), plain(it.bottom)));
    format!(
        "{}{faces} goes {} ({shallow} to {deep} mm: the bore is {mean} mm, from {least} to {most} mm). Joint: {}.",
        stopper(needs.stopper),
        goes_in(needs),
        milliliters(needs.silicone)
    )
}

/// So many stems.
pub fn stems(count: u32) -> String {
    super::counted(count.into(), "stem")
}

/// Silicone to buy.
pub fn tubes(count: u32) -> String {
    super::counted(count.into(), "tube")
}

/// What is bought for the stems of an order.
pub fn stems_bought(bought: &Stems) -> Vec<String> {
    let pipes = bought.pipes.iter().map(|need| {
        let lengths = super::counted(need.bought.len() as i64, "length");
        format!(
            "{} in pipe: {} out of {lengths} of {SOLD_IN}",
            pipe(need.pipe),
            super::counted(need.stems() as i64, "stem")
        )
    });
    let stoppers = bought.stoppers.iter().map(|need| {
        let kind = if need.holed { "holed" } else { "solid" };
        format!("{}, {}, {kind}", super::counted(need.count.into(), "stopper"), stopper(need.number))
    });
    let silicone =
        format!("{SILICONE} {}: {} of {} mL", milliliters(bought.silicone), tubes(bought.tubes), plain(TUBE));
    pipes.chain(stoppers).chain([silicone]).collect()
}

/// Where the sizes come from.
pub const SIZES_FROM: &str = "Pipe by ASTM D1785, Schedule 40; stoppers by the usual numbered sizes, 25 mm long by common practice. \
    Measure yours.";

/// What the drawing shows.
pub fn joint_drawn(needs: &StemNeeds) -> String {
    format!(
        "Section at the crown: glass, {}, {} in pipe, {}",
        stopper(needs.stopper),
        pipe(needs.pipe),
        goes_in(needs)
    )
}

/// What to mind, in weight, and what it is.
pub fn minded(needs: &StemNeeds, in_ground: &str) -> [(&'static str, String); 3] {
    let [first, last] = needs.cured.map(|days| fixed(days.ceil(), 0));
    let wind = needs
        .winds
        .iter()
        .find(|wind| wind.speed == USUAL_GUST)
        .map_or_else(String::new, |wind| gust(wind, in_ground));
    [
        (
            "Give the joint air.",
            format!(
                "Silicone cures inward from where air reaches it, 2 to 3 mm in the first day (from memory): 24 h before you handle it, a week \
                 before you sell it (common practice). Reckoned from that, this one is cured through in {first} to {last} days. It gives off \
                 vapor meanwhile: work where air moves, and read its safety sheet."
            ),
        ),
        ("In the wind,", wind),
        (
            "Not in the kiln.",
            "Bond only when the glass is cold, and keep pipe, rubber and silicone away from warm glass. Try the silicone on your pipe and \
             stopper first: some attack them (common practice)."
                .into(),
        ),
    ]
}

fn gust(wind: &Wind, in_ground: &str) -> String {
    format!(
        "an indication only: as if the mouth faced it, a gust of {} m/s pushes with {} N and bends the pipe at the ground with {} N m. That wants \
         it {} mm deep in sand; yours stands {in_ground} deep. What falls or breaks cuts: ask locally where people walk.",
        plain(wind.speed),
        fixed(wind.force, 0),
        fixed(wind.moment, 1),
        fixed((wind.depth.0 / 10.0).ceil() * 10.0, 0)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stem_is_one_line() {
        let recipe = Recipe { stem: Some(Stem::default()), ..Recipe::bare() };
        assert_eq!(stem(&recipe), "¾ in, 900 mm high, No. 3");
        assert_eq!(stem(&Recipe::bare()), "");
    }
}
