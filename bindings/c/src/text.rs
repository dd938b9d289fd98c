//! Constant texts. The core's words, with the NUL that C expects added while this compiles.

use crate::status::*;
use core::ffi::{CStr, c_char};
use spotwise::Validity;
use spotwise::model::check::{Outcome, Reasons};

/// What a number that means nothing is called.
pub(crate) const UNKNOWN: &CStr = c"unknown";

/// Bytes that these texts take, each with its NUL.
pub(crate) const fn pool_size(texts: &[&str]) -> usize {
    let mut size = 0;
    let mut i = 0;
    while i < texts.len() {
        size += texts[i].len() + 1;
        i += 1;
    }
    size
}

/// The texts one after another, each with its NUL.
pub(crate) const fn pool<const SIZE: usize>(texts: &[&str]) -> [u8; SIZE] {
    let mut pool = [0; SIZE];
    let mut at = 0;
    let mut i = 0;
    while i < texts.len() {
        let text = texts[i].as_bytes();
        let mut j = 0;
        while j < text.len() {
            pool[at] = text[j];
            at += 1;
            j += 1;
        }
        at += 1;
        i += 1;
    }
    pool
}

/// The texts of a pool, found by their NULs.
pub(crate) const fn split<const COUNT: usize>(mut pool: &'static [u8]) -> [&'static CStr; COUNT] {
    let mut texts = [UNKNOWN; COUNT];
    let mut i = 0;
    while i < COUNT {
        let Ok(text) = CStr::from_bytes_until_nul(pool) else { panic!("a text without its NUL") };
        texts[i] = text;
        (_, pool) = pool.split_at(text.count_bytes() + 1);
        i += 1;
    }
    assert!(pool.is_empty(), "a text holds a NUL");
    texts
}

/// Makes a static table of C texts from an array of `&str` that is known at compile time.
macro_rules! texts {
    ($table:ident, $texts:expr) => {
        static $table: [&core::ffi::CStr; { $texts.len() }] = {
            static POOL: [u8; $crate::text::pool_size(&$texts)] = $crate::text::pool(&$texts);
            $crate::text::split(&POOL)
        };
    };
}
pub(crate) use texts;

/// The sentence of each outcome, in the order of the codes, which count from 1 without a gap.
const OUTCOME_SENTENCES: [&str; Outcome::ALL.len()] = {
    let mut sentences = [""; Outcome::ALL.len()];
    let mut i = 0;
    while i < sentences.len() {
        assert!(Outcome::ALL[i] as usize == i + 1);
        sentences[i] = Outcome::ALL[i].text();
        i += 1;
    }
    sentences
};
texts!(OUTCOMES, OUTCOME_SENTENCES);

/// The sentence of each bit of a set of flags, in the order of the bits.
macro_rules! sentences {
    ($flags:ty) => {{
        let mut sentences = [""; <$flags>::ALL.len()];
        let mut i = 0;
        while i < sentences.len() {
            let (flag, sentence) = <$flags>::ALL[i];
            assert!(flag.bits() == 1 << i);
            sentences[i] = sentence;
            i += 1;
        }
        sentences
    }};
}
pub(crate) use sentences;
const REASON_SENTENCES: [&str; Reasons::ALL.len()] = sentences!(Reasons);
const VALIDITY_SENTENCES: [&str; Validity::ALL.len()] = sentences!(Validity);
texts!(REASONS, REASON_SENTENCES);
texts!(VALIDITIES, VALIDITY_SENTENCES);

texts!(CAUTION, [spotwise::CAUTIONS.trim_ascii_end()]);

/// Version of the library as a text, such as "0.1.0".
///
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_version_string() -> *const c_char {
    texts!(VERSION, [env!("CARGO_PKG_VERSION")]);
    VERSION[0].as_ptr()
}

/// Version of the library's ABI: SPOTWISE_ABI_VERSION of the header that it was built with.
///
/// Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_abi_version() -> u32 {
    SPOTWISE_ABI_VERSION
}

/// What a status means, in a few words; "unknown" for a number that is none.
///
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_status_text(status: spotwise_status) -> *const c_char {
    #[cfg(feature = "reachable-panic")]
    crate::panic::reachable(status);
    let text = match status {
        SPOTWISE_OK => c"success",
        SPOTWISE_E_NOT_FINITE => c"the value is not a finite number",
        SPOTWISE_E_OUT_OF_RANGE => c"the value is out of range",
        SPOTWISE_E_UNKNOWN_CHOICE => c"the number stands for no choice",
        SPOTWISE_E_OUTSIDE_MODEL => c"the values together are outside the model",
        SPOTWISE_E_UNREACHABLE => c"this beam cannot reach the value",
        SPOTWISE_E_LENGTH_MISMATCH => c"the length of the array is wrong",
        SPOTWISE_E_UNDETERMINED => c"the data cannot tell what was asked for",
        SPOTWISE_E_STOPPED => c"the work was told to stop",
        SPOTWISE_E_NULL => c"a pointer is NULL",
        SPOTWISE_E_STRUCT_SIZE => c"a struct_size is not that of this ABI",
        SPOTWISE_E_OVERLAP => c"the arrays overlap",
        _ => UNKNOWN,
    };
    text.as_ptr()
}

/// One sentence for the person at the machine; "unknown" for a number that is no outcome.
///
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_outcome_text(outcome: u32) -> *const c_char {
    let place = outcome.wrapping_sub(SPOTWISE_OUTCOME_HOLDS) as usize;
    OUTCOMES.get(place).map_or(UNKNOWN, |text| *text).as_ptr()
}

/// One sentence for a reason, and what helps; "unknown" unless exactly one reason is given.
///
/// @param[in] reason one bit, one of SPOTWISE_REASON_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_reason_text(reason: u32) -> *const c_char {
    text_of_bit(&REASONS, reason)
}

/// One sentence for a flag of a result's validity; "unknown" unless exactly one bit is given.
///
/// @param[in] validity one bit, one of SPOTWISE_VALIDITY_* but SPOTWISE_VALIDITY_FINE.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_validity_text(validity: u32) -> *const c_char {
    text_of_bit(&VALIDITIES, validity)
}

/// How much a result with these flags is worth: one of SPOTWISE_LEVEL_*.
///
/// @param[in] validity SPOTWISE_VALIDITY_* bits; others are not looked at.
/// @return a level; a higher one is worse. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_validity_level(validity: u32) -> u32 {
    Validity::from_bits(validity).level() as u32
}

/// The text that belongs to a single bit.
pub(crate) fn text_of_bit(texts: &[&'static CStr], bit: u32) -> *const c_char {
    let text = if bit.is_power_of_two() { texts.get(bit.trailing_zeros() as usize) } else { None };
    text.map_or(UNKNOWN, |text| *text).as_ptr()
}

/// The cautions that whoever acts on a result must know. Show them to the user.
///
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_caution_text() -> *const c_char {
    CAUTION[0].as_ptr()
}
