//! The recipe as it is edited and saved: plain data, in the order of making. Nothing here is checked;
//! [`super::plan::Plan`] does that, and [`super::file`] reads and writes it.

use super::by_hand::{AccentLayout, ByHand, Rub};
use super::firing::{Programs, SlumpFiring, TackFuse};
use super::limits::EVEN_DEPTH;
use super::stem::Stem;
use crate::base::data::data;
use crate::base::seed::Seed;
use crate::base::units::{Celsius, Degrees, Minutes, Mm};
use crate::glass::catalogue;
use crate::glass::glasses::Glasses;
use crate::glass::kind::Glass;
use serde::{Deserialize, Serialize};

/// The version of the recipe format that this program writes and reads.
pub const VERSION: u32 = 1;

data! {
    /// Everything that is decided about a piece, in the order of making.
    pub struct Recipe {
        /// Version of this format; must be present.
        pub version: u32,
        /// What the maker calls it.
        #[serde(default)]
        pub title: String,
        /// The maker's own glasses that it is made of, as they were when they were put into it; none if left out.
        #[serde(default, skip_serializing_if = "Glasses::is_empty")]
        pub glasses: Glasses,
        /// The discs of sheet glass.
        pub blank: Blank,
        /// Powder, in the order it is sifted.
        #[serde(default)]
        pub coats: Vec<Coat>,
        /// The damp sponge rolled over the dry powder; none if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub sponge: Option<Sponge>,
        /// Powder rubbed off by hand after the sponge, in this order.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub sponged_off: Vec<Rub>,
        /// The full fuse.
        #[serde(default)]
        pub fuse: FullFuse,
        /// Frit tacked near the rim; none if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub accents: Option<Accents>,
        /// The mold of the slump.
        #[serde(default)]
        pub mold: Mold,
        /// Which face of the disc ends up outside.
        #[serde(default)]
        pub powder_side: Side,
        /// The firing that lets it sink.
        #[serde(default, skip_serializing_if = "SlumpFiring::is_usual")]
        pub slump: SlumpFiring,
        /// What carries it in a garden; none if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub stem: Option<Stem>,
        /// What of the firing programs the maker has set.
        #[serde(default, skip_serializing_if = "Programs::is_empty")]
        pub programs: Programs,
        /// Share of a sifted bed that is glass, the rest being air: 0.45 for powder as it falls.
        #[serde(default = "packing")]
        pub packing: f64,
        /// Share of the sifted powder that falls past the disc.
        #[serde(default = "past_the_disc")]
        pub past_the_disc: f64,
        /// How many pieces the ticket is for.
        #[serde(default)]
        pub batch: Batch,
    }
}

fn packing() -> f64 {
    0.45
}

fn past_the_disc() -> f64 {
    0.15
}

data! {
    /// The discs of sheet glass, stacked.
    pub struct Blank {
        /// What the circle cutter is set to.
        pub diameter: Mm,
        /// One to four sheets, bottom to top.
        pub sheets: Vec<Sheet>,
    }
}

data! {
    /// One disc of sheet glass.
    pub struct Sheet {
        /// Id of a sheet glass: the recipe's own, or the catalogue's.
        pub glass: String,
        /// Its thickness.
        pub thickness: Mm,
    }
}

data! {
    /// A glass in a blend.
    pub struct Part {
        /// Id of a glass: the recipe's own, or the catalogue's.
        pub glass: String,
        /// How many spoons of it.
        pub parts: f64,
    }
}

data! {
    /// One coat of sifted powder.
    pub struct Coat {
        /// Number of this coat for good: its chance hangs on it, so other coats can come, go and move.
        pub id: u32,
        /// The powder, blended by parts.
        pub powder: Vec<Part>,
        /// How the sifter moves.
        pub fall: Fall,
        /// Glass left clean at the edge.
        #[serde(default = "bare_rim")]
        pub bare_rim: Mm,
        /// How ragged the edge of the bare rim is.
        #[serde(default = "bare_rim_raggedness")]
        pub bare_rim_raggedness: Mm,
        /// The hand's wobble: standard deviation of the depth, as a share of it.
        #[serde(default = "unevenness")]
        pub unevenness: f64,
        /// Where this coat's layout comes from and how it lies.
        #[serde(default)]
        pub layout: Layout,
    }
}

fn bare_rim() -> Mm {
    Mm(1.2)
}

fn bare_rim_raggedness() -> Mm {
    Mm(0.35)
}

fn unevenness() -> f64 {
    0.16
}

data! {
    /// How a coat falls on the disc. Depths are of loose powder.
    pub enum Fall {
        /// The same everywhere.
        Even {
            /// Mean depth.
            depth: Mm,
        },
        /// Random patches with clean glass between them.
        Patches(Patches),
        /// Everywhere, thick here and thin there.
        ThickAndThin(ThickAndThin),
    }
}

data! {
    /// Random patches.
    pub struct Patches {
        /// Depth in the middle of a patch.
        pub depth: Mm,
        /// Share of the disc covered, before the sponge.
        pub coverage: f64,
        /// Mean width across a patch (mean chord along a line).
        pub size: Mm,
        /// How far the outline wanders: torn or poured.
        #[serde(default = "patch_raggedness")]
        pub raggedness: Mm,
        /// Width over which the edge fades out.
        #[serde(default = "soft_edge")]
        pub soft_edge: Mm,
        /// Width of the thinner margin inside the edge.
        #[serde(default = "thin_margin")]
        pub thin_margin: Mm,
        /// Share of the depth left at the very edge.
        #[serde(default = "margin_left")]
        pub margin_left: f64,
        /// Powder that drifts past the edge, as a share of the depth.
        #[serde(default = "stray_dust")]
        pub stray_dust: f64,
        /// How far it drifts.
        #[serde(default = "stray_reach")]
        pub stray_reach: Mm,
        /// -1: patches gather at the crown; 0: anywhere; 1: at the rim.
        #[serde(default)]
        pub toward_rim: f64,
    }
}

fn patch_raggedness() -> Mm {
    Mm(1.8)
}

fn soft_edge() -> Mm {
    Mm(1.0)
}

fn thin_margin() -> Mm {
    Mm(5.0)
}

fn margin_left() -> f64 {
    0.45
}

fn stray_dust() -> f64 {
    0.04
}

fn stray_reach() -> Mm {
    Mm(2.5)
}

impl Patches {
    /// Patches of the usual kind.
    pub fn usual() -> Self {
        Self {
            depth: Mm(0.45),
            coverage: 0.34,
            size: Mm(26.0),
            raggedness: patch_raggedness(),
            soft_edge: soft_edge(),
            thin_margin: thin_margin(),
            margin_left: margin_left(),
            stray_dust: stray_dust(),
            stray_reach: stray_reach(),
            toward_rim: 0.0,
        }
    }
}

data! {
    /// One color laid thick here and thin there.
    pub struct ThickAndThin {
        /// The thinnest film.
        pub thinnest: Mm,
        /// The thickest heap.
        pub thickest: Mm,
        /// Width of a thick place (mean chord at half the disc).
        pub blotch_size: Mm,
        /// Above 1 most of the disc is thin, below 1 most is thick.
        #[serde(default = "mostly_thin")]
        pub mostly_thin: f64,
        /// How far the blotches' outlines wander.
        #[serde(default = "blotch_raggedness")]
        pub raggedness: Mm,
    }
}

fn mostly_thin() -> f64 {
    1.0
}

fn blotch_raggedness() -> Mm {
    Mm(4.0)
}

impl ThickAndThin {
    /// Thick and thin of the usual kind.
    pub fn usual() -> Self {
        Self {
            thinnest: Mm(0.05),
            thickest: Mm(2.0),
            blotch_size: Mm(53.0),
            mostly_thin: mostly_thin(),
            raggedness: blotch_raggedness(),
        }
    }
}

data! {
    /// Where a coat's layout comes from and how it lies on the disc.
    #[derive(Default)]
    pub struct Layout {
        /// Keep the fall of this seed, whatever seed the piece has.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub locked_to: Option<Seed>,
        /// Fall with the coat of this number, one exactly on the other; by itself if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub falls_with: Option<u32>,
        /// How often this coat alone was sifted again.
        #[serde(default)]
        pub rerolls: u32,
        /// Mirrored left to right.
        #[serde(default)]
        pub mirrored: bool,
        /// Turned, counterclockwise seen from above.
        #[serde(default)]
        pub turned: Degrees,
        /// Moved to the right.
        #[serde(default)]
        pub moved_right: Mm,
        /// Moved up, away from the maker.
        #[serde(default)]
        pub moved_up: Mm,
        /// What was done by hand to the patches; nothing if left out.
        #[serde(default, skip_serializing_if = "ByHand::is_empty")]
        pub by_hand: ByHand,
    }
}

data! {
    /// The damp natural sponge, rolled and lifted over the dry powder.
    pub struct Sponge {
        /// Depth of loose powder that one touch lifts: how damp it is.
        pub lift: Mm,
        /// How often the rolls cover the disc.
        pub passes: f64,
        /// How far the press closes the pores, 0 to 0.6.
        pub press: f64,
        /// Width of the widest pores.
        pub pores: Mm,
        /// Narrowest foot of a roll.
        pub roll_from: Mm,
        /// Widest foot of a roll.
        pub roll_to: Mm,
        /// Most touches in one roll.
        pub presses: u32,
        /// Share of what it carries that it puts back at each touch.
        pub puts_back: f64,
        /// Share of the powder that stays on it after brushing.
        pub stays_on: f64,
        /// Rolls between dips in water; never if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub rewet_every: Option<u32>,
        /// How far it is turned between rolls.
        pub twist: Degrees,
    }
}

impl Default for Sponge {
    fn default() -> Self {
        Self {
            lift: Mm(0.16),
            passes: 2.0,
            press: 0.45,
            pores: Mm(5.2),
            roll_from: Mm(26.0),
            roll_to: Mm(40.0),
            presses: 3,
            puts_back: 0.15,
            stays_on: 0.1,
            rewet_every: None,
            twist: Degrees(20.0),
        }
    }
}

data! {
    /// The full fuse.
    pub struct FullFuse {
        /// Top temperature.
        pub top: Celsius,
        /// Time held there.
        pub hold: Minutes,
        /// Width of the dam around the disc; none if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub dam: Option<Mm>,
    }
}

impl Default for FullFuse {
    fn default() -> Self {
        Self { top: Celsius(790.0), hold: Minutes(10.0), dam: None }
    }
}

data! {
    /// Small frit tacked in a ring near the rim.
    pub struct Accents {
        /// The glasses, by share of the pieces.
        pub glasses: Vec<Part>,
        /// The finer of the two sieves.
        pub grade_from: Mm,
        /// The coarser of the two sieves.
        pub grade_to: Mm,
        /// How many there are.
        pub number: Number,
        /// How far from the rim the middle of the band is.
        pub from_rim: Mm,
        /// Width of the band that their middles lie in.
        pub band: Mm,
        /// Least distance between two middles along the ring.
        pub least_gap: Mm,
        /// 0: evenly spaced; 1: as chance will have it.
        pub looseness: f64,
        /// Where their places come from, and what was done by hand; as they fall if left out.
        #[serde(default, skip_serializing_if = "AccentLayout::is_empty")]
        pub layout: AccentLayout,
        /// The firing that tacks them on.
        #[serde(default, skip_serializing_if = "TackFuse::is_usual")]
        pub tack: TackFuse,
    }
}

data! {
    /// A number of accents, or the spacing that sets it.
    pub enum Number {
        /// This many.
        Count(u32),
        /// One in this length of the ring.
        Spacing(Mm),
    }
}

impl Default for Accents {
    fn default() -> Self {
        Self {
            glasses: vec![Part { glass: "chalk".into(), parts: 1.0 }],
            grade_from: Mm(3.0),
            grade_to: Mm(5.5),
            number: Number::Count(26),
            from_rim: Mm(10.0),
            band: Mm(3.0),
            least_gap: Mm(7.0),
            looseness: 0.5,
            layout: AccentLayout::default(),
            tack: TackFuse::default(),
        }
    }
}

data! {
    /// The mold, by its inside (or, for a hump, its outside).
    pub struct Mold {
        /// Its form.
        pub form: Form,
        /// Width across at the rim.
        pub opening: Mm,
        /// Depth below the rim, or height of a hump.
        pub depth: Mm,
    }
}

impl Mold {
    /// What it takes up on a shelf if nobody has measured it: a wall of 10 mm around a bowl, common practice, no source. A hump ends
    /// at its foot.
    pub fn usual_rim(&self) -> Mm {
        match self.form {
            Form::Hump => self.opening,
            Form::Bowl | Form::FlatBottom { .. } | Form::Flare { .. } => Mm(self.opening.0 + 20.0),
        }
    }
}

impl Default for Mold {
    fn default() -> Self {
        Self { form: Form::Bowl, opening: Mm(160.0), depth: Mm(48.0) }
    }
}

data! {
    /// The form of a mold, always round.
    pub enum Form {
        /// Part of a sphere.
        Bowl,
        /// A flat bottom, a rounded corner and a straight wall.
        FlatBottom {
            /// Width of the flat bottom.
            bottom: Mm,
            /// Radius of the corner.
            corner: Mm,
        },
        /// A cone with a small bottom, opening outward all the way.
        Flare {
            /// Width of the bottom.
            bottom: Mm,
            /// Radius of the corner.
            corner: Mm,
        },
        /// Part of a sphere to drape over.
        Hump,
    }
}

data! {
    /// Which face of the disc ends up outside.
    #[derive(Copy, Default, Eq)]
    pub enum Side {
        /// The powder is on the outside of the dome.
        #[default]
        Out,
        /// The powder is on the inside.
        In,
    }
}

data! {
    /// How many pieces the ticket is for.
    #[derive(Copy, Eq)]
    pub struct Batch {
        /// Pieces wanted.
        pub pieces: u32,
        /// Spare ones made for every ten.
        pub spare_per_ten: u32,
    }
}

impl Default for Batch {
    fn default() -> Self {
        Self { pieces: 1, spare_per_ten: 0 }
    }
}

impl Batch {
    /// Pieces to make, spares included: so many for every ten of all pieces together, rounded up once.
    pub fn to_make(&self) -> u32 {
        self.pieces.saturating_add(self.pieces.saturating_mul(self.spare_per_ten).div_ceil(10))
    }
}

impl Recipe {
    /// A bare blank: white on clear, nothing on it, in the usual bowl.
    pub fn bare() -> Self {
        Self {
            version: VERSION,
            title: "A bare blank".into(),
            glasses: Glasses::default(),
            blank: Blank {
                diameter: Mm(160.0),
                sheets: vec![
                    Sheet { glass: "clear".into(), thickness: Mm(3.0) },
                    Sheet { glass: "white".into(), thickness: Mm(3.0) },
                ],
            },
            coats: Vec::new(),
            sponge: None,
            sponged_off: Vec::new(),
            fuse: FullFuse::default(),
            accents: None,
            mold: Mold::default(),
            powder_side: Side::Out,
            slump: SlumpFiring::default(),
            stem: None,
            programs: Programs::default(),
            packing: packing(),
            past_the_disc: past_the_disc(),
            batch: Batch::default(),
        }
    }

    /// Ids of the glasses it is made of, as often as they are in it.
    pub fn glass_ids(&self) -> impl Iterator<Item = &str> {
        let sheets = self.blank.sheets.iter().map(|sheet| &sheet.glass);
        let accents = self.accents.iter().flat_map(|accents| &accents.glasses);
        let parts = self.coats.iter().flat_map(|coat| &coat.powder).chain(accents);
        sheets.chain(parts.map(|part| &part.glass)).map(String::as_str)
    }

    /// Takes a glass along that it is to be made of, as it is now; those of the catalogue need not be.
    pub fn bring(&mut self, glass: &Glass) {
        if catalogue::find(&glass.id).is_none() {
            self.glasses.take_in(glass.clone());
        }
    }

    /// Lets go of its own glasses that it is no longer made of.
    pub fn drop_unused_glasses(&mut self) {
        let mut glasses = std::mem::take(&mut self.glasses);
        glasses.0.retain(|own| self.glass_ids().any(|id| id == own.id));
        self.glasses = glasses;
    }

    /// The coat with this id.
    pub fn coat(&self, id: u32) -> Option<&Coat> {
        self.coats.iter().find(|coat| coat.id == id)
    }

    /// The coat with this id, to change.
    pub fn coat_mut(&mut self, id: u32) -> Option<&mut Coat> {
        self.coats.iter_mut().find(|coat| coat.id == id)
    }

    /// Whether two recipes make the same piece, whatever they are called and however many are made.
    pub fn makes_the_same(&self, other: &Self) -> bool {
        let named = Self { title: other.title.clone(), batch: other.batch, ..self.clone() };
        named == *other
    }

    /// An id that no coat has yet, nor one that is gone and by whose chance others go on falling.
    pub fn free_coat_id(&self) -> u32 {
        let ids = self.coats.iter().map(|coat| coat.id.max(coat.falls_by()));
        ids.max().map_or(1, |id| id.saturating_add(1))
    }

    /// The next coat, of one powder: even if it is the first, else patches.
    pub fn next_coat(&self, glass: &str) -> Coat {
        let fall = if self.coats.is_empty() {
            Fall::Even { depth: Mm(EVEN_DEPTH.usual) }
        } else {
            Fall::Patches(Patches::usual())
        };
        Coat::new(self.free_coat_id(), glass, fall)
    }
}

impl Coat {
    /// An even coat of one powder with everything as usual.
    pub fn new(id: u32, glass: &str, fall: Fall) -> Self {
        let unevenness = if matches!(fall, Fall::Patches(_)) { 0.18 } else { unevenness() };
        Self {
            id,
            powder: vec![Part { glass: glass.into(), parts: 1.0 }],
            fall,
            bare_rim: bare_rim(),
            bare_rim_raggedness: bare_rim_raggedness(),
            unevenness,
            layout: Layout::default(),
        }
    }
}
