//! The format of a case file: minimal projects, and cases that each ask one thing and tell where its
//! answer is published. Not here: asking Hodful.

use crate::unit::Unit;
use indexmap::IndexMap;
use serde::Deserialize;
use serde_json::value::RawValue;

/// A group of cases.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
enum Format {
    #[serde(rename = "hodful-cases")]
    Cases,
}

/// A file of cases as it stands on disk.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct CaseFile {
    #[serde(rename = "format")]
    _format: Format,
    version: u32,
    about: String,
    projects: IndexMap<String, Box<RawValue>>,
    cases: Vec<Row>,
}

/// A case as it stands on disk: the fields that belong to its kind, and no others.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    id: String,
    title: String,
    source: String,
    how_read: String,
    kind: Kind,
    project: Option<String>,
    figure: Option<String>,
    text: Option<String>,
    #[serde(rename = "as")]
    measure: Option<Measured>,
    inputs: Option<Inputs>,
    of: Option<SegmentFigure>,
    expected: Option<f64>,
    between: Option<[f64; 2]>,
    unit: Option<Unit>,
    tolerance: Option<Tolerance>,
    says: Option<String>,
    #[serde(default = "yes")]
    reproduce: bool,
    #[serde(rename = "note")]
    _note: Option<String>,
}

fn yes() -> bool {
    true
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Kind {
    Figure,
    Read,
    Segment,
    Doubt,
}

/// How far an answer may be off.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Tolerance {
    /// In the unit of the answer.
    Abs(f64),
    /// As a share of the answer.
    Rel(f64),
}

/// A group of cases, checked.
#[derive(Debug)]
pub struct Group {
    /// What the group is about.
    pub about: String,
    /// Whole project files by name.
    pub projects: IndexMap<String, Box<RawValue>>,
    /// The cases.
    pub cases: Vec<Case>,
}

/// One published answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// Its name, which no other case has.
    pub id: String,
    /// What is asked.
    pub title: String,
    /// Where it is published.
    pub source: String,
    /// How far the source was read: itself, a restatement, from memory, computed.
    pub how_read: String,
    /// What is asked of Hodful, and the answer.
    pub ask: Ask,
    /// Whether the answer must come out; a published slip must not.
    pub reproduce: bool,
}

/// What is asked, and the answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Ask {
    /// A number.
    Number {
        /// Where it comes from.
        question: Question,
        /// The answer.
        answer: Answer,
        /// Unit of the answer.
        unit: Unit,
    },
    /// Whether a doubt is raised.
    Doubt {
        /// Name of the project.
        project: String,
        /// Words of its message.
        says: String,
    },
}

/// Where a number comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// A figure of a project of the group, by its path.
    Figure {
        /// Name of the project.
        project: String,
        /// Path of the figure.
        figure: String,
    },
    /// The value of a text.
    Read {
        /// The text as typed.
        text: String,
        /// What it is read as.
        measure: Measured,
    },
    /// A figure of a circular segment that follows from area and arc as Hodful measures them.
    Segment {
        /// Name of the project, whose only opening is the segment.
        project: String,
        /// Chord and rise, in the unit of the answer.
        inputs: Inputs,
        /// What is asked.
        of: SegmentFigure,
    },
}

/// Kinds of value that can be read from a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Measured {
    /// A length.
    Length,
    /// An area.
    Area,
    /// A volume.
    Volume,
    /// A mass.
    Mass,
    /// A mass per volume.
    Density,
    /// An angle.
    Angle,
    /// A ratio.
    Ratio,
}

/// Chord and rise of a segment.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Inputs {
    /// Chord.
    pub span: f64,
    /// Rise.
    pub rise: f64,
}

/// What can be asked of a segment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SegmentFigure {
    /// Its radius.
    Radius,
}

/// The answer a source gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Answer {
    /// One number.
    Near {
        /// The number as printed.
        expected: f64,
        /// How far off is still right.
        tolerance: Tolerance,
    },
    /// A published spread.
    Between {
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
    },
}

impl Answer {
    /// Whether a value agrees with it.
    ///
    /// ```
    /// use hodful_tests::case::{Answer, Tolerance};
    /// let rounded = Answer::Near { expected: 73.0, tolerance: Tolerance::Abs(0.1) };
    /// assert!(rounded.agrees(73.074) && !rounded.agrees(73.2) && !rounded.agrees(f64::NAN));
    /// assert!(!Answer::Between { low: 15.0, high: 25.0 }.agrees(25.1));
    /// ```
    pub fn agrees(&self, value: f64) -> bool {
        match *self {
            Self::Near {
                expected,
                tolerance,
            } => {
                let room = match tolerance {
                    Tolerance::Abs(room) => room,
                    Tolerance::Rel(share) => expected.abs() * share,
                };
                (value - expected).abs() <= room
            }
            Self::Between { low, high } => (low..=high).contains(&value),
        }
    }
}

/// Why a case file is not one.
#[derive(Debug, thiserror::Error)]
pub enum CaseFault {
    /// Not JSON of this shape.
    #[error(transparent)]
    Json(#[from] serde_json::Error),
    /// Of another version.
    #[error("version {0} of the case format is not known")]
    Version(u32),
    /// A case whose fields do not make one.
    #[error("case {id}: {why}")]
    Row {
        /// Its name.
        id: String,
        /// What is wrong.
        why: &'static str,
    },
}

impl Group {
    /// Reads a case file.
    ///
    /// # Errors
    /// [`CaseFault`] when the bytes are not JSON of this shape, a case lacks a field of its kind or
    /// has one of another, names a project that is not there, or tells no source.
    pub fn read(bytes: &[u8]) -> Result<Self, CaseFault> {
        let file: CaseFile = serde_json::from_slice(bytes)?;
        if file.version != 1 {
            return Err(CaseFault::Version(file.version));
        }
        let cases = file
            .cases
            .into_iter()
            .map(|row| {
                let id = row.id.clone();
                row.into_case(&file.projects)
                    .map_err(|why| CaseFault::Row { id, why })
            })
            .collect::<Result<_, _>>()?;
        Ok(Self {
            about: file.about,
            projects: file.projects,
            cases,
        })
    }
}

impl Row {
    fn into_case(self, projects: &IndexMap<String, Box<RawValue>>) -> Result<Case, &'static str> {
        if [&self.id, &self.title, &self.source, &self.how_read]
            .iter()
            .any(|s| s.trim().is_empty())
        {
            return Err("id, title, source and how_read must say something");
        }
        if self
            .project
            .as_ref()
            .is_some_and(|name| !projects.contains_key(name))
        {
            return Err("its project is not in the file");
        }
        let (id, title, source) = (self.id.clone(), self.title.clone(), self.source.clone());
        let (how_read, reproduce) = (self.how_read.clone(), self.reproduce);
        let ask = if self.kind == Kind::Doubt {
            self.doubt()?
        } else {
            self.number()?
        };
        Ok(Case {
            id,
            title,
            source,
            how_read,
            ask,
            reproduce,
        })
    }

    fn doubt(self) -> Result<Ask, &'static str> {
        let number = self.answer().is_ok() || self.unit.is_some();
        match (self.project, self.says, self.figure, self.text) {
            (Some(project), Some(says), None, None) if !number && !says.is_empty() => {
                Ok(Ask::Doubt { project, says })
            }
            _ => Err("a doubt wants a project and what it says, and nothing else"),
        }
    }

    fn number(self) -> Result<Ask, &'static str> {
        let answer = self.answer()?;
        let unit = self.unit.ok_or("a number wants a unit")?;
        if self.says.is_some() {
            return Err("its fields are not those of its kind");
        }
        let question = match (
            self.kind,
            self.project,
            self.figure,
            self.text,
            self.measure,
        ) {
            (Kind::Figure, Some(project), Some(figure), None, None) => {
                Question::Figure { project, figure }
            }
            (Kind::Read, None, None, Some(text), Some(measure)) => Question::Read { text, measure },
            (Kind::Segment, Some(project), None, None, None) => {
                let inputs = self.inputs.ok_or("a segment wants inputs")?;
                let of = self.of.ok_or("a segment wants 'of'")?;
                Question::Segment {
                    project,
                    inputs,
                    of,
                }
            }
            _ => return Err("its fields are not those of its kind"),
        };
        Ok(Ask::Number {
            question,
            answer,
            unit,
        })
    }

    fn answer(&self) -> Result<Answer, &'static str> {
        match (self.expected, self.tolerance, self.between) {
            (Some(expected), Some(tolerance), None) => Ok(Answer::Near {
                expected,
                tolerance,
            }),
            (None, None, Some([low, high])) if low < high => Ok(Answer::Between { low, high }),
            _ => Err("give expected and tolerance, or between"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn group(case: &str) -> Result<Group, CaseFault> {
        let file = format!(
            r#"{{"format":"hodful-cases","version":1,"about":"a","projects":{{"p":{{}}}},"cases":[{case}]}}"#
        );
        Group::read(file.as_bytes())
    }

    const SAID: &str = r#""id":"i","title":"t","source":"s","how_read":"h""#;

    fn check(fields: &str, expected: Result<(), &str>) {
        let got = group(&format!("{{{SAID},{fields}}}"));
        match (got, expected) {
            (Ok(_), Ok(())) => {}
            (Err(fault), Err(words)) => {
                assert!(fault.to_string().contains(words), "{fields}: {fault}");
            }
            (got, expected) => panic!("{fields}: {got:?}, not {expected:?}"),
        }
    }

    #[test]
    fn fields_belong_to_their_kind() {
        let figure = r#""kind":"figure","project":"p","figure":"totals.measured","unit":"m2""#;
        let near = r#""expected":1.0,"tolerance":{"abs":0.1}"#;
        check(&format!("{figure},{near}"), Ok(()));
        check(&format!(r#"{figure},"between":[1.0,2.0]"#), Ok(()));
        check(
            &format!(r#"{figure},"between":[2.0,1.0]"#),
            Err("expected and tolerance"),
        );
        check(
            &format!(r#"{figure},"expected":1.0"#),
            Err("expected and tolerance"),
        );
        check(
            &format!(r#"{figure},{near},"text":"1 m""#),
            Err("not those of its kind"),
        );
        check(
            &format!(r#"{figure},{near},"txet":"1 m""#),
            Err("unknown field"),
        );
        check(
            &format!(r#""kind":"figure","project":"q","figure":"f","unit":"m2",{near}"#),
            Err("not in the file"),
        );
        check(
            &format!(r#""kind":"read","text":"1 m","as":"length","unit":"yard",{near}"#),
            Err("unknown variant"),
        );
        check(r#""kind":"doubt","project":"p","says":"thin""#, Ok(()));
        check(
            &format!(r#""kind":"doubt","project":"p","says":"thin",{near}"#),
            Err("a doubt wants"),
        );
    }

    #[test]
    fn a_case_without_a_source_is_none() {
        let case = r#"{"id":"i","title":"t","source":" ","how_read":"h","kind":"read","text":"1 m","as":"length","unit":"m","expected":1.0,"tolerance":{"rel":0.1}}"#;
        assert!(
            group(case)
                .unwrap_err()
                .to_string()
                .contains("must say something")
        );
    }
}
