//! The dose window: between which dose ratios a drawing keeps what it shows.
//!
//! The mark grows with the dose. Below the window strokes are lost or broken; above it counters fill, or neighbours
//! touch. Each limit is looked for by halving between a dose that keeps and one that does not, among the levels of an
//! exposure map, so that it is the same on every machine.
//!
//! An exposure map ends at two full doses, so that no limit is told below a dose ratio of 0.5; where an even fill is
//! that strong, every limit of a drawing lies far above.
//!
//! Broken is what has a piece that is lost, split or starved (less than half of its centre-line marked), or a hole
//! that is open to the outside. Specks play no part.
//! Halving takes for granted that what is lost at one dose is lost at every lower one. The marks are nested, so that
//! this holds for all but pieces that are split and whose parts then vanish one by one, in rare drawings.

use super::exposure::FULL_DOSE;
use super::watch::Watch;
use crate::error::Error;

/// The doses between which a drawing keeps what it shows, over the threshold dose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoseWindow {
    /// Least dose ratio that keeps every stroke; NaN if none does.
    pub least_dose_ratio: f64,
    /// Greatest dose ratio that leaves every counter open and neighbours apart; +∞ if all do.
    pub greatest_dose_ratio: f64,
    /// Greatest dose ratio that leaves every counter open; +∞ if all do.
    pub greatest_dose_ratio_for_counters: f64,
}

impl DoseWindow {
    /// Greatest over least dose ratio; below 1 no dose keeps all, NaN if none keeps the strokes.
    #[must_use]
    pub fn ratio(&self) -> f64 {
        self.greatest_dose_ratio / self.least_dose_ratio
    }

    /// The same for strokes and counters alone, whether neighbours touch or not.
    #[must_use]
    pub fn ratio_for_counters(&self) -> f64 {
        self.greatest_dose_ratio_for_counters / self.least_dose_ratio
    }
}

/// What a mark does not keep.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Faults {
    pub(crate) broken: bool,
    pub(crate) filled: bool,
    pub(crate) touching: bool,
}

/// No exposure reaches this level: nothing is marked.
const NOTHING: u32 = 1 + u16::MAX as u32;
/// A limit is found when it is known to this share of itself.
const FINE: u32 = 2048;
/// Looks that finding all three limits takes at most: one at the greatest dose, then fifteen for each limit, which halve
/// the 16 octaves of doses to one part in 2048, and one more each for ends that are whole numbers.
const MOST_LOOKS: f64 = 49.0;

/// Levels between which something changes: least exposures that mark, a low one for a high dose.
#[derive(Clone, Copy)]
struct Bracket {
    high_dose: u32,
    low_dose: u32,
}

impl Bracket {
    fn is_fine(self) -> bool {
        self.low_dose - self.high_dose <= 1.max(self.high_dose / FINE)
    }

    /// The middle of the doses' logarithms, strictly between ends that differ by two or more.
    fn middle(self) -> u32 {
        let product = u64::from(self.high_dose) * u64::from(self.low_dose);
        (product.isqrt() as u32).clamp(self.high_dose + 1, self.low_dose - 1)
    }

    fn narrow(&mut self, level: u32, at_high_dose: bool) {
        if level > self.high_dose && level < self.low_dose {
            if at_high_dose {
                self.high_dose = level;
            } else {
                self.low_dose = level;
            }
        }
    }
}

/// Finds the window by looking at marks: `look` tells what the mark of a least exposure does not keep.
///
/// `least_dose` is the dose over the threshold dose from which on a place counts as marked.
pub(crate) fn find_window(
    least_dose: f64,
    watch: &mut Watch<'_>,
    mut look: impl FnMut(u32, &mut Watch<'_>) -> Result<Faults, Error>,
) -> Result<DoseWindow, Error> {
    // The greatest dose there is marks every place that gets any light.
    let most = look(1, &mut watch.part(0.0, 1.0 / MOST_LOOKS))?;
    let whole = Bracket { high_dose: 1, low_dose: NOTHING };
    let mut brackets = [whole; 3];
    let wanted = [!most.broken, most.filled, most.filled || most.touching];
    let mut looks = 1.0;
    for place in 0..3 {
        while let Some(&bracket) = brackets.get(place) {
            if !wanted.get(place).copied().unwrap_or(false) || bracket.is_fine() {
                break;
            }
            let level = bracket.middle();
            let from = if looks < MOST_LOOKS { looks / MOST_LOOKS } else { 1.0 };
            let to = if looks + 1.0 < MOST_LOOKS { (looks + 1.0) / MOST_LOOKS } else { 1.0 };
            let faults = look(level, &mut watch.part(from, to))?;
            looks += 1.0;
            let at_high_dose = [!faults.broken, faults.filled, faults.filled || faults.touching];
            for (bracket, at_high_dose) in brackets.iter_mut().zip(at_high_dose) {
                bracket.narrow(level, at_high_dose);
            }
        }
    }
    let [strokes, counters, all] = brackets;
    let ratio = |level: u32| f64::from(FULL_DOSE) * least_dose / f64::from(level);
    Ok(DoseWindow {
        least_dose_ratio: if most.broken { f64::NAN } else { ratio(strokes.high_dose) },
        greatest_dose_ratio: if wanted[2] { ratio(all.low_dose) } else { f64::INFINITY },
        greatest_dose_ratio_for_counters: if most.filled { ratio(counters.low_dose) } else { f64::INFINITY },
    })
}
