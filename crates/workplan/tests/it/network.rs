//! A textbook network, and a classic anomaly. Not here: random networks, which the cross-check has.

use crate::{after, planned};
use hodful_workplan::{Because, Crew, Preparing, Role, Site, Task, Work, example};
use jiff::civil::time;

/// A network of jobs, each so many steps long for one person, after others.
fn network(people: usize, jobs: &[(usize, u32, &[usize])]) -> Site {
    let mut site = example();
    site.hours.from = time(0, 0, 0, 0);
    site.hours.to = time(23, 45, 0, 0);
    site.hours.breaks.clear();
    site.crew = Crew::Everyone(people);
    site.tasks = jobs
        .iter()
        .map(|&(number, steps, before)| Task {
            name: format!("{number}"),
            work: Work::Prepare {
                what: Preparing::Background,
                hours: f64::from(steps) / 4.0,
                by: Role::Everything,
            },
            after: before.iter().map(|&task| after(task, 0.0)).collect(),
            most_hands: Some(1),
            not_before: None,
            in_one_go: true,
        })
        .collect();
    site
}

fn steps(site: &Site) -> i64 {
    let plan = planned(site);
    let begin = site.begins.to_datetime(time(0, 0, 0, 0));
    plan.end().unwrap().duration_since(begin).as_mins() / 15
}

/// Fourteen activities of building a house: 44 weeks along A B C E F J L N. Hillier and Lieberman, Introduction to
/// Operations Research, chapter on project management (from memory). A week is a quarter of an hour here.
#[test]
fn a_textbook_network() {
    const JOBS: [(usize, u32, &[usize]); 14] = [
        (0, 2, &[]),
        (1, 4, &[0]),
        (2, 10, &[1]),
        (3, 6, &[2]),
        (4, 4, &[2]),
        (5, 5, &[4]),
        (6, 7, &[3]),
        (7, 9, &[4, 6]),
        (8, 7, &[2]),
        (9, 8, &[5, 8]),
        (10, 4, &[9]),
        (11, 5, &[9]),
        (12, 2, &[7]),
        (13, 6, &[10, 11]),
    ];
    let site = network(14, &JOBS);
    assert_eq!(steps(&site), 44);
    let plan = planned(&site);
    assert_eq!(plan.bounds.unwrap().chain, plan.end().unwrap());
    let path: Vec<_> = plan.chain.iter().map(|link| link.task).collect();
    assert_eq!(path, [0, 1, 2, 4, 5, 9, 11, 13]);
    for pair in plan.chain.windows(2) {
        assert_eq!(pair[1].because, Because::Waits { task: pair[0].task });
    }
    // One person does one job after the other: the sum, 79.
    assert_eq!(steps(&network(1, &JOBS)), 79);
}

/// Nine jobs of 3, 2, 2, 2, 4, 4, 4, 4 and 9, taken in this order: three people need 12. A rule that starts in the
/// order of a list, as soon as someone is free, needs 15 with a fourth. Graham, Bounds on multiprocessing timing
/// anomalies, SIAM Journal on Applied Mathematics 17 (1969), figures 1 and 2 (from memory). Here the longest chain
/// is tried as well, so that the fourth does no harm in this case; in general it may.
#[test]
fn a_classic_anomaly() {
    const JOBS: [(usize, u32, &[usize]); 9] = [
        (0, 3, &[]),
        (1, 2, &[]),
        (2, 2, &[]),
        (3, 2, &[]),
        (4, 4, &[3]),
        (5, 4, &[3]),
        (6, 4, &[3]),
        (7, 4, &[3]),
        (8, 9, &[0]),
    ];
    assert_eq!(steps(&network(3, &JOBS)), 12);
    assert_eq!(steps(&network(4, &JOBS)), 12);
}
