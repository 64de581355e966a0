//! Overlapping rectangles on a profile, exactly: the sweep over upright slabs.
//!
//! Holes of any other shape, and faces that are polygons, go to the clip module.

use crate::profile::{Bounds, Profile};

/// Area in mm² of the union of some boxes inside a profile.
///
/// Between two neighbouring left or right sides the boxes make level bands; overlapping bands are joined, and each joined
/// band is cut by the profile in closed form.
pub(crate) fn boxes_on_profile(profile: &Profile, boxes: &[Bounds]) -> f64 {
    let mut sides: Vec<f64> = boxes.iter().flat_map(|b| [b.left, b.right]).collect();
    sides.sort_by(f64::total_cmp);
    let mut by_left = boxes.to_vec();
    by_left.sort_by(|a, b| a.left.total_cmp(&b.left));
    let mut area = 0.0;
    let mut bands: Vec<(f64, f64)> = Vec::new();
    for (left, right) in sides.iter().zip(sides.iter().skip(1)) {
        if right <= left {
            continue;
        }
        bands.clear();
        bands.extend(
            by_left
                .iter()
                .take_while(|b| b.left <= *left)
                .filter(|b| b.right >= *right)
                .map(|b| (b.bottom, b.top)),
        );
        bands.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut joined: Option<(f64, f64)> = None;
        for &(bottom, top) in &bands {
            joined = match joined {
                Some((low, high)) if bottom <= high => Some((low, high.max(top))),
                done => {
                    area += band_area(profile, *left, *right, done);
                    Some((bottom, top))
                }
            };
        }
        area += band_area(profile, *left, *right, joined);
    }
    area
}

fn band_area(profile: &Profile, left: f64, right: f64, band: Option<(f64, f64)>) -> f64 {
    band.map_or(0.0, |(bottom, top)| {
        profile.box_area(&Bounds {
            left,
            right,
            bottom,
            top,
        })
    })
}
