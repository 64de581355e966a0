//! Spellings of lengths and what they are in millimetres, to the last bit. The expected numbers are
//! worked by hand from 1 in = 25.4 mm (NIST Handbook 44, appendix C).

use crate::typed::Measure;
use crate::units::Length;

fn check(text: &str, mm: f64) {
    match Length::read(text) {
        Ok(length) => assert_eq!(
            length.value.to_bits(),
            mm.to_bits(),
            "{text}: {}",
            length.value
        ),
        Err(misread) => panic!("{misread}"),
    }
}

fn refused(text: &str, why: &str) {
    let misread = Length::read(text).expect_err(text);
    assert_eq!(misread.why, why, "{text}");
}

#[test]
fn feet_and_inches() {
    check("12' 6 1/2\"", 3822.7);
    check("12'-6 1/2\"", 3822.7);
    check("12'- 6 1/2\"", 3822.7);
    check("12'-6-1/2\"", 3822.7);
    check("12'6 1/2", 3822.7);
    check("12' 6 1/2", 3822.7);
    check("12' 6½\"", 3822.7);
    check("12' 6 ½\"", 3822.7);
    check("12′ 6 1⁄2″", 3822.7);
    check("12’ 6 1/2”", 3822.7);
    check("12‘ 6 1/2“", 3822.7);
    check("12' 6.5''", 3822.7);
    check("12’6½’’", 3822.7);
    check("12'–6½\"", 3822.7);
    check("12 ft 6 1/2 in", 3822.7);
    check("12 ft. 6 1/2 in.", 3822.7);
    check("12ft6.5in", 3822.7);
    check("12 feet 6 1/2 inches", 3822.7);
    check("12 FT 6.5 IN", 3822.7);
    check("12ft-6.5in", 3822.7);
    check("12 foot 6 1/2", 3822.7);
    check("12-6.5", 3822.7);
    check("12-6 1/2", 3822.7);
    check("12-6-1/2\"", 3822.7);
    check("12-6½\"", 3822.7);
    check("12-6,5", 3822.7);
    check("12'6", 3810.0);
    check("12' 6", 3810.0);
    check("12-6", 3810.0);
    check("12-6\"", 3810.0);
    check("  12' 6\"  ", 3810.0);
    check("12'\u{a0}6\"", 3810.0);
    check("12' 0\"", 3657.6);
    check("12'-0\"", 3657.6);
    check("12' 0 1/2\"", 3670.3);
    check("12' 1/2\"", 3670.3);
    check("12'-1/2", 3670.3);
    check("2 yd 1 ft 3 in", 2209.8);
    check("6ft2in", 1879.6);
    check("6 feet 2 in", 1879.6);
    check("1,234' 6\"", 376_275.6);
}

#[test]
fn one_unit() {
    check("6'", 1828.8);
    check("6 ft", 1828.8);
    check("12.5'", 3810.0);
    check("12,5 ft", 3810.0);
    check("12 1/2'", 3810.0);
    check("12-1/2'", 3810.0);
    check("2 yd", 1828.8);
    check("5 1/2 in", 139.7);
    check("5-1/2 in", 139.7);
    check("5½ in", 139.7);
    check("5-½\"", 139.7);
    check("12-1/2\"", 317.5);
    check("3/2\"", 38.1);
    check("1/2\"", 12.7);
    check("½\"", 12.7);
    check("3/8 in", 9.525);
    check("1/8 in", 3.175);
    check("1/16\"", 1.5875);
    check("1/64\"", 0.396_875);
    check("1/3\"", 25.4 / 3.0);
    check(".5\"", 12.7);
    check("3.81 m", 3810.0);
    check("3.81m", 3810.0);
    check("3,81 m", 3810.0);
    check("3.81 metres", 3810.0);
    check("3.81 Meters", 3810.0);
    check("381 mm", 381.0);
    check("381mm", 381.0);
    check("38.1 cm", 381.0);
    check("0.1 mm", 0.1);
    check("9 mm", 9.0);
    check("3 MM", 3.0);
    check("5 mm.", 5.0);
}

#[test]
fn metric_parts() {
    check("1 m 20 cm", 1200.0);
    check("1m20cm", 1200.0);
    check("1m2cm", 1020.0);
    check("1 m 2 cm 5 mm", 1025.0);
    check("2 cm 5.5 mm", 25.5);
}

#[test]
fn points_and_commas() {
    check("0,125 m", 125.0);
    check("1234,567 mm", 1234.567);
    check("1,234,567 mm", 1_234_567.0);
    check("1,234.5 mm", 1234.5);
    check("1.234,5 mm", 1234.5);
    check("1.234 m", 1234.0);
    check("1\u{a0}234 mm", 1234.0);
    check("1\u{202f}234,5 mm", 1234.5);
    check("1,234 ft", 376_123.2);
    check("1,234 yd", 1_128_369.6);
    refused("1,234 mm", "can be read as 1.234 mm or as 1234 mm");
    refused("3,125 m", "can be read as 3.125 m or as 3125 m");
    refused("1,125\"", "can be read as 1.125 in or as 1125 in");
    refused("2 * 1,234", "can be read as 1.234 or as 1234");
    refused(
        "1,23,4 mm",
        "has the number 1,23,4, which has its points or commas in odd places",
    );
    refused(
        "1. mm",
        "has the number 1., which has its points or commas in odd places",
    );
}

#[test]
fn nothing_needs_no_unit() {
    check("0", 0.0);
    check("0.0", 0.0);
    check("0'", 0.0);
    check("0 mm", 0.0);
    assert!(Length::read("-0").unwrap().value.abs() <= 0.0);
}

#[test]
fn arithmetic() {
    check("2*4' + 6\"", 2590.8);
    check("2x4'+6\"", 2590.8);
    check("2 × 4' 6\"", 2743.2);
    check("(3 m + 20 cm)/2", 1600.0);
    check("36' - 2*18 in", 10_058.4);
    check("36'-2*18 in", 10_058.4);
    check("36' - 18 in", 10_515.6);
    check("(12') - 6\"", 3505.2);
    check("12' \u{2212} 6\"", 3505.2);
    check("12'\u{2212}6\"", 3505.2);
    check("12' 3\" - 6\"", 3581.4);
    check("36' - 6\" - 6\"", 10_668.0);
    check("2*4' - 6\"", 2286.0);
    check("3'-2'", 304.8);
    check("3 m-20 cm", 2800.0);
    check("12'-6 1/2\"*2", 7645.4);
    check("6' / 2", 914.4);
    check("6'/2", 914.4);
    check("6' * 1/2", 914.4);
    check("6' / (1/2)", 3657.6);
    check("1/2 * 6'", 914.4);
    check("1 m / 3", 1000.0 / 3.0);
    check("3 * (1 m / 3)", 1000.0);
    check("100 ft2 / 10 ft", 3048.0);
    check("3 ft * 2 m / 1 ft", 6000.0);
    check("-6\"", -152.4);
    check("-12' 6\"", -3810.0);
    check("6\" - 1'", -152.4);
    check("-(2 - 5) * -1 m", -3000.0);
    check("3 m + -20 cm", 2800.0);
    check("1 yd + 1 ft + 1 in + 1 m + 1 cm + 1 mm", 2255.6);
    check("50 % * 12'", 1828.8);
    check("((((1 mm))))", 1.0);
}

#[test]
fn the_message_in_full() {
    assert_eq!(
        Length::read("27oo").unwrap_err().to_string(),
        "'27oo' is not a length; write 2' 3\", 27 in or 685 mm"
    );
    assert_eq!(
        Length::read("27 mn").unwrap_err().to_string(),
        "'27 mn' has the unknown unit 'mn' (did you mean mm?); write 2' 3\", 27 in or 685 mm"
    );
}

#[test]
fn units_that_are_not_right() {
    refused("27", "has no unit");
    refused("27 + 3", "has no unit");
    refused("1 m 20", "has no unit after 20");
    refused("2 yd 1", "has no unit after 1");
    refused("12' 6\" 2", "has no unit after 2");
    refused("2 kg", "is a mass, not a length");
    refused("2 m2", "is an area, not a length");
    refused("6ft2", "is an area, not a length");
    refused("3' * 4'", "is an area, not a length");
    refused("3' * 4' * 5'", "is a volume, not a length");
    refused("20 deg", "is an angle, not a length");
    refused("5 %", "is a plain number, not a length");
    refused("1 / 2\"", "is not a length");
    refused("6\" 12'", "has in before ft: the larger unit comes first");
    refused("20 cm 1 m", "has cm before m: the larger unit comes first");
    refused("12' 6'", "has the unit ft twice: join two of them with +");
    refused("6\" 6\"", "has the unit in twice: join two of them with +");
    refused("1 m 6 in", "has m and in side by side: join them with +");
    refused("2 ft 3 cm", "has ft and cm side by side: join them with +");
    refused("1 ft 2 kg", "has ft and kg side by side: join them with +");
    refused(
        "12.5' 6\"",
        "has a part of one ft before its in: only the last number may have a fraction or decimals",
    );
    refused("3' 14\"", "has 12 in or more after a number in ft");
    refused("36'-18\"", "has 12 in or more after a number in ft");
    refused("12-18", "has 12 in or more after a number in ft");
    refused("1 m 120 cm", "has 100 cm or more after a number in m");
    refused("3' + 2", "joins a length and a plain number with + or -");
    refused("12'-6*2", "joins a length and a plain number with + or -");
    refused("3' + 2 kg", "joins a length and a mass with + or -");
    refused("3 fet", "has the unknown unit 'fet' (did you mean ft?)");
    refused("3 inchs", "has the unknown unit 'inchs' (did you mean in?)");
    refused("3 metrs", "has the unknown unit 'metrs' (did you mean m?)");
    refused("3 yrad", "has the unknown unit 'yrad' (did you mean yd?)");
    refused("3' high", "is not a length");
    refused("m", "has the unit m with no number before it");
    refused("'6\"", "has the unit ' with no number before it");
}

#[test]
fn two_readings() {
    refused("12' - 6\"", "can be read as 12'-6\" or as (12') - 6\"");
    refused("12' -6\"", "can be read as 12'-6\" or as (12') - 6\"");
    refused(
        "12 ft - 6 1/2 in",
        "can be read as 12'-6 1/2\" or as (12') - 6 1/2\"",
    );
    refused("2 yd 1' - 6\"", "can be read as 1'-6\" or as (1') - 6\"");
    refused("12' - 6", "can be read as 12'-6\" or as (12') - 6\"");
    refused("12-1/2", "can be read as 12 1/2 in or as 12 ft 1/2 in");
    refused("(6-1/2) * 3'", "can be read as 6 1/2 or as 6 less 1/2");
    refused(
        "12'/3/4",
        "divides by a fraction: put the fraction in brackets",
    );
    refused(
        "3' 6/2",
        "has the fraction 6/2, which is one or more: write the whole number apart, as in 6 1/2",
    );
    refused(
        "5 3/2\"",
        "has the fraction 3/2, which is one or more: write the whole number apart, as in 6 1/2",
    );
}

/// What a message offers as the two readings can be typed as it stands.
#[test]
fn both_readings_offered_can_be_read() {
    check("12'-6\"", 3810.0);
    check("(12') - 6\"", 3505.2);
    check("12 1/2 in", 317.5);
    check("12 ft 1/2 in", 3670.3);
}

#[test]
fn malformed() {
    refused("", "is not a length");
    refused("   ", "is not a length");
    refused("abc", "is not a length");
    refused("#", "is not a length");
    refused("3 4\"", "has two numbers side by side, 3 and 4");
    refused("5 1 1/2\"", "has two numbers side by side, 5 and 1");
    refused("(3 m", "has a bracket that is not closed");
    refused("3 m)", "has a closing bracket too many");
    refused("3 m +", "is not a length");
    refused("* 3 m", "is not a length");
    refused("2(3 m)", "is not a length");
    refused("(3 m)(2)", "is not a length");
    refused("3 m / 0", "divides by zero");
    refused("3 m / (2 - 2)", "divides by zero");
    refused("1/0 m", "divides by zero");
    refused("NaN", "is not a length");
    refused("inf mm", "is not a length");
    refused("1e3 mm", "is not a length");
    refused("٣ m", "is not a length");
    refused(
        &format!("{} m", "9".repeat(199)),
        "is longer than 200 characters",
    );
    refused(
        &format!("{}1 m{}", "(".repeat(21), ")".repeat(21)),
        "has more than 20 brackets inside one another",
    );
    refused(
        &"(".repeat(200),
        "has more than 20 brackets inside one another",
    );
    check(&format!("{}1 m{}", "(".repeat(20), ")".repeat(20)), 1000.0);
    // Units multiplied together leave all measure before they leave `f64`.
    refused(
        &format!("1 yd{}", "*1 yd".repeat(12)),
        "multiplies or divides more units than any quantity has",
    );
    let long = format!("{}1 m{}", "-".repeat(100), " ".repeat(90));
    check(&long, 1000.0);
}

#[test]
fn messages_are_fit_to_show() {
    let misread = Length::read("\u{1b}[31m3 m").unwrap_err();
    assert!(misread.text.chars().all(|c| !c.is_control()));
    let misread = Length::read(&"é".repeat(5000)).unwrap_err();
    assert_eq!(misread.text.chars().count(), 61);
}
