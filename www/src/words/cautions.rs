//! What can harm the maker and those who live with a piece. Common practice, no source, where none is named. They defer to
//! local codes, to the makers' own sheets and to licensed electricians; none of them says that anything is harmless.

/// Opens the cautions, and stands above them.
pub const CAUTIONS: &str = "Cautions";

/// One of them: what it is about, and what to do.
pub type Caution = (&'static str, &'static str);

/// All of them, in the order of making.
pub const ALL_CAUTIONS: [Caution; 9] = [
    // Limits of dust in the air, total and respirable: 29 CFR 1910.1000, as NIOSH quotes it. How to keep it down: common
    // practice, no source.
    (
        "Dust",
        "Glass powder and kiln wash harm the lungs. Sift in a fitted respirator rated for fine dust, with nobody else in \
         the air. Wipe up wet; never sweep dry, never blow.",
    ),
    // Refractory ceramic fibers: NIOSH publication 2006-123. Crystalline silica in washes and mold mixes: 29 CFR 1910.1053
    // sets its limit; that these hold some is common practice, no source.
    (
        "Kiln wash and fiber",
        "Kiln wash, mold mixes and old fiber can hold crystalline silica and fibers that stay in the lungs. Read the \
         maker's safety sheet before you mix, scrape, cut or tear them, and work damp.",
    ),
    // Cadmium and selenium in red and orange glass: Rooksby 1932, J. Soc. Glass Technol. 16, 171. Lead: common practice, no
    // source.
    (
        "Metals in colors",
        "Colored glass can contain lead, cadmium and other metals, and its dust with it. Read the maker's safety sheet. \
         Wash your hands; eat, drink and smoke elsewhere.",
    ),
    // That decorative ware may have to say so: 21 CFR 109.16, written for ceramics.
    (
        "Never for food",
        "Never for food or drink, and no toy. Nothing on this page tells what a glass gives off.",
    ),
    (
        "Cut and broken glass",
        "Cut edges are knives, and a disc that falls breaks into splinters. Wear eye protection and closed shoes, carry \
         one piece at a time, grind edges wet.",
    ),
    (
        "The kiln: heat",
        "A kiln burns skin and what stands near. Keep the clearances its maker asks for, keep children and animals \
         away, stay within reach while it fires, and open it only as its maker allows.",
    ),
    (
        "The kiln: current",
        "Switch off at the supply before you reach inside or touch an element. Wiring, breaker and plug are for the \
         maker's manual, your local code and a licensed electrician.",
    ),
    // Kilns vented to the outdoors: US EPA, Region 7, school air.
    (
        "Fumes",
        "Binder, fiber paper and fresh wash smoke in the kiln. Vent it outdoors; do not sleep or work beside a kiln that \
         fires. Keep plastic pipe, rubber and silicone away from it and from warm glass. Silicone gives off vapor while it \
         cures: work where air moves.",
    ),
    (
        "Glass in the garden",
        "Glass cracks in frost, hail and sudden sun or rain, falls in the wind, and a bond can let go. Round its edges, \
         mount it so that it cannot come loose, let water drain, and keep it from where people walk, play and mow.",
    ),
];

/// Under them.
pub const CAUTIONS_DEFER: &str = "A list to begin with, not a complete one. Your local code, the makers' own sheets and \
    licensed electricians come before it.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_called_harmless() {
        let all = ALL_CAUTIONS.iter().map(|(head, text)| format!("{head} {text} ")).collect::<String>();
        let said = format!("{all}{CAUTIONS_DEFER}").to_lowercase();
        for word in ["is safe", "are safe", "food-safe", "food safe", "harmless", "non-toxic", "no risk"] {
            assert!(!said.contains(word), "{word}");
        }
        for word in [
            "respirator",
            "wet",
            "sweep",
            "fiber",
            "lead",
            "cadmium",
            "supply",
            "electrician",
            "wind",
            "food",
        ] {
            assert!(said.contains(word), "nothing about {word}");
        }
    }
}
