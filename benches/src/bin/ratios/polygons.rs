//! The polygon library on the other side: a child process that is told what to measure. Not here: what is made of it.

use crate::Outcome;
use hodful_benches::rings::Rings;
use hodful_takeoff::Project;
use std::fs::File;
use std::io::{BufRead, BufReader, BufWriter, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::str::FromStr;
use std::time::Duration;

/// How the openings of a face are taken together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Way {
    /// All of them united, then the difference.
    Union,
    /// United beforehand where they are apart, and within the time only where they overlap.
    Apart,
}

/// One measuring of all faces.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Measured {
    pub(crate) time: Duration,
    /// Time of the processor, all threads together.
    pub(crate) work: Duration,
    /// In square millimetres.
    pub(crate) area: f64,
}

/// The child process.
#[derive(Debug)]
pub(crate) struct Polygons {
    child: Child,
    orders: ChildStdin,
    answers: BufReader<ChildStdout>,
    /// Names and versions of the libraries.
    pub(crate) versions: String,
}

impl Polygons {
    pub(crate) fn start(python: &str) -> Outcome<Self> {
        let mut child = Command::new(python)
            .arg("benches/areas.py")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .map_err(|cause| format!("cannot start {python}: {cause}"))?;
        let (Some(orders), Some(answers)) = (child.stdin.take(), child.stdout.take()) else {
            return Err("the child process has no pipes".into());
        };
        let mut polygons = Self {
            child,
            orders,
            answers: BufReader::new(answers),
            versions: String::new(),
        };
        polygons.versions = polygons.answer()?;
        Ok(polygons)
    }

    /// Hands over the faces of a project, through a file; gives the number of faces, of holes a face, and of faces whose
    /// holes overlap.
    pub(crate) fn load(&mut self, project: &Project, file: &Path) -> Outcome<[usize; 3]> {
        let mut out = BufWriter::new(File::create(file)?);
        Rings::of(project).write(&mut out)?;
        out.flush()?;
        let path = file
            .to_str()
            .ok_or("the folder for passing files has no plain name")?;
        let answer = self.order(&format!("load {path}"))?;
        std::fs::remove_file(file)?;
        numbers(&answer)
    }

    pub(crate) fn measure(&mut self, way: Way, threads: usize) -> Outcome<Measured> {
        let way = match way {
            Way::Union => "union",
            Way::Apart => "apart",
        };
        let answer = self.order(&format!("{way} {threads}"))?;
        let [time, work, area] = numbers::<f64, 3>(&answer)?;
        let [time, work] = [
            Duration::try_from_secs_f64(time)?,
            Duration::try_from_secs_f64(work)?,
        ];
        Ok(Measured { time, work, area })
    }

    fn order(&mut self, order: &str) -> Outcome<String> {
        writeln!(self.orders, "{order}")?;
        self.orders.flush()?;
        self.answer()
    }

    fn answer(&mut self) -> Outcome<String> {
        let mut line = String::new();
        if self.answers.read_line(&mut line)? == 0 {
            return Err("benches/areas.py ended; what it said is above".into());
        }
        Ok(line.trim().to_owned())
    }
}

impl Drop for Polygons {
    fn drop(&mut self) {
        // It ends by itself when its orders do; nothing is lost when it is already gone.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn numbers<T: FromStr, const N: usize>(answer: &str) -> Outcome<[T; N]> {
    let found: Vec<T> = answer
        .split_whitespace()
        .filter_map(|word| word.parse().ok())
        .collect();
    found
        .try_into()
        .map_err(|_| format!("benches/areas.py answered '{answer}'").into())
}
