//! A part of a sheet that is laid out by itself, as high as it needs, and then put where there is room.

use super::metrics::{POINT, width};
use super::sheet::{Anchor, Face, Item, Look, Path, Picture, Point, Words};

/// Width of a rule, mm.
pub const RULE: f64 = 0.25;
/// Side of a box to tick, mm.
pub const BOX: f64 = 6.0;
/// A line and nothing else.
pub const LINE: Look = Look { line: RULE, dashed: false, fill: None };

/// How words are written.
#[derive(Clone, Copy, Debug)]
pub struct Type {
    /// Size, points.
    pub size: f64,
    /// Weight.
    pub face: Face,
    /// Whether they step back.
    pub quiet: bool,
}

/// As usual, in this size.
pub const fn plain(size: f64) -> Type {
    Type { size, face: Face::Regular, quiet: false }
}

/// In weight.
pub const fn bold(size: f64) -> Type {
    Type { size, face: Face::Bold, quiet: false }
}

/// Stepping back.
pub const fn quiet(size: f64) -> Type {
    Type { size, face: Face::Regular, quiet: true }
}

impl Type {
    /// Width of words, mm.
    pub fn width(self, words: &str) -> f64 {
        width(words, self.face, self.size)
    }

    /// From one line to the next, mm: a quarter more than the size.
    pub fn line(self) -> f64 {
        self.size * POINT * 1.25
    }

    /// Words cut to a width, with three points for what is cut off.
    pub fn cut(self, words: &str, room: f64) -> String {
        if self.width(words) <= room {
            return words.into();
        }
        let mut kept: String = words.into();
        while kept.pop().is_some() && self.width(&kept) + self.width("…") > room {}
        kept.trim_end().to_owned() + "…"
    }

    /// Words on as many lines as they need in a width; a word that is wider than that is broken.
    pub fn wrapped(self, words: &str, room: f64) -> Vec<String> {
        let mut lines = vec![String::new()];
        for word in words.split_whitespace() {
            let mut word = word.to_owned();
            let last = lines.len() - 1;
            let joined =
                if lines[last].is_empty() { word.clone() } else { format!("{} {word}", lines[last]) };
            if self.width(&joined) <= room {
                lines[last] = joined;
                continue;
            }
            if !lines[last].is_empty() {
                lines.push(String::new());
            }
            while self.width(&word) > room {
                let mut end = 0;
                let mut sum = String::new();
                for (at, letter) in word.char_indices() {
                    sum.push(letter);
                    if self.width(&sum) > room && at > 0 {
                        break;
                    }
                    end = at + letter.len_utf8();
                }
                let rest = word.split_off(end);
                let last = lines.len() - 1;
                lines[last] = word;
                lines.push(String::new());
                word = rest;
            }
            let last = lines.len() - 1;
            lines[last] = word;
        }
        lines
    }

    /// The same on so many lines at most, the last one cut.
    pub fn wrapped_to(self, words: &str, room: f64, most: usize) -> Vec<String> {
        let mut lines = self.wrapped(words, room);
        if lines.len() > most {
            let rest = lines.split_off(most - 1).join(" ");
            lines.push(self.cut(&rest, room));
        }
        lines
    }
}

/// A part of a sheet; its own upper end is at 0.
#[derive(Clone, Debug, Default)]
pub struct Block {
    /// What stands on it.
    pub items: Vec<Item>,
    /// How high it is, mm.
    pub high: f64,
}

impl Block {
    /// Words that begin at a place.
    pub fn write(&mut self, at: Point, kind: Type, text: impl Into<String>) {
        self.words(at, Anchor::Start, kind, text.into());
    }

    /// Words that end at a place.
    pub fn write_up_to(&mut self, at: Point, kind: Type, text: impl Into<String>) {
        self.words(at, Anchor::End, kind, text.into());
    }

    /// Words around a place.
    pub fn write_around(&mut self, at: Point, kind: Type, text: impl Into<String>) {
        self.words(at, Anchor::Middle, kind, text.into());
    }

    fn words(&mut self, at: Point, anchor: Anchor, kind: Type, text: String) {
        if !text.is_empty() {
            let Type { size, face, quiet } = kind;
            self.items.push(Item::Words(Words { at, anchor, size, face, quiet, text }));
        }
    }

    /// Lines of words one under the other, the first of them at a place; gives the height of the next.
    pub fn lines(&mut self, (x, mut y): Point, kind: Type, lines: &[String]) -> f64 {
        for line in lines {
            self.write((x, y), kind, line.as_str());
            y += kind.line();
        }
        y
    }

    /// A line from point to point.
    pub fn line(&mut self, points: &[Point]) {
        self.path(vec![points.to_vec()], false, LINE);
    }

    /// A path.
    pub fn path(&mut self, parts: Vec<Vec<Point>>, closed: bool, look: Look) {
        self.items.push(Item::Path(Path { parts, closed, look }));
    }

    /// A rectangle by its upper left corner, width and height.
    pub fn rectangle(&mut self, (x, y): Point, (wide, high): (f64, f64), look: Look) {
        self.path(vec![vec![(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]], true, look);
    }

    /// A box to tick.
    pub fn tick(&mut self, at: Point) {
        self.rectangle(at, (BOX, BOX), LINE);
    }

    /// A line to write on from one place to the right.
    pub fn blank(&mut self, (x, y): Point, wide: f64) {
        self.line(&[(x, y + 0.8), (x + wide, y + 0.8)]);
    }

    /// A picture.
    pub fn picture(&mut self, picture: Picture) {
        self.items.push(Item::Picture(picture));
    }

    /// The same with another one right under it.
    #[must_use]
    pub fn over(mut self, other: Self) -> Self {
        let (down, high) = (self.high, other.high);
        other.put(&mut self.items, 0.0, down);
        self.high += high;
        self
    }

    /// Puts it on a sheet.
    pub fn put(self, items: &mut Vec<Item>, right: f64, down: f64) {
        items.extend(self.items.into_iter().map(|item| moved(item, (right, down))));
    }
}

fn moved(item: Item, (right, down): Point) -> Item {
    let by = |(x, y): Point| (x + right, y + down);
    match item {
        Item::Words(words) => Item::Words(Words { at: by(words.at), ..words }),
        Item::Path(mut path) => {
            path.parts.iter_mut().flatten().for_each(|point| *point = by(*point));
            Item::Path(path)
        }
        Item::Circle(middle, radius, look) => Item::Circle(by(middle), radius, look),
        Item::Picture(picture) => Item::Picture(Picture { at: by(picture.at), ..picture }),
        Item::Window(at, size, items) => {
            Item::Window(by(at), size, items.into_iter().map(|item| moved(item, (right, down))).collect())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_wrapped_and_none_is_lost() {
        let (kind, words) = (plain(10.0), "Garden glass can break in hail, frost or a fall.");
        for room in [12.0, 30.0, 60.0, 200.0] {
            let lines = kind.wrapped(words, room);
            assert!(lines.iter().all(|line| kind.width(line) <= room), "{lines:?}");
            assert_eq!(lines.join(" "), words);
        }
        let broken = kind.wrapped("Wwwwwwwwwwwwwwwwwwwwwwww ab", 20.0);
        assert!(broken.len() > 3 && broken.iter().all(|line| kind.width(line) <= 20.0), "{broken:?}");
        assert_eq!(broken.concat().replace(' ', ""), "Wwwwwwwwwwwwwwwwwwwwwwwwab");
    }

    #[test]
    fn what_is_cut_says_so() {
        let kind = plain(10.0);
        assert_eq!(kind.cut("Ember Walk", 100.0), "Ember Walk");
        let cut = kind.cut("Ember Walk by the harbor", 25.0);
        assert!(cut.ends_with('…') && cut.starts_with("Ember") && kind.width(&cut) <= 25.0, "{cut}");
        assert_eq!(kind.wrapped_to("one two three four five six", 15.0, 2).len(), 2);
    }
}
