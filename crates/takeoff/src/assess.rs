//! A project checked, evaluated and looked over in one call. Not here: any of the three.

use crate::blend::{self, Blended};
use crate::card::{self, Card};
use crate::check::{Looked, look};
use crate::checked::Checked;
use crate::compare::One;
use crate::days::{Days, WeekendAhead};
use crate::doubts::{doubts, of_sound_walls};
use crate::evaluate::{CoatFigures, Evaluation, FaceFigures, evaluate};
use crate::explain::{PathFault, Source, explain, paths};
use crate::figure::Node;
use crate::forecast::Forecast;
use crate::problem::{Problem, Severity, Step};
use crate::project::{Coat, Name, Project, Side, Wall};
use crate::rule::RuleBook;
use crate::supply::{self, Supply};
use ecow::EcoString;
use hodful_air::Weather;
use hodful_quantities::mix::Quantity;
use jiff::civil::Date;
use std::iter::zip;

/// A project with its figures.
#[derive(Debug, Clone)]
pub struct Assessed<'p> {
    /// As typed.
    pub project: &'p Project,
    /// As numbers.
    pub checked: Checked,
    /// Its figures.
    pub evaluation: Evaluation,
    /// What is doubtful.
    pub doubts: Vec<Problem>,
}

impl<'p> Assessed<'p> {
    /// Checks, evaluates and looks over a project.
    ///
    /// # Errors
    /// Every problem, doubts included, when at least one thing is refused.
    pub fn new(project: &'p Project, rules: &RuleBook) -> Result<Self, Vec<Problem>> {
        let Looked {
            checked,
            sound,
            mut problems,
        } = look(project, rules);
        if !problems.is_empty() {
            problems.extend(of_sound_walls(project, &checked, &sound));
            return Err(problems);
        }
        let evaluation = evaluate(&checked);
        let doubts = doubts(project, &checked, &evaluation);
        if doubts
            .iter()
            .any(|problem| problem.severity == Severity::Refused)
        {
            return Err(doubts);
        }
        Ok(Self {
            project,
            checked,
            evaluation,
            doubts,
        })
    }

    /// Every problem of a project that could be read only in part: those of the reading, then what is
    /// refused besides. Names that are missing only because the reading dropped what they name are
    /// left out, and so is what is doubtful.
    pub fn with_problems(
        partly_read: Option<&Project>,
        rules: &RuleBook,
        mut problems: Vec<Problem>,
    ) -> Vec<Problem> {
        let Some(Err(besides)) = partly_read.map(|project| Assessed::new(project, rules)) else {
            return problems;
        };
        let dropped: Vec<&EcoString> = problems
            .iter()
            .flat_map(|problem| problem.place.steps())
            .filter_map(|step| match step {
                Step::Thing(_, name) => Some(name),
                Step::Field(_) => None,
            })
            .collect();
        let besides: Vec<Problem> = besides
            .into_iter()
            .filter(|problem| problem.severity == Severity::Refused)
            .filter(|problem| {
                problem
                    .missing
                    .as_ref()
                    .is_none_or(|name| !dropped.contains(&name))
            })
            .collect();
        problems.extend(besides);
        problems
    }

    /// Every plastered face: its wall, its side, how many there are, and the figures of one.
    pub fn faces(&self) -> impl Iterator<Item = (&'p Wall, Side, u32, &FaceFigures)> {
        zip(&self.project.walls, &self.evaluation.faces).flat_map(|(wall, faces)| {
            zip([Side::Outside, Side::Inside], faces).filter_map(move |(side, figures)| {
                Some((&**wall, side, wall.count.unwrap_or(1), figures.as_ref()?))
            })
        })
    }

    /// Every coat of every build-up that a face uses: the build-up, the coat, its figures.
    pub fn coats(&self) -> impl Iterator<Item = (&'p Name, &'p Coat, &CoatFigures)> {
        zip(&self.project.build_ups, &self.evaluation.coats).flat_map(|((name, coats), figures)| {
            zip(coats, figures)
                .filter_map(|(coat, figures)| Some((coat, figures.as_ref()?)))
                .filter(|(_, figures)| figures.volume.placed.value > 0.0)
                .map(move |(coat, figures)| (name, coat, figures))
        })
    }

    /// What one full batch of a mix takes, as it is measured into the mixer: damp, past the screen;
    /// each material once, in the order of the mix, water last. Nothing without a mixer.
    pub fn batch_of(&self, mix: &str) -> Vec<(&'p Name, Quantity)> {
        self.checked.site.batch_of(self.project, mix)
    }

    /// Looks for a blend of the project by its name.
    ///
    /// # Errors
    /// In words: what is missing for it, or what cannot be.
    pub fn blend(&self, name: &str) -> Result<Blended, EcoString> {
        blend::find(self.project, &self.checked.site, name)
    }

    /// What to buy from whom.
    ///
    /// # Errors
    /// In words: what keeps it from being planned.
    pub fn supply(&self) -> Result<Supply, EcoString> {
        supply::find(self.project, &self.checked.site, &self.evaluation)
    }

    /// What the rest takes, by what the walls took so far.
    ///
    /// # Errors
    /// In words: what keeps it from being told.
    pub fn forecast(&self) -> Result<Forecast, EcoString> {
        Forecast::of(&self.one(None), &self.checked.walls)
    }

    /// The days on site, from a day on when the project gives none or another is wanted.
    ///
    /// # Errors
    /// In words: what keeps the work from being planned.
    pub fn days(&self, weather: Option<&Weather>, begins: Option<Date>) -> Result<Days, EcoString> {
        Days::of(&self.one(None), &self.checked.walls, weather, begins)
    }

    /// A few days with many hands: so many in a row from a day on, or, when none is given, the first days of weekends
    /// from the begin of the project on.
    ///
    /// # Errors
    /// As [`Self::days`].
    pub fn weekend(
        &self,
        weather: Option<&Weather>,
        begins: Option<Date>,
        days: usize,
    ) -> Result<WeekendAhead, EcoString> {
        let one = self.one(None);
        WeekendAhead::of(&one, &self.checked.walls, weather, begins, days)
    }

    /// The cards beside the mixer, one a mix.
    pub fn cards(&self) -> Vec<Card<'p>> {
        card::cards(self.project, &self.checked.site, &self.evaluation)
    }

    /// Itself, to be compared; the supply when it was planned.
    pub fn one<'a>(&'a self, supply: Option<&'a Supply>) -> One<'a> {
        One {
            project: self.project,
            site: &self.checked.site,
            evaluation: &self.evaluation,
            supply,
        }
    }

    /// The tree of a figure, by its path.
    ///
    /// # Errors
    /// [`PathFault`] when the path names nothing.
    pub fn explain(&self, path: &str) -> Result<Node, PathFault> {
        explain(self.source(), path)
    }

    /// The paths that can be asked for, the chief ones.
    pub fn paths(&self) -> Vec<EcoString> {
        paths(self.source())
    }

    fn source(&self) -> Source<'_> {
        Source::new(self.project, &self.checked, &self.evaluation)
    }
}
