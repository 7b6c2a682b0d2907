//! The steps in a row, each remembered by exactly what it was made from: changing the sponge never re-sifts,
//! changing the light never re-dabs, changing the mold never re-fuses, and one coat never moves another.

use crate::base::disc::Disc;
use crate::base::grid::Grid;
use crate::base::memo::{Allowance, Memo, Paused, Shared};
use crate::base::seed::Seed;
use crate::base::units::Mm;
use crate::color::illuminant::Illuminant;
use crate::fuse::relief::Relief;
use crate::fuse::settle::{FusedDisc, Grain, settle};
use crate::fuse::spread::Spread;
use crate::fuse::tack::stands;
use crate::kiln::bench::Bench;
use crate::kiln::data::{Guess, Kiln};
use crate::kiln::fused::{self, dome_inputs, fused};
use crate::kiln::sinking::{self, Times};
use crate::layup::accents::{Accent, place};
use crate::layup::dab::dab;
use crate::layup::powder_bed::{Plane, PowderBed};
use crate::layup::rub::rub;
use crate::layup::sift::Falling;
use crate::layup::sponge_face::SpongeFace;
use crate::optics::colors::ColorField;
use crate::optics::edge::{Band, Edge};
use crate::optics::palette::{Palette, PaletteInputs, Passed};
use crate::optics::sample::{self, Sample};
use crate::picture::cast::{Camera, Cast};
use crate::picture::domed::{Paint, Painting, Scene};
use crate::picture::flat::{self, Lying};
use crate::picture::lantern::Lantern;
use crate::picture::lump::Lump;
use crate::picture::pick;
use crate::picture::shade::Shade;
use crate::picture::shell::Shell;
use crate::picture::studio::TABLE;
use crate::picture::surroundings::Surroundings;
use crate::picture::{Light, Pixmap, Stage, View};
use crate::recipe::plan::{Plan, PlannedAccents, SiftPlan};
use crate::recipe::{Rub, Side, Sponge};
use crate::slump::dome::{Dome, DomeInputs};
use crate::slump::inputs::SheetInputs;
use crate::slump::trajectory::Trajectory;
use crate::tiles::places::{self, HowSure};
use crate::tiles::sureness::By;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// The pipeline with its memory.
#[derive(Debug)]
pub struct Preview {
    /// By plans however deep.
    falling: Memo<(SiftPlan, Seed), Falling>,
    sifted: Memo<(SiftPlan, Seed, usize), Plane>,
    face: Memo<f32, SpongeFace>,
    bed: Memo<BedInputs, PowderBed>,
    rubbed: Memo<(Shared<PowderBed>, Vec<Rub>), PowderBed>,
    fused: Memo<(Shared<PowderBed>, Vec<Grain>), FusedDisc>,
    palette: Memo<PaletteInputs, Palette>,
    /// By day, or by the light that comes through.
    loose: Memo<(Shared<Palette>, Shared<PowderBed>, bool), Loose>,
    shown: Memo<(Shared<Palette>, Shared<FusedDisc>, Side, f32), ColorField>,
    through: Memo<(Shared<Palette>, Shared<FusedDisc>, Side), ColorField>,
    passed: Memo<(Shared<Palette>, Shared<FusedDisc>, Side), Passed>,
    /// What glasses there are is the palette's.
    shaded: Memo<(Shared<FusedDisc>, Shared<Palette>, By), ColorField>,
    relief: Memo<Shared<FusedDisc>, Relief>,
    accents: Memo<(PlannedAccents, Seed), Vec<Accent>>,
    /// Whether every disc keeps its size and lies on its mold, as if it had not sunk there.
    laid: bool,
    way: Memo<SheetInputs, Option<Trajectory>>,
    dome: Memo<DomeKey, Dome>,
    solid: Memo<Shared<Dome>, Solid>,
    cast: Memo<(Shared<Solid>, Camera, bool), Cast>,
    /// Under a dome. What passes it is of one palette, so the key says which lamp there is.
    table: Memo<(Shared<Cast>, Shared<Passed>, Light, Surroundings), Pixmap>,
}

#[derive(Debug, PartialEq)]
struct BedInputs {
    disc: Disc,
    cells: usize,
    coats: Vec<Shared<Plane>>,
    sponge: Option<(Sponge, Shared<SpongeFace>, Seed)>,
}

/// The powder on the disc before and after the sponge and the hand that rubs.
#[derive(Debug)]
pub struct Beds {
    /// Each coat as sifted: mm of loose powder per cell.
    pub sifted: Vec<Plane>,
    /// The whole bed as it is left to be fired: dabbed, then rubbed off.
    pub left: Shared<PowderBed>,
}

/// Loose powder to look at: its colors, and its height per cell, mm.
#[derive(Debug)]
struct Loose {
    colors: ColorField,
    height: Vec<f32>,
}

/// A point that a core sample is taken at.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Point {
    /// Where it is seen: shares of the picture's side from its top left corner.
    Seen(f32, f32),
    /// Where it lies on the flat disc: mm to the right and up.
    Place(f32, f32),
}

/// A core sample, and where its place is seen in the picture.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sampled {
    /// The sample.
    pub sample: Sample,
    /// Where its place is seen: shares of the picture's side from its top left corner.
    pub seen: (f32, f32),
    /// Whether the glass there is turned toward the eye.
    pub faces_the_eye: bool,
}

/// A dome's solid, the shadow it throws and the lamp that lights it from within.
#[derive(Debug)]
struct Solid {
    shell: Shell,
    shade: Shade,
    lantern: Lantern,
}

#[derive(Debug, PartialEq)]
struct DomeKey {
    disc: DomeInputs,
    way: Shared<Option<Trajectory>>,
    /// The reduced time at which it ends.
    ended: Option<f64>,
    /// Diameter as cut over that behind the full fuse.
    cut: f32,
}

/// The kiln that pictures are reckoned with. A kiln changes little in what they show: programs are kept in all.
fn in_some_kiln<T>(reckon: impl FnOnce(Bench) -> T) -> T {
    reckon(Bench::of(&Kiln::guess(Guess::SmallBrick)))
}

/// The disc behind its full fuse, as all pictures have it; as it was cut where that cannot be fired.
pub fn fused_size(plan: &Plan) -> Spread {
    in_some_kiln(|bench| fused(plan, bench)).unwrap_or_else(|_| fused::size(plan, 0.0))
}

fn disc(plan: &Plan) -> DomeInputs {
    dome_inputs(plan, &fused_size(plan))
}

/// The reduced time at which a dome is taken away.
fn ending(plan: &Plan, way: &Trajectory, sunk: Option<f32>) -> f64 {
    let settled = way.settled_at();
    if sunk.is_none() && plan.slump.hold.is_none() {
        return settled;
    }
    let radius = Mm(way.inputs().radius);
    match (in_some_kiln(|bench| Times::new(plan, bench, plan.slump.top, radius)), sunk) {
        (Ok(times), Some(minutes)) => times.tau_at(minutes.into()),
        (Ok(times), None) => times.end(settled),
        (Err(_), _) => settled,
    }
}

impl Default for Preview {
    fn default() -> Self {
        Self::new()
    }
}

impl Preview {
    /// An empty memory. Draft and fine picture each have room in it; what is small, or comes in more kinds, has more.
    pub fn new() -> Self {
        Self {
            falling: Memo::new(8),
            sifted: Memo::new(16),
            face: Memo::new(2),
            bed: Memo::new(2),
            rubbed: Memo::new(2),
            fused: Memo::new(2),
            palette: Memo::new(2),
            loose: Memo::new(2),
            shown: Memo::new(3),
            through: Memo::new(2),
            passed: Memo::new(2),
            shaded: Memo::new(2),
            relief: Memo::new(2),
            accents: Memo::new(2),
            laid: false,
            way: Memo::new(2),
            dome: Memo::new(3),
            solid: Memo::new(2),
            cast: Memo::new(3),
            table: Memo::new(2),
        }
    }

    /// For one large picture: no plane of cells or pixels is remembered once the next step has been made of it.
    pub fn once() -> Self {
        Self {
            falling: Memo::new(0),
            sifted: Memo::new(0),
            bed: Memo::new(0),
            rubbed: Memo::new(0),
            fused: Memo::new(0),
            loose: Memo::new(0),
            shown: Memo::new(0),
            through: Memo::new(0),
            passed: Memo::new(0),
            relief: Memo::new(0),
            cast: Memo::new(0),
            table: Memo::new(0),
            ..Self::new()
        }
    }

    /// The same, but every disc keeps its size and lies on its mold by [`Dome::new`]: the shape that path-traced pictures have.
    pub fn on_molds() -> Self {
        Self { laid: true, ..Self::new() }
    }

    /// A picture, however long it takes.
    pub fn picture(&mut self, plan: &Plan, seed: Seed, view: &View) -> Pixmap {
        self.advance(plan, seed, view, &mut Allowance::unlimited())
            .expect("an unlimited allowance never pauses")
    }

    /// A picture, or a pause when the allowance of fresh steps is spent: ask again to go on. A dome of more than a million pixels is
    /// painted in one step.
    ///
    /// # Errors
    /// [`Paused`] when the allowance is spent before the picture is done.
    pub fn advance(
        &mut self,
        plan: &Plan,
        seed: Seed,
        view: &View,
        allowance: &mut Allowance,
    ) -> Result<Pixmap, Paused> {
        let mut picture = match view.stage {
            _ if view.by_sureness => self.sureness_picture(plan, seed, view, allowance),
            Stage::Sifted => self.sifted_picture(plan, seed, view, allowance),
            Stage::Fused => self.fused_picture(plan, seed, view, allowance),
            Stage::Domed => self.domed_picture(plan, seed, view, None, allowance),
        }?;
        view.sight.look_at(&mut picture.rgba);
        Ok(picture)
    }

    /// The bed of loose powder, before and after the sponge and the rubbing.
    ///
    /// # Errors
    /// [`Paused`] when the allowance is spent before it is done.
    pub fn beds(
        &mut self,
        plan: &Plan,
        seed: Seed,
        cells: usize,
        allowance: &mut Allowance,
    ) -> Result<Beds, Paused> {
        let grid = Grid::new(plan.disc, cells);
        let mut coats = Vec::with_capacity(plan.coats.len());
        for coat in &plan.coats {
            // A locked coat keeps the seed it is locked to, so the piece's seed does not touch it.
            let own = coat.sift.layout.locked_to.unwrap_or(seed);
            let fall = (coat.sift.however_deep(), own);
            let falling = self.falling.get(allowance, fall, |(plan, seed)| Falling::new(plan, *seed))?;
            let key = (coat.sift.clone(), own, cells);
            coats.push(self.sifted.get(allowance, key, |(plan, ..)| Arc::new(falling.sift(plan, grid)))?);
        }
        let sponge = match &plan.sponge {
            Some(sponge) if !coats.is_empty() => {
                let face = self.face.get(allowance, sponge.pores.f32(), |pores| SpongeFace::new(*pores))?;
                Some((sponge.clone(), face, seed))
            }
            _ => None,
        };
        let key = BedInputs { disc: plan.disc, cells, coats: coats.clone(), sponge };
        let bed = self.bed.get(allowance, key, |key| {
            let sifted = PowderBed::sifted(grid, key.coats.iter().map(|coat| Plane::clone(coat)));
            match &key.sponge {
                Some((sponge, face, seed)) => dab(sifted, sponge, face, *seed),
                None => sifted,
            }
        })?;
        let left = if plan.sponged_off.is_empty() {
            bed
        } else {
            self.rubbed.get(allowance, (bed, plan.sponged_off.clone()), |(bed, rubs)| rub(bed, rubs))?
        };
        Ok(Beds { sifted: coats.iter().map(|coat| Plane::clone(coat)).collect(), left })
    }

    /// The fused flat disc.
    ///
    /// # Errors
    /// [`Paused`] when the allowance is spent before it is done.
    pub fn fused(
        &mut self,
        plan: &Plan,
        seed: Seed,
        cells: usize,
        allowance: &mut Allowance,
    ) -> Result<Shared<FusedDisc>, Paused> {
        let bed = self.beds(plan, seed, cells, allowance)?.left;
        self.fused.get(allowance, (bed, Grain::of(plan)), |(bed, grains)| settle(bed, grains))
    }

    /// The color of every cell of the fused flat disc, seen from above by day.
    ///
    /// # Errors
    /// [`Paused`] when the allowance is spent before it is done.
    pub fn colors(
        &mut self,
        plan: &Plan,
        seed: Seed,
        cells: usize,
        allowance: &mut Allowance,
    ) -> Result<Shared<ColorField>, Paused> {
        let fused = self.fused(plan, seed, cells, allowance)?;
        let palette = self.palette(plan, Illuminant::Daylight, allowance)?;
        self.shown(palette, fused, Side::Out, TABLE, allowance)
    }

    /// The way of the disc into its mold, by the size that it has behind its full fuse; none that comes to no dome.
    ///
    /// # Errors
    /// [`Paused`] when the allowance is spent before it is done.
    pub fn trajectory(
        &mut self,
        plan: &Plan,
        allowance: &mut Allowance,
    ) -> Result<Shared<Option<Trajectory>>, Paused> {
        self.way(&disc(plan), allowance)
    }

    fn way(
        &mut self,
        disc: &DomeInputs,
        allowance: &mut Allowance,
    ) -> Result<Shared<Option<Trajectory>>, Paused> {
        self.way.get(allowance, sinking::sheet(disc), |sheet| sinking::followed(sheet).ok())
    }

    /// The shape of the dome, sunk for so many minutes since the top of its slump was reached, or as the recipe ends. A disc whose way
    /// is not known lies on its mold.
    ///
    /// # Errors
    /// [`Paused`] when the allowance is spent before it is done.
    pub fn dome(
        &mut self,
        plan: &Plan,
        sunk: Option<f32>,
        allowance: &mut Allowance,
    ) -> Result<Shared<Dome>, Paused> {
        let disc = if self.laid { DomeInputs::of(plan) } else { disc(plan) };
        let cut = plan.disc.radius() / disc.radius;
        let way = self.way(&disc, allowance)?;
        let sinks = way.as_ref().filter(|_| !self.laid);
        let ended = sinks.map(|way| ending(plan, way, sunk));
        self.dome.get(allowance, DomeKey { disc, way, ended, cut }, |key| {
            let dome = match (&*key.way, key.ended) {
                (Some(way), Some(tau)) => Dome::sunk(way, tau),
                _ => Dome::new(&key.disc),
            };
            dome.as_cut(key.cut)
        })
    }

    /// A core sample of what a view shows at a point; none beside the glass.
    ///
    /// # Errors
    /// [`Paused`] when the allowance is spent before it is done.
    pub fn sample(
        &mut self,
        plan: &Plan,
        seed: Seed,
        view: &View,
        point: Point,
        allowance: &mut Allowance,
    ) -> Result<Option<Sampled>, Paused> {
        let disc = self.fused(plan, seed, view.cells as usize, allowance)?;
        let bed = self.beds(plan, seed, view.cells as usize, allowance)?.left;
        let radius = plan.disc.radius();
        let solid =
            if view.stage == Stage::Domed { Some(self.solid(plan, view.sunk, allowance)?) } else { None };
        let place = match (point, &solid) {
            (Point::Seen(u, v), Some(solid)) => pick::on_dome(&solid.shell, plan.side, view, (u, v)),
            (Point::Seen(u, v), None) => pick::on_flat(radius, view, (u, v)),
            (Point::Place(x, y), _) => (x * x + y * y <= radius * radius).then_some((x, y)),
        };
        Ok(place.map(|place| {
            let (seen, faces_the_eye) = match &solid {
                Some(solid) => pick::dome_seen(&solid.shell, plan.side, view, place),
                None => (pick::flat_seen(radius, view, place), true),
            };
            Sampled { sample: sample::take(plan, &bed, &disc, place), seen, faces_the_eye }
        }))
    }

    fn solid(
        &mut self,
        plan: &Plan,
        sunk: Option<f32>,
        allowance: &mut Allowance,
    ) -> Result<Shared<Solid>, Paused> {
        let dome = self.dome(plan, sunk, allowance)?;
        self.solid.get(allowance, dome, |dome| {
            let shell = Shell::new(dome);
            Solid { shade: Shade::new(&shell), lantern: Lantern::new(&shell), shell }
        })
    }

    fn palette(
        &mut self,
        plan: &Plan,
        light: Illuminant,
        allowance: &mut Allowance,
    ) -> Result<Shared<Palette>, Paused> {
        self.palette.get(allowance, PaletteInputs::of(plan).seen_in(light), Palette::new)
    }

    fn sifted_picture(
        &mut self,
        plan: &Plan,
        seed: Seed,
        view: &View,
        allowance: &mut Allowance,
    ) -> Result<Pixmap, Paused> {
        let bed = self.beds(plan, seed, view.cells as usize, allowance)?.left;
        let palette = self.palette(plan, view.illuminant(), allowance)?;
        let within = view.light == Light::Within;
        let lamp = palette.lamp();
        let loose = self.loose.get(allowance, (palette, bed, within), |(palette, bed, within)| Loose {
            colors: if *within { palette.loose_through(bed) } else { palette.loose(bed, TABLE) },
            height: (0..bed.grid.len()).map(|cell| bed.depth(cell)).collect(),
        })?;
        let Loose { colors, height } = &*loose;
        let lying =
            if within { Lying::Lit { colors, lumps: &[], lamp } } else { Lying::Powder { colors, height } };
        Ok(flat::paint(&lying, view))
    }

    fn fused_picture(
        &mut self,
        plan: &Plan,
        seed: Seed,
        view: &View,
        allowance: &mut Allowance,
    ) -> Result<Pixmap, Paused> {
        let fused = self.fused(plan, seed, view.cells as usize, allowance)?;
        let palette = self.palette(plan, view.illuminant(), allowance)?;
        let lit_from = (Side::Out, TABLE);
        let lumps = self.lumps((plan, seed), &palette, &fused, lit_from, allowance)?;
        if view.light == Light::Within {
            let lamp = palette.lamp();
            let colors = self.through(palette, fused, Side::Out, allowance)?;
            return Ok(flat::paint(&Lying::Lit { colors: &colors, lumps: &lumps, lamp }, view));
        }
        let passed = self.passed(&palette, &fused, Side::Out, allowance)?.through;
        let relief = self.relief(&fused, allowance)?;
        let edge = palette.edge(Side::Out, passed);
        let colors = self.shown(palette, fused, Side::Out, TABLE, allowance)?;
        let lying = Lying::Glass { colors: &colors, lumps: &lumps, edge: &edge, passed, relief: &relief };
        Ok(flat::paint(&lying, view))
    }

    /// The piece shaded by how sure its fired colors are, as flat color; its accents are left out.
    fn sureness_picture(
        &mut self,
        plan: &Plan,
        seed: Seed,
        view: &View,
        allowance: &mut Allowance,
    ) -> Result<Pixmap, Paused> {
        let fused = self.fused(plan, seed, view.cells as usize, allowance)?;
        let palette = self.palette(plan, Illuminant::Daylight, allowance)?;
        let shaded =
            self.shaded.get(allowance, (fused, palette, view.light.judged_by()), |(fused, _, by)| {
                places::shaded(plan, fused, *by)
            })?;
        let view = View { light: Light::Gray, ..*view };
        match view.stage {
            Stage::Domed => self.domed_picture(plan, seed, &view, Some(&shaded), allowance),
            _ => Ok(flat::paint(&Lying::Powder { colors: &shaded, height: &[] }, &view)),
        }
    }

    /// How sure the fired colors of a view are.
    ///
    /// # Errors
    /// [`Paused`] when the allowance is spent before it is done.
    pub fn how_sure(
        &mut self,
        plan: &Plan,
        seed: Seed,
        view: &View,
        allowance: &mut Allowance,
    ) -> Result<HowSure, Paused> {
        let fused = self.fused(plan, seed, view.cells as usize, allowance)?;
        Ok(places::how_sure(plan, &fused, view.light.judged_by()))
    }

    /// A dome, in its colors or in others that are given instead; in those without accents.
    fn domed_picture(
        &mut self,
        plan: &Plan,
        seed: Seed,
        view: &View,
        instead: Option<&ColorField>,
        allowance: &mut Allowance,
    ) -> Result<Pixmap, Paused> {
        let fused = self.fused(plan, seed, view.cells as usize, allowance)?;
        let palette = self.palette(plan, view.illuminant(), allowance)?;
        let clear = palette.is_clear();
        // What lies behind clear glass is looked at pixel by pixel, so its own color is taken over darkness.
        let look_through = clear && view.light != Light::Gray;
        let ground = if look_through { 0.0 } else { TABLE };
        let shown = self.shown(palette.clone(), fused.clone(), plan.side, ground, allowance)?;
        let through = if look_through || view.light == Light::Within {
            Some(self.through(palette.clone(), fused.clone(), plan.side, allowance)?)
        } else {
            None
        };
        let lumps = match instead {
            Some(_) => Vec::new(),
            None => self.lumps((plan, seed), &palette, &fused, (plan.side, ground), allowance)?,
        };
        let passed = self.passed(&palette, &fused, plan.side, allowance)?;
        let relief = self.relief(&fused, allowance)?;
        let solid = self.solid(plan, view.sunk, allowance)?;
        drop(fused);
        let Solid { shell, shade, lantern } = &*solid;
        let camera = Camera::new(shell, view.size, view.tilt, view.zoom);
        let around = if view.light == Light::Gray { Surroundings::Studio } else { view.around };
        let scene = Scene { shell, lantern, camera, turn: view.turn, light: view.light, around };
        // A shaded piece has the gray of its bare blank at its edge too.
        let edge = match instead {
            Some(_) => Edge(vec![Band { upto: 1.0, shown: places::bare(), through: [0.0; 3] }]),
            None => palette.edge(plan.side, passed.through),
        };
        let paint = Paint {
            shown: instead.unwrap_or(&shown),
            through: through.as_deref(),
            bare: palette.bare(ground),
            lamp: palette.lamp(),
            passed: &passed,
            relief: &relief,
            edge: &edge,
            clear,
            side: plan.side,
            lumps: &lumps,
        };
        let bands = Cast::bands(&camera);
        if bands == 1 {
            let key = (solid.clone(), camera, look_through);
            let cast =
                self.cast.get(allowance, key, |_| Cast::new(shell, shade, &camera, look_through, 0))?;
            let key = (cast.clone(), passed.clone(), view.light, around);
            let table = self
                .table
                .get(allowance, key, |_| Painting::begun(&scene, &paint).with_table(&cast).so_far())?;
            return Ok(Painting::over(&scene, &paint, &table).with_glass(&cast).done());
        }
        // What all of a large picture sees would not fit in memory.
        let painting = (0..bands).fold(Painting::begun(&scene, &paint), |painting, band| {
            let cast = Cast::new(shell, shade, &camera, look_through, band);
            painting.with_table(&cast).with_glass(&cast)
        });
        Ok(painting.done())
    }

    fn relief(
        &mut self,
        fused: &Shared<FusedDisc>,
        allowance: &mut Allowance,
    ) -> Result<Shared<Relief>, Paused> {
        self.relief.get(allowance, fused.clone(), |fused| Relief::new(fused))
    }

    fn passed(
        &mut self,
        palette: &Shared<Palette>,
        fused: &Shared<FusedDisc>,
        powder: Side,
        allowance: &mut Allowance,
    ) -> Result<Shared<Passed>, Paused> {
        let key = (palette.clone(), fused.clone(), powder);
        self.passed.get(allowance, key, |(palette, fused, powder)| palette.passed(fused, *powder))
    }

    fn shown(
        &mut self,
        palette: Shared<Palette>,
        fused: Shared<FusedDisc>,
        seen_from: Side,
        ground: f32,
        allowance: &mut Allowance,
    ) -> Result<Shared<ColorField>, Paused> {
        let key = (palette, fused, seen_from, ground);
        self.shown.get(allowance, key, |(palette, fused, side, ground)| palette.fired(fused, *side, *ground))
    }

    fn through(
        &mut self,
        palette: Shared<Palette>,
        fused: Shared<FusedDisc>,
        seen_from: Side,
        allowance: &mut Allowance,
    ) -> Result<Shared<ColorField>, Paused> {
        let key = (palette, fused, seen_from);
        self.through.get(allowance, key, |(palette, fused, side)| palette.through(fused, *side))
    }

    /// The accents with their colors on what lies under each, seen from a side over a ground.
    fn lumps(
        &mut self,
        (plan, seed): (&Plan, Seed),
        palette: &Palette,
        fused: &FusedDisc,
        (seen_from, ground): (Side, f32),
        allowance: &mut Allowance,
    ) -> Result<Vec<Lump>, Paused> {
        let Some(planned) = &plan.accents else { return Ok(Vec::new()) };
        let accents =
            self.accents.get(allowance, (planned.clone(), seed), |(plan, seed)| place(plan, *seed))?;
        // Where the tack fuse cannot be fired, a grain stays the ball that it was.
        let melted = in_some_kiln(|bench| fused::tacked(plan, bench)).unwrap_or(0.0);
        let lump = |accent: &Accent| {
            let (glass, _) = &planned.glasses[accent.glass];
            let cell = fused.grid.cell_at(accent.x, accent.y);
            let stands = stands(Mm(accent.size.into()), melted);
            let on = (&glass.material, stands.mean_glass());
            let (shown, through, straight) = palette.with_accent((fused, cell), on, seen_from, ground);
            Lump { accent: *accent, stands, shown, through, straight }
        };
        Ok(accents.iter().map(lump).collect())
    }
}
