//! The exposure in doubles, without truncation, for comparison: slow.
//!
//! Each pixel is exposed by its own spot, by the weights of [`kernel`](super::kernel). Where all spots are the same, the
//! sum is separable, taken over all columns; where they differ, it is taken one by one. Rows, and there columns too,
//! count as far as 6.5 spot radii, beyond which nothing is left that a double could hold beside the dose that marks.

use super::bands::Pace;
use super::drawing::SampleKind;
use super::exposing::Radii;
use super::exposure::ExposurePlan;
use super::kernel::{REACH_OF_REFERENCE, line_weight, pixel_weight};
use super::spot_map::{BLOCK, Spots};
use super::watch::Watch;
use super::workspace::{Workspace, words_for};
use crate::error::{Error, Param, check_length};

impl ExposurePlan<'_> {
    /// 64-bit words of room that [`expose_exactly`](Self::expose_exactly) needs: twice the longer side, and where the
    /// spot is the same everywhere one for each pixel.
    #[must_use]
    pub fn exact_words(&self) -> usize {
        let (width, height) = (self.drawing.width, self.drawing.height);
        let sums = if self.map.uniform_radius().is_some() { width * height } else { 0 };
        words_for::<f64>(width) + words_for::<f64>(height) + words_for::<f64>(sums)
    }

    /// The exposure at the centre of every pixel as a share of full dose, NaN where the surface has no known height.
    ///
    /// Slow: for pixels of one spot, width·height·(width + height) additions, else width·height·169·w².
    /// On any error `exposure` is all NaN.
    ///
    /// # Errors
    /// As [`expose`](Self::expose).
    pub fn expose_exactly(
        &self,
        exposure: &mut [f64],
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        let done = self.exposed_exactly(exposure, room, watch);
        if done.is_err() {
            exposure.fill(f64::NAN);
        }
        done
    }

    fn exposed_exactly(
        &self,
        exposure: &mut [f64],
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        let (width, height) = (self.drawing.width, self.drawing.height);
        check_length(Param::Output, exposure.len(), width * height)?;
        let mut workspace = Workspace::new(room, self.exact_words())?;
        let columns: &mut [f64] = workspace.take(width)?;
        let rows: &mut [f64] = workspace.take(height)?;
        match self.map.uniform_radius() {
            Some(radius) => {
                let radii = self.map.spot.radii(radius);
                let sums: &mut [f64] = workspace.take(width * height)?;
                self.separable(&radii, (columns, rows, sums), exposure, watch)
            }
            None => self.one_by_one(columns, rows, exposure, watch),
        }
    }

    fn separable(
        &self,
        radii: &Radii,
        (columns, rows, sums): (&mut [f64], &mut [f64], &mut [f64]),
        exposure: &mut [f64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        let width = self.drawing.width;
        let mut pace = Pace::new();
        for (k, weight) in columns.iter_mut().enumerate() {
            *weight = pixel_weight(k as f64, radii.along, radii.point_along);
        }
        for (y, sums) in sums.chunks_exact_mut(width).enumerate() {
            let done = 0.5 * y as f64 / self.drawing.height as f64;
            watch.done(done)?;
            for (i, ink) in self.ink_of_row(y) {
                if pace.is_due(width) {
                    watch.done(done)?;
                }
                for (x, sum) in sums.iter_mut().enumerate() {
                    *sum += ink * columns.get(x.abs_diff(i)).copied().unwrap_or(0.0);
                }
            }
        }
        let reach = rows_within_reach(radii);
        for (y, out) in exposure.chunks_exact_mut(width).enumerate() {
            let done = 0.5 + 0.5 * y as f64 / self.drawing.height as f64;
            watch.done(done)?;
            self.weigh_rows(y, radii, reach as f64, rows);
            out.fill(0.0);
            for (weight, sums) in rows.iter().zip(sums.chunks_exact(width)) {
                if *weight != 0.0 {
                    if pace.is_due(width) {
                        watch.done(done)?;
                    }
                    for (out, sum) in out.iter_mut().zip(sums) {
                        *out += weight * sum;
                    }
                }
            }
        }
        Ok(())
    }

    fn one_by_one(
        &self,
        columns: &mut [f64],
        rows: &mut [f64],
        exposure: &mut [f64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        let (width, height) = (self.drawing.width, self.drawing.height);
        let mut spots = Spots::new();
        let mut pace = Pace::new();
        for (y, out) in exposure.chunks_exact_mut(width).enumerate() {
            for (number, out) in out.chunks_mut(BLOCK).enumerate() {
                let done = (y as f64 + (number * BLOCK) as f64 / width as f64) / height as f64;
                watch.done(done)?;
                let first = number * BLOCK;
                self.map.fill(first, out.len(), y, &mut spots);
                for (k, ((out, radius), factor)) in
                    out.iter_mut().zip(&spots.radius).zip(&spots.factor).enumerate()
                {
                    if radius.is_nan() {
                        *out = f64::NAN;
                        continue;
                    }
                    let radii = self.map.spot.radii(*radius);
                    *out = factor * self.one(first + k, y, &radii, columns, rows);
                    // So many rows of so many columns were added up; a sum in f64 takes about a nanosecond.
                    let side = |radius: f64| 2.0 * REACH_OF_REFERENCE * radius;
                    if pace.is_due((side(radii.along) * side(radii.across)) as usize) {
                        watch.done(done)?;
                    }
                }
            }
        }
        Ok(())
    }

    /// The exposure of one pixel by its own spot.
    fn one(&self, x: usize, y: usize, radii: &Radii, columns: &mut [f64], rows: &mut [f64]) -> f64 {
        let reach = (REACH_OF_REFERENCE * radii.along) as usize + 1;
        let first = x.saturating_sub(reach);
        let last = (x + reach).min(self.drawing.width - 1);
        let Some(columns) = columns.get_mut(first..=last) else { return f64::NAN };
        for (i, weight) in columns.iter_mut().enumerate() {
            *weight = pixel_weight(x.abs_diff(first + i) as f64, radii.along, radii.point_along);
        }
        let reach = rows_within_reach(radii);
        self.weigh_rows(y, radii, reach as f64, rows);
        let from = y.saturating_sub(reach);
        let mut total = 0.0;
        for (j, weight) in rows.iter().enumerate().skip(from).take(2 * reach + 1) {
            let samples = self.drawing.row(j).get(first..=last).unwrap_or(&[]);
            if *weight == 0.0 {
                continue;
            }
            let mut sum = 0.0;
            for (sample, column) in samples.iter().zip(columns.iter()) {
                sum += self.ink(*sample) * column;
            }
            total += weight * sum;
        }
        total
    }

    /// What every row gives to the row `y`, 0 beyond the reach.
    fn weigh_rows(&self, y: usize, radii: &Radii, reach: f64, rows: &mut [f64]) {
        let Some(lines) = &self.map.spot.lines else {
            let within = rows.iter_mut().enumerate();
            for (j, weight) in within {
                let k = y.abs_diff(j) as f64;
                *weight = if k <= reach { pixel_weight(k, radii.across, radii.point_across) } else { 0.0 };
            }
            return;
        };
        rows.fill(0.0);
        let centre = y as f64 + 0.5;
        let last = crate::model::math::lesser(centre + reach, rows.len() as f64);
        let mut number = lines.before(crate::model::math::greater(centre - reach, 0.0));
        loop {
            let place = lines.place(number);
            if place >= last {
                break;
            }
            if place >= 0.0
                && let Some(weight) = rows.get_mut(place as usize)
            {
                *weight += line_weight(centre - place, radii.across, lines.interval);
            }
            number += 1.0;
        }
    }

    /// The inked columns of a row and how much of them is ink.
    fn ink_of_row(&self, y: usize) -> impl Iterator<Item = (usize, f64)> {
        let samples = self.drawing.row(y).iter().enumerate();
        samples.filter(|(_, sample)| **sample != 0).map(|(i, sample)| (i, self.ink(*sample)))
    }

    fn ink(&self, sample: u8) -> f64 {
        match self.drawing.kind {
            SampleKind::Bilevel => f64::from(u8::from(sample != 0)),
            SampleKind::Coverage => f64::from(sample) / 255.0,
        }
    }
}

fn rows_within_reach(radii: &Radii) -> usize {
    (REACH_OF_REFERENCE * radii.across) as usize + 1
}
