//! What can do harm in firing, for the foot of a program on paper or on a terminal. They defer to the makers' own sheets, to local
//! codes and to licensed electricians; none of them says that anything is harmless.

/// The makers' word comes first.
pub const MAKERS_WIN: &str = "Where your kiln's or your glass's maker says otherwise, theirs wins. Numbers marked * are common practice, without a source.";

/// All of them, in the order of making. Common practice, no source, where none is named.
pub const CAUTIONS: [&str; 8] = [
    // How to keep dust down: common practice. Its limits: 29 CFR 1910.1000.
    "Sift in a fitted respirator rated for fine dust. Wipe up wet; never sweep dry, never blow.",
    // Refractory ceramic fibers: NIOSH publication 2006-123. Crystalline silica: 29 CFR 1910.1053.
    "Kiln wash, mold mixes and fiber can hold crystalline silica and fibers that stay in the lungs. Read the safety sheet before you mix, \
     scrape or tear them.",
    "Colored glass can contain lead, cadmium and other metals. No food, no drink, no toy.",
    "A kiln burns and shocks. Switch off at the supply before you reach in. Wiring, breaker and clearances are for the kiln's manual, your \
     local code and a licensed electrician.",
    // Kilns vented to the outdoors: US EPA, Region 7, school air.
    "Binder, fiber paper and fresh wash smoke. Vent outdoors; do not sleep or work beside a kiln that fires, and stay within reach of it.",
    "Keep plastic pipe, rubber and silicone out of the kiln and away from warm glass.",
    "Garden glass can break in hail, frost or a fall. Round its edges, set it away from play and mowing, and let no water freeze in it.",
    "This is a plan, not engineering advice. Try a program on a witness before a piece.",
];
