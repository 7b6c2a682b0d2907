//! A stem and its joint in lines for the eye.

use dappledome::base::units::{fixed, plain};
use dappledome::recipe::wind::Wind;
use dappledome::shop::stem::StemNeeds;

/// What one piece takes, how long it cures, and what the wind does.
pub fn joint(needs: &StemNeeds) -> Vec<String> {
    let [least, mean, most] = needs.inserted.map(|depth| fixed(depth.0, 0));
    let [first, last] = needs.cured.map(|days| fixed(days.ceil(), 0));
    let kind = if needs.holed { "with a hole" } else { "solid, with dabs" };
    let mut lines = vec![
        format!("pipe         {} in, {} to cut", needs.pipe.nominal(), needs.cut),
        format!("stopper      No. {}, {kind}, {mean} mm in ({least} to {most})", needs.stopper),
        format!("silicone     {} mL", fixed(needs.silicone, 1)),
        format!(
            "cures        24 h before you handle it, a week before you sell it *; through in {first} to {last} days **"
        ),
        "in the wind  as if the mouth faced it, in sand: an indication only **".into(),
    ];
    lines.extend(needs.winds.iter().map(gust));
    lines.push("* common practice, no source. ** reckoned from memory and own assumptions. Ask locally where people walk".into());
    lines
}

fn gust(wind: &Wind) -> String {
    format!(
        "{:>11}  {} N, {} N m at the ground, {} MPa in the pipe, {} mm deep",
        format!("{} m/s", plain(wind.speed)),
        fixed(wind.force, 1),
        fixed(wind.moment, 1),
        fixed(wind.stress, 1),
        fixed(wind.depth.0, 0)
    )
}
