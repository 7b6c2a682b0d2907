//! The list of pictures that native program and browser must both draw, and the hashes they must have.

use dappledome::base::units::Mm;
use dappledome::picture::{Light, Stage, View};
use dappledome::recipe::{Fall, Form, Recipe, Side, demo, file};

/// Where the list is kept.
pub const FILE: &str = "tests/data/golden.csv";

/// A recipe with something of everything that is done by hand, made from Ember Walk and locked to seed 8.
pub const BY_HAND: &str = include_str!("../data/by_hand.json");

/// The recipes that are drawn: the demo's, the one with what is done by hand, and one for each thing that they do not have.
pub fn recipes() -> Vec<Recipe> {
    let mut recipes = demo::all();
    recipes.push(file::read(BY_HAND).expect("the recipe by hand is sound"));
    recipes.extend(kinds());
    recipes
}

/// Every form of mold, powder inside, clear glass bare and under powder, haze, and coats as deep as they get.
fn kinds() -> Vec<Recipe> {
    let (bottom, corner) = (Mm(80.0), Mm(18.0));
    let made = |title: &str, from: usize, change: &dyn Fn(&mut Recipe)| {
        let mut recipe = Recipe { title: title.into(), ..demo::all().swap_remove(from) };
        change(&mut recipe);
        recipe
    };
    let clear = |recipe: &mut Recipe| recipe.blank.sheets[1].glass = "clear".into();
    vec![
        made("Flat bottom", 0, &|recipe| recipe.mold.form = Form::FlatBottom { bottom, corner }),
        made("Flare", 2, &|recipe| recipe.mold.form = Form::Flare { bottom, corner }),
        made("Hump", 3, &|recipe| recipe.mold.form = Form::Hump),
        made("On clear", 0, &clear),
        made("Powder in", 0, &|recipe| {
            clear(recipe);
            recipe.powder_side = Side::In;
        }),
        made("Powder in on white", 2, &|recipe| recipe.powder_side = Side::In),
        made("Clear", 4, &|recipe| recipe.coats.clear()),
        made("Haze", 4, &|recipe| recipe.coats[0].fall = Fall::Even { depth: Mm(0.12) }),
        made("Thick", 0, &|recipe| {
            for coat in &mut recipe.coats {
                match &mut coat.fall {
                    Fall::Even { depth } => *depth = Mm(3.0),
                    Fall::Patches(patches) => patches.depth = Mm(3.0),
                    Fall::ThickAndThin(range) => range.thickest = Mm(3.0),
                }
            }
        }),
    ]
}

/// A picture of the list.
pub struct Line {
    /// Title of one of the recipes.
    pub recipe: String,
    /// The seed.
    pub seed: u32,
    /// The view.
    pub view: View,
    /// The hash of the picture, hexadecimal.
    pub hash: String,
}

impl Line {
    /// A name for its file.
    pub fn name(&self) -> String {
        let View { stage, light, size, .. } = self.view;
        format!("{}-{}-{stage:?}-{light:?}-{size}", self.recipe, self.seed).replace(' ', "_")
    }

    fn text(&self) -> String {
        let View { stage, light, size, cells, turn, tilt, zoom, .. } = self.view;
        let (stage, light) = (named(&stage), named(&light));
        format!(
            "{},{},{stage},{light},{size},{cells},{turn},{tilt},{zoom},{}",
            self.recipe, self.seed, self.hash
        )
    }
}

fn named(value: &impl serde::Serialize) -> String {
    serde_json::to_value(value).expect("a name").as_str().expect("a name").to_owned()
}

/// The list as it is kept.
pub fn lines() -> Vec<Line> {
    let text = std::fs::read_to_string(FILE).expect("the list of golden pictures");
    text.lines().filter(|line| !line.starts_with('#')).map(read).collect()
}

fn read(line: &str) -> Line {
    let parts: Vec<&str> = line.split(',').collect();
    let number = |i: usize| parts[i].parse::<f32>().expect("a number");
    let stage: Stage = serde_json::from_value(parts[2].into()).expect("a stage");
    let light: Light = serde_json::from_value(parts[3].into()).expect("a light");
    let view = View {
        cells: number(5) as u32,
        turn: number(6),
        tilt: number(7),
        zoom: number(8),
        ..View::usual(stage, light, number(4) as u32)
    };
    Line { recipe: parts[0].into(), seed: number(1) as u32, view, hash: parts[9].into() }
}

/// The list as a file.
pub fn text_of(lines: &[Line]) -> String {
    let head =
        "# recipe,seed,stage,light,size,cells,turn,tilt,zoom,hash: the same natively and in the browser.\n";
    head.to_owned() + &lines.iter().map(|line| line.text() + "\n").collect::<String>()
}
