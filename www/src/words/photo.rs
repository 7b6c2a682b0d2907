//! Photos that colors are taken from, in words.

use crate::model::photo::{Mark, PhotoFault};
use dappledome::base::units::fixed;

/// The keys of a frame.
pub const PHOTO_KEYS: &str =
    "Arrows move the frame by a pixel, with Shift by ten; with Control they size it.";
/// Chooses one.
pub const CHOOSE_PHOTO: &str = "Take colors from a photo";
/// Beside it.
pub const PHOTO_HINT: &str =
    "of the tiles beside something white, in one even light, without flash. Or drop it here.";
/// While it is read.
pub const PHOTO_COMES: &str = "Reading the photo…";
/// Under a photo.
pub const DRAG_FRAMES: &str = "Drag a frame or its corners, or use the arrows.";
/// Lets the photo be.
pub const NO_PHOTO: &str = "No photo: type the color";
/// The frame of the white.
pub const WHITE_MARK: &str = "white";
/// What is known of it.
pub const MARKED_WHITE: &str = "White in the photo: paper is 0.86, a bare tile as below";
/// Something white that is doubted.
pub const BRIGHTER_THAN_WHITE: &str = "Brighter than a perfect white: check the white.";

/// A photo, to those who do not see it.
pub fn photo_said(name: &str) -> String {
    format!("Photo {name}, with frames to mark places on it")
}

/// A frame, to those who do not see it.
pub fn frame_said(Mark { name, frame }: &Mark) -> String {
    let (left, top, wide, high) = (frame.left, frame.top, frame.wide, frame.high);
    format!("Frame {name}, {wide} by {high} pixels, {left} from the left, {top} from the top")
}

/// Why a file is no photo.
pub fn photo_fault(name: &str, fault: PhotoFault) -> String {
    match fault {
        PhotoFault::None => {
            format!(
                "Not a photo: {name}. Choose a JPEG, PNG or WebP picture, or what else this browser shows."
            )
        }
        PhotoFault::Small((wide, high)) => format!("Too small to read: {name} has {wide} × {high} pixels."),
    }
}

/// That a photo of so many pixels was made smaller.
pub fn made_smaller(pixels: f64) -> String {
    let megapixels = pixels / 1e6;
    format!("Made smaller to read: {} megapixels.", fixed(megapixels, usize::from(megapixels < 10.0)))
}

/// How the light falls off over the marked places, a share, and whether anything is clipped.
pub fn light_said(falls_off: f64, clipped: bool) -> String {
    let light = match fixed(100.0 * falls_off, 0).as_str() {
        "0" => "The light is even.".to_owned(),
        percent => format!("Light falls off {percent} % over what is marked. Corrected."),
    };
    format!("{light} {}", if clipped { "A little is clipped." } else { "Nothing clipped." })
}

/// How far the pixels of a place lie apart.
pub fn spread(spread: f64) -> String {
    format!("spread {}", fixed(spread, 1))
}

/// Whose frames can be dragged now.
pub fn photo_opened(name: &str) -> String {
    format!("{name} is open. {DRAG_FRAMES}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn light_and_size_are_said() {
        assert_eq!(
            light_said(0.072, false),
            "Light falls off 7 % over what is marked. Corrected. Nothing clipped."
        );
        assert_eq!(light_said(0.002, true), "The light is even. A little is clipped.");
        assert_eq!(made_smaller(200e6), "Made smaller to read: 200 megapixels.");
        assert_eq!(made_smaller(5.04e6), "Made smaller to read: 5.0 megapixels.");
    }
}
