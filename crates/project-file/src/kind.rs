//! What a file may say, as data: one table per record, read by the reader (for its hints), by the
//! schema and by the tests.
//!
//! Here belong the shapes of these tables. Not here: the tables themselves (see `tables`) and the
//! reading and writing they stand beside.

/// The kind of thing a value is.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Kind {
    /// Free text: a name, a note.
    Text,
    /// One exact text, such as the name of the format.
    Exactly(&'static str),
    /// The version of the format.
    Version(u64),
    /// A dimension as typed, with its unit.
    Measure(Measured),
    /// A plain number: bare, or as text.
    Number(Measured),
    /// A whole number, bare.
    Whole,
    /// True or false.
    Flag,
    /// One of a few words.
    Word(Words),
    /// How much a rule deducts: a share, or a word.
    Share(Words),
    /// An object with known keys.
    Record(&'static Record),
    /// An object whose keys depend on its `kind`.
    Tagged(&'static Tagged),
    /// A list.
    List(&'static Kind),
    /// An object whose keys are names.
    Named(&'static Kind),
    /// An object with `outside` and `inside`.
    Sides(&'static Kind),
    /// A pair of dimensions: from the left, and up.
    Corner(&'static Kind),
}

/// A quantity that is typed.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Measured {
    /// Its definition in the schema: `length`.
    pub(crate) name: &'static str,
    /// With its article: `a length`.
    pub(crate) what: &'static str,
    /// Right spellings: `2' 3", 27 in or 685 mm`.
    pub(crate) spellings: &'static str,
}

/// Gives the words of a closed set.
pub(crate) type Words = fn() -> Vec<&'static str>;

/// An object with known keys.
#[derive(Debug)]
pub(crate) struct Record {
    /// With its article: `an opening`.
    pub(crate) what: &'static str,
    /// What it is, for the schema.
    pub(crate) doc: &'static str,
    /// Whether it always stands on several lines.
    pub(crate) open: bool,
    /// Its keys, in the order they are written.
    pub(crate) keys: &'static [Key],
}

/// A key of a record.
#[derive(Debug)]
pub(crate) struct Key {
    /// As it stands in the file.
    pub(crate) name: &'static str,
    /// What it says, for the schema.
    pub(crate) doc: &'static str,
    /// Whether a file must have it.
    pub(crate) required: fn() -> bool,
    /// What stands under it.
    pub(crate) kind: Kind,
}

/// An object whose keys depend on its `kind`.
#[derive(Debug)]
pub(crate) struct Tagged {
    /// With its article: `a shape of wall`.
    pub(crate) what: &'static str,
    /// What it is, for the schema.
    pub(crate) doc: &'static str,
    /// Every key that any of its kinds has, but `kind`.
    pub(crate) keys: &'static [Key],
    /// The kinds.
    pub(crate) variants: &'static [Variant],
}

/// One kind of a tagged object.
#[derive(Debug)]
pub(crate) struct Variant {
    /// The word under `kind`.
    pub(crate) word: &'static str,
    /// What it is, for the schema.
    pub(crate) doc: &'static str,
    /// Its keys in the order they are written, and whether each is required.
    pub(crate) keys: &'static [(&'static str, bool)],
}

impl Kind {
    /// The right way to write a value of this kind, as the end of a message.
    pub(crate) fn want(&self) -> String {
        match self {
            Self::Text => "write it as text in double quotes".to_owned(),
            Self::Exactly(text) => format!("write \"{text}\""),
            Self::Version(version) => format!("write {version}, without quotes"),
            Self::Measure(measured) => measured.want(),
            Self::Number(measured) => format!("write a number: {}", measured.spellings),
            Self::Whole => "write a whole number without quotes, like 3".to_owned(),
            Self::Flag => "write true or false, without quotes".to_owned(),
            Self::Word(words) => format!("write {}", quoted(&words())),
            Self::Share(words) => {
                format!("write a share from 0 to 1, or {}", quoted(&words()))
            }
            Self::Record(record) => {
                let keys: Vec<_> = record.keys.iter().map(|key| key.name).collect();
                format!(
                    "write {} in braces, with {}",
                    record.what,
                    listed(&keys, "and")
                )
            }
            Self::Tagged(tagged) => {
                format!(
                    "write {} in braces, beginning with its kind: {}",
                    tagged.what,
                    {
                        let words: Vec<_> = tagged.variants.iter().map(|v| v.word).collect();
                        quoted(&words)
                    }
                )
            }
            Self::List(_) => "write a list in square brackets".to_owned(),
            Self::Named(_) => "write them in braces, each with its name in front".to_owned(),
            Self::Sides(_) => "write it in braces, with outside and inside".to_owned(),
            Self::Corner(_) => {
                "write two lengths in square brackets, from the left and up, like [\"2 m\", \"0\"]"
                    .to_owned()
            }
        }
    }

    /// Whether it is one value, with nothing inside.
    pub(crate) fn is_plain(&self) -> bool {
        !matches!(
            self,
            Self::Record(_)
                | Self::Tagged(_)
                | Self::List(_)
                | Self::Named(_)
                | Self::Sides(_)
                | Self::Corner(_)
        )
    }

    /// Whether it always stands on several lines.
    pub(crate) fn is_open(&self) -> bool {
        match self {
            Self::Record(record) => record.open,
            Self::List(item) => item.is_open(),
            Self::Named(item) => !item.is_plain(),
            _ => false,
        }
    }
}

impl Measured {
    /// The right spellings, each on its own, without what is said about it in brackets.
    pub(crate) fn examples(&self) -> impl Iterator<Item = &'static str> {
        let examples = self
            .spellings
            .split(", ")
            .flat_map(|part| part.split(" or "));
        examples.map(|example| example.split(" (").next().unwrap_or(example))
    }

    fn want(&self) -> String {
        // An inch mark would need a backslash in the file: not in an example.
        let example = self
            .examples()
            .find(|text| !text.contains('"'))
            .unwrap_or_default();
        let unit = example
            .chars()
            .any(|c| !(c.is_ascii_digit() || " .,/".contains(c)));
        let with = if unit { " with its unit" } else { "" };
        format!("write it as text{with}, like \"{example}\"")
    }
}

/// `a, b and c`.
pub(crate) fn listed(words: &[&str], last: &str) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [many @ .., one] => format!("{} {last} {one}", many.join(", ")),
    }
}

/// `'a', 'b' or 'c'`.
pub(crate) fn quoted(words: &[&str]) -> String {
    let words: Vec<_> = words.iter().map(|word| format!("'{word}'")).collect();
    let words: Vec<_> = words.iter().map(String::as_str).collect();
    listed(&words, "or")
}
