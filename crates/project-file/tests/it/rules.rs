//! Measurement rules as files: what is read from them, and what is refused.

use hodful_project_file::{read_rule, rules};
use hodful_quantities::Measure;
use hodful_quantities::units::{Area, Length};
use hodful_takeoff::rule::Deduct;

const RULE: &str = r#"{
    "format": "hodful-rule", "version": 1, "key": "test", "title": "Test", "edition": "1", "source": "none",
    "net": false,
    "bands": [
        { "up_to": "0.5 m2", "deduct": 0, "add_reveals": false },
        { "up_to": "3 m2", "deduct": "narrower reveal", "deduct_without_reveal": 1, "add_reveals": false },
        { "deduct": 0.5, "add_reveals": true }
    ],
    "reveals_by_length_up_to": "300 mm",
    "notes": ["Only a test."]
}"#;

#[test]
fn a_rule_is_read_from_its_file() {
    let (key, rule) = read_rule(RULE.as_bytes()).unwrap();
    assert_eq!(key, "test");
    assert_eq!(
        rule.reveals_by_length_up_to,
        Some(Length::read("30 cm").unwrap())
    );
    let bands = rule.bands.unwrap();
    let deducts: Vec<_> = bands.iter().map(|band| band.deduct).collect();
    assert_eq!(
        deducts,
        [
            Deduct::Share(0.0),
            Deduct::NarrowerReveal,
            Deduct::Share(0.5)
        ]
    );
    assert_eq!(bands[1].up_to, Some(Area::read("3 m2").unwrap()));
    assert_eq!(bands[1].deduct_without_reveal, Some(Deduct::Share(1.0)));
    assert!(bands[2].add_reveals && bands[2].up_to.is_none());
}

#[test]
fn a_wrong_rule_is_refused_in_words() {
    let rows = [
        (
            r#""deduct": 0,"#,
            r#""deduct": 2,"#,
            "band number 1, deduct: 2 is not a share; write a share from 0 to 1, or 'narrower reveal'",
        ),
        (
            r#""narrower reveal""#,
            r#""narrow reveal""#,
            "band number 2, deduct: 'narrow reveal' is not a way to deduct; did you mean 'narrower reveal'?",
        ),
        (
            r#""net": false"#,
            r#""net": "no""#,
            "net: is text; write true or false, without quotes",
        ),
        (
            "hodful-rule",
            "hodful-project",
            "format: 'hodful-project' is not a measurement rule; write \"hodful-rule\"",
        ),
        (
            r#""version": 1"#,
            r#""version": 2"#,
            "version: 2 is not a version that can be read; write 1, without quotes",
        ),
    ];
    for (old, new, expected) in rows {
        let problems = read_rule(RULE.replacen(old, new, 1).as_bytes()).unwrap_err();
        let told: Vec<_> = problems.iter().map(ToString::to_string).collect();
        assert_eq!(told, [expected]);
    }
}

#[test]
fn the_small_openings_of_a_compiled_rule_are_not_deducted() {
    // IS 1200 (Part XII):1976, clause 3.8, as restated: openings not exceeding 0.5 m2 are not deducted.
    let rules = rules();
    let rule = rules.get("is-1200-12").unwrap();
    let deduct = |area: &str| rule.band(Area::read(area).unwrap()).unwrap().deduct;
    assert_eq!(deduct("0.5 m2"), Deduct::Share(0.0));
    assert_eq!(deduct("0.51 m2"), Deduct::NarrowerReveal);
    assert_eq!(deduct("3.01 m2"), Deduct::Share(1.0));
}
