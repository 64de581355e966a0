//! Which keys do what: the table of commands with a user's keymap file over it. Not here: the table.
//!
//! A keymap file has a line a command: its name, `=`, and its keys with commas between them, which take the
//! place of the keys it has. `#` begins a remark. An empty list takes its keys away.
//!
//! ```text
//! save = f10
//! thicker = +, ctrl-up
//! ```

use crate::command::{COMMANDS, Command, Id, Layer};
use crokey::KeyCombination;
use ecow::{EcoString, eco_format};
use ratatui::crossterm::event::{KeyCode, KeyEvent, KeyEventKind, KeyModifiers};
use std::collections::HashMap;

/// Which keys do what.
#[derive(Debug, Clone)]
pub struct Keymap {
    keys: Vec<Vec<KeyCombination>>,
    by_key: HashMap<(Layer, KeyCombination), Id>,
}

impl Default for Keymap {
    fn default() -> Self {
        let keys = COMMANDS
            .iter()
            .map(|command| {
                command
                    .keys
                    .iter()
                    .filter_map(|key| chord(key).ok())
                    .collect()
            })
            .collect();
        Self::of(keys)
    }
}

impl Keymap {
    fn of(keys: Vec<Vec<KeyCombination>>) -> Self {
        let mut by_key = HashMap::new();
        for (command, keys) in COMMANDS.iter().zip(&keys) {
            for key in keys {
                by_key.entry((command.layer, *key)).or_insert(command.id);
            }
        }
        Self { keys, by_key }
    }

    /// The table with a keymap file over it.
    ///
    /// # Errors
    /// Every line that is wrong and every clash, each with its line: the file is then left alone whole.
    pub fn with_file(file: &str, text: &str) -> Result<Self, Vec<EcoString>> {
        let mut keys = Self::default().keys;
        let mut faults = Vec::new();
        let mut lines: Vec<Option<usize>> = vec![None; keys.len()];
        for (number, line) in (1..).zip(text.lines()) {
            let line = line.split('#').next().unwrap_or_default().trim();
            if line.is_empty() {
                continue;
            }
            let fault = |words: EcoString| eco_format!("{file}, line {number}: {words}");
            let Some((name, list)) = line.split_once('=') else {
                faults.push(fault(
                    "write a command, =, and its keys: save = ctrl-s".into(),
                ));
                continue;
            };
            let name = name.trim();
            let Some(at) = COMMANDS.iter().position(|command| command.name == name) else {
                faults.push(fault(eco_format!(
                    "there is no command '{name}'; F2 lists them with their names"
                )));
                continue;
            };
            let mut own = Vec::new();
            // A lone comma is a key itself.
            let list = list.trim();
            let parts: Vec<&str> = if list == "," {
                vec![","]
            } else {
                list.split(',').collect()
            };
            for key in parts
                .into_iter()
                .map(str::trim)
                .filter(|key| !key.is_empty())
            {
                match chord(key) {
                    Ok(key) => own.push(key),
                    Err(words) => faults.push(fault(words)),
                }
            }
            if let (Some(keys), Some(line)) = (keys.get_mut(at), lines.get_mut(at)) {
                *keys = own;
                *line = Some(number);
            }
        }
        for (command, (keys, line)) in COMMANDS.iter().zip(keys.iter().zip(&lines)) {
            let types = matches!(command.layer, Layer::Typing | Layer::Entry | Layer::Popup);
            if let (true, Some(line), Some(key)) =
                (types, line, keys.iter().find(|key| typed(**key).is_some()))
            {
                faults.push(eco_format!(
                    "{file}, line {line}: {} is typed there, so that it cannot be a key of {}",
                    shown(*key),
                    command.name
                ));
            }
        }
        faults.extend(clashes(&keys).into_iter().map(|(key, first, second)| {
            let line = |of: &Command| lines.get(of.id as usize).copied().flatten();
            let number = line(second).or_else(|| line(first));
            let at = number.map_or_else(
                || eco_format!("{file}"),
                |n| eco_format!("{file}, line {n}"),
            );
            eco_format!(
                "{at}: {} is a key of both {} and {}",
                shown(key),
                first.name,
                second.name
            )
        }));
        if faults.is_empty() {
            Ok(Self::of(keys))
        } else {
            Err(faults)
        }
    }

    /// The command of a key, in the first of some layers that has one for it.
    pub fn command(&self, key: KeyCombination, layers: &[Layer]) -> Option<Id> {
        layers
            .iter()
            .find_map(|layer| self.by_key.get(&(*layer, key)).copied())
    }

    /// The keys of a command.
    pub fn keys(&self, id: Id) -> &[KeyCombination] {
        self.keys.get(id as usize).map_or(&[], Vec::as_slice)
    }

    /// The keys of a command in words: `Ctrl-s`.
    pub fn shown(&self, id: Id) -> EcoString {
        let words: Vec<EcoString> = self.keys(id).iter().map(|key| shown(*key)).collect();
        words.join(", ").into()
    }

    /// The first key of a command in words; empty when it has none.
    pub fn first(&self, id: Id) -> EcoString {
        self.keys(id)
            .first()
            .map(|key| shown(*key))
            .unwrap_or_default()
    }
}

/// Keys that two commands would share where both work: the key and the two.
pub fn clashes(
    keys: &[Vec<KeyCombination>],
) -> Vec<(KeyCombination, &'static Command, &'static Command)> {
    let mut found: Vec<(KeyCombination, &Command, &Command)> = Vec::new();
    for stack in Layer::STACKS {
        let mut seen: HashMap<KeyCombination, &Command> = HashMap::new();
        for (command, keys) in COMMANDS.iter().zip(keys) {
            // A layer that is above another takes its keys on purpose where it types.
            let covers = stack
                .first()
                .is_some_and(|layer| matches!(layer, Layer::Typing | Layer::Entry | Layer::Fields));
            if !stack.contains(&command.layer) || (covers && command.layer == Layer::Anywhere) {
                continue;
            }
            for key in keys {
                match seen.get(key) {
                    Some(first) if first.id != command.id => {
                        let clash = (*key, *first, command);
                        if !found.iter().any(|(k, a, b)| {
                            *k == clash.0 && a.id == first.id && b.id == command.id
                        }) {
                            found.push(clash);
                        }
                    }
                    Some(_) => {}
                    None => {
                        seen.insert(*key, command);
                    }
                }
            }
        }
    }
    found
}

/// A key from its name: `ctrl-s`, `f2`, `shift-up`, `+`.
///
/// # Errors
/// In words, when there is no such key, or no terminal can tell it from another.
pub fn chord(name: &str) -> Result<KeyCombination, EcoString> {
    let mut letters = name.chars();
    let key = match (letters.next(), letters.next()) {
        (Some(letter), None) => KeyEvent::new(KeyCode::Char(letter), KeyModifiers::NONE).into(),
        _ => crokey::parse(name).map_err(|_| {
            eco_format!("'{name}' is no key; write for instance f2, ctrl-s, shift-up, a or +")
        })?,
    };
    let key = normal(key);
    if let Some(same) = same_as(key) {
        return Err(eco_format!(
            "{} cannot be told from {same} by a terminal",
            shown(key)
        ));
    }
    Ok(key)
}

/// The key that a terminal sends for some control letters.
fn same_as(key: KeyCombination) -> Option<&'static str> {
    if key.modifiers != KeyModifiers::CONTROL {
        return None;
    }
    let crokey::OneToThree::One(KeyCode::Char(letter)) = key.codes else {
        return None;
    };
    match letter.to_ascii_lowercase() {
        'i' => Some("Tab"),
        'm' => Some("Enter"),
        'h' => Some("Backspace"),
        'j' => Some("a line break"),
        _ => None,
    }
}

/// A key event as a key; `None` for a key that is let go.
///
/// Shift is kept for letters and named keys and dropped for signs, which have it in them on some
/// keyboards and not on others. `AltGr` comes as Ctrl+Alt with a sign on some systems: it is the sign.
pub fn pressed(event: KeyEvent) -> Option<KeyCombination> {
    if event.kind == KeyEventKind::Release {
        return None;
    }
    Some(normal(event.into()))
}

fn normal(key: KeyCombination) -> KeyCombination {
    let mut key = key.normalized();
    if let crokey::OneToThree::One(KeyCode::Char(letter)) = key.codes
        && !letter.is_alphabetic()
    {
        key.modifiers.remove(KeyModifiers::SHIFT);
        if key.modifiers == KeyModifiers::CONTROL | KeyModifiers::ALT {
            key.modifiers = KeyModifiers::NONE;
        }
    }
    if let crokey::OneToThree::One(KeyCode::BackTab) = key.codes {
        key.modifiers.remove(KeyModifiers::SHIFT);
    }
    key
}

/// The character a key types, when it types one.
pub fn typed(key: KeyCombination) -> Option<char> {
    if key
        .modifiers
        .intersects(KeyModifiers::CONTROL | KeyModifiers::ALT)
    {
        return None;
    }
    match key.codes {
        crokey::OneToThree::One(KeyCode::Char(letter)) => {
            let upper = key.modifiers.contains(KeyModifiers::SHIFT);
            Some(if upper {
                letter.to_uppercase().next().unwrap_or(letter)
            } else {
                letter
            })
        }
        _ => None,
    }
}

/// A key in words.
pub fn shown(key: KeyCombination) -> EcoString {
    match key.codes {
        crokey::OneToThree::One(KeyCode::PageUp) => "PgUp".into(),
        crokey::OneToThree::One(KeyCode::PageDown) => "PgDn".into(),
        crokey::OneToThree::One(KeyCode::BackTab) => "Shift-Tab".into(),
        crokey::OneToThree::One(KeyCode::Char('-')) => "-".into(),
        crokey::OneToThree::One(KeyCode::Char(' ')) => "Space".into(),
        crokey::OneToThree::One(code)
            if key.modifiers == KeyModifiers::SHIFT && !matches!(code, KeyCode::Char(_)) =>
        {
            let plain = KeyCombination {
                modifiers: KeyModifiers::NONE,
                ..key
            };
            eco_format!("Shift-{}", shown(plain))
        }
        _ => crokey::KeyCombinationFormat::default()
            .with_implicit_shift()
            .to_string(key)
            .into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn defaults() -> Vec<Vec<KeyCombination>> {
        COMMANDS
            .iter()
            .map(|command| {
                command
                    .keys
                    .iter()
                    .map(|key| chord(key).expect("a key"))
                    .collect()
            })
            .collect()
    }

    #[test]
    fn the_table_holds_together() {
        let mut names = BTreeSet::new();
        for (at, command) in COMMANDS.iter().enumerate() {
            assert_eq!(command.id as usize, at);
            assert!(names.insert(command.name), "{} stands twice", command.name);
            assert!(
                !command.doc.is_empty() && !command.doc.ends_with('.'),
                "{}",
                command.name
            );
            assert!(!command.keys.is_empty(), "{} has no key", command.name);
            assert!(command.hint.len() <= 18, "{}", command.name);
            for key in command.keys {
                let key = chord(key).unwrap_or_else(|words| panic!("{}: {words}", command.name));
                assert!(
                    !matches!(
                        typed(key),
                        Some('[' | ']' | '{' | '}' | '@' | '\\' | '~' | '|')
                    ),
                    "{} wants AltGr",
                    command.name
                );
            }
        }
        assert_eq!(
            clashes(&defaults())
                .iter()
                .map(|(k, a, b)| format!("{} {} {}", shown(*k), a.name, b.name))
                .collect::<Vec<_>>(),
            Vec::<String>::new()
        );
    }

    #[test]
    fn keys_that_no_terminal_can_send_are_refused() {
        for key in ["ctrl-i", "ctrl-m", "ctrl-h", "ctrl-j"] {
            assert!(
                chord(key).unwrap_err().contains("cannot be told from"),
                "{key}"
            );
        }
        assert!(chord("banana").unwrap_err().contains("is no key"));
    }

    #[test]
    fn a_keymap_file_overrides_by_name() {
        let keymap = Keymap::with_file("keys", "# mine\nsave = f10, alt-s\n\nquit =\n").unwrap();
        assert_eq!(
            keymap.command(chord("f10").unwrap(), &[Layer::Anywhere]),
            Some(Id::Save)
        );
        assert_eq!(
            keymap.command(chord("ctrl-s").unwrap(), &[Layer::Anywhere]),
            None
        );
        assert_eq!(keymap.first(Id::Save), "F10");
        assert!(keymap.keys(Id::Quit).is_empty());
    }

    #[test]
    fn a_keymap_file_is_refused_with_all_its_faults() {
        let text = "save = f2\nsvae = f3\nundo\nredo = ctrl-m\n";
        let faults = Keymap::with_file("keys", text).unwrap_err();
        assert_eq!(faults.len(), 4, "{faults:?}");
        assert!(faults[0].starts_with("keys, line 2: there is no command 'svae'"));
        assert!(faults[1].starts_with("keys, line 3: write a command"));
        assert!(faults[2].starts_with("keys, line 4: "));
        assert_eq!(
            faults[3],
            "keys, line 1: F2 is a key of both save and commands"
        );
    }

    #[test]
    fn keys_are_normalised_once() {
        let of = |code, modifiers| pressed(KeyEvent::new(code, modifiers));
        let plus = chord("+").unwrap();
        assert_eq!(of(KeyCode::Char('+'), KeyModifiers::NONE), Some(plus));
        assert_eq!(of(KeyCode::Char('+'), KeyModifiers::SHIFT), Some(plus));
        assert_eq!(
            of(
                KeyCode::Char('@'),
                KeyModifiers::CONTROL | KeyModifiers::ALT
            ),
            chord("@").ok()
        );
        assert_eq!(
            of(KeyCode::BackTab, KeyModifiers::SHIFT),
            chord("backtab").ok()
        );
        assert_eq!(
            of(KeyCode::Char('W'), KeyModifiers::SHIFT),
            chord("shift-w").ok()
        );
        let release =
            KeyEvent::new_with_kind(KeyCode::Enter, KeyModifiers::NONE, KeyEventKind::Release);
        assert_eq!(pressed(release), None);
        assert_eq!(typed(chord("shift-w").unwrap()), Some('W'));
        assert_eq!(typed(chord("ctrl-s").unwrap()), None);
    }
}
