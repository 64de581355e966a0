//! The letters of pages and drawings: the two fonts, which glyphs a text takes, how wide it is, where its
//! lines break. Not here: where a text stands.
//!
//! The fonts are Source Sans 3, regular and bold, under the SIL Open Font License 1.1 (see
//! `assets/fonts/LICENSE.md`). Their digits are all of one width, so that columns of figures stand
//! straight.

use rustybuzz::ttf_parser::GlyphId;
use rustybuzz::{Direction, Face, ShapePlan, UnicodeBuffer, script};
use std::ops::Range;
use unicode_linebreak::BreakOpportunity;
use unicode_segmentation::UnicodeSegmentation;

/// The regular font.
pub(crate) const REGULAR: &[u8] = include_bytes!("../assets/fonts/SourceSans3-Regular.ttf");
/// The bold font.
pub(crate) const BOLD: &[u8] = include_bytes!("../assets/fonts/SourceSans3-Bold.ttf");

/// Height of a capital, of the size of the letters: as the fonts themselves say.
pub(crate) const CAPITAL: f64 = 0.66;

/// What stands for a letter that the fonts do not have.
const LACKING: char = '□';

/// A weight of the letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) enum Weight {
    Regular,
    Bold,
}

/// The fonts, ready to set text in.
pub(crate) struct Letters {
    regular: Font,
    bold: Font,
}

struct Font {
    face: Face<'static>,
    plan: ShapePlan,
    /// Units of the font in the size of its letters.
    per_size: f64,
}

/// A glyph of a text; lengths in the size of the letters.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Glyph {
    pub(crate) id: u32,
    /// The bytes of the text it stands for.
    pub(crate) range: Range<usize>,
    pub(crate) advance: f64,
    pub(crate) offset: [f64; 2],
}

impl std::fmt::Debug for Letters {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Letters")
    }
}

impl Font {
    fn new(bytes: &'static [u8]) -> Option<Self> {
        let face = Face::from_slice(bytes, 0)?;
        let plan = ShapePlan::new(
            &face,
            Direction::LeftToRight,
            Some(script::LATIN),
            None,
            &[],
        );
        let per_size = f64::from(face.units_per_em());
        Some(Self {
            face,
            plan,
            per_size,
        })
    }

    fn has(&self, letter: char) -> bool {
        self.face
            .glyph_index(letter)
            .is_some_and(|id| id != GlyphId(0))
    }
}

impl Letters {
    /// `None` when the fonts that are built in cannot be read, which a test holds against.
    pub(crate) fn new() -> Option<Self> {
        Some(Self {
            regular: Font::new(REGULAR)?,
            bold: Font::new(BOLD)?,
        })
    }

    fn font(&self, weight: Weight) -> &Font {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }

    /// The glyphs of a text in one line, from left to right. Letters that the font lacks are one box for
    /// each that a reader would count; what has no look (controls, marks of direction) has no glyph.
    pub(crate) fn glyphs(&self, text: &str, weight: Weight) -> Vec<Glyph> {
        let font = self.font(weight);
        let (set, places) = prepared(font, text);
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(&set);
        buffer.set_direction(Direction::LeftToRight);
        buffer.set_script(script::LATIN);
        let shaped = rustybuzz::shape_with_plan(&font.face, &font.plan, buffer);
        let infos = shaped.glyph_infos();
        let whole = |number: i32| f64::from(number) / font.per_size;
        let start = |cluster: u32| place(&places, cluster);
        infos
            .iter()
            .zip(shaped.glyph_positions())
            .enumerate()
            .map(|(at, (info, position))| {
                let rest = infos.get(at + 1..).unwrap_or_default();
                let next = rest.iter().find(|next| next.cluster != info.cluster);
                let end = next.map_or(text.len(), |next| start(next.cluster));
                Glyph {
                    id: info.glyph_id,
                    range: start(info.cluster)..end,
                    advance: whole(position.x_advance),
                    offset: [whole(position.x_offset), whole(position.y_offset)],
                }
            })
            .collect()
    }

    /// Width of a text in one line, in the size of its letters.
    pub(crate) fn width(&self, text: &str, weight: Weight) -> f64 {
        self.glyphs(text, weight).iter().map(|g| g.advance).sum()
    }

    /// The lines of a text within a width (in the size of its letters): broken where a line may end
    /// (Unicode Standard Annex 14), and within a word only where the word alone is too wide. Never empty;
    /// blanks at the ends of lines are left out.
    pub(crate) fn lines<'t>(&self, text: &'t str, weight: Weight, width: f64) -> Vec<&'t str> {
        let glyphs = self.glyphs(text, weight);
        let advances = Advances::new(text, &glyphs);
        let room = width * (1.0 + crate::tolerance::ROOM);
        let mut lines = Vec::new();
        let mut line = 0..0;
        for (end, kind) in breaks(text) {
            let piece = line.end..end;
            let seen = text.get(line.start..end).unwrap_or_default().trim_end();
            let wide = advances.between(line.start, line.start + seen.len());
            if wide <= room {
                line.end = end;
            } else {
                if line.end > line.start {
                    lines.push(line.clone());
                }
                line = piece.start..piece.start;
                for (at, letter) in text
                    .get(piece.clone())
                    .unwrap_or_default()
                    .grapheme_indices(true)
                {
                    let to = piece.start + at + letter.len();
                    let blank = letter.trim().is_empty();
                    if !blank && line.end > line.start && advances.between(line.start, to) > room {
                        lines.push(line.clone());
                        line.start = piece.start + at;
                    }
                    line.end = to;
                }
            }
            if kind == BreakOpportunity::Mandatory {
                lines.push(line.clone());
                line = end..end;
            }
        }
        let of = |line: &Range<usize>| text.get(line.clone()).unwrap_or_default().trim();
        let lines: Vec<&str> = lines.iter().map(of).collect();
        if lines.is_empty() { vec![""] } else { lines }
    }

    /// Width of the widest piece of a text that no line breaks, in the size of its letters.
    pub(crate) fn widest_word(&self, text: &str, weight: Weight) -> f64 {
        let glyphs = self.glyphs(text, weight);
        let advances = Advances::new(text, &glyphs);
        let mut start = 0;
        let mut widest = 0.0_f64;
        for (end, _) in breaks(text) {
            let piece = text.get(start..end).unwrap_or_default().trim_end();
            widest = widest.max(advances.between(start, start + piece.len()));
            start = end;
        }
        widest
    }
}

/// Where lines of a text may or must end, as Unicode has it, but for a number and the unit behind it.
fn breaks(text: &str) -> impl Iterator<Item = (usize, BreakOpportunity)> {
    unicode_linebreak::linebreaks(text).filter(move |(end, kind)| {
        *kind == BreakOpportunity::Mandatory || !parts_a_unit(text, *end)
    })
}

/// Longest sign of a unit: `gal`, `deg`, `yd3`.
const LONGEST_UNIT: usize = 3;

/// Whether a place lies between a number and a sign as short as one of a unit.
fn parts_a_unit(text: &str, at: usize) -> bool {
    let Some((before, after)) = text.split_at_checked(at) else {
        return false;
    };
    let number = before.strip_suffix(' ').unwrap_or_default();
    let sign = after.split(|c: char| c.is_whitespace() || matches!(c, ';' | ',' | ')'));
    let sign = sign
        .map(|sign| sign.chars().count())
        .next()
        .unwrap_or_default();
    number.ends_with(|c: char| c.is_ascii_digit()) && (1..=LONGEST_UNIT).contains(&sign)
}

/// How far each byte of a text lies from its start, in the size of its letters.
struct Advances(Vec<f64>);

impl Advances {
    fn new(text: &str, glyphs: &[Glyph]) -> Self {
        let mut ends = vec![0.0; text.len() + 1];
        for glyph in glyphs {
            if let Some(end) = ends.get_mut(glyph.range.end) {
                *end += glyph.advance;
            }
        }
        let mut sum = 0.0;
        for end in &mut ends {
            sum += *end;
            *end = sum;
        }
        Self(ends)
    }

    fn between(&self, from: usize, to: usize) -> f64 {
        let at = |place: usize| self.0.get(place).or(self.0.last()).copied();
        at(to).unwrap_or_default() - at(from).unwrap_or_default()
    }
}

/// A text as it is set, and for each piece of it where it begins in the set text and in the text itself.
fn prepared(font: &Font, text: &str) -> (String, Vec<[usize; 2]>) {
    let mut set = String::new();
    let mut places = Vec::new();
    for (at, letter) in text.grapheme_indices(true) {
        places.push([set.len(), at]);
        if letter.chars().all(char::is_whitespace) {
            // A no-break blank stays one; a line break within a line is a blank.
            let plain = letter.chars().all(|blank| font.has(blank));
            set.push_str(if plain { letter } else { " " });
            continue;
        }
        let seen = letter.chars().filter(|c| !is_hidden(*c));
        if seen.clone().all(|c| font.has(c)) {
            set.extend(seen);
        } else {
            set.push(LACKING);
        }
    }
    (set, places)
}

/// Whether a letter has no look of its own: controls, joiners, marks of direction, choosers of variants.
fn is_hidden(letter: char) -> bool {
    letter.is_control()
        || matches!(letter,
            '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}'
            | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{e0000}'..='\u{e0fff}')
}

/// Where in the text the piece begins to which a byte of the set text belongs.
fn place(places: &[[usize; 2]], cluster: u32) -> usize {
    let cluster = usize::try_from(cluster).unwrap_or(usize::MAX);
    let after = places.partition_point(|[set, _]| *set <= cluster);
    let piece = after.checked_sub(1).and_then(|at| places.get(at));
    piece.map_or(0, |[_, at]| *at)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn letters() -> Letters {
        Letters::new().unwrap()
    }

    #[test]
    fn the_fonts_have_what_the_trade_writes() {
        let letters = letters();
        let wanted = "²³½¼¾⅛⅜⅝⅞′″×°≥≤–—…·€£−÷αβγδΩμłřŐžĐİЖя";
        for weight in [Weight::Regular, Weight::Bold] {
            let font = letters.font(weight);
            let lacks: String = wanted.chars().filter(|c| !font.has(*c)).collect();
            assert_eq!(lacks, "", "{weight:?}");
            assert!(font.has(LACKING));
        }
    }

    #[test]
    fn digits_are_of_one_width() {
        let letters = letters();
        let wide = letters.width("0000000000", Weight::Regular);
        assert!((letters.width("1234567890", Weight::Regular) - wide).abs() < 1e-9);
    }

    #[test]
    fn glyphs_cover_the_text_whatever_it_is() {
        let letters = letters();
        let texts = [
            "",
            "yard sand",
            "ffi",
            "e\u{301}",
            "👩‍🔧 mixer",
            "שלום world",
            "a\u{0}b\nc\u{202e}d",
            "\u{301}",
        ];
        for text in texts {
            let glyphs = letters.glyphs(text, Weight::Regular);
            let mut end = 0;
            for glyph in &glyphs {
                assert!(
                    text.get(glyph.range.clone()).is_some(),
                    "{text:?} {glyph:?}"
                );
                assert!(glyph.range.start <= end, "{text:?} {glyph:?}");
                end = end.max(glyph.range.end);
            }
            assert!(glyphs.is_empty() || end == text.len(), "{text:?}");
        }
        assert_eq!(letters.glyphs("👩‍🔧", Weight::Regular).len(), 1);
    }

    #[test]
    fn lines_keep_to_their_width_and_lose_nothing() {
        let letters = letters();
        let long = "x".repeat(300);
        let texts = ["Two short words", "", " ", "one\ntwo", &long, "12 345,6 kg"];
        for text in texts {
            for width in [3.0, 10.0, 1000.0] {
                let lines = letters.lines(text, Weight::Regular, width);
                assert!(!lines.is_empty());
                for line in &lines {
                    let wide = letters.width(line, Weight::Regular);
                    assert!(wide <= width + 1e-6, "{line:?} is {wide} in {width}");
                }
                let whole: String = text.split_whitespace().collect();
                let kept: String = lines.iter().flat_map(|l| l.split_whitespace()).collect();
                assert_eq!(kept, whole);
            }
        }
        assert_eq!(
            letters.lines("one\ntwo", Weight::Regular, 99.0),
            ["one", "two"]
        );
    }
}
