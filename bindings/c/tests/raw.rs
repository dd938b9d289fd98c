//! Structs as the bytes that C sees, and inputs that are mostly ordinary and sometimes not.

use crate::abi::Plain;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use proptest::prelude::*;
use spotwise::Error;
use std::slice;

/// The 32-bit words of a struct or number.
pub fn words_of<T: Plain>(value: &T) -> Vec<u32> {
    let words = size_of::<T>() / 4;
    // SAFETY: `Plain` types have no gaps and are made of 4- and 8-byte numbers.
    unsafe { slice::from_raw_parts((&raw const *value).cast::<u32>(), words) }.to_vec()
}

/// The words that a struct should have.
#[derive(Default)]
pub struct Expected(pub Vec<u32>);

impl Expected {
    /// A struct opens with its size.
    pub fn of<T>() -> Self {
        Self(vec![size_of::<T>() as u32])
    }

    pub fn word(mut self, word: u32) -> Self {
        self.0.push(word);
        self
    }

    pub fn numbers(mut self, numbers: &[f64]) -> Self {
        for number in numbers {
            let bits = number.to_bits();
            self.0.extend([bits as u32, (bits >> 32) as u32]);
        }
        self
    }

    pub fn nested(mut self, other: Self) -> Self {
        self.0.extend(other.0);
        self
    }
}

/// Makes a call and compares what it reports with what the model says.
pub fn compare<T: Plain>(
    call: impl FnOnce(*mut T, *mut spotwise_error) -> spotwise_status,
    model: Result<Expected, Error>,
) -> Result<(), TestCaseError> {
    let mut out = T::BLANK;
    let mut error = spotwise_error { code: 77, parameter: 77, value: 7.0, ..spotwise_error::BLANK };
    let status = call(&mut out, &mut error);
    let (words, code, report) = match model {
        Ok(expected) => {
            (expected.0, 0, Expected::of::<spotwise_error>().word(0).word(0).word(0).numbers(&[f64::NAN; 3]))
        }
        Err(refused) => {
            let (least, greatest) = refused.allowed();
            let report =
                Expected::of::<spotwise_error>().word(refused.code()).word(refused.param() as u32).word(0);
            (words_of(&T::BLANK), refused.code(), report.numbers(&[refused.value(), least, greatest]))
        }
    };
    prop_assert_eq!(status, code);
    prop_assert_eq!(words_of(&error), report.0);
    prop_assert_eq!(words_of(&out), words);
    Ok(())
}

/// Mostly a value within a factor of ten of `ordinary`, now and then anything at all.
pub fn near(ordinary: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        80 => (-1.0..1.0f64).prop_map(move |power| ordinary * 10f64.powf(power)),
        2 => (-1.0..1.0f64).prop_map(move |factor| ordinary * factor),
        1 => any::<f64>(),
        1 => prop::sample::select(vec![
            0.0, -0.0, 5e-324, -1.0, 1e300, f64::NAN, f64::INFINITY, f64::NEG_INFINITY,
        ]),
    ]
}

/// Mostly a ratio from 1 to 4, now and then anything at all.
pub fn ratio() -> impl Strategy<Value = f64> {
    prop_oneof![40 => 1.0..4.0f64, 1 => near(1.0)]
}

/// Mostly a share between 0 and 1, now and then anything at all.
pub fn share() -> impl Strategy<Value = f64> {
    prop_oneof![40 => 0.0..1.0f64, 1 => near(1.0)]
}

/// A place on either side of zero.
pub fn place(ordinary: f64) -> impl Strategy<Value = f64> {
    prop_oneof![near(ordinary), near(-ordinary)]
}

/// A choice with this many codes, now and then none of them.
pub fn choice(codes: u32) -> impl Strategy<Value = u32> {
    prop_oneof![40 => 1..=codes, 1 => Just(0), 1 => Just(codes + 1), 1 => any::<u32>()]
}
