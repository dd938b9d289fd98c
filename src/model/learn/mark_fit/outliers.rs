//! The fit that stands once the marks are left out that speak against it too loudly.

use super::Mark;
use super::law::{Place, UNKNOWNS};
use super::series::Series;
use crate::error::{Error, Param, undetermined};
use crate::model::learn::solver::{Least, Matrix, inverse};
use crate::model::math;

/// A mark is not judged whose residual has less than this left of its own variance.
const LEAST_FREEDOM: f64 = 1e-6;

/// The fit that stands after outliers are left out.
pub(super) struct Standing {
    pub(super) least: Least<UNKNOWNS>,
    pub(super) second: Option<Least<2>>,
    pub(super) covariance: Matrix<UNKNOWNS>,
    pub(super) seen: u32,
    pub(super) vanished: u32,
    pub(super) freedom: u32,
}

impl Standing {
    /// χ²/ν where that exceeds 1.
    pub(super) fn excess(&self) -> f64 {
        math::greater(2.0 * self.least.local.value / f64::from(self.freedom), 1.0)
    }
}

/// Fits the marks, and leaves out what speaks against the fit by more than `limit` deviations.
pub(super) fn without_outliers(
    series: &mut Series<'_, impl Fn(usize) -> Mark>,
    limit: f64,
    room: &mut [f64],
) -> Result<Standing, Error> {
    let mut standing = stand(series, room)?;
    for _ in 0..series.count / 4 {
        if standing.freedom < 2 {
            break;
        }
        match series.worst(&standing.least, &standing.covariance, standing.freedom) {
            Some((index, case)) if case > limit * limit => {
                if let Some(used) = series.used.get_mut(index) {
                    *used = false;
                }
                standing = stand(series, room)?;
            }
            _ => break,
        }
    }
    Ok(standing)
}

/// Fits the marks that are used.
fn stand(series: &Series<'_, impl Fn(usize) -> Mark>, room: &mut [f64]) -> Result<Standing, Error> {
    let (seen, vanished) = series.counts();
    let known = series.law.known.iter().filter(|known| known.deviation.is_finite()).count();
    let freedom = seen.saturating_add(known as u32).saturating_sub(UNKNOWNS as u32);
    let vague = undetermined(Param::SizeCertainty, 0.0);
    let (least, second) = series.least(room).ok_or(vague)?;
    let covariance = inverse(&least.local.tangent).ok_or(vague)?;
    Ok(Standing { least, second, covariance, seen, vanished, freedom })
}

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    /// The mark whose leaving out is most called for, with what speaks for it.
    fn worst(
        &self,
        least: &Least<UNKNOWNS>,
        covariance: &Matrix<UNKNOWNS>,
        freedom: u32,
    ) -> Option<(usize, f64)> {
        let mut worst = None;
        let mut greatest = 0.0;
        let place = Place::of(&least.at);
        for (index, mark) in self.used() {
            let Some(residual) = self.law.residual(&place, &mark, self.law.log(&mark, place.excess(&mark)))
            else {
                continue;
            };
            let mut leverage = 0.0;
            for (row, left) in covariance.iter().zip(residual.first) {
                for (number, right) in row.iter().zip(residual.first) {
                    leverage += left * number * right;
                }
            }
            let free = 1.0 - leverage;
            // A mark that alone holds one of the unknowns cannot be judged.
            if free < LEAST_FREEDOM {
                continue;
            }
            let gain = residual.value * residual.value / free;
            let rest = (2.0 * least.local.value - gain) / f64::from(freedom.saturating_sub(1));
            let case = gain / math::greater(rest, 1.0);
            if case > greatest {
                greatest = case;
                worst = Some((index, case));
            }
        }
        worst
    }
}
