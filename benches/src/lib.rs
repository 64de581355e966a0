//! Projects of many walls, made from a fixed seed, for measuring how fast the program is and how much memory it takes.
//!
//! - [`terrace`]: the projects;
//! - [`season`]: a year of weather, and faces in it;
//! - [`rings`]: the outlines and holes of their faces as plain rings, for another library to measure;
//! - [`taken`]: what this process has taken.
//!
//! The benches and the limits that must hold are in `benches/` and `src/bin/ratios/`. That figures are the same to the last
//! bit on any number of cores is tested here, where there are walls enough. Not here: anything that the program itself needs.

pub mod rings;
pub mod season;
mod spelling;
pub mod taken;
pub mod terrace;

/// The demo projects, by name. The weather that lies beside them is none.
///
/// # Errors
///
/// When their folder cannot be read from here.
pub fn demo_projects() -> std::io::Result<Vec<std::path::PathBuf>> {
    let mut files = std::fs::read_dir("demo-projects")?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<std::io::Result<Vec<_>>>()?;
    files.retain(|file| file.extension().is_some_and(|ending| ending == "json"));
    files.sort();
    Ok(files)
}

#[cfg(test)]
mod tests {
    use crate::terrace::{Walls, project};
    use hodful_takeoff::{check, evaluate};
    use rayon::ThreadPoolBuilder;

    /// Walls enough for several chunks of the evaluation and a part of one.
    const COUNT: usize = 5_000;

    /// Every number is compared by its shortest decimal that reads back as the same bits.
    #[test]
    fn figures_are_the_same_on_any_number_of_cores() {
        let checked = check(&project(Walls::Mixed, COUNT), &hodful_project_file::rules())
            .expect("nothing is refused");
        let figures = |threads: usize| {
            let pool = ThreadPoolBuilder::new()
                .num_threads(threads)
                .build()
                .expect("threads can be had");
            format!("{:?}", pool.install(|| evaluate(&checked)))
        };
        let alone = figures(1);
        assert!(alone.len() > COUNT);
        for threads in [2, 3, 8] {
            assert!(
                figures(threads) == alone,
                "{threads} threads give other figures than one"
            );
        }
    }
}
