//! The words of the entry line, in one table: how each is written, what it asks for, what it means.
//! Not here: where each may stand.

/// A word of the entry line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Word {
    Plan,
    Wall,
    Gable,
    Raked,
    Curved,
    Window,
    Door,
    Opening,
    Arched,
    Round,
    Pocket,
    Of,
    By,
    Ell,
    Clear,
    Less,
    Left,
    Right,
    High,
    Thick,
    Rounded,
    Cove,
    Base,
    Ceiling,
    Ridge,
    To,
    Radius,
    Sweep,
    At,
    From,
    Sill,
    Rise,
    Springing,
    Elliptical,
    Every,
    Frame,
    Deep,
    Splay,
    Jambs,
    Head,
    Ring,
    Lath,
    Bare,
    Inside,
    Outside,
    Only,
    With,
    On,
    Name,
    Id,
}

/// What follows a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Takes {
    Nothing,
    Length,
    Angle,
    /// Two lengths with `x` between.
    Size,
    /// Which part of the reveal, when it is said, and an angle.
    Splay,
    /// Which end of the wall.
    End,
    BuildUp,
    Background,
    Name,
}

/// A word and what is known of it.
#[derive(Debug)]
pub(super) struct Row {
    pub(super) word: Word,
    /// How it is written; also shortened.
    pub(super) text: &'static str,
    /// Other ways to write it, never shortened.
    pub(super) also: &'static [&'static str],
    pub(super) takes: Takes,
    /// What it means, for the list of completions.
    pub(super) meaning: &'static str,
    /// An example of what follows, in feet and inches, and in millimetres.
    pub(super) example: [&'static str; 2],
}

const fn row(
    word: Word,
    text: &'static str,
    also: &'static [&'static str],
    takes: Takes,
    meaning: &'static str,
    example: [&'static str; 2],
) -> Row {
    Row {
        word,
        text,
        also,
        takes,
        meaning,
        example,
    }
}

/// Every word.
#[rustfmt::skip]
pub(super) const WORDS: &[Row] = {
    use Takes::{Angle, Background, BuildUp, End, Length, Name, Nothing, Size, Splay};
    &[
        row(Word::Plan, "plan", &[], Nothing, "all the walls of a building, by its outside sizes", ["", ""]),
        row(Word::Wall, "wall", &["walls"], Nothing, "a wall with a level top", ["", ""]),
        row(Word::Gable, "gable", &["gables"], Nothing, "a wall with a ridge", ["", ""]),
        row(Word::Raked, "raked", &[], Nothing, "a wall with a sloping top", ["", ""]),
        row(Word::Curved, "curved", &[], Nothing, "a wall curved on plan", ["", ""]),
        row(Word::Window, "window", &["windows"], Nothing, "a window", ["", ""]),
        row(Word::Door, "door", &["doors"], Nothing, "a door", ["", ""]),
        row(Word::Opening, "opening", &["openings"], Nothing, "an opening without a frame", ["", ""]),
        row(Word::Arched, "arched", &["arch"], Nothing, "with an arched head", ["", ""]),
        row(Word::Round, "round", &["circular"], Nothing, "round", ["", ""]),
        row(Word::Pocket, "pocket", &["pockets"], Nothing, "a hollow that is filled on its own", ["", ""]),
        row(Word::Of, "of", &[], Nothing, "so many of them", ["", ""]),
        row(Word::By, "x", &["by"], Nothing, "by the height, or by the other side", ["", ""]),
        row(Word::Ell, "L", &[], Nothing, "a rectangle less a corner", ["", ""]),
        row(Word::Clear, "clear", &[], Nothing, "the sizes are those of the inside", ["", ""]),
        row(Word::Less, "less", &["minus"], Size, "the corner that is not built", ["12' x 8'", "3600 x 2400"]),
        row(Word::Left, "left", &[], Length, "plaster stops short of the left end", ["18\"", "450"]),
        row(Word::Right, "right", &[], Length, "plaster stops short of the right end", ["18\"", "450"]),
        row(Word::High, "high", &["height"], Length, "height", ["9'", "2700"]),
        row(Word::Thick, "thick", &["thickness"], Length, "thickness without plaster", ["18\"", "450"]),
        row(Word::Rounded, "rounded", &["rounding"], Length, "radius of the edges", ["2\"", "50"]),
        row(Word::Cove, "cove", &[], Length, "radius of the internal angles", ["1 1/2\"", "40"]),
        row(Word::Base, "base", &["plinth"], Length, "plaster begins above the bottom", ["4\"", "100"]),
        row(Word::Ceiling, "ceiling", &[], Length, "height of the ceiling", ["8'6\"", "2500"]),
        row(Word::Ridge, "ridge", &[], Length, "height of the ridge", ["14'", "4200"]),
        row(Word::To, "to", &[], Length, "height at the right end", ["11'", "3300"]),
        row(Word::Radius, "radius", &[], Length, "radius to the outside face", ["20'", "6000"]),
        row(Word::Sweep, "sweep", &[], Angle, "angle on plan, in place of the length", ["90", "90"]),
        row(Word::At, "at", &[], Length, "from the left end, as seen from outside", ["6'", "1800"]),
        row(Word::From, "from", &[], End, "which end it is measured from", ["right", "right"]),
        row(Word::Sill, "sill", &[], Length, "height of the sill", ["2'8\"", "800"]),
        row(Word::Rise, "rise", &[], Length, "rise of the arch", ["1'", "300"]),
        row(Word::Springing, "springing", &[], Length, "springing above the sill, in place of the height", ["5'", "1500"]),
        row(Word::Elliptical, "elliptical", &[], Nothing, "the arch is half an ellipse", ["", ""]),
        row(Word::Every, "every", &["centres", "centers"], Length, "from one to the next", ["9'", "2700"]),
        row(Word::Frame, "frame", &[], Length, "from the outside face to the frame", ["4\"", "100"]),
        row(Word::Deep, "deep", &["depth"], Length, "depth", ["3\"", "75"]),
        row(Word::Splay, "splay", &["splayed"], Splay, "splay of the reveals, from square", ["20", "20"]),
        row(Word::Jambs, "jambs", &["jamb"], Nothing, "the upright sides", ["", ""]),
        row(Word::Head, "head", &[], Nothing, "the underside of the head", ["", ""]),
        row(Word::Ring, "ring", &[], Nothing, "all the way round", ["", ""]),
        row(Word::Lath, "lath", &[], Length, "width of the strip of lath at the edges", ["6\"", "150"]),
        row(Word::Bare, "bare", &[], Nothing, "no plaster in the reveals", ["", ""]),
        row(Word::Inside, "inside", &[], Nothing, "what follows is for the inside", ["", ""]),
        row(Word::Outside, "outside", &[], Nothing, "what follows is for the outside", ["", ""]),
        row(Word::Only, "only", &[], Nothing, "and the other side is not plastered", ["", ""]),
        row(Word::With, "with", &[], BuildUp, "the build-up of the face", ["", ""]),
        row(Word::On, "on", &[], Background, "the background of the face", ["", ""]),
        row(Word::Name, "name", &["called"], Name, "what it is called", ["\"south wall\"", "\"south wall\""]),
        row(Word::Id, "id", &[], Name, "its short name on the drawing", ["W12", "W12"]),
    ]
};

impl Word {
    /// The row of a word.
    pub(super) fn row(self) -> Option<&'static Row> {
        WORDS.iter().find(|row| row.word == self)
    }

    /// How it is written.
    pub(super) fn text(self) -> &'static str {
        self.row().map_or("", |row| row.text)
    }
}

/// What a typed word may be among some.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Match {
    One(Word),
    /// More than one.
    Several(Vec<Word>),
    None,
}

/// Whether a typed word is a whole one, in any letters, small or capital.
fn is(row: &Row, typed: &str) -> bool {
    row.text.eq_ignore_ascii_case(typed)
        || row.also.iter().any(|also| also.eq_ignore_ascii_case(typed))
}

/// Whether a word begins with what was typed.
pub(super) fn begins(text: &str, typed: &str) -> bool {
    text.get(..typed.len())
        .is_some_and(|start| start.eq_ignore_ascii_case(typed))
}

/// Finds a typed word among some: a whole word, or one that may be shortened to it.
pub(super) fn find(typed: &str, among: &[Word]) -> Match {
    let rows = || among.iter().filter_map(|word| word.row());
    if let Some(row) = rows().find(|row| is(row, typed)) {
        return Match::One(row.word);
    }
    let shortened: Vec<Word> = rows()
        .filter(|row| begins(row.text, typed))
        .map(|row| row.word)
        .collect();
    match shortened.as_slice() {
        [] => Match::None,
        [word] => Match::One(*word),
        _ => Match::Several(shortened),
    }
}

/// Finds a whole word wherever it may stand.
pub(super) fn known(typed: &str) -> Option<Word> {
    WORDS.iter().find(|row| is(row, typed)).map(|row| row.word)
}
