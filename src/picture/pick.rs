//! From a place in a picture to the place on the flat disc that is seen there, and back.

use super::cast::Camera;
use super::flat::DISC_SHARE;
use super::shell::Shell;
use super::vec3::Vec3;
use super::view::View;
use crate::base::scalar::{Bounds, sin_cos};
use crate::recipe::Side;

/// A place in a picture: shares of its side from its top left corner.
pub type Seen = (f32, f32);

/// The place on a disc of this radius (mm), lying flat, that is seen there; none beside the disc.
pub fn on_flat(radius: f32, view: &View, (across, down): Seen) -> Option<(f32, f32)> {
    let scale = 2.0 * radius / (DISC_SHARE * view.zoom);
    let (x, y) = ((across - 0.5) * scale, (0.5 - down) * scale);
    (x * x + y * y <= radius * radius).then(|| turned(x, y, -view.turn))
}

/// Where a place on the flat disc is seen.
pub fn flat_seen(radius: f32, view: &View, (x, y): (f32, f32)) -> Seen {
    let scale = 2.0 * radius / (DISC_SHARE * view.zoom);
    let (x, y) = turned(x, y, view.turn);
    (0.5 + x / scale, 0.5 - y / scale)
}

/// The place on the flat disc that is seen there on a dome with its powder on this side; none beside it.
pub fn on_dome(shell: &Shell, powder: Side, view: &View, (across, down): Seen) -> Option<(f32, f32)> {
    let camera = Camera::new(shell, view.size, view.tilt, view.zoom);
    let ray = camera.ray(across * view.size as f32, down * view.size as f32);
    let start = (ray.from.length() - 1.5 * shell.widest().at_least(shell.highest())).at_least(0.0);
    let place = ray.at(shell.march(&ray, start, 0.02, 0.0).hit?);
    let radius = (place.x * place.x + place.y * place.y).sqrt();
    let s = shell.surface(radius, place.z).s.at_most(shell.flat_radius());
    let scale = s / radius.at_least(1e-6);
    Some(from_outside(powder, turned(place.x * scale, place.y * scale, -view.turn)))
}

/// Where a place on the flat disc is seen on a dome with its powder on this side, and whether its face is turned toward the eye.
pub fn dome_seen(shell: &Shell, powder: Side, view: &View, (x, y): (f32, f32)) -> (Seen, bool) {
    let camera = Camera::new(shell, view.size, view.tilt, view.zoom);
    let s = (x * x + y * y).sqrt();
    let (r, z, out, up) = shell.at_flat(s);
    let (x, y) = from_outside(powder, (x / s.at_least(1e-6), y / s.at_least(1e-6)));
    let (x, y) = turned(x, y, view.turn);
    let half = shell.thickness() / 2.0;
    let normal = Vec3::new(x * out, y * out, up);
    let place = Vec3::new(x * r, y * r, z) + normal * half;
    let (across, down, _) = camera.project(place);
    let eye = camera.ray(across, down);
    let side = view.size as f32;
    ((across / side, down / side), eye.toward.dot(normal) < 0.0)
}

/// A place of the layout as it is seen from outside the dome, and back: through the glass it is its own mirror image.
fn from_outside(powder: Side, (x, y): (f32, f32)) -> (f32, f32) {
    match powder {
        Side::Out => (x, y),
        Side::In => (-x, y),
    }
}

/// A place turned about the middle, degrees counterclockwise.
fn turned(x: f32, y: f32, degrees: f32) -> (f32, f32) {
    let (sin, cos) = sin_cos(f64::from(degrees).to_radians());
    let (sin, cos) = (sin as f32, cos as f32);
    (cos * x - sin * y, sin * x + cos * y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::view::{Light, Stage};
    use crate::recipe::Mold;
    use crate::slump::dome::{Dome, DomeInputs};

    const PLACES: [(f32, f32); 5] = [(0.1, 0.2), (30.0, 0.0), (-20.0, -45.0), (5.0, 60.0), (-70.0, -10.0)];

    #[test]
    fn what_is_picked_is_seen_there_again() {
        let shell =
            Shell::new(&Dome::new(&DomeInputs { mold: Mold::default(), radius: 80.0, thickness: 6.0 }));
        for (turn, tilt, zoom) in [(0.0, 33.0, 1.0), (130.0, 60.0, 2.0), (300.0, 85.0, 0.7)] {
            let view = View { turn, tilt, zoom, ..View::usual(Stage::Domed, Light::Day, 512) };
            for (place, powder) in
                PLACES.into_iter().flat_map(|place| [(place, Side::Out), (place, Side::In)])
            {
                let (seen, facing) = dome_seen(&shell, powder, &view, place);
                if !facing {
                    continue;
                }
                let (x, y) = on_dome(&shell, powder, &view, seen).expect("it is seen, so it is on the glass");
                let off = ((x - place.0) * (x - place.0) + (y - place.1) * (y - place.1)).sqrt();
                assert!(off < 0.5, "{place:?} is picked as {x}, {y}");
                let (x, y) = on_flat(80.0, &view, flat_seen(80.0, &view, place)).unwrap();
                assert!((x - place.0).abs() + (y - place.1).abs() < 1e-3);
            }
        }
    }

    #[test]
    fn powder_inside_is_seen_as_its_mirror_image() {
        let shell =
            Shell::new(&Dome::new(&DomeInputs { mold: Mold::default(), radius: 80.0, thickness: 6.0 }));
        let view = View::usual(Stage::Domed, Light::Day, 512);
        let seen = |powder, x| dome_seen(&shell, powder, &view, (x, -10.0)).0;
        assert!(seen(Side::Out, 30.0).0 > 0.5 && seen(Side::In, 30.0).0 < 0.5);
        assert_eq!(seen(Side::In, 30.0), seen(Side::Out, -30.0));
        let right = on_dome(&shell, Side::In, &view, (0.6, 0.5)).unwrap();
        let left = on_dome(&shell, Side::Out, &view, (0.4, 0.5)).unwrap();
        assert!(right.0 < 0.0 && (right.0 - left.0).abs() < 0.01, "{right:?} {left:?}");
    }

    #[test]
    fn beside_the_glass_there_is_nothing() {
        let view = View::usual(Stage::Domed, Light::Day, 512);
        let shell =
            Shell::new(&Dome::new(&DomeInputs { mold: Mold::default(), radius: 80.0, thickness: 6.0 }));
        assert_eq!(on_dome(&shell, Side::Out, &view, (0.02, 0.02)), None);
        assert_eq!(on_flat(80.0, &view, (0.02, 0.02)), None);
    }
}
