//! From light to what a picture can show of it.

use crate::base::lanes::Number;
use crate::base::scalar::lerp;
use crate::color::srgb::{Linear, luminance, pull_in};

/// Luminance from which highlights are rolled off (by eye).
const FROM: f32 = 0.80;

/// Brings a color into what a picture can hold: rolls its luminance off toward white instead of clipping it, and keeps its hue.
#[inline(never)]
pub fn shown<N: Number>(color: Linear<N>) -> Linear<N> {
    let color = pull_in(color);
    let most = color[0].at_least(color[1]).at_least(color[2]);
    if !most.any_above(FROM) {
        return color;
    }
    let bright = luminance(color);
    let over = (bright - FROM) / (1.0 - FROM);
    let rolled = bright.above(N::of(FROM), over / (over + 1.0) * (1.0 - FROM) + FROM, bright);
    let scale = rolled / bright;
    let brightest = most * scale;
    // A channel beyond full light gives way toward the gray of the same luminance.
    let over = (brightest - 1.0).at_least(N::of(0.0));
    let gray = over / (brightest - rolled).at_least(N::of(1e-6));
    color.map(|c| most.above(N::of(FROM), lerp(c * scale, rolled, gray), c))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_bright_stays() {
        for color in [[0.0; 3], [0.2, 0.5, 0.1], [0.8, 0.79, 0.2]] {
            assert_eq!(shown(color), color);
        }
    }

    #[test]
    fn highlights_roll_off_in_luminance_and_keep_their_hue() {
        for color in
            [[1.1f32, 0.82, 0.2], [0.95, 0.9, 0.6], [2.0, 1.7, 1.0], [0.2, 0.9, 1.3], [9.0, 9.0, 9.0]]
        {
            let got = shown(color);
            assert!(got.iter().all(|c| (0.0..=1.0).contains(c)), "{color:?}: {got:?}");
            // The hue is the order and the proportion of the differences from gray.
            let off = |c: Linear| c.map(|x| x - luminance(c));
            let (before, after) = (off(color), off(got));
            let dot: f32 = (0..3).map(|k| before[k] * after[k]).sum();
            let length = |v: Linear| v.iter().map(|x| x * x).sum::<f32>().sqrt();
            if length(before) > 1e-3 && length(after) > 1e-3 {
                assert!(dot / (length(before) * length(after)) > 0.9999, "{color:?}: {got:?}");
            }
            // 0.8 + 0.2 x / (1 + x), x = (Y - 0.8) / 0.2: the curve by hand.
            let y = f64::from(luminance(color));
            let want = if y <= 0.8 { y } else { 0.8 + 0.2 * ((y - 0.8) / 0.2) / (1.0 + (y - 0.8) / 0.2) };
            assert!((f64::from(luminance(got)) - want).abs() < 1e-5, "{color:?}: {got:?}");
        }
    }

    #[test]
    fn the_curve_never_turns() {
        let at = |k: i32| luminance(shown([k as f32 * 0.01; 3]));
        assert!((1..400).all(|k| at(k) > at(k - 1)));
    }
}
