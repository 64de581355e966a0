//! What the terminal sends for keys, pastes and the mouse, as messages. The meaning of a sequence is looked up
//! by `terminput`; here is where one begins and ends, so that half a sequence is waited for and one that nobody
//! knows is dropped whole instead of being typed. Not here: reading.

use crate::Message;
use ratatui::crossterm::event::{
    Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers, MouseEventKind,
};

const ESC: u8 = 0x1b;
const PASTE_BEGINS: &[u8] = b"\x1b[200~";
const PASTE_ENDS: &[u8] = b"\x1b[201~";

/// No key sends more bytes than this; what goes on longer is noise.
const LONGEST: usize = 64;

/// Cuts what comes in into messages, across the reads it comes in.
#[derive(Debug, Default)]
pub(super) struct Decoder {
    begun: Vec<u8>,
    pasted: Option<Vec<u8>>,
}

impl Decoder {
    /// Takes in what was read.
    pub(super) fn feed(&mut self, bytes: &[u8], out: &mut Vec<Message>) {
        for byte in bytes {
            self.take(*byte, out);
        }
    }

    /// Whether something is begun that is a key of its own when nothing follows.
    pub(super) fn waits(&self) -> bool {
        !self.begun.is_empty()
    }

    /// Nothing followed: what was begun is a key of its own, or was cut short and is dropped.
    pub(super) fn pause(&mut self, out: &mut Vec<Message>) {
        let key = match self.begun.as_slice() {
            [ESC] => Some(KeyCode::Esc.into()),
            [ESC, b'['] => Some(KeyEvent::new(KeyCode::Char('['), KeyModifiers::ALT)),
            [ESC, b'O'] => Some(KeyEvent::new(
                KeyCode::Char('O'),
                KeyModifiers::ALT | KeyModifiers::SHIFT,
            )),
            _ => None,
        };
        out.extend(key.map(Message::Key));
        self.begun.clear();
    }

    fn take(&mut self, byte: u8, out: &mut Vec<Message>) {
        if let Some(mut pasted) = self.pasted.take() {
            pasted.push(byte);
            if let Some(text) = pasted.strip_suffix(PASTE_ENDS) {
                out.push(Message::Paste(String::from_utf8_lossy(text).into_owned()));
            } else {
                self.pasted = Some(pasted);
            }
            return;
        }
        self.begun.push(byte);
        match self.begun.as_slice() {
            [ESC] => {}
            [ESC, ESC] => {
                out.push(Message::Key(KeyCode::Esc.into()));
                self.begun.pop();
            }
            [ESC, b'[', body @ ..] => {
                if self.begun == PASTE_BEGINS {
                    self.begun.clear();
                    self.pasted = Some(Vec::new());
                } else if is_whole(body) {
                    out.extend(meaning(&self.begun).ok().flatten());
                    self.begun.clear();
                } else if self.begun.len() > LONGEST {
                    self.begun.clear();
                }
            }
            other => match terminput::Event::parse_from(other) {
                Ok(None) if other.len() <= LONGEST => {}
                Ok(None) | Err(_) => self.begun.clear(),
                Ok(Some(event)) => {
                    out.extend(message(event));
                    self.begun.clear();
                }
            },
        }
    }
}

/// Whether what follows `ESC [` is a whole control sequence: it ends with a byte of 0x40 to 0x7e (ECMA-48, 5th
/// edition, clause 5.4). Two older kinds go on behind such a byte: function keys of the Linux console, and the
/// mouse with three bytes after `M`.
fn is_whole(body: &[u8]) -> bool {
    match body {
        [] | [b'['] => false,
        [b'M', rest @ ..] => rest.len() == 3,
        [.., last] => (0x40..=0x7e).contains(last),
    }
}

fn meaning(sequence: &[u8]) -> std::io::Result<Option<Message>> {
    Ok(terminput::Event::parse_from(sequence)?.and_then(message))
}

/// The one place where releases of keys are dropped; repeats stay. So is the mouse moving with no button held.
fn message(event: terminput::Event) -> Option<Message> {
    match terminput_crossterm::to_crossterm(event).ok()? {
        Event::Key(key) if key.kind != KeyEventKind::Release => Some(Message::Key(key)),
        Event::Mouse(mouse) if mouse.kind != MouseEventKind::Moved => Some(Message::Mouse(mouse)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use ratatui::crossterm::event::{MouseButton, MouseEvent};

    /// Each piece is a read of its own; a pause follows the last.
    fn decoded(pieces: &[&[u8]]) -> Vec<Message> {
        let mut decoder = Decoder::default();
        let mut out = Vec::new();
        for piece in pieces {
            decoder.feed(piece, &mut out);
        }
        decoder.pause(&mut out);
        out
    }

    fn key(code: KeyCode) -> Message {
        Message::Key(code.into())
    }

    fn with(code: KeyCode, modifiers: KeyModifiers) -> Message {
        Message::Key(KeyEvent::new(code, modifiers))
    }

    /// The sequences are those of xterm ("Xterm Control Sequences", "PC-Style Function Keys").
    #[test]
    fn keys_are_told_apart() {
        for (bytes, expected) in [
            (&b"a"[..], key(KeyCode::Char('a'))),
            (b"A", with(KeyCode::Char('A'), KeyModifiers::SHIFT)),
            ("½".as_bytes(), key(KeyCode::Char('½'))),
            (b"\r", key(KeyCode::Enter)),
            (b"\x7f", key(KeyCode::Backspace)),
            (b"\x1b", key(KeyCode::Esc)),
            (b"\x1b[A", key(KeyCode::Up)),
            (b"\x1bOB", key(KeyCode::Down)),
            (b"\x1bOP", key(KeyCode::F(1))),
            (b"\x1b[13~", key(KeyCode::F(3))),
            (b"\x1b[[A", key(KeyCode::F(1))),
            (b"\x1b[3~", key(KeyCode::Delete)),
            (b"\x1b[1;5C", with(KeyCode::Right, KeyModifiers::CONTROL)),
            (b"\x1b[Z", with(KeyCode::BackTab, KeyModifiers::SHIFT)),
            (b"\x1a", with(KeyCode::Char('z'), KeyModifiers::CONTROL)),
            (b"\x1bx", with(KeyCode::Char('x'), KeyModifiers::ALT)),
            (b"\x1b[", with(KeyCode::Char('['), KeyModifiers::ALT)),
        ] {
            assert_eq!(decoded(&[bytes]), [expected], "{bytes:?}");
        }
    }

    #[test]
    fn a_key_cut_in_two_is_one_key() {
        for whole in [&b"\x1b[1;5C"[..], b"\x1bOB", "½".as_bytes(), b"\x1b[A"] {
            for at in 1..whole.len() {
                let (begin, end) = whole.split_at(at);
                assert_eq!(
                    decoded(&[begin, end]),
                    decoded(&[whole]),
                    "{whole:?} at {at}"
                );
            }
        }
    }

    #[test]
    fn escape_twice_is_escape_twice() {
        assert_eq!(
            decoded(&[b"\x1b\x1b"]),
            [key(KeyCode::Esc), key(KeyCode::Esc)]
        );
    }

    #[test]
    fn a_release_is_dropped_and_a_repeat_kept() {
        assert_eq!(decoded(&[b"\x1b[97;1:3u"]), []);
        let [Message::Key(repeat)] = decoded(&[b"\x1b[97;1:2u"])[..] else {
            panic!("a repeat is a key");
        };
        assert_eq!(repeat.kind, KeyEventKind::Repeat);
    }

    #[test]
    fn what_nobody_knows_is_not_typed() {
        assert_eq!(
            decoded(&[b"\x1b[>1;10;0c", b"\x1b[?62;22c", b"\x1b[5n"]),
            []
        );
        assert_eq!(decoded(&[b"\x1b[999Xa"]), [key(KeyCode::Char('a'))]);
        assert_eq!(decoded(&[b"\xffa"]), [key(KeyCode::Char('a'))]);
    }

    #[test]
    fn a_paste_is_one_message_however_it_is_cut() {
        let whole = "\x1b[200~sill 2' 3\"\r½ \x1b[A\x1b[201~x".as_bytes();
        let expected = [
            Message::Paste("sill 2' 3\"\r½ \x1b[A".to_owned()),
            key(KeyCode::Char('x')),
        ];
        for at in 0..=whole.len() {
            let (begin, end) = whole.split_at(at);
            assert_eq!(decoded(&[begin, end]), expected, "at {at}");
        }
    }

    #[test]
    fn a_pause_within_a_paste_does_not_end_it() {
        let mut decoder = Decoder::default();
        let mut out = Vec::new();
        decoder.feed(b"\x1b[200~half", &mut out);
        assert!(!decoder.waits());
        decoder.pause(&mut out);
        decoder.feed(b" and half\x1b[201~", &mut out);
        assert_eq!(out, [Message::Paste("half and half".to_owned())]);
    }

    #[test]
    fn the_mouse_presses_and_does_not_hover() {
        assert_eq!(
            decoded(&[b"\x1b[<0;10;5M"]),
            [Message::Mouse(MouseEvent {
                kind: MouseEventKind::Down(MouseButton::Left),
                column: 9,
                row: 4,
                modifiers: KeyModifiers::NONE,
            })]
        );
        assert_eq!(decoded(&[b"\x1b[<35;10;5M"]), []);
    }

    proptest! {
        /// Noise of any kind harms nothing, and a key after it is heard again.
        #[test]
        fn any_bytes_are_taken(bytes in noise()) {
            let mut decoder = Decoder::default();
            let mut out = Vec::new();
            decoder.feed(&bytes, &mut out);
            decoder.pause(&mut out);
            out.clear();
            decoder.feed(PASTE_ENDS, &mut out);
            out.clear();
            decoder.feed(b"k", &mut out);
            prop_assert_eq!(out, [key(KeyCode::Char('k'))]);
        }
    }

    /// Bytes that begin and end sequences come up often.
    fn noise() -> impl Strategy<Value = Vec<u8>> {
        let common = proptest::sample::select(b"\x1b[]O<>?;:~Mmu0129PR\xff\xc3".to_vec());
        proptest::collection::vec(prop_oneof![3 => common, 1 => any::<u8>()], 0..80)
    }
}
