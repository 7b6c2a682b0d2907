//! How a line of sight goes on inside a clear dome: bent at the outer face and, a little differently, at the inner one.

use super::shell::Ray;
use super::studio::{N, refracted};
use super::vec3::Vec3;
use crate::base::scalar::Bounds;

/// The line of sight inside the dome that met its outer face at a place with this unit normal, or nothing if the inner face
/// reflects it all. Both faces are taken for spheres about the point of the axis that the glass's normal comes from, as they are
/// on a bowl: with `thickness` mm between them (Snell's law at both).
pub fn inward(thickness: f32, (place, normal): (Vec3, Vec3), sight: Vec3) -> Option<Ray> {
    let out = (normal.x * normal.x + normal.y * normal.y).sqrt();
    let radius =
        ((place.x * place.x + place.y * place.y).sqrt() / out.at_least(1e-3)).at_least(2.0 * thickness);
    let cosine = (-sight.dot(normal)).at_least(0.0);
    let way = (sight + normal * (cosine - N * refracted(cosine))) * (1.0 / N);
    // Where |normal radius + way length| is radius - thickness.
    let along = -radius * way.dot(normal);
    let root = along * along - thickness * (2.0 * radius - thickness);
    if root < 0.0 {
        return None;
    }
    let length = along - root.sqrt();
    let inner = (normal * radius + way * length).unit();
    let cosine = -way.dot(inner);
    let sine = N * N * (1.0 - cosine * cosine);
    if sine > 1.0 {
        return None;
    }
    let toward = way * N + inner * (N * cosine - (1.0 - sine).sqrt());
    Some(Ray { from: place + way * length, toward: toward.unit() })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Looks at a ball of radius 80 at a sine of incidence.
    fn looked(thickness: f32, sine: f32) -> (Option<Ray>, Vec3) {
        let normal = Vec3::new(0.6, 0.0, 0.8);
        let across = Vec3::new(0.0, 1.0, 0.0);
        let sight = across * sine - normal * (1.0 - sine * sine).sqrt();
        (inward(thickness, (normal * 80.0, normal), sight), sight)
    }

    /// Through shells about one middle, the refractive index times a ray's distance from it stays (Bouguer): inside, the ray passes
    /// as far from the middle as it would have without glass, and only turned.
    #[test]
    fn a_ray_passes_as_far_from_the_middle_as_without_glass() {
        for sine in [0.0, 0.2, 0.5, 0.8, 0.9] {
            let (Some(ray), _) = looked(6.0, sine) else { panic!("{sine}") };
            let from_middle = ray.from.cross(ray.toward);
            let distance = from_middle.dot(from_middle).sqrt();
            assert!((distance - 80.0 * sine).abs() < 0.01, "{sine}: {distance}");
            let inner = ray.from.dot(ray.from).sqrt();
            assert!((inner - 74.0).abs() < 0.01, "it starts at the inner face: {inner}");
        }
    }

    /// What would pass the middle farther off than the inner face lies never gets there.
    #[test]
    fn near_the_outline_the_inner_face_reflects_it_all() {
        assert!(looked(6.0, 0.92).0.is_some(), "73.6 of 74 mm");
        assert!(looked(6.0, 0.93).0.is_none(), "74.4 of 74 mm");
        assert!(looked(6.0, 0.999).0.is_none());
    }

    #[test]
    fn thin_glass_bends_nothing() {
        let (Some(ray), sight) = looked(0.01, 0.7) else { panic!("it is let through") };
        assert!((ray.toward - sight).dot(ray.toward - sight) < 1e-6, "{:?}", ray.toward);
    }
}
