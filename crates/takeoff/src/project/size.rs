//! Sizes that follow from the shapes as typed: the length of a wall, the box of an opening. Not here:
//! whether they make sense (see `check`).

use super::{OpeningShape, WallShape};
use hodful_quantities::Typed;
use hodful_quantities::units::{Length, length_of_mm};

fn mm(typed: &Typed<Length>) -> f64 {
    typed.value().value
}

/// The least and the most of one coordinate of some corners; nothing without corners.
fn reach(corners: &[[Typed<Length>; 2]], at: usize) -> [f64; 2] {
    let of = || corners.iter().filter_map(|corner| corner.get(at)).map(mm);
    let [least, most] = [of().reduce(f64::min), of().reduce(f64::max)];
    [least.unwrap_or_default(), most.unwrap_or_default()]
}

impl WallShape {
    /// The length along the outside face, from the left end that distances in the wall are counted from;
    /// `None` for a curved wall with neither its angle nor its length.
    pub fn length(&self) -> Option<Length> {
        match self {
            Self::Rectangle { length, .. }
            | Self::Gable { length, .. }
            | Self::Raked { length, .. } => Some(length.value()),
            Self::Polygon { corners } => Some(length_of_mm(reach(corners, 0)[1])),
            Self::Curved {
                radius,
                sweep,
                length,
                ..
            } => match (length, sweep) {
                (Some(length), _) => Some(length.value()),
                (None, Some(sweep)) => Some(length_of_mm(mm(radius) * sweep.value().value)),
                (None, None) => None,
            },
        }
    }
}

impl WallShape {
    /// The greatest height; `None` for a polygon without corners.
    pub fn highest(&self) -> Option<Length> {
        match self {
            Self::Rectangle { height, .. } | Self::Curved { height, .. } => Some(height.value()),
            Self::Gable { eaves, ridge, .. } => Some(length_of_mm(mm(eaves).max(mm(ridge)))),
            Self::Raked { left, right, .. } => Some(length_of_mm(mm(left).max(mm(right)))),
            Self::Polygon { corners } if corners.is_empty() => None,
            Self::Polygon { corners } => {
                let [least, most] = reach(corners, 1);
                Some(length_of_mm(most - least))
            }
        }
    }
}

impl OpeningShape {
    /// Width and height of the box round the frame; an arch without its rise rises by half its width.
    pub fn size(&self) -> [Length; 2] {
        match self {
            Self::Rectangle { width, height } => [width.value(), height.value()],
            Self::Arched {
                width,
                springing,
                rise,
                ..
            } => {
                let rise = rise.as_ref().map_or(mm(width) / 2.0, mm);
                [width.value(), length_of_mm(mm(springing) + rise)]
            }
            Self::Circle { diameter } => [diameter.value(), diameter.value()],
            Self::Polygon { corners } => [0, 1].map(|at| {
                let [least, most] = reach(corners, at);
                length_of_mm(most - least)
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(text: &str) -> Typed<Length> {
        Typed::read(text).unwrap()
    }

    fn of(shape: &OpeningShape) -> String {
        let [wide, high] = shape.size().map(|length| length.value);
        format!("{wide:.6} x {high:.6}")
    }

    #[test]
    fn openings_have_the_box_of_their_frame() {
        let arch = |rise: Option<&str>| OpeningShape::Arched {
            width: typed("1 m"),
            springing: typed("2 m"),
            rise: rise.map(typed),
            head: None,
        };
        assert_eq!(of(&arch(Some("300 mm"))), "1000.000000 x 2300.000000");
        assert_eq!(of(&arch(None)), "1000.000000 x 2500.000000");
        let corner = |u: &str, v: &str| [typed(u), typed(v)];
        let corners = vec![
            corner("6 in", "0"),
            corner("18 in", "0"),
            corner("12 in", "2 ft"),
        ];
        assert_eq!(
            of(&OpeningShape::Polygon { corners }),
            "304.800000 x 609.600000"
        );
        let none = OpeningShape::Polygon {
            corners: Vec::new(),
        };
        assert_eq!(of(&none), "0.000000 x 0.000000");
    }

    #[test]
    fn walls_have_their_length() {
        let curved = |sweep: Option<&str>, length: Option<&str>| WallShape::Curved {
            radius: typed("2 m"),
            sweep: sweep.map(|sweep| Typed::read(sweep).unwrap()),
            length: length.map(typed),
            height: typed("3 m"),
        };
        let quarter = curved(Some("90°"), None).length().unwrap().value;
        assert!(
            (quarter - 1000.0 * core::f64::consts::PI).abs() < 1e-9,
            "{quarter}"
        );
        assert_eq!(
            curved(None, Some("5 m")).length().unwrap().value.to_bits(),
            5000.0_f64.to_bits()
        );
        assert!(curved(None, None).length().is_none());
    }
}
