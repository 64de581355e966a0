//! Every command of the front end: the one table that the keys, the hint line, the help, the list of
//! commands and the keymap file are made from. Not here: what they do (see `update`).

use crate::state::{Focus, Popup, Screen, State};
use hodful_takeoff::form::Subject;

macro_rules! commands {
    ($($id:ident $layer:ident $name:literal [$($key:literal),*] $hint:literal $doc:literal $enabled:expr;)+) => {
        /// What can be done.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs, reason = "each one's words stand in the table")]
        pub enum Id { $($id,)+ }

        /// Every command, in the order in which they are hinted at and listed.
        pub const COMMANDS: &[Command] = &[$(Command {
            id: Id::$id, layer: Layer::$layer, name: $name, keys: &[$($key),*], hint: $hint, doc: $doc, enabled: $enabled,
        },)+];
    };
}

/// One command.
#[derive(Debug, Clone, Copy)]
pub struct Command {
    /// Which one.
    pub id: Id,
    /// Where its keys work.
    pub layer: Layer,
    /// Its name in a keymap file.
    pub name: &'static str,
    /// The keys it has when no keymap file says otherwise.
    pub keys: &'static [&'static str],
    /// Two or three words for the hint line; empty where it would only take up room.
    pub hint: &'static str,
    /// What it does, as a sentence without its stop.
    pub doc: &'static str,
    /// Whether it can be done now, or why not.
    pub enabled: fn(&State) -> Result<(), &'static str>,
}

/// Where keys work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Layer {
    /// Everywhere but over a popup. Plain characters do not count while something is typed.
    Anywhere,
    /// Wherever one of several rows is chosen: lists and popups.
    Rows,
    /// In the list at the left.
    List,
    /// In the fields, while none is being typed.
    Fields,
    /// While a field is typed.
    Typing,
    /// In the entry line.
    Entry,
    /// Over a popup.
    Popup,
}

impl Layer {
    /// Every layer.
    pub const ALL: [Self; 7] = [
        Self::Anywhere,
        Self::Rows,
        Self::List,
        Self::Fields,
        Self::Typing,
        Self::Entry,
        Self::Popup,
    ];

    /// The layer in words, as a heading of the help.
    pub fn heading(self) -> &'static str {
        match self {
            Self::Anywhere => "Anywhere",
            Self::Rows => "Moving up and down",
            Self::List => "In the list",
            Self::Fields => "In the fields",
            Self::Typing => "While a field is typed",
            Self::Entry => "In the entry line",
            Self::Popup => "In a box over the screen",
        }
    }

    /// The layers whose keys work together, the first before the others.
    pub const STACKS: [&'static [Self]; 5] = [
        &[Self::List, Self::Rows, Self::Anywhere],
        &[Self::Fields, Self::Anywhere],
        &[Self::Typing, Self::Anywhere],
        &[Self::Entry, Self::Anywhere],
        &[Self::Popup, Self::Rows],
    ];
}

/// The layers whose keys work now.
pub fn layers(state: &State) -> &'static [Layer] {
    let [_, _, _, _, popup] = Layer::STACKS;
    match state.popup() {
        Some(_) => popup,
        None => layers_under(state),
    }
}

/// The layers whose keys work when no popup is open.
pub fn layers_under(state: &State) -> &'static [Layer] {
    let [list, fields, typing, entry, _] = Layer::STACKS;
    match state.focus() {
        Focus::List => list,
        Focus::Fields if state.typing().is_some() => typing,
        Focus::Fields => fields,
        Focus::Entry => entry,
    }
}

/// Whether a command can be done when no popup is open.
///
/// # Errors
/// Why not, in words.
pub fn available(state: &State, command: &Command) -> Result<(), &'static str> {
    if layers_under(state).contains(&command.layer) {
        (command.enabled)(state)
    } else {
        Err(match command.layer {
            Layer::Rows | Layer::List => "it works in the list",
            Layer::Fields => "it works in the fields",
            Layer::Typing => "it works while a field is typed",
            Layer::Entry => "it works in the entry line",
            Layer::Popup => "it works in a box",
            Layer::Anywhere => "it works everywhere but here",
        })
    }
}

/// The command of a number.
pub fn command(id: Id) -> &'static Command {
    // The table has every number, in order: the macro makes both from one list.
    COMMANDS.get(id as usize).unwrap_or(&COMMANDS[0])
}

#[allow(
    clippy::unnecessary_wraps,
    reason = "it has the form of the other conditions"
)]
fn always(_: &State) -> Result<(), &'static str> {
    Ok(())
}

fn writable(state: &State) -> Result<(), &'static str> {
    if state.is_read_only() {
        Err("the file is broken, so that it can be looked at only")
    } else {
        Ok(())
    }
}

fn undoable(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    state
        .doc()
        .next_undo()
        .map(|_| ())
        .ok_or("there is nothing to undo")
}

fn redoable(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    state
        .doc()
        .next_redo()
        .map(|_| ())
        .ok_or("there is nothing to do again")
}

fn chosen(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    if state.screen() == Screen::Days && state.day_row().thing().is_none() {
        return Err("the plan follows from the work; coats are changed on the coats page");
    }
    state
        .subject()
        .map(|_| ())
        .ok_or("there is nothing chosen in the list")
}

fn in_walls(state: &State) -> Result<(), &'static str> {
    if state.screen() == Screen::Walls {
        Ok(())
    } else {
        Err("this is for the walls page")
    }
}

fn wall_chosen(state: &State) -> Result<(), &'static str> {
    in_walls(state)?;
    chosen(state)
}

fn in_coats(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    if state.screen() != Screen::Coats {
        Err("this is for the coats page")
    } else if state.coat().is_none() {
        Err("choose a coat first")
    } else {
        Ok(())
    }
}

fn addable(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    match state.screen() {
        Screen::Plan | Screen::Problems => {
            Err("there is nothing to add here; the entry line takes walls")
        }
        Screen::Card => Err("a mix is added in the stores, or made of a blend"),
        Screen::Walls
        | Screen::Coats
        | Screen::Stores
        | Screen::Soils
        | Screen::Order
        | Screen::Options
        | Screen::Chances
        | Screen::Days => Ok(()),
    }
}

fn in_soils(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    if state.screen() == Screen::Soils {
        Ok(())
    } else {
        Err("this is for the soils page")
    }
}

fn blend_chosen(state: &State) -> Result<(), &'static str> {
    in_soils(state)?;
    match state.subject() {
        Some(Subject::Blend(_)) => Ok(()),
        _ => Err("choose a blend first"),
    }
}

fn option_chosen(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    match state.subject() {
        Some(Subject::Alternative(_) | Subject::Alteration { .. }) => Ok(()),
        _ => Err("choose an option on its page first"),
    }
}

fn in_options(state: &State) -> Result<(), &'static str> {
    if state.screen() == Screen::Options {
        Ok(())
    } else {
        Err("this is for the page of options")
    }
}

fn coat_chosen(state: &State) -> Result<(), &'static str> {
    if state.screen() != Screen::Coats {
        Err("this is for the coats page")
    } else if state.coat().is_none() {
        Err("choose a coat first")
    } else {
        Ok(())
    }
}

fn in_chances(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    if state.screen() == Screen::Chances {
        Ok(())
    } else {
        Err("this is for the page of chances")
    }
}

fn in_days(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    if state.screen() == Screen::Days {
        Ok(())
    } else {
        Err("this is for the page of days")
    }
}

fn has_records(state: &State) -> Result<(), &'static str> {
    in_chances(state)
        .or_else(|_| in_days(state))
        .map_err(|_| "this is for the pages of chances and days")
}

fn mix_chosen(state: &State) -> Result<(), &'static str> {
    writable(state)?;
    match state.subject() {
        Some(Subject::Mix(_) | Subject::Panel { .. }) => Ok(()),
        _ => Err("choose a mix in the stores or on the card first"),
    }
}

fn has_words(state: &State) -> Result<(), &'static str> {
    match state.screen() {
        Screen::Soils
        | Screen::Order
        | Screen::Card
        | Screen::Options
        | Screen::Chances
        | Screen::Days => Ok(()),
        _ => Err("this is for the pages of soils, order, card, options, chances and days"),
    }
}

fn in_why(state: &State) -> Result<(), &'static str> {
    match state.popup() {
        Some(Popup::Why(_)) => Ok(()),
        _ => Err("this is for the steps of a figure"),
    }
}

fn copyable(state: &State) -> Result<(), &'static str> {
    match state.screen() {
        Screen::Walls
        | Screen::Coats
        | Screen::Stores
        | Screen::Soils
        | Screen::Order
        | Screen::Card
        | Screen::Options
        | Screen::Chances
        | Screen::Days => chosen(state),
        Screen::Plan | Screen::Problems => Err("there is nothing to copy here"),
    }
}

commands! {
    Help Anywhere "help" ["f1", "?"] "help" "Shows the keys that work here, how things are typed, and searches both" always;
    Quit Anywhere "quit" ["ctrl-q", "q", "ctrl-c"] "quit" "Leaves; asks once when there is work that is not saved" always;
    Enter Anywhere "entry-line" ["n", "f4", "insert"] "new wall, window" "Opens the entry line, which takes a whole wall, opening or plan" writable;
    Why Anywhere "why" ["w", "f3"] "why?" "Shows how the figure of what is chosen came about, down to what was typed" always;
    WhyAny Anywhere "why-totals" ["shift-w"] "" "Shows how one of the totals came about" always;
    SetMark Anywhere "set-mark" ["m", "f7"] "mark" "Sets the mark: changes of the totals are counted from here" always;
    Undo Anywhere "undo" ["u", "ctrl-u"] "undo" "Takes the last change back" undoable;
    Redo Anywhere "redo" ["r", "ctrl-y"] "redo" "Does again what was taken back" redoable;
    Save Anywhere "save" ["ctrl-s"] "save" "Saves the project to its file" writable;
    SaveAs Anywhere "save-as" ["f6"] "" "Saves the project to a file of another name" writable;
    Commands Anywhere "commands" ["f2"] "commands" "Lists every command with its key; type to find one, Enter does it" always;
    Walls Anywhere "walls" ["1"] "" "Shows the walls" always;
    Plan Anywhere "plan" ["2"] "" "Shows the plan of the building, when its walls form a ring" always;
    Coats Anywhere "coats" ["3"] "" "Shows the build-ups with their coats" always;
    Stores Anywhere "stores" ["4"] "" "Shows backgrounds, mixes, materials and the mixer" always;
    Problems Anywhere "problems" ["5"] "" "Lists what is refused and what is doubtful" always;
    Soils Anywhere "soils" ["6"] "" "Shows the soils with their textures, and the blends" always;
    Order Anywhere "order" ["7"] "" "Shows what to buy from whom" always;
    Card Anywhere "card" ["8"] "" "Shows the card beside the mixer" always;
    Options Anywhere "options" ["9"] "" "Shows options side by side, and what makes the difference" always;
    Chances Anywhere "chances" ["0"] "" "Shows how sure the figures are, and what the work has taught so far" always;
    Days Anywhere "days" ["shift-d"] "" "Shows the days on site: which coat when, with which hands, when it is dry, which nights may freeze it" always;
    NextProblem Anywhere "next-problem" ["g"] "" "Goes to the next thing that is refused or doubtful" always;
    Units Anywhere "units" ["f8"] "" "Turns the project from feet and pounds to metric units, or back: its figures and what a bare number means; what was typed stays" writable;
    CopyFigures Anywhere "copy-figures" ["x"] "" "Puts the totals on the clipboard as text" always;
    Cautions Anywhere "cautions" ["f5"] "" "Shows the cautions for the work" always;
    Mouse Anywhere "mouse" ["f9"] "" "Listens to the mouse, or leaves it to the terminal for selecting text" always;
    Redraw Anywhere "redraw" ["ctrl-l"] "" "Draws the screen anew" always;
    Suspend Anywhere "suspend" ["ctrl-z"] "" "Stops the program until the shell wakes it (fg)" always;
    NextPart Anywhere "next-part" ["tab"] "" "Goes from the list to the fields and back" always;
    PreviousPart Anywhere "previous-part" ["backtab"] "" "Goes the other way round" always;

    Up Rows "up" ["up"] "" "Chooses the row above" always;
    Down Rows "down" ["down"] "" "Chooses the row below" always;
    PageUp Rows "page-up" ["pageup"] "" "Goes ten rows up" always;
    PageDown Rows "page-down" ["pagedown"] "" "Goes ten rows down" always;
    First Rows "first" ["home"] "" "Chooses the first row" always;
    Last Rows "last" ["end"] "" "Chooses the last row" always;

    Open List "fields" ["enter", "right"] "fields" "Goes to the fields of what is chosen" always;
    Thicker List "thicker" ["+", "="] "thicker" "Makes the chosen coat thicker by one step: 1/8 in or 2 mm" in_coats;
    Thinner List "thinner" ["-", "_"] "thinner" "Makes the chosen coat thinner by one step" in_coats;
    Look List "look" ["o"] "other side" "Looks at the wall from outside, from inside, cut through level, cut through upright" in_walls;
    Tick List "tick" ["t", "space"] "tick" "Ticks a wall or opening; a field changed on one is then changed on all that are ticked" wall_chosen;
    TickAll List "tick-all" ["shift-t"] "" "Ticks all in the list, or takes all ticks away" in_walls;
    Add List "add" ["a"] "add" "Adds one after the chosen: a coat, a mix, a material, a test panel, a blend, a phase, a room on the page of days; for walls it opens the entry line, for a soil the fields of its first test" addable;
    MakeMix List "make-mix" ["i"] "into a mix" "Makes the chosen blend a mix of the project and goes to it" blend_chosen;
    NewBlend List "new-blend" ["b"] "new blend" "Adds a blend that may be made of every sand, soil, clay and premix of the project" in_soils;
    TakeUp List "take-up" ["y"] "take up" "Makes the changes of the chosen option in the project itself" option_chosen;
    Base List "base" ["shift-b"] "base" "Holds all the others against the chosen option; on the project, or again on the same option, against the project as it stands" in_options;
    Curve List "curve" ["k"] "curve" "Shows what the whole job comes to over a range of thickness of the chosen coat: batches, cost, each material, and the layers again" coat_chosen;
    Record List "record" ["e"] "record" "Adds a record of a coat that was put on, with what it took; on the page of days, of how long one took to dry" has_records;
    Came List "came" ["h"] "came" "Adds a record of material that came" in_chances;
    Prepare List "prepare" ["j"] "prepare" "Adds something that is prepared before the first coat: heaps, soaking, screening, masking" in_days;
    NewPanel List "panel" ["l"] "test panel" "Adds a test panel to the chosen mix" mix_chosen;
    Copy List "copy" ["c"] "copy" "Copies what is chosen" copyable;
    Mirror List "mirror" ["v"] "" "Turns the chosen wall or opening left to right" wall_chosen;
    Repeat List "repeat" ["p"] "" "Repeats the chosen opening along the wall, or the chosen wall as often as you say" wall_chosen;
    Remove List "remove" ["delete", "d"] "remove" "Removes what is chosen or, when it is ticked, all that is ticked; undo brings it back" chosen;
    Earlier List "earlier" ["shift-up"] "" "Moves what is chosen up in its list" chosen;
    Later List "later" ["shift-down"] "" "Moves what is chosen down in its list" chosen;
    WordsDown List "words-down" ["."] "" "Goes on in what is said beside the list of soils, of the order, of the card, of the days; where there is no room beside it, shows it in a box" has_words;
    WordsUp List "words-up" [","] "" "Goes back in it" has_words;
    Filter List "filter" ["f"] "show only" "Shows only walls with these letters in their id, name, sheet or build-up" in_walls;
    Sort List "sort" ["s"] "" "Lists walls as entered, by id, by surface, by what is wrong with them" in_walls;

    Edit Fields "edit" ["enter"] "type" "Changes the field, beginning with what stands there; any letter or digit begins anew" writable;
    FieldUp Fields "field-up" ["up"] "" "Chooses the field above" always;
    FieldDown Fields "field-down" ["down"] "" "Chooses the field below" always;
    FieldPageUp Fields "field-page-up" ["pageup"] "" "Goes ten fields up" always;
    FieldPageDown Fields "field-page-down" ["pagedown"] "" "Goes ten fields down" always;
    FieldNext Fields "next-choice" ["right"] "next choice" "Takes the next of the words that may stand here" writable;
    FieldClear Fields "clear" ["delete"] "clear" "Empties a field that may be empty" writable;
    FieldBack Fields "back" ["esc", "left"] "list" "Goes back to the list" always;

    Commit Typing "commit" ["enter"] "done, down" "Takes the value and goes to the field below" always;
    CommitNext Typing "commit-next" ["tab"] "" "Takes the value and goes on to the next field" always;
    CommitPrevious Typing "commit-previous" ["backtab"] "" "Takes the value and goes to the field before" always;
    CommitDown Typing "commit-down" ["down"] "" "Takes the value and goes to the field below" always;
    CommitUp Typing "commit-up" ["up"] "" "Takes the value and goes to the field above" always;
    Restore Typing "restore" ["esc"] "as it was" "Leaves the field as it was" always;

    EntryDone Entry "entry-done" ["enter"] "do it" "Takes what the line says into the project" always;
    EntryComplete Entry "complete" ["tab"] "complete" "Completes the word" always;
    EntryBefore Entry "line-before" ["up"] "" "Brings back the line before" always;
    EntryAfter Entry "line-after" ["down"] "" "Goes on to the line after" always;
    EntryLeave Entry "leave-entry" ["esc"] "leave" "Leaves the entry line" always;

    Accept Popup "accept" ["enter"] "take" "Takes what is chosen; on what was typed, goes to its field" always;
    Close Popup "close" ["esc"] "close" "Closes the box" always;
    Unfold Popup "unfold" ["right"] "show more" "Shows what a figure is made of" in_why;
    Fold Popup "fold" ["left"] "show less" "Hides what a figure is made of, or goes to the figure it belongs to" in_why;
}
