//! Equal parts of a project held once. Not here: what the parts are.

use super::Project;
use std::collections::HashSet;
use std::hash::Hash;
use std::sync::Arc;

/// Makes equal insets, frames, reveals and corners of a project one in memory. Nothing else changes;
/// an edit of one makes it its own again.
pub fn share(project: &mut Project) {
    let mut insets = HashSet::new();
    let mut frames = HashSet::new();
    let mut reveals = HashSet::new();
    let mut ends = HashSet::new();
    for wall in &mut project.walls {
        let wall = Arc::make_mut(wall);
        one(&mut wall.ends, &mut ends);
        for face in wall.outside.iter_mut().chain(&mut wall.inside) {
            face.inset
                .iter_mut()
                .for_each(|inset| one(inset, &mut insets));
        }
        for opening in &mut wall.openings {
            opening
                .frame
                .iter_mut()
                .for_each(|frame| one(frame, &mut frames));
            let both = opening.outside.iter_mut().chain(&mut opening.inside);
            both.for_each(|reveal| one(reveal, &mut reveals));
        }
    }
}

/// Puts the known equal in place of a part, or makes it known.
fn one<T: ?Sized + Eq + Hash>(part: &mut Arc<T>, known: &mut HashSet<Arc<T>>) {
    match known.get(part) {
        Some(same) => *part = Arc::clone(same),
        None => {
            known.insert(Arc::clone(part));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Frame;
    use super::*;
    use hodful_quantities::Typed;

    #[test]
    fn equal_parts_become_one() {
        let frame = |depth: &str| {
            Arc::new(Frame {
                from_outside: Typed::read("3 in").unwrap(),
                depth: Typed::read(depth).unwrap(),
            })
        };
        let mut known = HashSet::new();
        let mut frames = [frame("4 in"), frame("4 in"), frame("5 in")];
        for frame in &mut frames {
            one(frame, &mut known);
        }
        let [first, second, third] = &frames;
        assert!(Arc::ptr_eq(first, second));
        assert!(!Arc::ptr_eq(first, third));
        assert_eq!(third.depth.text(), "5 in");
    }
}
