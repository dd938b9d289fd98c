//! The arrays of a fit: what was read, and what the fit tells of each reading.

use crate::abi::Fault;
use crate::arrays::{Extent, array_fault, blank, blank_flags, flags_mut, length_fault, numbers, numbers_mut};
use spotwise::Param;

/// The arrays of one call, all of one length: `N` of what was read, and two outputs.
pub(crate) struct FitArrays<const N: usize> {
    pub(crate) inputs: [*const f64; N],
    pub(crate) count: usize,
    /// How far each reading lies off the fit.
    pub(crate) residuals: *mut f64,
    /// Whether each reading was used.
    pub(crate) used: *mut u8,
}

/// The same once they are open: inputs, residuals, and whether each reading was used.
pub(crate) type OpenFitArrays<'a, const N: usize> = ([&'a [f64]; N], &'a mut [f64], &'a mut [bool]);

impl<const N: usize> FitArrays<N> {
    /// Makes the outputs blank, and says what is wrong: first with the pointers to these arrays, then with the
    /// other pointers of the call, last with the length.
    ///
    /// # Safety
    /// The outputs are NULL or writable for their items.
    pub(crate) unsafe fn prepare(&self, other_fault: Option<Fault>) -> Result<(), Fault> {
        let inputs = self.inputs.map(|start| Extent::of(start, self.count));
        let outputs = [Extent::of(self.residuals, self.count), Extent::of(self.used, self.count)];
        let pointers = array_fault(&inputs, &outputs).or(other_fault);
        // No array is so long, so there is none to make blank.
        if let Some(fault) = length_fault(Param::Output, self.count) {
            return Err(pointers.unwrap_or(fault));
        }
        // SAFETY: NULL or writable for their items, as the caller vouches.
        unsafe {
            blank(self.residuals, self.count);
            blank_flags(self.used, self.count);
        }
        pointers.map_or(Ok(()), Err)
    }

    /// The arrays as slices.
    ///
    /// # Safety
    /// [`prepare`](Self::prepare) found nothing wrong, and pointers that are not NULL are valid for their items.
    pub(crate) unsafe fn open<'a>(&self) -> OpenFitArrays<'a, N> {
        // SAFETY: not NULL unless empty, apart and blank after `prepare`; valid as the caller vouches.
        unsafe {
            let inputs = self.inputs.map(|start| numbers(start, self.count));
            (inputs, numbers_mut(self.residuals, self.count), flags_mut(self.used, self.count))
        }
    }
}
