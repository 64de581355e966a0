//! The water in the air of a room as time goes on, in closed form. Not here: what the figures are asked for.

use crate::fault::{AirFault, not_negative, positive};
use crate::moist::Air;
use crate::tolerance::{HALVINGS, SMALL_EXPONENT};
use crate::wall::wet_face;

/// Vapour in the air of a room in the long run, kg/m³: `v = v_e + G / (n·V)`.
///
/// Vapour of the outside air in kg/m³, water given to the air in kg/h, changes of air in 1/h, volume in m³. `None`
/// when no air is changed. It may be more than the air can hold: then it drips. Source: Loudon 1971, the steady
/// balance of BS 5250 and ISO 13788 (described where they are taught).
pub fn steady_kg_m3(
    outside_kg_m3: f64,
    given_kg_h: f64,
    changes_per_h: f64,
    volume_m3: f64,
) -> Option<f64> {
    let air = changes_per_h * volume_m3;
    (air > 0.0).then(|| outside_kg_m3 + given_kg_h / air)
}

/// A room and how its air is changed. One that exists can be reckoned with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    volume_m3: f64,
    changes_per_h: f64,
}

/// Wet walls of a room: they give `β·A·(v_s − v)` to air with `v` of vapour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WetWalls {
    /// Their area, m².
    pub area_m2: f64,
    /// Speed at which they give off, m/h: `3600·h / (ρ·c)`, 7.5 m/h in still air.
    pub beta_m_h: f64,
    /// Vapour of the air at which they would give off nothing, kg/m³.
    pub full_kg_m3: f64,
}

impl WetWalls {
    /// No walls.
    pub const NONE: Self = Self {
        area_m2: 0.0,
        beta_m_h: 0.0,
        full_kg_m3: 0.0,
    };

    /// Walls that give off in this air what [`wet_face`] says, and nothing once the air is full. In between the face
    /// warms up as the air becomes damper; that is all but a straight line, and it is taken as one here.
    pub fn in_air(area_m2: f64, air: &Air, h_w_m2k: f64) -> Self {
        let full_kg_m3 = crate::moist::density_kg_m3(
            crate::moist::saturation_pa(air.dry_bulb()),
            air.dry_bulb(),
        );
        let lack = full_kg_m3 - air.vapour_kg_m3();
        let face = wet_face(air, h_w_m2k, 0.0);
        // Frozen it gives off nothing, as outside.
        let beta_m_h = if lack > 0.0 && face.celsius > 0.0 {
            face.kg_m2_h / lack
        } else {
            0.0
        };
        Self {
            area_m2,
            beta_m_h,
            full_kg_m3,
        }
    }
}

/// What happens in a room for some time: what the air is changed for, and what gives it water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spell {
    /// Vapour of the outside air, kg/m³.
    pub outside_kg_m3: f64,
    /// Water that people, cooking and heaters give to the air, kg/h.
    pub given_kg_h: f64,
    /// Wet walls.
    pub walls: WetWalls,
}

/// `dv/dt = rise − fall·v`, and what is needed to say how much came from the walls.
struct Course {
    from: f64,
    rise: f64,
    fall: f64,
    walls: WetWalls,
}

/// `(1 − exp(−x)) / x`, for x of 0 or more.
fn phi(x: f64) -> f64 {
    if x < SMALL_EXPONENT {
        1.0 - x * (0.5 - x / 6.0)
    } else {
        -libm::expm1(-x) / x
    }
}

/// `(1 − phi(x)) / x`, for x of 0 or more.
fn psi(x: f64) -> f64 {
    if x < SMALL_EXPONENT {
        0.5 - x * (1.0 / 6.0 - x / 24.0)
    } else {
        (x + libm::expm1(-x)) / (x * x)
    }
}

impl Course {
    fn slope(&self) -> f64 {
        self.rise - self.fall * self.from
    }

    /// Vapour after some hours, kg/m³.
    fn at(&self, hours: f64) -> f64 {
        self.from + self.slope() * hours * phi(self.fall * hours)
    }

    /// What the walls gave off in some hours, kg.
    fn walls_gave(&self, hours: f64) -> f64 {
        let mean = self.from + self.slope() * hours * psi(self.fall * hours);
        let walls = &self.walls;
        walls.area_m2 * walls.beta_m_h * (walls.full_kg_m3 - mean) * hours
    }
}

impl Room {
    /// A room of a volume (m³) whose air is changed so often (1/h).
    ///
    /// # Errors
    ///
    /// When the volume is not above 0, or the changes are below 0.
    pub fn new(volume_m3: f64, changes_per_h: f64) -> Result<Self, AirFault> {
        Ok(Self {
            volume_m3: positive("volume of the room (m³)", volume_m3)?,
            changes_per_h: not_negative("changes of air (1/h)", changes_per_h)?,
        })
    }

    /// Volume, m³.
    pub fn volume_m3(&self) -> f64 {
        self.volume_m3
    }

    /// Changes of air, 1/h.
    pub fn changes_per_h(&self) -> f64 {
        self.changes_per_h
    }

    fn course(&self, from_kg_m3: f64, spell: &Spell) -> Course {
        let walls = spell.walls;
        let moved = walls.area_m2 * walls.beta_m_h / self.volume_m3;
        Course {
            from: from_kg_m3,
            rise: self.changes_per_h * spell.outside_kg_m3
                + spell.given_kg_h / self.volume_m3
                + moved * walls.full_kg_m3,
            fall: self.changes_per_h + moved,
            walls,
        }
    }

    /// Vapour in the air after some hours of the same, from `from_kg_m3` on, kg/m³. It may be more than the air can
    /// hold: what is too much drips.
    ///
    /// `V·dv/dt = n·V·(v_e − v) + G + β·A·(v_s − v)`, a well-mixed room, solved in closed form (own algebra).
    ///
    /// ```
    /// use hodful_air::room::{Room, Spell, WetWalls};
    /// let room = Room::new(50.0, 2.0)?;
    /// let spell = Spell { outside_kg_m3: 0.005, given_kg_h: 0.5, walls: WetWalls::NONE };
    /// // In the long run 5 + 1000 · 0.5 / (2 · 50) = 10 grams.
    /// assert!((room.after(0.005, &spell, 24.0) - 0.010).abs() < 1e-9);
    /// # Ok::<(), hodful_air::AirFault>(())
    /// ```
    pub fn after(&self, from_kg_m3: f64, spell: &Spell, hours: f64) -> f64 {
        self.course(from_kg_m3, spell).at(hours.max(0.0))
    }

    /// Vapour in the air in the long run, kg/m³: `(n·V·v_e + G + β·A·v_s) / (n·V + β·A)`. `None` when nothing takes
    /// vapour away.
    pub fn settled_kg_m3(&self, spell: &Spell) -> Option<f64> {
        let course = self.course(0.0, spell);
        (course.fall > 0.0).then(|| course.rise / course.fall)
    }

    /// Hours until the air holds so much (kg/m³), from `from_kg_m3` on. `None` when it never does.
    pub fn hours_until(&self, from_kg_m3: f64, spell: &Spell, wanted_kg_m3: f64) -> Option<f64> {
        let course = self.course(from_kg_m3, spell);
        let (slope, way) = (course.slope(), wanted_kg_m3 - from_kg_m3);
        if way == 0.0 {
            return Some(0.0);
        }
        // way = slope·t·phi(fall·t), so 1 − exp(−fall·t) = fall·way / slope.
        let share = course.fall * way / slope;
        let hours = if course.fall > 0.0 {
            -libm::log1p(-share) / course.fall
        } else {
            way / slope
        };
        (way * slope > 0.0 && share < 1.0).then_some(hours)
    }

    /// Vapour in the air (kg/m³) and what the walls gave off (kg) after some hours, when they hold no more than
    /// `left_kg`. Once it is gone they give nothing for the rest of the time. Below 0 is dew on the walls.
    pub fn with_walls(
        &self,
        from_kg_m3: f64,
        spell: &Spell,
        hours: f64,
        left_kg: f64,
    ) -> (f64, f64) {
        let (hours, left) = (hours.max(0.0), left_kg.max(0.0));
        let course = self.course(from_kg_m3, spell);
        let given = course.walls_gave(hours);
        if given <= left {
            return (course.at(hours), given);
        }
        let (mut some, mut all) = (0.0, hours);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(some, all);
            if course.walls_gave(middle) < left {
                some = middle;
            } else {
                all = middle;
            }
        }
        let dry = Spell {
            walls: WetWalls::NONE,
            ..*spell
        };
        (self.after(course.at(all), &dry, hours - all), left)
    }
}
