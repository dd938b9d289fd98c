//! Where answers and errors wait until JavaScript reads them.

use spotwise::model::focus::FocusRange;
use spotwise::model::learn::LearnedFocus;
use spotwise::model::lens_choice::MOST_LENSES;
use spotwise::{Error, Param, Validity};
use std::cell::Cell;
use wasm_bindgen::prelude::wasm_bindgen;

/// Length of the buffer of outputs: room for the longest answer, that of `surface_check`.
const OUTPUTS: usize = 131;

thread_local! {
    // A cell can be written without `unsafe` and has an address to tell.
    static ANSWER: [Cell<f64>; OUTPUTS] = const { [const { Cell::new(f64::NAN) }; OUTPUTS] };
    static LAST_ERROR: Cell<Option<Error>> = const { Cell::new(None) };
    /// Why the last choice of lenses refused some of them.
    static REFUSALS: [Cell<Option<Error>>; MOST_LENSES] = const { [const { Cell::new(None) }; MOST_LENSES] };
}

/// Keeps why lenses were refused, for [`lens_refusal`].
pub(crate) fn keep_refusals(refusals: impl Iterator<Item = Option<Error>>) {
    REFUSALS.with(|kept| {
        for (cell, refusal) in kept.iter().zip(refusals.chain(std::iter::repeat(None))) {
            cell.set(refusal);
        }
    });
}

/// The status of one of the lenses of the last choice; it becomes the last error, of which [`error_message`] and its
/// neighbours tell the rest.
#[wasm_bindgen]
#[must_use]
pub fn lens_refusal(place: usize) -> u32 {
    let refusal = REFUSALS.with(|kept| kept.get(place).and_then(Cell::get));
    refusal.map_or(0, refused)
}

/// Address of the outputs in linear memory. It never changes.
#[wasm_bindgen]
#[must_use]
pub fn outputs() -> *const f64 {
    ANSWER.with(|answer| answer.as_ptr().cast())
}

/// Lays out an answer, or notes an error and makes every output NaN; gives the status.
pub(crate) fn answer<const N: usize>(result: Result<[f64; N], Error>) -> u32 {
    const { assert!(N <= OUTPUTS) };
    match result {
        Ok(values) => {
            lay_out(&values);
            0
        }
        Err(error) => {
            lay_out(&[f64::NAN; OUTPUTS]);
            refused(error)
        }
    }
}

/// The status of a function that wrote its outputs elsewhere.
pub(crate) fn status(result: Result<(), Error>) -> u32 {
    result.map_or_else(refused, |()| 0)
}

/// Kept out of line, for one copy serves every function.
#[inline(never)]
fn lay_out(values: &[f64]) {
    ANSWER.with(|answer| {
        for (cell, value) in answer.iter().zip(values) {
            cell.set(*value);
        }
    });
}

#[inline(never)]
fn refused(error: Error) -> u32 {
    LAST_ERROR.set(Some(error));
    error.code()
}

/// Flags as a whole number.
pub(crate) fn flags(validity: Validity) -> f64 {
    f64::from(validity.bits())
}

/// Ends, length, half angle and flags of a range.
pub(crate) fn range(range: FocusRange) -> [f64; 5] {
    [range.toward_lens_z, range.away_from_lens_z, range.full, range.half_angle, flags(range.validity)]
}

/// Permanent number of the parameter that the last error names; 0 before any error.
#[wasm_bindgen]
#[must_use]
pub fn error_parameter() -> u32 {
    LAST_ERROR.get().map_or(0, |error| error.param() as u32)
}

/// Name of the parameter that the last error names, such as "waist diameter".
#[wasm_bindgen]
#[must_use]
pub fn error_parameter_name() -> String {
    LAST_ERROR.get().map_or_else(String::new, |error| error.param().name().to_owned())
}

/// The value that the last error refuses, NaN where it was text.
#[wasm_bindgen]
#[must_use]
pub fn error_value() -> f64 {
    LAST_ERROR.get().map_or(f64::NAN, |error| error.value())
}

/// Least value that would have been accepted.
#[wasm_bindgen]
#[must_use]
pub fn error_least() -> f64 {
    LAST_ERROR.get().map_or(f64::NAN, |error| error.allowed().0)
}

/// Greatest value that would have been accepted.
#[wasm_bindgen]
#[must_use]
pub fn error_greatest() -> f64 {
    LAST_ERROR.get().map_or(f64::NAN, |error| error.allowed().1)
}

/// The last error in words, the same on every face.
#[wasm_bindgen]
#[must_use]
pub fn error_message() -> String {
    LAST_ERROR.get().map_or_else(String::new, |error| error.to_string())
}

/// Refuses a job of another wavelength than that of a calibration.
#[wasm_bindgen]
pub fn same_wavelength(of_calibration: f64, of_job: f64) -> u32 {
    status(LearnedFocus::check_same_wavelength(of_calibration, of_job).map(|_| ()))
}

/// Refuses an array of results that is not as long as that of inputs, as
/// [`diameters_at`](crate::optics::diameters_at) cannot: it gets both in slices.
#[wasm_bindgen]
pub fn same_length(output: usize, input: usize) -> u32 {
    status(if output == input {
        Ok(())
    } else {
        Err(Error::LengthMismatch { param: Param::Output, value: output, expected: input })
    })
}
