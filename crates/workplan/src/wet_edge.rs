//! How large a surface can be worked while its first edge stays workable. Not here: how long that is.

/// The largest surface to keep a wet edge on, m²: `rate · minutes / 60`, from the pace of all hands together in m²
/// an hour and the minutes that the coat stays workable. What is no number or below 0 counts as 0.
///
/// The outcome is for going straight on over the surface; a face that is worked in strips of this size has an edge
/// of one strip to be kept wet. Clay can be wetted again, lime and cement cannot. Common practice, no source.
///
/// ```
/// // Four people at 3 m² an hour each, with 40 minutes: 12 · 40 / 60.
/// assert_eq!(hodful_workplan::wet_edge(12.0, 40.0), 8.0);
/// ```
pub fn wet_edge(m2_per_hour: f64, open_minutes: f64) -> f64 {
    let m2 = m2_per_hour * open_minutes / 60.0;
    if m2.is_finite() { m2.max(0.0) } else { 0.0 }
}
