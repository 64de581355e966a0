//! A face on plan, straight or an arc, and where two of them meet. Not here: which walls they are of.

use super::super::tolerance;
use super::{Point, arc};
use core::f64::consts::TAU;

/// A straight face or an arc that bulges to the right.
#[derive(Debug, Clone, Copy)]
pub(super) enum Carrier {
    Straight {
        from: Point,
        to: Point,
    },
    Arc {
        centre: Point,
        radius: f64,
        from: Point,
        to: Point,
        sweep: f64,
    },
}

impl Carrier {
    /// A face from its left to its right end; an arc when `sweep` is more than 0. `None` when the ends
    /// and the sweep give no arc.
    pub(super) fn new(from: Point, to: Point, sweep: f64, radius: f64) -> Option<Self> {
        if sweep <= 0.0 {
            return Some(Self::Straight { from, to });
        }
        let chord = [to[0] - from[0], to[1] - from[1]];
        let centre = if (sweep - TAU).abs() <= tolerance::SAME_TURN {
            [from[0], from[1] + radius]
        } else {
            // The centre stands to the left of the chord, at half of it over tan(sweep/2).
            let aside = 1.0 / (2.0 * libm::tan(sweep / 2.0));
            [
                from[0] + chord[0] / 2.0 - chord[1] * aside,
                from[1] + chord[1] / 2.0 + chord[0] * aside,
            ]
        };
        let radius = libm::hypot(from[0] - centre[0], from[1] - centre[1]);
        (radius.is_finite() && radius > 0.0).then_some(Self::Arc {
            centre,
            radius,
            from,
            to,
            sweep,
        })
    }

    /// The face so far to the left; `None` when an arc has no room for it.
    pub(super) fn moved_left(&self, by: f64) -> Option<Self> {
        match *self {
            Self::Straight { from, to } => {
                let [x, y] = direction(from, to)?;
                let moved = |point: Point| [point[0] - y * by, point[1] + x * by];
                Some(Self::Straight {
                    from: moved(from),
                    to: moved(to),
                })
            }
            Self::Arc {
                centre,
                radius,
                from,
                to,
                sweep,
            } => {
                let share = (radius - by) / radius;
                let moved = |point: Point| {
                    [
                        centre[0] + (point[0] - centre[0]) * share,
                        centre[1] + (point[1] - centre[1]) * share,
                    ]
                };
                (share > 0.0).then_some(Self::Arc {
                    centre,
                    radius: radius - by,
                    from: moved(from),
                    to: moved(to),
                    sweep,
                })
            }
        }
    }

    /// Where this face ends and the next begins, when the next follows after a turn: one point where
    /// they meet, and their own ends where they do not.
    pub(super) fn meets(&self, next: &Self, turn: f64) -> (Point, Point) {
        let apart = (self.to(), next.from());
        if turn.abs() < tolerance::SAME_TURN {
            return apart;
        }
        match (self, next) {
            (Self::Straight { from, to }, Self::Straight { .. }) => {
                lines_meet(*from, *to, next.from(), next.to()).map_or(apart, |point| (point, point))
            }
            _ => apart,
        }
    }

    fn from(&self) -> Point {
        match *self {
            Self::Straight { from, .. } | Self::Arc { from, .. } => from,
        }
    }

    fn to(&self) -> Point {
        match *self {
            Self::Straight { to, .. } | Self::Arc { to, .. } => to,
        }
    }

    /// The face as points.
    pub(super) fn points(&self) -> Vec<Point> {
        self.points_between(self.from(), self.to())
    }

    /// The face as points, from and to where it meets its neighbours.
    pub(super) fn points_between(&self, begin: Point, end: Point) -> Vec<Point> {
        match *self {
            Self::Straight { .. } => vec![begin, end],
            Self::Arc {
                centre,
                radius,
                from,
                sweep,
                ..
            } => arc(centre, radius, from, sweep),
        }
    }
}

fn direction(from: Point, to: Point) -> Option<Point> {
    let [x, y] = [to[0] - from[0], to[1] - from[1]];
    let size = libm::hypot(x, y);
    (size.is_finite() && size > 0.0).then(|| [x / size, y / size])
}

/// Where two lines meet; `None` when they are next to parallel.
fn lines_meet(a: Point, b: Point, c: Point, d: Point) -> Option<Point> {
    let (one, other) = (direction(a, b)?, direction(c, d)?);
    let cross = one[0] * other[1] - one[1] * other[0];
    if cross.abs() < tolerance::SAME_TURN {
        return None;
    }
    let along = ((c[0] - a[0]) * other[1] - (c[1] - a[1]) * other[0]) / cross;
    Some([a[0] + one[0] * along, a[1] + one[1] * along])
}
