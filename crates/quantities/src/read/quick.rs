//! The few spellings of lengths and angles that fill a project file, read without allocating. Not here: any
//! judgement. What this does not know, or finds odd, it leaves to the general reader.
//!
//! Values stay exact: numerator and denominator are whole numbers below 2^53, which `f64` holds
//! exactly, so that their one division is rounded correctly (IEEE 754).

/// Reads `3.81 m`, `381 mm`, `38.1cm`, `36'`, `1/2 in`, `5 1/2"`, `12' 6 1/2"`, `12'-6.5`; `None`
/// for anything else. The result is in millimetres.
pub(super) fn length(text: &str) -> Option<f64> {
    let mut bytes = Bytes {
        left: text.as_bytes(),
    };
    let first = bytes.number()?;
    bytes.blank();
    match bytes.left {
        b"" if first.over == 0 => Some(0.0),
        b"m" => ratio(first, 1_000, 1),
        b"mm" => ratio(first, 1, 1),
        b"cm" => ratio(first, 10, 1),
        b"\"" | b"in" => ratio(first, 127, 5),
        b"'" | b"ft" => ratio(first, 1_524, 5),
        [b'\'', inches @ ..] if first.under == 1 => feet_and_inches(first.over, inches),
        _ => None,
    }
}

/// Reads `90 deg`, `22.5°` in radians; `None` for anything else.
pub(super) fn angle(text: &str) -> Option<f64> {
    let mut bytes = Bytes {
        left: text.as_bytes(),
    };
    let degrees = bytes.number()?;
    bytes.blank();
    let degree_sign = "°".as_bytes();
    (bytes.left == b"deg" || bytes.left == degree_sign)
        .then(|| radians(degrees))
        .flatten()
}

/// Pi, 2^100 times, without what is after the point. Source: as the digits in `exact`.
const PI_SCALED: u128 = 3_982_441_812_995_697_363_688_351_113_952;

/// So many degrees in radians, rounded correctly.
fn radians(degrees: Exact) -> Option<f64> {
    if degrees.over == 0 {
        return Some(0.0);
    }
    // The product stays below 2^126, and the quotient above 2^64, so that it has more bits than
    // `f64` keeps. The result is irrational and never a tie: the last bit says that more follows.
    let over = Some(degrees.over).filter(|over| *over <= 1 << 24)?;
    let scaled = PI_SCALED * u128::from(over) / (180 * u128::from(degrees.under));
    #[allow(
        clippy::cast_precision_loss,
        reason = "the first is where it is rounded, the second a power of two"
    )]
    Some((scaled | 1) as f64 / (1_u128 << 100) as f64)
}

fn feet_and_inches(feet: u64, inches: &[u8]) -> Option<f64> {
    let mut bytes = Bytes { left: inches };
    if !bytes.take(b'-') {
        bytes.blank();
    }
    let inches = bytes.number()?;
    if !matches!(bytes.left, b"" | b"\"") || inches.over >= inches.under.checked_mul(12)? {
        return None;
    }
    let over = feet
        .checked_mul(12)?
        .checked_mul(inches.under)?
        .checked_add(inches.over)?;
    ratio(
        Exact {
            over,
            under: inches.under,
        },
        127,
        5,
    )
}

/// A number as the quotient of two whole ones.
#[derive(Clone, Copy)]
struct Exact {
    over: u64,
    under: u64,
}

/// The number times a factor, when both terms are exact in `f64`.
fn ratio(number: Exact, over: u64, under: u64) -> Option<f64> {
    const EXACT: u64 = 1 << 53;
    let over = number.over.checked_mul(over)?;
    let under = number.under.checked_mul(under)?;
    #[allow(clippy::cast_precision_loss, reason = "both are at most 2^53")]
    (over <= EXACT && under <= EXACT).then(|| over as f64 / under as f64)
}

struct Bytes<'a> {
    left: &'a [u8],
}

impl Bytes<'_> {
    fn take(&mut self, byte: u8) -> bool {
        match self.left {
            [first, rest @ ..] if *first == byte => {
                self.left = rest;
                true
            }
            _ => false,
        }
    }

    fn blank(&mut self) {
        self.take(b' ');
    }

    /// At most nine digits, and how many there were.
    fn digits(&mut self) -> Option<(u64, u32)> {
        let mut value = 0;
        let mut count = 0;
        while let [digit @ b'0'..=b'9', rest @ ..] = self.left {
            if count == 9 {
                return None;
            }
            value = value * 10 + u64::from(digit - b'0');
            count += 1;
            self.left = rest;
        }
        (count > 0).then_some((value, count))
    }

    /// `12`, `3.81`, `1/2` or `6 1/2`; fractions are below one.
    fn number(&mut self) -> Option<Exact> {
        let (whole, _) = self.digits()?;
        match self.left {
            [b'.', rest @ ..] => {
                self.left = rest;
                let (part, places) = self.digits()?;
                let under = 10_u64.pow(places);
                Some(Exact {
                    over: whole * under + part,
                    under,
                })
            }
            [b'/', rest @ ..] => {
                self.left = rest;
                let (under, _) = self.digits()?;
                (whole < under).then_some(Exact { over: whole, under })
            }
            [b' ', b'0'..=b'9', ..] => {
                self.blank();
                let (over, _) = self.digits()?;
                let under = if self.take(b'/') { self.digits()?.0 } else { 0 };
                (over < under).then_some(Exact {
                    over: whole * under + over,
                    under,
                })
            }
            _ => Some(Exact {
                over: whole,
                under: 1,
            }),
        }
    }
}
