//! sRGB (IEC 61966-2-1): from linear light to 8-bit codes and back. Only pictures and typed-in colors use it.

use crate::base::lanes::{Four, LANES, Number, places};
use crate::base::scalar::{self, within};
use std::sync::OnceLock;

/// Linear light, red green blue, 1 = perfect white; may leave 0 to 1.
pub type Linear<N = f32> = [N; 3];

/// Encodes one channel of linear light, 0 to 1 (IEC 61966-2-1).
pub fn encode_channel(linear: f64) -> f64 {
    if linear <= 0.003_130_8 { 12.92 * linear } else { 1.055 * scalar::pow(linear, 1.0 / 2.4) - 0.055 }
}

/// Decodes one channel to linear light, 0 to 1 (IEC 61966-2-1).
pub fn decode_channel(encoded: f64) -> f64 {
    if encoded <= 0.040_45 { encoded / 12.92 } else { scalar::pow((encoded + 0.055) / 1.055, 2.4) }
}

/// Decodes an 8-bit color.
pub fn decode(color: [u8; 3]) -> Linear {
    static CODES: OnceLock<[f32; 256]> = OnceLock::new();
    let codes = CODES.get_or_init(|| std::array::from_fn(|code| decode_channel(code as f64 / 255.0) as f32));
    color.map(|code| codes[usize::from(code)])
}

/// Encodes a color to the nearest 8-bit codes, clipped to what sRGB can show.
pub fn encode(color: Linear) -> [u8; 3] {
    let table = table();
    color.map(|x| code(table, (x.clamp(0.0, 1.0) * STEPS as f32) as usize, x))
}

/// The code of a light within a step of the table: at most one code changes there, and its edge decides.
#[inline]
fn code(table: &[(u8, f32)], step: usize, light: f32) -> u8 {
    let (code, edge) = table[step];
    code + u8::from(light >= edge)
}

/// The same of four pixels: red, green, blue and 255 of each.
#[inline]
pub fn encode_four(color: Linear<Four>) -> [[u8; 4]; LANES] {
    let table = table();
    let [r, g, b] = color.map(|x| {
        let light = within(x, 0.0, 1.0);
        let (steps, light) = (places(light * STEPS as f32), light.to_array());
        let code = |lane: usize| code(table, steps[lane], light[lane]);
        [code(0), code(1), code(2), code(3)]
    });
    std::array::from_fn(|lane| [r[lane], g[lane], b[lane], 255])
}

const STEPS: usize = 4096;

/// For each step of linear light: the code at its start, and the light from which the next code is nearer.
fn table() -> &'static [(u8, f32)] {
    static TABLE: OnceLock<Vec<(u8, f32)>> = OnceLock::new();
    TABLE.get_or_init(|| {
        let edges: Vec<f32> =
            (0..255).map(|code| decode_channel((f64::from(code) + 0.5) / 255.0) as f32).collect();
        let mut code = 0;
        (0..=STEPS)
            .map(|step| {
                let light = step as f32 / STEPS as f32;
                while code < 255 && edges[code] <= light {
                    code += 1;
                }
                (code as u8, edges.get(code).copied().unwrap_or(f32::INFINITY))
            })
            .collect()
    })
}

/// Luminance of linear light (ITU-R BT.709 weights).
#[inline]
pub fn luminance<N: Number>(color: Linear<N>) -> N {
    color[0] * 0.212_639 + color[1] * 0.715_169 + color[2] * 0.072_192
}

/// Brings a color that sRGB cannot hold back by pulling its negative channels toward its own gray.
#[inline]
pub fn pull_in<N: Number>(color: Linear<N>) -> Linear<N> {
    let (zero, least) = (N::of(0.0), color[0].at_most(color[1]).at_most(color[2]));
    if !(-least).any_above(0.0) {
        return color;
    }
    let gray = luminance(color).at_least(zero);
    let keep = gray / (gray - least);
    color.map(|c| zero.above(least, (gray + (c - gray) * keep).at_least(zero), c))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_survives_the_round_trip() {
        for code in 0..=255u8 {
            assert_eq!(encode(decode([code; 3])), [code; 3]);
        }
    }

    #[test]
    fn the_table_rounds_to_the_nearest_code() {
        for i in 0..100_000 {
            let x = i as f32 / 99_999.0;
            let want = (encode_channel(f64::from(x)) * 255.0).round() as i32;
            let exact = encode_channel(f64::from(x)) * 255.0;
            let got = i32::from(encode([x; 3])[0]);
            assert!(got == want || (exact - exact.floor() - 0.5).abs() < 1e-4, "{x}: {got} for {exact}");
        }
    }

    /// ITU-R BT.709 gives 0.2126, 0.7152 and 0.0722.
    #[test]
    fn luminance_weighs_as_published() {
        for (color, weight) in
            [([1.0, 0.0, 0.0], 0.2126), ([0.0, 1.0, 0.0], 0.7152), ([0.0, 0.0, 1.0], 0.0722)]
        {
            assert!((luminance(color) - weight).abs() < 5e-5, "{color:?}");
        }
        assert!((luminance([0.5; 3]) - 0.5).abs() < 1e-6);
    }

    /// By hand: the gray of (-0.1, 0.5, 0.2) is 0.35078; red becomes 0 when 0.35078 / 0.45078 of the way from it is kept.
    #[test]
    fn a_color_beyond_srgb_is_drawn_toward_its_gray() {
        let got = pull_in([-0.1, 0.5, 0.2]);
        for (got, want) in got.into_iter().zip([0.0, 0.46690, 0.23345]) {
            assert!((got - want).abs() < 2e-5, "{got}, not {want}");
        }
        assert_eq!(pull_in([0.0, 0.5, 1.2]), [0.0, 0.5, 1.2], "what is not negative stays");
        assert_eq!(pull_in([-0.5, 0.1, -0.2]), [0.0; 3], "darker than black is black");
    }
}
