//! Two materials by mass balance: what one takes of the other to reach a share of clay. Not here: more
//! materials, other figures, limits.

/// Dry mass of sand to add to each dry mass of soil: (c − t)/(t − cs), the mass balance of clay.
///
/// Shares of dry mass from 0 to 1: `soil` of clay in the soil, `target` in the blend, `sand` in the sand.
/// Give the shares of the soil as screened. `None` when sand does not lead there, or the shares are no shares.
///
/// ```
/// use hodful_soils::blend::sand_to_add;
/// // 27 % down to 7.94 % with clean sand: 2.4 by mass (Taylor, Vardy and MacDougall, Queen's
/// // University, 2006).
/// assert!((sand_to_add(0.27, 0.27 / 3.4, 0.0).unwrap() - 2.4).abs() < 1e-12);
/// assert_eq!(sand_to_add(0.05, 0.08, 0.0), None);
/// ```
pub fn sand_to_add(soil: f64, target: f64, sand: f64) -> Option<f64> {
    balance(soil - target, target - sand, [soil, target, sand])
}

/// Dry mass of a clay to add to each dry mass of soil: (t − c)/(ck − t), the mass balance of clay.
///
/// Shares of dry mass from 0 to 1: `soil` of clay in the soil, `target` in the blend, `clay` in what is added.
/// `None` when the addition does not lead there, or the shares are no shares.
pub fn clay_to_add(soil: f64, target: f64, clay: f64) -> Option<f64> {
    balance(target - soil, clay - target, [soil, target, clay])
}

fn balance(over: f64, under: f64, shares: [f64; 3]) -> Option<f64> {
    let shares = shares.iter().all(|s| (0.0..=1.0).contains(s));
    let parts = over / under;
    (shares && over >= 0.0 && under > 0.0 && parts.is_finite()).then_some(parts)
}
