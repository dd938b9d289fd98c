//! Weighted sums of rows of numbers, along a row and across rows.
//!
//! Each sum is taken in one order, tap by tap, for many pixels side by side, so that its bits do not depend on how wide
//! the processor's registers are. To be called within [`vectorised`](super::simd::vectorised).

/// So many pixels are summed side by side.
pub(crate) const LANES: usize = 32;

/// So many pixels of a row from a place on.
#[inline(always)]
pub(crate) fn lanes(row: &[f32], from: usize) -> Option<&[f32; LANES]> {
    row.get(from..)?.first_chunk()
}

/// out\[x\] = `half`\[0\]·line\[x + r\] + Σ `half`\[k\]·(line\[x + r − k\] + line\[x + r + k\]), where `half` holds the
/// weights from the centre outward, r + 1 of them. `line` is 2·r longer than `out`, which is whole lanes.
#[inline(always)]
pub(crate) fn along(line: &[f32], half: &[f32], out: &mut [f32]) {
    let Some((centre, outward)) = half.split_first() else { return };
    let r = outward.len();
    for (number, out) in out.chunks_exact_mut(LANES).enumerate() {
        let middle = number * LANES + r;
        let Some(pixels) = lanes(line, middle) else { return };
        let mut sums = pixels.map(|pixel| centre * pixel);
        for (k, tap) in outward.iter().enumerate() {
            let (Some(before), Some(behind)) = (lanes(line, middle - 1 - k), lanes(line, middle + 1 + k))
            else {
                return;
            };
            for ((sum, a), b) in sums.iter_mut().zip(before).zip(behind) {
                *sum += tap * (a + b);
            }
        }
        out.copy_from_slice(&sums);
    }
}

/// Σ `slots`\[s\]·rows\[s\] of one block of columns, where the rows are `stride` apart and those that are blank are left
/// out.
#[inline(always)]
pub(crate) fn across(rows: &[f32], stride: usize, inked: &[u8], slots: &[f32]) -> [f32; LANES] {
    let mut sums = [0.0; LANES];
    for ((row, inked), tap) in rows.chunks(stride).zip(inked).zip(slots) {
        if *inked == 0 {
            continue;
        }
        if let Some(pixels) = row.first_chunk::<LANES>() {
            for (sum, pixel) in sums.iter_mut().zip(pixels) {
                *sum += tap * pixel;
            }
        }
    }
    sums
}

/// The nearest unit of 2⁻¹⁵ of full dose, from 0 to 65 535 of them.
#[inline(always)]
pub(crate) fn quantised(exposure: f32) -> u16 {
    let units = exposure * 32_768.0;
    let units = if units > 0.0 { units } else { 0.0 };
    let units = if units < 65_535.0 { units } else { 65_535.0 };
    // Beside 2²³ a float has no digits behind the point: the sum rounds, and its last bits are the number.
    (units + 8_388_608.0).to_bits() as u16
}

#[cfg(test)]
mod tests {
    use super::quantised;

    #[test]
    fn units_are_rounded_and_saturate() {
        for (exposure, units) in
            [(0.0, 0), (1.0, 32_768), (0.5, 16_384), (2.0, 65_535), (9.0, 65_535), (-0.1, 0)]
        {
            assert_eq!(quantised(exposure), units, "{exposure}");
        }
        for units in (0..=65_535).step_by(7) {
            assert_eq!(quantised(units as f32 / 32_768.0), units as u16);
            assert_eq!(quantised((units as f32 + 0.4) / 32_768.0), units as u16);
        }
    }
}
