//! What is told of chances: words for shares, odd asks, values that cannot be, and whose walls are off. Not here: the
//! draws against closed forms.

use super::*;

#[test]
fn words_for_shares() {
    for (of, words) in [
        (0.0, "in none of the draws"),
        (0.004, "less than 1 time in 100"),
        (0.01, "1 time in 100"),
        (0.1, "10 times in 100"),
        (0.149, "15 times in 100"),
        (0.27, "27 times in 100"),
        (0.2999, "30 times in 100"),
        (0.99, "99 times in 100"),
        (0.997, "more than 99 times in 100"),
        (0.97, "97 times in 100"),
        (1.0, "in all of the draws"),
    ] {
        assert_eq!(said::chance(of), words);
    }
    for (accepted, words) in [
        (0.1, "enough 90 times in 100"),
        (0.05, "enough 95 times in 100"),
        (0.99, "enough 1 time in 100"),
        (0.025, "enough 97.5 times in 100"),
    ] {
        assert_eq!(said::enough(accepted), words);
    }
}

#[test]
fn odd_asks_are_told() {
    let mut project = project();
    let ask = |project: &Project, draws| {
        let of = Assessed::new(project, &rules()).unwrap();
        Chances::draw(&of.one(None), draws, 1)
    };
    assert!(ask(&project, 0).unwrap_err().contains("no draw"));
    assert!(ask(&project, usize::MAX).unwrap_err().contains("too many"));
    project.walls.clear();
    assert!(ask(&project, 10).unwrap_err().contains("nothing to draw"));
}

/// A coat that a draw may bring to nothing keeps its material told: it is 0 there.
#[test]
fn a_material_that_comes_to_nothing_is_still_told() {
    let mut project = project();
    project.materials["sand"].packages[0].price = Some(typed("5"));
    only(
        &mut project,
        vec![Uncertain {
            wall_to_wall: Some(typed("0 %")),
            ..normal(UncertainInput::Thickness, None, "60 %")
        }],
    );
    let of = drawn(&project, 2_000);
    assert!(of.clamped > 0);
    let sand = of.need_of("sand").unwrap();
    assert_eq!(sand.sample.lowest().to_bits(), 0.0_f64.to_bits());
    assert!(of.order("sand").unwrap().short.is_some());
    // It costs nothing there.
    let cost = of.figure(&Line::Cost).unwrap();
    assert_eq!(cost.sample.lowest().to_bits(), 0.0_f64.to_bits());
    assert!(of.untold.is_empty(), "{:?}", of.untold);
}

/// Who says nothing of how walls differ has not said that they do not.
#[test]
fn to_say_how_far_all_are_off_makes_no_wall_surer() {
    let mut project = project();
    let said = |project: &Project| {
        drawn(project, 4_000)
            .figure(&Line::AllPlaced)
            .unwrap()
            .sample
            .sd()
    };
    let thickness = |wall: Option<&str>| Uncertain {
        lowest: Some(typed("90 %")),
        highest: Some(typed("125 %")),
        wall_to_wall: wall.map(typed),
        ..Uncertain::of(UncertainInput::Thickness, None)
    };
    project.uncertain = vec![thickness(None)];
    let usual = said(&project);
    project.uncertain = vec![thickness(Some("10 %"))];
    assert_eq!(usual.to_bits(), said(&project).to_bits());
    project.uncertain = vec![thickness(Some("0 %"))];
    assert!(said(&project) < usual);
}

/// Ours bring a wall back to nothing now and then, 30 % from wall to wall being ours, and nobody is alarmed by it.
#[test]
fn a_default_never_alarms() {
    let mut project = project();
    project.backgrounds["cob"].dubbing_out = Some(typed("10 mm"));
    let of = drawn(&project, DRAWS);
    assert!(of.clamped > 0 && of.inputs.iter().all(|input| input.is_default));
    let notes = of.notes(UnitSystem::Metric);
    assert!(
        notes.iter().all(|note| !note.contains("too far")),
        "{notes:#?}"
    );
    let of = Assessed::new(&project, &rules()).unwrap();
    let doubts: Vec<String> = of.doubts.iter().map(ToString::to_string).collect();
    assert!(
        doubts.iter().all(|doubt| !doubt.contains("too far")),
        "{doubts:#?}"
    );
}

/// The value that is 1 time in 100: 12 mm less 2.326 × 60 % of 12 mm is 4.7 mm under nothing (quantile of 0.99 in any
/// table of the normal distribution, from memory); a loss of 5 % less 2.326 × 4 % is 4.3 % under it.
#[test]
fn what_is_typed_and_cannot_be_is_told_with_its_place() {
    let mut project = project();
    let walls = |sd: &str| Uncertain {
        wall_to_wall: Some(typed(sd)),
        ..Uncertain::of(UncertainInput::Thickness, None)
    };
    let loss = |sd: &str| Uncertain {
        mean: Some(typed("5 %")),
        spread: Some(typed(sd)),
        ..Uncertain::of(UncertainInput::Loss, None)
    };
    let most = |to: &str| Uncertain {
        lowest: Some(typed("5 %")),
        likely: Some(typed("10 %")),
        highest: Some(typed(to)),
        ..Uncertain::of(UncertainInput::Reject, Some("sand".into()))
    };
    let thickness = |sd: &str| normal(UncertainInput::Thickness, Some("scratch"), sd);
    for (said, words) in [
        (thickness("42 %"), None),
        (
            thickness("60 %"),
            Some(
                "spread: '60 %' is too far: 1 time in 100 thickness of scratch would be 4.7 mm under nothing or more; \
                 give less, or lowest, likely and highest",
            ),
        ),
        (loss("2 %"), None),
        (
            loss("4 %"),
            Some(
                "spread: '4 %', 4 points and not a share of it, is too far: 1 time in 100 loss would be 4.3 % under nothing or more; ",
            ),
        ),
        (most("60 %"), None),
        (
            most("99 %"),
            Some("highest: '99 %' is too far: 95.0 % is the most that is drawn; give less"),
        ),
        (walls("42 %"), None),
        (
            walls("50 %"),
            Some(
                "wall_to_wall: '50 %' is too far: more than 1 wall in 100 would have less than no thickness; give \
                 43.0 % or less",
            ),
        ),
    ] {
        let what = check::uncertain::words(&said);
        project.uncertain = vec![said];
        let of = Assessed::new(&project, &rules()).unwrap();
        let all: Vec<String> = of.doubts.iter().map(ToString::to_string).collect();
        let found: Vec<&String> = all.iter().filter(|of| of.contains("too far")).collect();
        let Some(words) = words else {
            assert!(found.is_empty(), "{found:#?}");
            continue;
        };
        let place = format!("uncertain input 1 ({what}), {words}");
        assert!(
            found.len() == 1 && found[0].starts_with(&place),
            "{words}: {found:#?}"
        );
        // The same stands beside the figures.
        let chances = Chances::draw(&of.one(None), 100, 1).unwrap();
        let notes = chances.notes(UnitSystem::Metric);
        let told = words.split_once(": ").unwrap().1;
        assert!(
            notes.iter().any(|note| note.contains(told)),
            "{told}: {notes:#?}"
        );
    }
}

/// Two walls of two build-ups, of which one entry says that it is off by three times as much from wall to wall: what
/// each makes of the whole is as the squares, 9 to 1, and each is named by what can be made better.
#[test]
fn walls_are_told_by_who_says_how_far_they_are_off() {
    let mut project = project();
    let mut other = project.build_ups["two coats"].clone();
    other[0].coat = "skim".into();
    project.build_ups.insert("other".into(), other);
    let face = Arc::make_mut(&mut project.walls[1])
        .inside
        .as_mut()
        .unwrap();
    face.build_up = "other".into();
    let walls = |name: &str, sd: &str| Uncertain {
        spread: Some(typed("0 %")),
        wall_to_wall: Some(typed(sd)),
        ..Uncertain::of(UncertainInput::Thickness, Some(name.into()))
    };
    only(
        &mut project,
        vec![walls("scratch", "15 %"), walls("skim", "5 %")],
    );
    let of = drawn(&project, DRAWS);
    let placed = of.figure(&Line::AllPlaced).unwrap();
    for (words, share, spread) in [
        ("thickness of scratch from wall to wall", 0.9_f64, "15 %"),
        ("thickness of skim from wall to wall", 0.1, "5 %"),
    ] {
        let at = of.inputs.iter().position(|i| i.words == words);
        let at = at.unwrap_or_else(|| panic!("{words}: {:#?}", of.inputs));
        let off = 6.0 * share.sqrt() * (1.0 - share) / (DRAWS as f64).sqrt();
        near(placed.shares[at], share, off, words);
        assert_eq!(
            of.inputs[at].spread,
            format!("2 times in 3 no more than {spread} off")
        );
    }
    // Where build-ups have coats of one name, they are told apart by their own.
    let mut both = project.clone();
    let skim = both.build_ups["other"][0].clone();
    both.build_ups["two coats"].push(skim);
    only(
        &mut both,
        vec![walls("scratch", "15 %"), walls("skim", "5 %")],
    );
    let of = drawn(&both, 100);
    let walls: Vec<&str> = of
        .inputs
        .iter()
        .filter(|of| of.is_wall_to_wall)
        .map(|of| &*of.words)
        .collect();
    assert_eq!(
        walls,
        [
            "thickness of two coats from wall to wall",
            "thickness of other from wall to wall"
        ]
    );
    // One entry for all of them is one input, and says so.
    let all = Uncertain {
        wall_to_wall: Some(typed("10 %")),
        ..Uncertain::of(UncertainInput::Thickness, None)
    };
    only(&mut project, vec![all]);
    let of = drawn(&project, 100);
    let walls: Vec<&Input> = of.inputs.iter().filter(|of| of.is_wall_to_wall).collect();
    assert_eq!(walls.len(), 1, "{walls:#?}");
    assert_eq!(walls[0].words, "thickness of every coat from wall to wall");
}

/// Eight bytes a number: with so many figures as this, a gigabyte holds fewer than a million draws.
#[test]
fn draws_stay_within_their_memory() {
    let mut project = project();
    let mut coats = Vec::new();
    for number in 0..150 {
        let mut coat = project.build_ups["two coats"][0].clone();
        coat.coat = format!("coat {number}").into();
        coats.push(coat);
    }
    project.build_ups["two coats"] = coats;
    let of = Assessed::new(&project, &rules()).unwrap();
    let why = Chances::draw(&of.one(None), MOST_DRAWS, 1).unwrap_err();
    assert!(
        why.contains("take all the memory that draws may have"),
        "{why}"
    );
    let most = why.split(" inputs of this project ").nth(1).unwrap();
    let most: usize = most.split(' ').next().unwrap().parse().unwrap();
    let few = Chances::draw(&of.one(None), 1, 1).unwrap();
    let kept = 8 * (2 * few.figures.len() + 3 * few.inputs.len());
    // Besides the numbers there are some hundred bytes a draw of the row itself.
    assert!(most * kept <= 1 << 30, "{most} of {kept}");
    assert!(most * (kept + 400) > 1 << 30, "{most} of {kept}");
}
