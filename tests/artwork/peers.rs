//! Components against SciPy's `ndimage.label` and OpenCV's `connectedComponentsWithStats`, which agree with each other:
//! `tests/tables/mask_components.csv`, by `tests/reference/outside_masks.py`.

use spotwise::artwork::{Bitmap, Components, PixelBox, Watch, label_ground, label_ink, label_words};

/// Pixels and box of a component: left, top, right and bottom.
type Told = [u32; 5];

/// What the table tells of each component, sorted.
fn told(cell: &str) -> Vec<Told> {
    let component = |text: &str| {
        let mut numbers = text.split(' ').map(|number| number.parse().expect("a whole number"));
        std::array::from_fn(|_| numbers.next().expect("five numbers"))
    };
    cell.split(';').filter(|text| !text.is_empty()).map(component).collect()
}

/// The same, from the runs.
fn found(components: &Components) -> Vec<Told> {
    let mut found = vec![(0, PixelBox::EMPTY); components.count() as usize];
    for y in 0..components.height() {
        for run in components.row(y).filter(|run| run.label > 0) {
            let (pixels, extent) = &mut found[run.label as usize - 1];
            *pixels += (run.end - run.start) as u32;
            extent.left = extent.left.min(run.start as u32);
            extent.top = extent.top.min(y as u32);
            extent.right = extent.right.max(run.end as u32 - 1);
            extent.bottom = extent.bottom.max(y as u32);
        }
    }
    let told =
        |(pixels, extent): (u32, PixelBox)| [pixels, extent.left, extent.top, extent.right, extent.bottom];
    let mut found: Vec<Told> = found.into_iter().map(told).collect();
    found.sort_unstable();
    found
}

/// Words of a mask written in digits of four pixels.
fn words(digits: &str, width: usize, height: usize) -> Vec<u64> {
    let row = |digits: &[u8]| -> Vec<u64> {
        let pixels = |digit: &u8| u64::from(char::from(*digit).to_digit(16).expect("a digit"));
        let word = |digits: &[u8]| digits.iter().rev().fold(0, |word, digit| word << 4 | pixels(digit));
        digits.chunks(16).map(word).collect()
    };
    assert_eq!(digits.len(), width.div_ceil(4) * height);
    digits.as_bytes().chunks(width.div_ceil(4)).flat_map(row).collect()
}

#[test]
fn components_are_those_of_scipy_and_opencv() {
    let mut lines = include_str!("../tables/mask_components.csv").lines();
    assert_eq!(lines.next(), Some("width,height,mask,ink,holes"));
    let (mut pieces, mut holes) = (0, 0);
    for line in lines {
        let cells: Vec<&str> = line.split(',').collect();
        let [width, height, digits, ink, ground] = cells[..] else { panic!("{line}") };
        let (width, height) = (width.parse().expect("a width"), height.parse().expect("a height"));
        let words = words(digits, width, height);
        let mask = Bitmap::new(&words, width, height).expect("as many words as the size says");
        let mut room = vec![0; label_words(width, height)];
        let components = label_ink(&mask, &mut room, &mut Watch::quiet()).expect("few runs");
        assert_eq!(found(&components), told(ink), "{width} × {height}");
        pieces += components.count();
        let components = label_ground(&mask, &mut room, &mut Watch::quiet()).expect("few runs");
        assert_eq!(found(&components), told(ground), "{width} × {height}");
        holes += components.count();
    }
    assert!(pieces > 1000 && holes > 1000, "{pieces} {holes}");
}
