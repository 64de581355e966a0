//! Sun and sky taken apart where only both together are known. Not here: where the sun stands.

use super::Sun;

/// Light of the sun and of the sky, W/m².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Light {
    /// The sun alone, on a face square to it.
    pub beam: f64,
    /// The sky alone, on level ground.
    pub diffuse: f64,
    /// Both, on level ground.
    pub global: f64,
}

impl Light {
    /// None at all.
    pub const NONE: Self = Self {
        beam: 0.0,
        diffuse: 0.0,
        global: 0.0,
    };

    /// Light by what is known of it, each 0 or more (W/m²): beam and diffuse as they are; where one of them is not
    /// known, what is on level ground is [`split`]. Without any, none.
    pub fn known(sun: &Sun, global: Option<f64>, beam: Option<f64>, diffuse: Option<f64>) -> Self {
        let [global, beam, diffuse] = [global, beam, diffuse].map(|w| w.map(|w| w.max(0.0)));
        match (global, beam, diffuse) {
            (global, Some(beam), Some(diffuse)) => Self {
                beam,
                diffuse,
                global: global.unwrap_or(diffuse + beam * sun.up.max(0.0)),
            },
            (Some(global), _, _) => split(sun, global),
            (None, _, diffuse) => {
                let diffuse = diffuse.unwrap_or(0.0);
                Self {
                    beam: 0.0,
                    diffuse,
                    global: diffuse,
                }
            }
        }
    }
}

/// Sine of the lowest height of the sun, 3°, at which a beam is looked for: below, a small error of the height makes a
/// great one of the beam.
const LOWEST_UP: f64 = 0.052_336;

/// The least sine with which the clearness of the sky is reckoned, against the same error.
const LEAST_UP: f64 = 0.065;

/// Takes the light on level ground (W/m², below 0 counts as 0) apart by how clear the sky is, `k`: light on the ground
/// over that beyond the air.
///
/// Share of the sky: `1 − 0.09·k` up to 0.22, `0.9511 − 0.1604·k + 4.388·k² − 16.638·k³ + 12.336·k⁴` up to 0.8, and 0.165
/// above. Source: Erbs, Klein and Duffie, Estimation of the diffuse radiation fraction, Solar Energy 28, 1982 (from
/// memory; held against a public library).
pub fn split(sun: &Sun, global_w_m2: f64) -> Light {
    let global = global_w_m2.max(0.0);
    let k = (global / (sun.beyond_w_m2 * sun.up.max(LEAST_UP))).min(1.0);
    let share = if k <= 0.22 {
        1.0 - 0.09 * k
    } else if k <= 0.8 {
        0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
    } else {
        0.165
    };
    if sun.up < LOWEST_UP {
        return Light {
            beam: 0.0,
            diffuse: global,
            global,
        };
    }
    let diffuse = share * global;
    Light {
        beam: (global - diffuse) / sun.up,
        diffuse,
        global,
    }
}
