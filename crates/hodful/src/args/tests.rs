//! The definition holds together, and every command has an example. Not here: doing anything.

use super::*;

#[test]
fn the_definition_holds_together() {
    Cli::command().debug_assert();
}

#[test]
fn a_file_alone_opens_and_a_command_stays_a_command() {
    let file = |arguments: &[&str]| {
        let cli = Cli::try_parse_from([&["hodful"], arguments].concat()).unwrap();
        (cli.file, cli.command.is_some())
    };
    assert_eq!(file(&[]), (None, false));
    assert_eq!(file(&["barn.json"]), (Some("barn.json".into()), false));
    assert_eq!(file(&["./order"]), (Some("./order".into()), false));
    assert_eq!(file(&["--", "order"]), (Some("order".into()), false));
    assert_eq!(file(&["order", "barn.json"]), (None, true));
    assert_eq!(file(&["rules"]), (None, true));
    let told = |arguments: &[&str]| {
        let arguments: Vec<_> = ["hodful"].iter().chain(arguments).map(Into::into).collect();
        Cli::read(&arguments).unwrap_err().to_string()
    };
    let told_of_ordr = told(&["ordr", "barn.json"]);
    assert!(
        told_of_ordr.contains("there is no command 'ordr'; did you mean 'order'?"),
        "{told_of_ordr}"
    );
    let both = told(&[
        "export",
        "barn.json",
        "--to",
        "a.pdf",
        "--against",
        "b.json",
        "--base",
        "x",
    ]);
    assert!(both.contains("cannot be used with"), "{both}");
    let told_of_two = told(&["barn.json", "byre.json"]);
    assert!(
        told_of_two.contains("'barn.json'; and a file to open stands alone"),
        "{told_of_two}"
    );
    for wrong in [
        &["barn.json", "order"][..],
        &["barn.json", "byre.json"],
        &["order"],
        &["--screen"],
    ] {
        let parsed = Cli::try_parse_from([&["hodful"], wrong].concat());
        assert!(parsed.is_err(), "{wrong:?}");
    }
}

#[test]
fn every_command_has_an_example() {
    let top = Cli::command();
    let help = top.get_after_help().map(ToString::to_string);
    assert!(help.is_some_and(|help| help.contains("hodful barn.hodful.json")));
    for command in top.get_subcommands() {
        let help = command
            .get_after_help()
            .map(ToString::to_string)
            .unwrap_or_default();
        assert!(
            help.contains(&format!("hodful {}", command.get_name())),
            "{}",
            command.get_name()
        );
    }
}
