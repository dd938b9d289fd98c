//! Whether the widths change with height at all.

use super::Mark;
use super::law::{Law, Scaled};
use super::outliers::Standing;
use super::series::Series;
use crate::model::math;

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    /// By how many deviations the widths change with height.
    pub(super) fn shape_significance(&self, standing: &Standing) -> f64 {
        let gain = (self.flat_squares() - 2.0 * standing.least.local.value) / standing.excess();
        if gain > 0.0 { math::sqrt(gain) } else { 0.0 }
    }

    /// χ² of marks whose squared width depends on the power alone, and only through its logarithm.
    fn flat_squares(&self) -> f64 {
        let (mut weights, mut sum_x, mut sum_y) = (0.0, 0.0, 0.0);
        let seen = || self.used().filter(|(_, mark)| mark.width > 0.0);
        let weight = |mark: &Scaled| {
            let spread = 2.0 * mark.width * mark.deviation;
            1.0 / (spread * spread)
        };
        for (_, mark) in seen() {
            weights += weight(&mark);
            sum_x += weight(&mark) * mark.log_power;
            sum_y += weight(&mark) * mark.width * mark.width;
        }
        let (mean_x, mean_y) = (sum_x / weights, sum_y / weights);
        let (mut sum_xx, mut sum_xy) = (0.0, 0.0);
        for (_, mark) in seen() {
            let x = mark.log_power - mean_x;
            sum_xx += weight(&mark) * x * x;
            sum_xy += weight(&mark) * x * (mark.width * mark.width - mean_y);
        }
        let slope = if sum_xx > 0.0 { sum_xy / sum_xx } else { 0.0 };
        let mut squares = 0.0;
        for (_, mark) in self.used() {
            let left = Law::left(mean_y + slope * (mark.log_power - mean_x), &mark);
            squares += left * left;
        }
        squares
    }
}
