//! Orders to put on paper. Their grams are made up: where things stand does not hang on them.

use dappledome::base::seed::Seed;
use dappledome::base::units::{Grams, Mm};
use dappledome::orders::loads::kiln;
use dappledome::orders::model::Order;
use dappledome::orders::worked::{Worked, work_out};
use dappledome::paper::content::{Content, Piece};
use dappledome::paper::sheet::PaperSize;
use dappledome::picture::Pixmap;
use dappledome::recipe::demo;
use dappledome::recipe::plan::Plan;
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
        let kiln = kiln(&order);
        let worked = work_out(&order, &[], TODAY, |plan, _| ticket(plan)).ok()?;
        let pieces = order
            .lines
            .iter()
            .map(|line| {
                let plan = Plan::new(&line.recipe).unwrap().plan;
                Piece::new(&plan, &kiln, &ticket(&plan)).unwrap()
            })
            .collect();
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
        discs: plan.sheets.iter().map(|sheet| disc(sheet.glass.id, sheet.thickness)).collect(),
        accents: accents.map(|(glass, _)| AccentCount { glass: (*glass).into(), count: 12 }).collect(),
        fused_across: diameter,
        fused_range: (diameter, diameter),
        fused_thickness: Mm(6.2),
        dome_across: Mm(148.0),
        dome_high: Mm(42.5),
        firings: Vec::new(),
        kiln_guessed: true,
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
