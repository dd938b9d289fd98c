//! The same counts, found pixel by pixel in the plainest way.

use std::collections::BTreeSet;

/// A mask as one truth for each pixel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pixels {
    pub width: usize,
    pub height: usize,
    pub set: Vec<bool>,
}

impl Pixels {
    pub fn from_words(words: &[u64], width: usize, height: usize) -> Self {
        let in_row = width.div_ceil(64);
        let set = (0..width * height)
            .map(|at| words[at / width * in_row + at % width / 64] >> (at % width % 64) & 1 == 1)
            .collect();
        Pixels { width, height, set }
    }

    pub fn words(&self) -> Vec<u64> {
        let word = |pixels: &[bool]| {
            pixels.iter().enumerate().fold(0, |word, (k, &pixel)| word | u64::from(pixel) << k)
        };
        self.set.chunks(self.width).flat_map(|row| row.chunks(64).map(word)).collect()
    }

    /// Rows of `#` for ink and anything else for ground.
    pub fn from_picture(rows: &[&str]) -> Self {
        let set = rows.iter().flat_map(|row| row.bytes().map(|byte| byte == b'#')).collect();
        Pixels { width: rows[0].len(), height: rows.len(), set }
    }

    /// Labels from 1 in the order of the first pixels: of the ink over eight neighbours, or of the ground over four.
    /// Ground at the edge belongs to the outside, label 0; so does, in the labels of the ink, the ground, and the
    /// other way round. Also tells how many there are.
    pub fn labels(&self, ink: bool) -> (Vec<u32>, u32) {
        const UNKNOWN: u32 = u32::MAX;
        let mut labels: Vec<u32> = self.set.iter().map(|&set| if set == ink { UNKNOWN } else { 0 }).collect();
        if !ink {
            for at in 0..labels.len() {
                let (x, y) = (at % self.width, at / self.width);
                let at_edge = x == 0 || y == 0 || x + 1 == self.width || y + 1 == self.height;
                if at_edge && labels[at] == UNKNOWN {
                    self.flood(&mut labels, at, 0, ink);
                }
            }
        }
        let mut count = 0;
        for at in 0..labels.len() {
            if labels[at] == UNKNOWN {
                count += 1;
                self.flood(&mut labels, at, count, ink);
            }
        }
        (labels, count)
    }

    fn flood(&self, labels: &mut [u32], first: usize, label: u32, eight: bool) {
        let mut edge = vec![first];
        labels[first] = label;
        while let Some(at) = edge.pop() {
            let (x, y) = (at % self.width, at / self.width);
            for j in y.saturating_sub(1)..(y + 2).min(self.height) {
                for i in x.saturating_sub(1)..(x + 2).min(self.width) {
                    let next = j * self.width + i;
                    if labels[next] == u32::MAX && (eight || i == x || j == y) {
                        labels[next] = label;
                        edge.push(next);
                    }
                }
            }
        }
    }
}

/// The labels on the other side that share a pixel with each label from 1 on.
pub fn met(labels: &[u32], count: u32, others: &[u32], here: impl Fn(usize) -> bool) -> Vec<BTreeSet<u32>> {
    let mut met = vec![BTreeSet::new(); count as usize];
    for at in (0..labels.len()).filter(|&at| here(at) && labels[at] > 0) {
        met[labels[at] as usize - 1].insert(others[at]);
    }
    met
}
