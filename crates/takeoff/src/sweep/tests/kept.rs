//! What is left out for a key that is held: steps found no closer than a dot, and a curve that is kept. Not here: whether
//! the figures are right.

use super::*;

/// Where steps need not be found closer, each is told at the value before it, and nothing else changes.
#[test]
fn steps_are_found_as_near_as_is_asked() {
    let near = ask(&[COAT], "thickness", 0.0, 50.8, 201);
    let near = of(plain(), &near);
    let by_value = Ask {
        within: 1.0,
        ..ask(&[COAT], "thickness", 0.0, 50.8, 201)
    };
    let coarse = of(plain(), &by_value);
    assert_eq!(coarse.curves, near.curves);
    assert_eq!(coarse.steps.len(), near.steps.len());
    for (coarse, near) in coarse.steps.iter().zip(&near.steps) {
        assert_eq!((&coarse.before, &coarse.after), (&near.before, &near.after));
        assert!((0.0..50.8 / 199.0).contains(&(near.at - coarse.at)));
    }
    assert!(coarse.steps.iter().all(|step| near.xs.contains(&step.at)));
}

/// While its own field moves, a sweep that is kept is the one that would be worked out anew; where anything else
/// changes too, or something is refused, it does not follow.
#[test]
fn what_is_kept_follows_its_own_field_alone() {
    let fill = Subject::Coat {
        build_up: 0,
        coat: 1,
    };
    let mut project = plain();
    project.build_ups[0].push(coat("fill", "10 mm"));
    let ask = ask(&[fill], "thickness", 0.0, 50.8, 201);
    let mut kept = Kept::new(&bench(project.clone()), ask.clone(), lines()).unwrap();
    for text in ["12 mm", "1 1/8 in", "60 mm", "10 mm"] {
        put(&mut project, fill, "thickness", text);
        let moved = bench(project.clone());
        assert!(kept.follow(&moved, &ask, &lines()), "{text}");
        let anew = sweep(&moved, &ask, &lines()).unwrap();
        assert_eq!(kept.sweep(), &anew, "{text}");
        for (kept, anew) in kept.sweep().curves.iter().zip(&anew.curves) {
            assert_eq!(bits(&kept.values), bits(&anew.values), "{text}");
            assert_eq!(bits(&[kept.now]), bits(&[anew.now]), "{text}");
        }
    }
    let before = kept.sweep().clone();
    let farther = Ask {
        to: 60.0,
        ..ask.clone()
    };
    assert!(!kept.follow(&bench(project.clone()), &farther, &lines()));
    assert!(!kept.follow(&bench(project.clone()), &ask, &lines()[..2]));
    let others = [
        (COAT, "thickness", "9 mm"),
        (COAT, "loss", "11 %"),
        (COAT, "shrinkage", "3 %"),
        (Subject::Material(0), "moisture", "1 %"),
        (Subject::Wall(0), "length", "6.1 m"),
        (Subject::Background(0), "dubbing_out", "4 mm"),
        (Subject::Mixer, "working_volume", "120 L"),
        (Subject::Wall(0), "length", "0 mm"),
    ];
    for (subject, key, text) in others {
        let mut other = project.clone();
        put(&mut other, subject, key, text);
        put(&mut other, fill, "thickness", "11 mm");
        assert!(!kept.follow(&bench(other), &ask, &lines()), "{key}");
    }
    // Refused by its own field, and refused from the beginning.
    let mut none = project.clone();
    put(&mut none, fill, "thickness", "0 mm");
    assert!(!kept.follow(&bench(none), &ask, &lines()));
    assert_eq!(kept.sweep(), &before);
    put(&mut project, Subject::Wall(0), "length", "0 mm");
    let mut kept = Kept::new(&bench(project.clone()), ask.clone(), lines()).unwrap();
    put(&mut project, fill, "thickness", "12 mm");
    assert!(!kept.follow(&bench(project), &ask, &lines()));
}
