//! The edge of an opening in a section, and the layers that lie on a face. Lengths in mm: `s` from the
//! edge of the frame into the wall, `d` from the face to the frame. Not here: where it is laid.

use crate::drawing::limits::EDGE_PIECES;
use crate::drawing::number::or_nothing;
use crate::drawing::{Point, Role};
use crate::form::Subject;
use crate::project::{Project, Side, Wall};

/// What lies on a face.
#[derive(Debug, Clone, Default)]
pub(super) struct Layers {
    /// Dubbing out, mm.
    pub(super) dubbing: f64,
    /// Thickness of each coat, mm.
    pub(super) coats: Vec<f64>,
    /// Position of the build-up.
    pub(super) build_up: Option<usize>,
}

impl Layers {
    pub(super) fn of(project: &Project, wall: &Wall, side: Side) -> Self {
        let Some(face) = wall.face(side) else {
            return Self::default();
        };
        let background = project.backgrounds.get(&face.background);
        let found = project.build_ups.get_full(&face.build_up);
        Self {
            dubbing: or_nothing(background.and_then(|b| b.dubbing_out.as_ref())),
            coats: found
                .map(|(_, _, coats)| coats.as_slice())
                .unwrap_or_default()
                .iter()
                .map(|coat| or_nothing(Some(&coat.thickness)))
                .collect(),
            build_up: found.map(|(number, ..)| number),
        }
    }

    /// The layers in order: role, what they belong to, how far from the face they begin and end.
    pub(super) fn each(&self) -> impl Iterator<Item = Layer> {
        let dubbing = (self.dubbing > 0.0).then_some(Layer {
            role: Role::DubbingOut,
            of: None,
            on_face: [0.0, self.dubbing],
            in_reveal: [0.0, 0.0],
        });
        let mut under = 0.0;
        let coats = self.coats.iter().enumerate().map(move |(i, coat)| {
            let from = under;
            under += coat;
            Layer {
                role: Role::Coat(u8::try_from(i).unwrap_or(u8::MAX)),
                of: self
                    .build_up
                    .map(|build_up| Subject::Coat { build_up, coat: i }),
                on_face: [self.dubbing + from, self.dubbing + under],
                in_reveal: [from, under],
            }
        });
        dubbing.into_iter().chain(coats)
    }

    pub(super) fn total(&self) -> f64 {
        self.dubbing + self.coats.iter().sum::<f64>()
    }
}

#[derive(Debug, Clone, Copy)]
pub(super) struct Layer {
    pub(super) role: Role,
    pub(super) of: Option<Subject>,
    pub(super) on_face: [f64; 2],
    pub(super) in_reveal: [f64; 2],
}

/// One edge of an opening on one side of the wall, in its own lengths.
#[derive(Debug, Clone, Copy)]
pub(super) struct Jamb {
    /// How far into the wall it is drawn.
    pub(super) reach: f64,
    /// Depth from the face to the frame.
    pub(super) depth: f64,
    pub(super) splay: f64,
    pub(super) radius: f64,
    pub(super) plastered: bool,
}

impl Jamb {
    /// How far the edge of the hole lies from that of the frame.
    pub(super) fn opened(&self) -> f64 {
        self.depth * libm::tan(self.splay)
    }

    /// Width of the strip of the rounded edge, no wider than the reveal.
    pub(super) fn strip(&self) -> f64 {
        let strip = self.radius * self.half_turn();
        strip.min(self.depth / libm::cos(self.splay))
    }

    fn half_turn(&self) -> f64 {
        libm::tan(self.turn() / 2.0)
    }

    fn turn(&self) -> f64 {
        core::f64::consts::FRAC_PI_2 - self.splay
    }

    /// Its line from the face to the frame, lifted off the background by so much on the face and so much
    /// in the reveal.
    pub(super) fn path(&self, on_face: f64, in_reveal: f64) -> Vec<Point> {
        let edge = self.opened();
        let mut path = vec![[self.reach, -on_face]];
        if self.depth <= 0.0 {
            path.push([0.0, -on_face]);
            return path;
        }
        let lifted = on_face > 0.0 || in_reveal > 0.0;
        if lifted && !self.plastered {
            path.push([edge, -on_face]);
            return path;
        }
        let (sine, cosine) = (libm::sin(self.splay), libm::cos(self.splay));
        let strip = self.strip();
        if self.plastered && strip > 0.0 {
            let radius = strip / self.half_turn();
            for i in 0..=EDGE_PIECES {
                let share = f64::from(i) / f64::from(EDGE_PIECES);
                let angle = self.turn() * share;
                let out = radius + on_face + (in_reveal - on_face) * share;
                path.push([
                    edge + strip - out * libm::sin(angle),
                    radius - out * libm::cos(angle),
                ]);
            }
        } else {
            // Where the two lifted lines cross.
            path.push([edge + (sine * on_face - in_reveal) / cosine, -on_face]);
        }
        path.push([-in_reveal / cosine, self.depth]);
        path
    }
}
