//! What a PDF says, measured as a printer would.

use super::orders::{Ready, TODAY, blank, example, of_disc};
use dappledome::paper::labels::CARD;
use dappledome::paper::sheet::{PaperSize, Sheet};
use dappledome::paper::sift_map::OVERLAP;
use dappledome::paper::{labels, make_sheet, pdf, quote, sift_map};
use lopdf::content::Content;
use lopdf::{Document, Object};

/// How far a measure may be off on paper, mm.
const OFF: f64 = 0.1;
/// Millimeters in a point.
const POINT: f64 = 25.4 / 72.0;

/// Something drawn: the box around it, from the upper left corner of the page, mm.
#[derive(Clone, Debug)]
struct Drawn {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
    curved: bool,
    clips: bool,
    /// Its points in order, of straight paths.
    points: Vec<(f64, f64)>,
}

impl Drawn {
    fn wide(&self) -> f64 {
        self.right - self.left
    }

    fn high(&self) -> f64 {
        self.bottom - self.top
    }
}

type Matrix = [f64; 6];

fn times(a: Matrix, b: Matrix) -> Matrix {
    [
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    ]
}

struct Page {
    wide: f64,
    high: f64,
    drawn: Vec<Drawn>,
    text: String,
}

fn number(object: &Object) -> f64 {
    object.as_float().map(f64::from).unwrap()
}

/// Every page with all its paths, read operator by operator.
fn pages(bytes: &[u8]) -> Vec<Page> {
    let document = Document::load_mem(bytes).unwrap();
    let numbered = document.get_pages();
    numbered
        .iter()
        .map(|(at, id)| {
            let media = document.get_dictionary(*id).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
            let media: Vec<f64> = media.iter().map(number).collect();
            let (wide, high) = (media[2] - media[0], media[3] - media[1]);
            let content = Content::decode(&document.get_page_content(*id)).unwrap();
            Page {
                wide: wide * POINT,
                high: high * POINT,
                drawn: paths(&content, high),
                text: document.extract_text(&[*at]).unwrap().replace('\n', " "),
            }
        })
        .collect()
}

fn paths(content: &Content, high: f64) -> Vec<Drawn> {
    let (mut now, mut kept): (Matrix, Vec<Matrix>) = ([1.0, 0.0, 0.0, 1.0, 0.0, 0.0], Vec::new());
    let (mut drawn, mut points, mut curved, mut clips) = (Vec::new(), Vec::<(f64, f64)>::new(), false, false);
    for operation in &content.operations {
        let n: Vec<f64> =
            operation.operands.iter().filter_map(|o| o.as_float().ok().map(f64::from)).collect();
        let mut add = |x: f64, y: f64| {
            let (a, b) = (now[0] * x + now[2] * y + now[4], now[1] * x + now[3] * y + now[5]);
            points.push((a * POINT, (high - b) * POINT));
        };
        match operation.operator.as_str() {
            "q" => kept.push(now),
            "Q" => now = kept.pop().unwrap(),
            "cm" => now = times([n[0], n[1], n[2], n[3], n[4], n[5]], now),
            "m" | "l" => add(n[0], n[1]),
            "c" => {
                add(n[0], n[1]);
                add(n[2], n[3]);
                add(n[4], n[5]);
                curved = true;
            }
            "re" => {
                add(n[0], n[1]);
                add(n[0] + n[2], n[1] + n[3]);
            }
            "W" | "W*" => clips = true,
            "S" | "s" | "f" | "f*" | "B" | "B*" | "b" | "b*" | "n" => {
                let of = |pick: fn(&(f64, f64)) -> f64, by: fn(f64, f64) -> f64, from: f64| {
                    points.iter().map(pick).fold(from, by)
                };
                drawn.push(Drawn {
                    left: of(|p| p.0, f64::min, f64::INFINITY),
                    top: of(|p| p.1, f64::min, f64::INFINITY),
                    right: of(|p| p.0, f64::max, f64::NEG_INFINITY),
                    bottom: of(|p| p.1, f64::max, f64::NEG_INFINITY),
                    curved,
                    clips,
                    points: std::mem::take(&mut points),
                });
                (curved, clips) = (false, false);
            }
            _ => {}
        }
    }
    drawn
}

fn written(sheets: &[Sheet]) -> Vec<u8> {
    pdf::pdf("A test", sheets, |_| blank()).unwrap()
}

/// The lines of the ruler: 100 mm across and nothing high.
fn rulers(page: &Page) -> usize {
    page.drawn
        .iter()
        .filter(|drawn| (drawn.wide() - 100.0).abs() < OFF && drawn.high() < OFF && !drawn.clips)
        .count()
}

fn circles(page: &Page, diameter: f64) -> Vec<&Drawn> {
    let near = |length: f64| (length - diameter).abs() < OFF;
    page.drawn.iter().filter(|drawn| drawn.curved && near(drawn.wide()) && near(drawn.high())).collect()
}

#[test]
fn pages_are_as_large_as_their_paper() {
    let ready = Ready::new(example()).unwrap();
    for (paper, wide, high) in [(PaperSize::A4, 210.0, 297.0), (PaperSize::Letter, 215.9, 279.4)] {
        let content = ready.on(paper);
        for sheets in [
            make_sheet::sheets(&content),
            quote::sheets(&content),
            sift_map::sheets(&content),
            labels::sheets(&content),
        ] {
            for page in pages(&written(&sheets)) {
                assert!(
                    (page.wide - wide).abs() < OFF && (page.high - high).abs() < OFF,
                    "{} x {}",
                    page.wide,
                    page.high
                );
            }
        }
    }
}

#[test]
fn a_map_is_at_full_size() {
    for diameter in [80.0, 160.0, 186.0] {
        let ready = Ready::new(of_disc(diameter, 2)).unwrap();
        for paper in [PaperSize::A4, PaperSize::Letter] {
            let pages = pages(&written(&sift_map::sheets(&ready.on(paper))));
            assert_eq!(pages.len(), 2, "one for each coat in patches");
            for page in pages {
                assert_eq!(rulers(&page), 1);
                let [circle] = circles(&page, diameter)[..] else { panic!("no disc of {diameter}") };
                let inside =
                    circle.left > 5.0 && circle.right < page.wide - 5.0 && circle.bottom < page.high - 5.0;
                assert!(inside && circle.top > 5.0, "{circle:?}");
            }
        }
    }
}

/// The ends of the ruler's ticks: 101 of them, each a millimeter from the next.
#[test]
fn the_ruler_has_a_tick_at_every_millimeter() {
    let ready = Ready::new(of_disc(160.0, 1)).unwrap();
    let page = &pages(&written(&sift_map::sheets(&ready.on(PaperSize::A4))))[0];
    let ruler = page.drawn.iter().find(|d| (d.wide() - 100.0).abs() < OFF && d.high() < OFF).unwrap();
    let on_it = page
        .drawn
        .iter()
        .filter(|d| d.wide() < 0.01 && (d.bottom - ruler.top).abs() < 0.01 && d.high() > 1.0);
    let ticks: Vec<f64> = on_it.map(|tick| tick.left - ruler.left).collect();
    assert_eq!(ticks.len(), 101);
    for (at, tick) in ticks.iter().enumerate() {
        assert!((tick - at as f64).abs() < 0.02, "tick {at} stands at {tick}");
    }
}

/// Tiles lie over each other by 10 mm, and together they hold the whole disc.
#[test]
fn tiles_hold_the_whole_disc() {
    for diameter in [187.0, 250.0, 320.0, 400.0] {
        let ready = Ready::new(of_disc(diameter, 1)).unwrap();
        for paper in [PaperSize::A4, PaperSize::Letter] {
            let sheets = sift_map::sheets(&ready.on(paper));
            let pages = pages(&written(&sheets));
            let windows: Vec<[f64; 4]> =
                pages[..pages.len() / 2].iter().map(|page| window(page, diameter)).collect();
            assert!(pages.iter().all(|page| rulers(page) == 1));
            let edges = |at: usize| {
                let mut edges: Vec<f64> = windows.iter().map(|window| window[at]).collect();
                edges.sort_by(f64::total_cmp);
                edges.dedup_by(|a, b| (*a - *b).abs() < 0.01);
                edges
            };
            let (left, top, right, bottom) = (edges(0), edges(1), edges(2), edges(3));
            assert_eq!(windows.len(), left.len() * top.len());
            for (begins, ends) in [(&left, &right), (&top, &bottom)] {
                assert!(begins[0] <= -diameter / 2.0 && *ends.last().unwrap() >= diameter / 2.0);
                for (next, end) in begins[1..].iter().zip(ends) {
                    assert!((end - next - OVERLAP).abs() < OFF, "{end} over {next}");
                }
            }
        }
    }
}

/// The window of a tile, from the middle of the disc: left, top, right, bottom.
fn window(page: &Page, diameter: f64) -> [f64; 4] {
    let [circle] = circles(page, diameter)[..] else { panic!("no disc of {diameter}") };
    let (x, y) = (f64::midpoint(circle.left, circle.right), f64::midpoint(circle.top, circle.bottom));
    let window = page.drawn.iter().find(|drawn| drawn.clips).unwrap();
    [window.left - x, window.top - y, window.right - x, window.bottom - y]
}

/// Marks of neighbors lie on each other when the tiles are joined, and carry the same letter.
#[test]
fn tiles_join_at_their_marks() {
    let ready = Ready::new(of_disc(250.0, 1)).unwrap();
    let pages = pages(&written(&sift_map::sheets(&ready.on(PaperSize::A4))));
    let of = |page: &Page| {
        let [circle] = circles(page, 250.0)[..] else { panic!("no disc") };
        let (x, y) = (f64::midpoint(circle.left, circle.right), f64::midpoint(circle.top, circle.bottom));
        let marks = circles(page, 3.6).into_iter();
        marks
            .map(|m| (f64::midpoint(m.left, m.right) - x, f64::midpoint(m.top, m.bottom) - y))
            .collect::<Vec<_>>()
    };
    let (first, second) = (of(&pages[0]), of(&pages[1]));
    assert_eq!((first.len(), second.len()), (4, 4));
    let shared =
        first.iter().filter(|a| second.iter().any(|b| (a.0 - b.0).abs() < OFF && (a.1 - b.1).abs() < OFF));
    assert_eq!(shared.count(), 2, "the right marks of the first are the left ones of the second");
}

#[test]
fn cards_are_cut_to_their_size() {
    let ready = Ready::new(of_disc(160.0, 5)).unwrap();
    for paper in [PaperSize::A4, PaperSize::Letter] {
        let pages = pages(&written(&labels::sheets(&ready.on(paper))));
        let mut cards = 0;
        for page in &pages {
            // A mark's corner is the middle one of its three points.
            let corners: Vec<(f64, f64)> =
                page.drawn.iter().filter(|d| d.points.len() == 3 && !d.curved).map(|d| d.points[1]).collect();
            assert_eq!(corners.len() % 4, 0);
            for card in corners.chunks(4) {
                let near = |at: usize, x: f64, y: f64| {
                    (card[at].0 - card[0].0 - x).abs() < OFF && (card[at].1 - card[0].1 - y).abs() < OFF
                };
                assert!(near(1, 0.0, CARD.1) && near(2, CARD.0, 0.0) && near(3, CARD.0, CARD.1), "{card:?}");
                cards += 1;
            }
        }
        assert_eq!(cards, 10, "a label and a care card for each");
    }
}

#[test]
fn fonts_are_embedded_and_words_can_be_searched() {
    let ready = Ready::new(example()).unwrap();
    let bytes = written(&make_sheet::sheets(&ready.on(PaperSize::A4)));
    let document = Document::load_mem(&bytes).unwrap();
    let (mut descriptors, mut composite) = (0, 0);
    for object in document.objects.values() {
        let Ok(dictionary) = object.as_dict() else { continue };
        match dictionary.get(b"Type").and_then(Object::as_name) {
            Ok(b"FontDescriptor") => {
                assert!(dictionary.has(b"FontFile2") || dictionary.has(b"FontFile3"), "{dictionary:?}");
                descriptors += 1;
            }
            Ok(b"Font") if matches!(dictionary.get(b"Subtype").and_then(Object::as_name), Ok(b"Type0")) => {
                assert!(dictionary.has(b"ToUnicode"), "{dictionary:?}");
                composite += 1;
            }
            _ => {}
        }
    }
    assert_eq!((descriptors, composite), (2, 2), "regular and in weight");
    let all: String = pages(&bytes).into_iter().map(|page| page.text).collect();
    for words in ["Ember Walk", "Hedgerow", "Full fuse", "Real top", "Came out", "respirator"] {
        assert!(all.contains(words), "{words} is not in {all}");
    }
    // 2 x 414 kB of font files and two pages: only the letters used are in it.
    assert!(bytes.len() < 120_000, "{}", bytes.len());
}

#[test]
fn the_same_sheets_give_the_same_bytes() {
    let ready = Ready::new(example()).unwrap();
    let once = || written(&quote::sheets(&ready.on(PaperSize::Letter)));
    assert_eq!(TODAY.year(), 2026);
    assert!(once() == once());
}
