//! A slump as a drawing: the mold cut through its middle and the glass in its true thickness at a few moments, in mm.

use dappledome::base::units::fixed;
use dappledome::slump::mold::Point;
use dappledome::slump::profile::{Piece, Profile};
use dappledome::slump::trajectory::{Moment, Trajectory};
use std::fmt::Write;

/// What is left around mold and glass, mm.
const MARGIN: f64 = 14.0;
/// How thick the mold is drawn below its lowest point, mm.
const BODY: f64 = 8.0;
/// From tick to tick, mm.
const TICK: f64 = 10.0;
/// Height of letters, mm.
const LETTERS: f64 = 3.5;
/// The moments drawn, as shares of the depth that the glass has when it is full, or else at the end; the last stands out.
const MOMENTS: [f64; 4] = [0.0, 0.4, 0.75, 1.0];

/// What the drawing covers, mm, heights counted upward.
struct Frame {
    right: f64,
    bottom: f64,
    top: f64,
}

/// The drawing, an SVG one to one.
pub fn draw(way: &Trajectory) -> String {
    let inputs = way.inputs();
    let profile = Profile::new(&inputs.mold, inputs.lip, inputs.thickness);
    let (lowest, highest) = profile.heights();
    let first = way.at(0.0);
    let frame = Frame {
        right: (inputs.radius + inputs.thickness).max(inputs.mold.opening.0 / 2.0) + 0.5 * MARGIN,
        bottom: lowest - BODY,
        top: highest.max(first.rim().1) + inputs.thickness,
    };
    let moments = moments(way);
    let (width, height) =
        (2.0 * (frame.right + MARGIN), frame.top - frame.bottom + 2.0 * MARGIN + 6.0 * LETTERS);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"{2} {3} {0} {1}\" \
         font-family=\"sans-serif\" font-size=\"{LETTERS}\">\n",
        mm(width),
        mm(height),
        mm(-frame.right - MARGIN),
        mm(-frame.top - MARGIN)
    );
    line(
        &mut svg,
        &format!(
            "<path d=\"{}\" fill=\"#d8d2c8\" stroke=\"#6b6359\" stroke-width=\"0.3\"/>",
            mold(&profile, &frame)
        ),
    );
    for (i, moment) in moments.iter().enumerate() {
        let opacity = if i + 1 == MOMENTS.len() { "0.75" } else { "0.22" };
        let glass = glass(moment);
        line(
            &mut svg,
            &format!(
                "<path d=\"{glass}\" fill=\"#3f7f93\" fill-opacity=\"{opacity}\" stroke=\"#1f4450\" stroke-width=\"0.2\"/>"
            ),
        );
    }
    axes(&mut svg, &frame);
    legend(&mut svg, &frame, &moments);
    svg + "</svg>\n"
}

/// The moments that are drawn.
fn moments(way: &Trajectory) -> [Moment; MOMENTS.len()] {
    let last = way.full_at().unwrap_or_else(|| way.end());
    let depth = way.at(last).depth();
    MOMENTS.map(|share| {
        let reached = |tau: &f64| way.at(*tau).depth() >= share * depth;
        way.at(way.moments().find(reached).map_or(last, |tau| tau.min(last)))
    })
}

/// The outline of the mold's body.
fn mold(profile: &Profile, frame: &Frame) -> String {
    let clip = |p: Point| (p.0.min(frame.right), p.1);
    let mut right = String::new();
    for piece in profile.pieces() {
        right += &stretch(piece, clip(piece.ends().1));
    }
    let mut left = String::new();
    for piece in profile.pieces().iter().rev() {
        let (r, z) = piece.ends().0;
        left += &stretch(piece, (-r, z));
    }
    let corners = [(frame.right, frame.bottom), (-frame.right, frame.bottom), (-frame.right, 0.0)];
    let body: Vec<_> = corners.into_iter().map(|p| format!("L{}", at(p))).collect();
    format!("M{}{right}{}{left}Z", at(profile.pieces()[0].ends().0), body.concat())
}

/// The stroke along a piece to one of its ends: a hollow one turns left both from the axis outward and, mirrored, back to it.
fn stretch(piece: &Piece, to: Point) -> String {
    match piece {
        Piece::Straight { .. } => format!("L{}", at(to)),
        Piece::Arc { radius, hollow, .. } => {
            format!("A{0} {0} 0 0 {1} {2}", mm(*radius), u8::from(!hollow), at(to))
        }
    }
}

/// The outline of the glass: both faces and the round edge.
fn glass(moment: &Moment) -> String {
    let rings = moment.shape.nodes.len();
    let (upper, lower): (Vec<Point>, Vec<Point>) = (0..rings).map(|ring| faces(moment, ring)).unzip();
    let edge = mm(moment.shape.thickness(rings - 1) / 2.0);
    let mirrored = |p: &Point| at((-p.0, p.1));
    let points = |points: Vec<String>| points.join("L");
    let right = points(upper.iter().map(|p| at(*p)).collect());
    let under = points(lower.iter().rev().map(|p| at(*p)).collect());
    let left = points(lower.iter().map(mirrored).collect());
    let back = points(upper.iter().rev().map(mirrored).collect());
    format!("M{right}A{edge} {edge} 0 0 1 {under}L{left}A{edge} {edge} 0 0 1 {back}Z")
}

/// The points of both faces at a ring, half a thickness from its middle.
fn faces(moment: &Moment, ring: usize) -> (Point, Point) {
    let nodes = &moment.shape.nodes;
    let (inner, outer) = (nodes[ring.saturating_sub(1)], nodes[(ring + 1).min(nodes.len() - 1)]);
    let half = moment.shape.thickness(ring) / 2.0;
    // On the axis the glass is level.
    let (dr, dz) = if ring == 0 { (1.0, 0.0) } else { (outer.0 - inner.0, outer.1 - inner.1) };
    let scale = half / (dr * dr + dz * dz).sqrt();
    let (r, z) = nodes[ring];
    ((r - scale * dz, z + scale * dr), (r + scale * dz, z - scale * dr))
}

/// Lengths across and heights over the plane of the opening.
fn axes(svg: &mut String, frame: &Frame) {
    let (left, low) = (-frame.right, frame.bottom);
    line(
        svg,
        &format!(
            "<path d=\"M{}L{}L{}\" fill=\"none\" stroke=\"#444\" stroke-width=\"0.25\"/>",
            at((left, frame.top)),
            at((left, low)),
            at((frame.right, low))
        ),
    );
    let across = (frame.right / TICK) as i32;
    for i in -across..=across {
        let r = f64::from(i) * TICK;
        tick(svg, (r, low), (r, low - 1.5));
        if i % 2 == 0 {
            text(svg, (r, low - 2.0 - LETTERS), "middle", &fixed(r, 0));
        }
    }
    for i in (low / TICK) as i32..=(frame.top / TICK) as i32 {
        let z = f64::from(i) * TICK;
        tick(svg, (left, z), (left - 1.5, z));
        text(svg, (left - 2.0, z - 0.35 * LETTERS), "end", &fixed(z, 0));
    }
    text(svg, (frame.right, low - 2.0 - 2.2 * LETTERS), "end", "mm");
}

/// What is drawn, and how far to trust it.
fn legend(svg: &mut String, frame: &Frame, moments: &[Moment]) {
    let below = |row: f64| (-frame.right, frame.bottom - 2.0 - (2.4 + 1.3 * row) * LETTERS);
    let said: Vec<_> = moments
        .iter()
        .map(|moment| format!("{}: {} mm", fixed(moment.tau, 4), fixed(moment.depth(), 1)))
        .collect();
    text(svg, below(0.0), "start", &format!("Reduced time and depth: {}", said.join(", ")));
    text(
        svg,
        below(1.0),
        "start",
        "Computed for glass equally hot all over; held against no measured slump.",
    );
}

fn tick(svg: &mut String, from: Point, to: Point) {
    line(svg, &format!("<path d=\"M{}L{}\" stroke=\"#444\" stroke-width=\"0.25\"/>", at(from), at(to)));
}

fn text(svg: &mut String, p: Point, anchor: &str, words: &str) {
    line(
        svg,
        &format!(
            "<text x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\" fill=\"#222\">{words}</text>",
            mm(p.0),
            mm(-p.1)
        ),
    );
}

fn line(svg: &mut String, words: &str) {
    writeln!(svg, "{words}").expect("a string takes all that is written");
}

/// A place on the paper, where heights count downward.
fn at(p: Point) -> String {
    format!("{} {}", mm(p.0), mm(-p.1))
}

fn mm(length: f64) -> String {
    fixed(length, 3)
}
