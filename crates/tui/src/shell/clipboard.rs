//! A text for the clipboard, as the terminal takes it: the control sequence OSC 52 ("Xterm Control
//! Sequences", "Operating System Commands", Ps = 52), which reaches the clipboard of the person even from a
//! machine far away. Whether the terminal heeds it cannot be known. Not here: sending it.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

/// The longest text that terminals are known to take, in bytes: 100,000 of sequence, less its head and end, in
/// fours of base64. From memory.
const MOST: usize = 74_994;

/// The longest string that GNU screen passes on in one piece, in bytes. From memory; well below its buffer.
const PIECE: usize = 512;

/// What stands between this program and the terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Between {
    Nothing,
    /// Takes the sequence itself, or passes it on wrapped, as it is set up; so both are sent.
    Tmux,
    /// Passes on what is wrapped, in pieces.
    Screen,
}

impl Between {
    /// Told from the values of the environment variables `TMUX`, `STY` and `TERM`.
    pub(super) fn told_by(tmux: bool, sty: bool, term: &str) -> Self {
        if tmux {
            Self::Tmux
        } else if sty || term == "screen" || term.starts_with("screen.") {
            Self::Screen
        } else {
            Self::Nothing
        }
    }
}

/// What to send for a text to be copied.
///
/// # Errors
/// When the text is longer than terminals take, in words.
pub(super) fn sequence(text: &str, between: Between) -> Result<Vec<u8>, String> {
    if text.len() > MOST {
        return Err(format!(
            "{} bytes are too many to copy: a terminal takes {MOST} at most",
            text.len()
        ));
    }
    let plain = format!("\x1b]52;c;{}\x07", STANDARD.encode(text));
    Ok(match between {
        Between::Nothing => plain.into_bytes(),
        Between::Tmux => {
            let doubled = plain.replace('\x1b', "\x1b\x1b");
            format!("{plain}\x1bPtmux;{doubled}\x1b\\").into_bytes()
        }
        Between::Screen => plain
            .as_bytes()
            .chunks(PIECE)
            .flat_map(|piece| [b"\x1bP", piece, b"\x1b\\"].concat())
            .collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sent(text: &str, between: Between) -> String {
        let bytes = sequence(text, between).expect("it is short");
        String::from_utf8(bytes).expect("base64 is ASCII")
    }

    /// The base64 is the test vector of RFC 4648, section 10.
    #[test]
    fn a_text_is_wrapped_for_what_stands_between() {
        assert_eq!(sent("foobar", Between::Nothing), "\x1b]52;c;Zm9vYmFy\x07");
        assert_eq!(
            sent("foobar", Between::Tmux),
            "\x1b]52;c;Zm9vYmFy\x07\x1bPtmux;\x1b\x1b]52;c;Zm9vYmFy\x07\x1b\\"
        );
        assert_eq!(
            sent("foobar", Between::Screen),
            "\x1bP\x1b]52;c;Zm9vYmFy\x07\x1b\\"
        );
    }

    #[test]
    fn screen_is_given_pieces_that_join_to_the_whole() {
        let text = "sand ".repeat(2_000);
        let wrapped = sent(&text, Between::Screen);
        let pieces: Vec<&str> = wrapped
            .split("\x1b\\")
            .filter(|piece| !piece.is_empty())
            .map(|piece| piece.strip_prefix("\x1bP").expect("each piece is wrapped"))
            .collect();
        assert!(pieces.iter().all(|piece| piece.len() <= PIECE));
        assert_eq!(pieces.concat(), sent(&text, Between::Nothing));
    }

    #[test]
    fn too_long_a_text_is_refused_in_words() {
        let longest = "a".repeat(MOST);
        assert!(sent(&longest, Between::Nothing).len() <= 100_000);
        let fault = sequence(&format!("{longest}a"), Between::Nothing).expect_err("too long");
        assert!(
            fault.contains("74995") && fault.contains("74994"),
            "{fault}"
        );
    }

    #[test]
    fn what_stands_between_is_told_by_the_environment() {
        for (tmux, sty, term, expected) in [
            (false, false, "xterm-256color", Between::Nothing),
            (true, false, "screen-256color", Between::Tmux),
            (true, true, "screen", Between::Tmux),
            (false, true, "xterm", Between::Screen),
            (false, false, "screen", Between::Screen),
            (false, false, "screen.xterm-256color", Between::Screen),
        ] {
            assert_eq!(Between::told_by(tmux, sty, term), expected, "{term}");
        }
    }
}
