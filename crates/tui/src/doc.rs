//! The project with its figures and its history: every change goes through `Doc::edit`, so that none
//! can be forgotten by undo. Not here: what is chosen on the screen.

use ecow::EcoString;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::change::Change;
use hodful_takeoff::form::Subject;
use hodful_takeoff::{Headline, Problem, Project, RuleBook, Severity};
use std::sync::Arc;

/// One change that can be taken back.
#[derive(Debug, Clone)]
pub struct Step {
    /// What it did, in words: `sill of W1 in wall S`.
    pub label: EcoString,
    /// What was chosen before it.
    pub before: Option<Subject>,
    /// What was chosen after it.
    pub after: Option<Subject>,
    change: Change,
    number: u64,
    /// Steps with the same one in a row are one: a key that is held.
    merge: Option<EcoString>,
}

/// What a change wants to be called and where it stands.
#[derive(Debug, Clone, Default)]
pub struct Label {
    /// What it does, in words.
    pub words: EcoString,
    /// What is chosen before it.
    pub before: Option<Subject>,
    /// What is chosen after it.
    pub after: Option<Subject>,
    /// Steps with the same one in a row are one.
    pub merge: Option<EcoString>,
}

/// The project, its figures and its history.
#[derive(Debug)]
pub struct Doc {
    bench: Bench,
    headline: Headline,
    done: Vec<Step>,
    undone: Vec<Step>,
    /// Number of the last step given out, and that of the state on the disk.
    numbers: u64,
    saved: Option<u64>,
    /// Everything refused and doubtful, as last looked over.
    problems: Vec<Problem>,
    /// Whether the last change brought other refusals.
    refusals_changed: bool,
}

impl Doc {
    /// A project as opened; `saved` when it stands so on the disk.
    pub fn new(project: Project, rules: Arc<RuleBook>, saved: bool) -> Self {
        let bench = Bench::new(Arc::new(project), rules);
        let headline = Headline::of(bench.project(), bench.evaluation());
        let mut doc = Self {
            bench,
            headline,
            done: Vec::new(),
            undone: Vec::new(),
            numbers: 0,
            saved: saved.then_some(0),
            problems: Vec::new(),
            refusals_changed: false,
        };
        doc.problems = doc.refused();
        doc
    }

    /// The project.
    pub fn project(&self) -> &Arc<Project> {
        self.bench.project()
    }

    /// Its figures.
    pub fn bench(&self) -> &Bench {
        &self.bench
    }

    /// The figures that stay in sight.
    pub fn headline(&self) -> &Headline {
        &self.headline
    }

    /// Everything refused and doubtful, as last looked over.
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    /// Takes over what looking over found.
    pub(crate) fn set_problems(&mut self, problems: Vec<Problem>) {
        self.problems = problems;
        // Refusals first, as a change of the project keeps them.
        self.problems
            .sort_by_key(|problem| problem.severity == Severity::Doubtful);
    }

    /// Whether there is work that is not on the disk.
    pub fn is_changed(&self) -> bool {
        self.saved != Some(self.number())
    }

    /// The number of the state the project is in: undo gives an earlier one back.
    pub fn number(&self) -> u64 {
        self.done.last().map_or(0, |step| step.number)
    }

    /// Marks a state as the one on the disk.
    pub(crate) fn set_saved(&mut self, number: u64) {
        self.saved = Some(number);
    }

    /// What undo would take back.
    pub fn next_undo(&self) -> Option<&Step> {
        self.done.last()
    }

    /// What redo would do again.
    pub fn next_redo(&self) -> Option<&Step> {
        self.undone.last()
    }

    /// Changes the project. Nothing happens, and no step is kept, when `f` fails or changes nothing.
    /// Gives the project as it was when something changed.
    ///
    /// # Errors
    /// Those of `f`.
    pub(crate) fn edit<T>(
        &mut self,
        label: Label,
        f: impl FnOnce(&mut Project) -> Result<T, EcoString>,
    ) -> Result<(T, Option<Arc<Project>>), EcoString> {
        let before = Arc::clone(self.project());
        let mut project = Project::clone(&before);
        let made = f(&mut project)?;
        let change = Change::between(&before, &project);
        if change.is_nothing() {
            return Ok((made, None));
        }
        self.numbers += 1;
        let step = Step {
            label: label.words,
            before: label.before,
            after: label.after,
            change,
            number: self.numbers,
            merge: label.merge,
        };
        self.set(project);
        self.undone.clear();
        match self.done.last_mut() {
            // Not over a state that is on the disk: undo must be able to come back to it.
            Some(last)
                if last.merge.is_some()
                    && last.merge == step.merge
                    && self.saved != Some(last.number) =>
            {
                let mut first = Project::clone(&before);
                last.change.inverse().apply(&mut first);
                last.change = Change::between(&first, self.bench.project());
                last.number = step.number;
                last.after = step.after;
            }
            _ => self.done.push(step),
        }
        Ok((made, Some(before)))
    }

    /// Says what is chosen after the last step, when that is known only then. Gives its words.
    pub(crate) fn set_after(&mut self, subject: Subject) -> Option<EcoString> {
        let last = self.done.last_mut()?;
        last.after = Some(subject);
        Some(last.label.clone())
    }

    /// Ends a run of steps that would become one.
    pub(crate) fn end_run(&mut self) {
        if let Some(last) = self.done.last_mut() {
            last.merge = None;
        }
    }

    /// Takes the last step back. Gives it, and the project as it was.
    pub(crate) fn undo(&mut self) -> Option<(Step, Arc<Project>)> {
        let step = self.done.pop()?;
        let before = Arc::clone(self.project());
        let mut project = Project::clone(&before);
        step.change.inverse().apply(&mut project);
        self.set(project);
        self.undone.push(step.clone());
        Some((step, before))
    }

    /// Does the last step taken back again. Gives it, and the project as it was.
    pub(crate) fn redo(&mut self) -> Option<(Step, Arc<Project>)> {
        let step = self.undone.pop()?;
        let before = Arc::clone(self.project());
        let mut project = Project::clone(&before);
        step.change.apply(&mut project);
        self.set(project);
        self.done.push(step.clone());
        Some((step, before))
    }

    fn set(&mut self, project: Project) {
        self.bench.set(Arc::new(project));
        self.headline = Headline::of(self.bench.project(), self.bench.evaluation());
        // What is doubtful is looked for apart, off the key path; until then the old doubts stand.
        let refused = self.refused();
        let old = self
            .problems
            .iter()
            .take_while(|problem| problem.severity == Severity::Refused)
            .count();
        self.refusals_changed = self.problems.get(..old) != Some(&refused);
        if self.refusals_changed {
            self.problems
                .retain(|problem| problem.severity == Severity::Doubtful);
            self.problems.splice(0..0, refused);
        }
    }

    /// Whether the last change brought other refusals.
    pub(crate) fn refusals_changed(&self) -> bool {
        self.refusals_changed
    }

    fn refused(&self) -> Vec<Problem> {
        self.bench.problems().cloned().collect()
    }
}
