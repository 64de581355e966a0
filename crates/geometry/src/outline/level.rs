//! A wall cut level by a ceiling: the outline of the room under a gable or a raked top.
//!
//! Insets, which follow the slope of the top, are not here.

use super::{Kind, Outline};
use crate::fault::{Fault, Faults};
use crate::profile::{Point, TopLine};

impl Outline {
    /// The outline under a level `ceiling`, in millimetres above the base of the wall. A ceiling over the whole wall changes
    /// nothing.
    ///
    /// # Errors
    /// A ceiling that is not a size, or on a polygon, which is given its own corners (`"inset.ceiling"`).
    ///
    /// # Examples
    /// A gable of 6 m with eaves at 2.4 m and the ridge at 4.2 m: under a ceiling at 2.3 m a rectangle, at 3.3 m a hexagon
    /// whose top is half of 6 m wide.
    /// ```
    /// use hodful_geometry::{Inset, Outline, OutlineShape, Side};
    /// let gable = Outline::new(OutlineShape::Gable {
    ///     length: 6000.0, eaves: 2400.0, ridge: 4200.0, ridge_from_left: 3000.0,
    /// }).unwrap();
    /// let area = |ceiling| {
    ///     gable.under(ceiling).unwrap().face(Side::Inside, 300.0, &Inset::default()).unwrap().area()
    /// };
    /// assert_eq!(area(2300.0), 6000.0 * 2300.0);
    /// assert_eq!(area(3300.0), 6000.0 * 2400.0 + (6000.0 + 3000.0) / 2.0 * 900.0);
    /// assert_eq!(area(5000.0), 6000.0 * 3300.0);
    /// ```
    pub fn under(&self, ceiling: f64) -> Result<Self, Vec<Fault>> {
        let mut faults = Faults::default();
        if !faults.size("inset.ceiling", ceiling) {
            return Err(faults.into_vec());
        }
        let kind = match &self.0 {
            Kind::Polygon(_) => {
                faults.add(
                    "inset.ceiling",
                    "goes with a rectangle, gable, raked or curved wall: give a polygon its own corners",
                );
                return Err(faults.into_vec());
            }
            Kind::Curved {
                radius,
                length,
                height,
            } => Kind::Curved {
                radius: *radius,
                length: *length,
                height: height.min(ceiling),
            },
            Kind::Straight { length, top } => match *top {
                TopLine::Level(height) => Kind::Straight {
                    length: *length,
                    top: TopLine::Level(height.min(ceiling)),
                },
                TopLine::Sloped {
                    left,
                    ridge_at,
                    ridge,
                    right,
                } => {
                    let knots = [[0.0, left], [ridge_at, ridge], [*length, right]];
                    if knots.iter().all(|k| k[1] <= ceiling) {
                        self.0.clone()
                    } else if left >= ceiling && right >= ceiling && ridge >= ceiling {
                        Kind::Straight {
                            length: *length,
                            top: TopLine::Level(ceiling),
                        }
                    } else {
                        Kind::Polygon(cut(*length, &knots, ceiling))
                    }
                }
            },
        };
        Ok(Self(kind))
    }
}

/// The corners of a wall whose top line is cut at a height that it crosses, counter-clockwise from the lower left.
fn cut(length: f64, knots: &[Point; 3], ceiling: f64) -> Vec<Point> {
    let mut corners: Vec<Point> = vec![[0.0, 0.0], [length, 0.0]];
    let mut push = |corner: Point| {
        if corners.last() != Some(&corner) && corners.first() != Some(&corner) {
            corners.push(corner);
        }
    };
    let [left, middle, right] = *knots;
    for (from, to) in [(right, middle), (middle, left)] {
        // Between its two crossings the ceiling is straight: no corner under the ridge.
        if from[0] >= length || from[1] <= ceiling {
            push([from[0], from[1].min(ceiling)]);
        }
        let crosses = (from[1] - ceiling) * (to[1] - ceiling) < 0.0;
        if crosses && to[0] < from[0] {
            let share = (ceiling - from[1]) / (to[1] - from[1]);
            push([from[0] + (to[0] - from[0]) * share, ceiling]);
        }
    }
    push([left[0], left[1].min(ceiling)]);
    corners
}
