//! Orders to put on paper. Their grams are made up: where things stand does not hang on them.

use dappledome::base::seed::Seed;
use dappledome::base::units::{Grams, Mm};
use dappledome::orders::model::Order;
use dappledome::orders::worked::{Worked, work_out};
use dappledome::paper::content::{Content, Piece};
use dappledome::paper::sheet::PaperSize;
use dappledome::picture::Pixmap;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::wind::Wind;
use dappledome::recipe::{Stem, demo};
use dappledome::shop::stem::StemNeeds;
use dappledome::shop::ticket::{AccentCount, CoatGrams, DiscCut, Ticket};
use jiff::civil::{Date, date};

/// A Monday.
pub const TODAY: Date = date(2026, 11, 30);

/// An order worked out, ready for paper.
pub struct Ready {
    pub order: Order,
    pub worked: Worked,
    pub pieces: Vec<Piece>,
}

impl Ready {
    /// None if the order has faults.
    pub fn new(order: Order) -> Option<Self> {
        let worked = work_out(&order, &[], TODAY, |plan, _| ticket(plan)).ok()?;
        let pieces = Piece::all(&order, &worked).unwrap();
        Some(Self { order, worked, pieces })
    }

    pub fn on(&self, paper: PaperSize) -> Content<'_> {
        let Self { order, worked, pieces } = self;
        Content { order, worked, pieces, today: TODAY, paper }
    }
}

fn ticket(plan: &Plan) -> Ticket {
    let coat = |id: u32| CoatGrams {
        id,
        to_weigh: Grams(6.7),
        lies_on: Vec::new(),
        sifted: Grams(5.7),
        left: Grams(5.0),
    };
    let diameter = Mm(2.0 * f64::from(plan.disc.radius()));
    let disc = |glass: &str, thickness: f32| DiscCut {
        glass: glass.into(),
        thickness: Mm((f64::from(thickness) * 100.0).round() / 100.0),
        diameter,
        each: 1,
        count: 1,
    };
    let accents = plan.accents.iter().flat_map(|accents| &accents.glasses);
    Ticket {
        pieces: 1,
        spares: 0,
        coats: plan.coats.iter().map(|planned| coat(planned.sift.id)).collect(),
        powders: Vec::new(),
        sifted: Grams(10.0),
        lifted: Grams(1.0),
        rolls: 28,
        stem: plan.stem.map(stem),
        discs: plan.sheets.iter().map(|sheet| disc(&sheet.glass.id, sheet.thickness)).collect(),
        accents: accents.map(|(glass, _)| AccentCount { glass: glass.id.clone(), count: 12 }).collect(),
        fused_across: diameter,
        fused_range: (diameter, diameter),
        fused_thickness: Mm(6.2),
        dome_across: Mm(148.0),
        dome_high: Mm(42.5),
        firings: Vec::new(),
        kiln_guessed: true,
    }
}

/// A stem's needs in about the usual numbers.
fn stem(stem: Stem) -> StemNeeds {
    let none = Wind { speed: 10.0, force: 0.0, moment: 0.0, stress: 0.0, depth: Mm(0.0) };
    StemNeeds {
        pipe: stem.pipe,
        cut: stem.cut(),
        stopper: stem.stopper,
        holed: true,
        inserted: [Mm(9.0), Mm(10.0), Mm(12.0)],
        gap: Mm(1.0),
        silicone: 1.7,
        cured: [3.0, 6.0],
        winds: [none; 4],
    }
}

/// The example order.
pub fn example() -> Order {
    dappledome::orders::file::read(include_str!("../../examples/orders/harborside.json")).unwrap()
}

/// So many pieces of the demo recipe, cut so wide, with a mold to suit.
pub fn of_disc(diameter: f64, count: u32) -> Order {
    let mut recipe = demo::ember_walk();
    recipe.blank.diameter = Mm(diameter);
    recipe.mold.opening = Mm(diameter);
    recipe.mold.depth = Mm((diameter * 0.3).round());
    let mut order = Order::of(recipe, count);
    order.lines[0].seeds = (41..41 + count).map(Seed).collect();
    order
}

/// A picture of nothing: what it shows is not measured here.
pub fn blank() -> Pixmap {
    Pixmap::filled(16, 16, [150; 3])
}
