//! What is the maker's and no customer's: stock, how sheets are cut, hours of work, prices and own glasses, for all orders at once. It lies in a
//! file of its own, and never in an order that is given away.

use super::checks;
use super::file::refusal;
use super::model::{Cutting, Order, OwnedMold, Prices, Stock, Work};
use crate::base::data::data;
use crate::base::notice::Notice;
use crate::kiln::data::Kiln;
use crate::recipe::molds::OwnMold;
use crate::recipe::shelf::Shelf;
use serde::{Deserialize, Serialize};

/// The version of the file that this program writes and reads.
const VERSION: u32 = 1;
/// The largest file that is read, bytes.
const MOST_BYTES: usize = 1 << 20;

data! {
    /// The maker's bench: what all orders share.
    pub struct Bench {
        /// Version of this format; must be present.
        pub version: u32,
        /// Sheets and jars on hand.
        #[serde(default)]
        pub stock: Stock,
        /// How discs are cut out of sheets.
        #[serde(default)]
        pub cutting: Cutting,
        /// When the maker works, and how long.
        #[serde(default)]
        pub work: Work,
        /// The maker's prices; none before they are written down.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub prices: Option<Prices>,
        /// The maker's own glasses.
        #[serde(default)]
        pub glasses: Shelf,
    }
}

impl Default for Bench {
    fn default() -> Self {
        Self {
            version: VERSION,
            stock: Stock::default(),
            cutting: Cutting::default(),
            work: Work::default(),
            prices: None,
            glasses: Shelf::default(),
        }
    }
}

impl Bench {
    /// Every fault of it.
    pub fn faults(&self) -> Vec<Notice> {
        let mut faults = self.glasses.faults();
        let Self { stock, cutting, work, prices, glasses, .. } = self;
        faults.extend(checks::bench(&glasses.all(), stock, *cutting, work, prices.as_ref()));
        faults
    }

    /// An order as it is worked out here: with this bench under it, a kiln and the molds that there are.
    pub fn laid_under(&self, order: &Order, kiln: Option<Kiln>, molds: Option<Vec<OwnedMold>>) -> Order {
        let Self { stock, cutting, work, prices, .. } = self.clone();
        Order { stock, cutting, work, prices, kiln, molds, ..order.clone() }
    }

    /// Takes off an order what is the maker's; what is left may be given away.
    pub fn lifted_off(order: Order) -> (Order, Self) {
        let Order { stock, cutting, work, prices, .. } = order;
        let bench = Self { stock, cutting, work, prices, ..Self::default() };
        let usual = Self::default();
        let order = Order {
            stock: usual.stock,
            cutting: usual.cutting,
            work: usual.work,
            prices: None,
            kiln: None,
            molds: None,
            ..order
        };
        (order, bench)
    }

    /// As a file.
    pub fn write(&self) -> String {
        // Plain data with names for keys: nothing in it can fail to be written.
        serde_json::to_string_pretty(self).unwrap_or_default()
    }

    /// From its file.
    ///
    /// # Errors
    /// That it is no such file, or one of another version, or its first fault.
    pub fn read(text: &str) -> Result<Self, Notice> {
        let no_bench = |why| refusal("No bench file.", why, "Take an undamaged copy of it.");
        if text.len() > MOST_BYTES {
            return Err(no_bench(format!("It is longer than {MOST_BYTES} bytes.")));
        }
        let bench: Self = serde_json::from_str(text).map_err(|mistake| no_bench(format!("{mistake}.")))?;
        if bench.version != VERSION {
            let why = format!("It says version {}; this program reads version {VERSION}.", bench.version);
            return Err(refusal("A bench of another version.", why, "Use a newer Dappledome."));
        }
        bench.faults().into_iter().next().map_or(Ok(bench), Err)
    }
}

/// The maker's molds as an order has them; what each takes up on the shelf is reckoned, not measured.
pub fn owned(molds: &[OwnMold]) -> Vec<OwnedMold> {
    let owned =
        |own: &OwnMold| OwnedMold { across: own.mold.usual_rim(), mold: own.mold.clone(), count: own.count };
    molds.iter().map(owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::{Grams, Mm};
    use crate::orders::model::Jar;
    use crate::recipe::Recipe;
    use crate::recipe::molds::invented;

    fn bench() -> Bench {
        let prices = Prices::usual();
        let mut bench = Bench { prices: Some(prices), ..Bench::default() };
        bench.stock.jars.push(Jar { glass: "rust".into(), grams: Some(Grams(40.0)), price: Some(9.5) });
        bench.cutting.edge = Mm(12.0);
        bench
    }

    #[test]
    fn a_bench_is_read_as_it_was_written_and_refused_where_it_is_none() {
        assert_eq!(Bench::read(&bench().write()), Ok(bench()));
        let newer = bench().write().replace("\"version\": 1", "\"version\": 2");
        let negative = bench().write().replace("9.5", "-9.5");
        let refused = ["", "{}", newer.as_str(), negative.as_str()];
        let what = refused.map(|text| Bench::read(text).unwrap_err().what);
        assert_eq!(
            what,
            ["No bench file.", "No bench file.", "A bench of another version.", "Out of range."]
        );
    }

    #[test]
    fn what_is_laid_under_an_order_comes_off_again_whole() {
        let order = Order::of(Recipe::bare(), 12);
        let molds = owned(&invented());
        let whole = bench().laid_under(&order, None, Some(molds.clone()));
        assert_eq!((whole.molds.as_ref(), &whole.stock), (Some(&molds), &bench().stock));
        assert_eq!(Bench::lifted_off(whole), (order, bench()));
    }
}
