//! The cases of `tests/tables/artwork`.

use serde_json::Value;
use std::path::{Path, PathBuf};

/// One case: its drawing, the mark expected of it, and everything else that its file says.
pub struct Case {
    pub name: String,
    /// Samples of the drawing, 0 to 255; ink is from 128 on.
    pub drawing: Vec<u8>,
    /// The expected mark: 0 unmarked, 255 marked.
    pub mark: Vec<u8>,
    pub width: usize,
    pub height: usize,
    pub facts: Value,
}

impl Case {
    /// A number of the case's `metrics`.
    pub fn metric(&self, name: &str) -> u64 {
        self.signed_metric(name).try_into().unwrap_or_else(|_| panic!("{}: {name} is negative", self.name))
    }

    /// A number of the case's `metrics` that may be negative.
    pub fn signed_metric(&self, name: &str) -> i64 {
        self.facts["metrics"][name].as_i64().unwrap_or_else(|| panic!("{}: no metric {name}", self.name))
    }

    /// The ink of the drawing, as words of a bitmap.
    pub fn ink_words(&self) -> Vec<u64> {
        words(&self.drawing, self.width)
    }

    /// The expected mark, as words of a bitmap.
    pub fn mark_words(&self) -> Vec<u64> {
        words(&self.mark, self.width)
    }
}

/// Rows of whole words, set where a sample is 128 or more.
pub fn words(samples: &[u8], width: usize) -> Vec<u64> {
    let word = |samples: &[u8]| {
        samples.iter().enumerate().fold(0, |word, (k, &sample)| word | u64::from(sample >= 128) << k)
    };
    samples.chunks(width).flat_map(|row| row.chunks(64).map(word)).collect()
}

fn png(path: &Path) -> (Vec<u8>, usize, usize) {
    let file = std::io::BufReader::new(std::fs::File::open(path).expect("a PNG file beside the case"));
    let mut decoder = png::Decoder::new(file);
    decoder.set_transformations(png::Transformations::EXPAND);
    let mut reader = decoder.read_info().expect("a PNG header");
    let mut samples = vec![0; reader.output_buffer_size().expect("a size that fits")];
    let frame = reader.next_frame(&mut samples).expect("a whole picture");
    assert_eq!((frame.color_type, frame.bit_depth), (png::ColorType::Grayscale, png::BitDepth::Eight));
    samples.truncate(frame.buffer_size());
    (samples, frame.width as usize, frame.height as usize)
}

/// All cases, by name.
pub fn all() -> Vec<Case> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/tables/artwork");
    let mut files: Vec<PathBuf> = std::fs::read_dir(&folder)
        .expect("the folder of cases")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "json"))
        .collect();
    files.sort();
    files.iter().map(|path| read(&folder, path)).collect()
}

fn read(folder: &Path, path: &Path) -> Case {
    let facts: Value = serde_json::from_str(&std::fs::read_to_string(path).expect("a case")).expect("JSON");
    let file = |key: &str| folder.join(facts[key].as_str().expect("a file name"));
    let (drawing, width, height) = png(&file("png"));
    let (mark, mark_width, mark_height) = png(&file("expected_mark_png"));
    assert_eq!((mark_width, mark_height), (width, height));
    assert_eq!(facts["width_px"], width);
    assert_eq!(facts["height_px"], height);
    Case { name: facts["name"].as_str().expect("a name").to_string(), drawing, mark, width, height, facts }
}

/// The pictures are read as they were meant: both hold as many pixels of ink and mark as the case counts.
#[test]
fn the_cases_are_read_whole() {
    let cases = all();
    assert_eq!(cases.len(), 12);
    for case in cases {
        let count = |words: &[u64]| words.iter().map(|word| u64::from(word.count_ones())).sum::<u64>();
        assert_eq!(count(&case.ink_words()), case.metric("ink_px"), "{}", case.name);
        assert_eq!(count(&case.mark_words()), case.metric("mark_px"), "{}", case.name);
    }
}
