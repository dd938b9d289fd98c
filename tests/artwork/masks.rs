//! Masks to draw at random, and what every search over them is held against: a plain one over all pairs of pixels.

use proptest::prelude::*;
use spotwise::artwork::{Bitmap, words_in_row};

/// A mask and its pixels one by one.
#[derive(Debug, Clone)]
pub struct Mask {
    pub words: Vec<u64>,
    pub width: usize,
    pub height: usize,
}

impl Mask {
    pub fn from_fn(width: usize, height: usize, set: impl Fn(usize, usize) -> bool) -> Mask {
        let mut words = vec![0; words_in_row(width) * height];
        for y in 0..height {
            for x in (0..width).filter(|&x| set(x, y)) {
                words[y * words_in_row(width) + x / 64] |= 1 << (x % 64);
            }
        }
        Mask { words, width, height }
    }

    /// From rows of characters, `#` for a set pixel.
    pub fn drawn(rows: &[&str]) -> Mask {
        Mask::from_fn(rows[0].len(), rows.len(), |x, y| rows[y].as_bytes()[x] == b'#')
    }

    pub fn empty(width: usize, height: usize) -> Mask {
        Mask::from_fn(width, height, |_, _| false)
    }

    pub fn view(&self) -> Bitmap<'_> {
        Bitmap::new(&self.words, self.width, self.height).expect("as many words as needed")
    }

    pub fn get(&self, x: i64, y: i64) -> bool {
        x >= 0 && y >= 0 && self.view().get(x as usize, y as usize)
    }

    /// All pixels.
    pub fn pixels(&self) -> impl Iterator<Item = (usize, usize)> + use<> {
        let (width, height) = (self.width, self.height);
        (0..height).flat_map(move |y| (0..width).map(move |x| (x, y)))
    }

    /// The least square of the distance from each pixel to any that is `set`, searched over all of them and over a
    /// frame of one pixel around, where nothing is set; infinite if there is none.
    pub fn nearest_squares(&self, set: bool, pitch: (f64, f64)) -> Vec<f64> {
        let frame = (-1..=self.height as i64).flat_map(|y| (-1..=self.width as i64).map(move |x| (x, y)));
        let found: Vec<_> = frame.filter(|&(x, y)| self.get(x, y) == set).collect();
        let least = |(x, y): (usize, usize)| {
            found.iter().fold(f64::INFINITY, |least, &(i, j)| {
                let (dx, dy) = ((i - x as i64) as f64 * pitch.0, (j - y as i64) as f64 * pitch.1);
                let square = dx * dx + dy * dy;
                if square < least { square } else { least }
            })
        };
        self.pixels().map(least).collect()
    }
}

/// Masks up to this size: random pixels of any density, and blots.
pub fn any_mask(most_width: usize, most_height: usize) -> impl Strategy<Value = Mask> {
    let random = (1..=most_width, 1..=most_height, 0.0..1.0_f64, any::<u64>()).prop_map(
        |(width, height, share, seed)| {
            // Few, half or nearly all pixels.
            let share = share * share * (3.0 - 2.0 * share);
            Mask::from_fn(width, height, |x, y| unit(seed, x, y) < share)
        },
    );
    let blots = (1..=most_width, 1..=most_height, any::<u64>(), 1..6_u64, 1.0..30.0_f64).prop_map(
        |(width, height, seed, count, size)| {
            Mask::from_fn(width, height, |x, y| {
                (0..count).any(|k| {
                    let centre =
                        (unit(seed, k as usize, 1) * width as f64, unit(seed, k as usize, 2) * height as f64);
                    (x as f64 - centre.0).hypot(y as f64 - centre.1) < size * unit(seed, k as usize, 3)
                })
            })
        },
    );
    let plain = (1..=most_width, 1..=most_height, any::<bool>())
        .prop_map(|(width, height, all)| Mask::from_fn(width, height, |_, _| all));
    prop_oneof![6 => random, 6 => blots, 1 => plain]
}

/// A number from 0 to 1 for each pixel and seed (the mixer of SplitMix64, from memory).
pub fn unit(seed: u64, x: usize, y: usize) -> f64 {
    let mut z = seed ^ (x as u64) << 32 ^ y as u64;
    z = z.wrapping_add(0x9e37_79b9_7f4a_7c15);
    z = (z ^ z >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ z >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
    (z ^ z >> 31) as f64 / u64::MAX as f64
}
