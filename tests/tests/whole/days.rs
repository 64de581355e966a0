//! The days of random projects: every plan can be done, and covers what the order mixes.

use crate::projects::{wall, with_walls};
use hodful_project_file as file;
use hodful_takeoff::Assessed;
use hodful_workplan::faults;
use jiff::civil::date;
use proptest::prelude::*;
use serde_json::{Value, json};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Any few walls, any small crew, without weather: the checker of plans finds nothing.
    #[test]
    fn plans_can_be_done(
        sizes in proptest::collection::vec((1500_u32..9000, 1500_u32..4000), 1..4),
        people in 1_u32..8,
        minutes in 5_u32..40,
        lime in any::<bool>(),
    ) {
        let walls: Vec<Value> = sizes
            .iter()
            .enumerate()
            .map(|(i, (length, height))| wall(&format!("W{i}"), *length, *height, &[]))
            .collect();
        let project = with_walls(&walls);
        let mut json: Value = serde_json::from_slice(&file::write(&project)).unwrap();
        json["work"] = json!({ "people": people, "batch_minutes": minutes });
        if lime {
            json["materials"]["clay"]["kind"] = json!("lime");
        }
        let project = file::read(json.to_string().as_bytes()).unwrap();
        let rules = file::rules();
        let of = Assessed::new(&project, &rules).unwrap();
        let days = of.days(None, Some(date(2030, 5, 6))).unwrap();
        let mut dry = |task: usize, end| {
            let drying = days.tasks.get(task).and_then(|task| task.drying);
            let until = drying.and_then(|drying| drying.likely.or(drying.slow));
            until.map_or(end, |until| until.at)
        };
        let found = faults(&days.site, &days.plan, &[], &mut dry);
        prop_assert!(found.is_empty(), "{found:?}");
        let planned: f64 = days.tasks.iter().map(|task| task.litres).sum();
        let ordered: f64 = of.coats().map(|(_, _, coat)| coat.volume.mixed.value / 1e6).sum();
        prop_assert!((planned - ordered).abs() <= 1e-9 * ordered, "{planned} and {ordered}");
    }
}
