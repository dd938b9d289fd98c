//! Distances, openings and closings against those of scipy.ndimage: `tests/tables/mask_distances.csv`, made by
//! `tests/reference/outside_distances.py`.

use crate::masks::Mask;
use spotwise::Param;
use spotwise::artwork::{
    BitmapMut, Disc, Nearest, Ruler, Watch, closed, closed_words, distances, distances_words, opened,
    opened_words,
};
use std::collections::BTreeMap;

/// The rows of values of each mask, ratio of pitches, and what they are.
type Table = BTreeMap<(String, String, String), Vec<String>>;

fn table() -> Table {
    let mut table = Table::new();
    let text = include_str!("../tables/mask_distances.csv");
    for line in text.lines().skip(1) {
        let cells: Vec<_> = line.split(',').collect();
        let [mask, ratio, what, row, values] = cells[..] else { panic!("{line}") };
        let rows = table.entry((mask.into(), ratio.into(), what.into())).or_default();
        assert_eq!(row.parse(), Ok(rows.len()));
        rows.push(values.into());
    }
    table
}

fn mask(rows: &[String]) -> Mask {
    Mask::drawn(&rows.iter().map(String::as_str).collect::<Vec<_>>())
}

#[test]
fn scipy_agrees() {
    let table = table();
    let mut compared = 0;
    for ((name, ratio, what), rows) in &table {
        let drawn = mask(&table[&(name.clone(), "1.0".to_string(), "mask".to_string())]);
        let (width, height) = (drawn.width, drawn.height);
        let pitch_y = ratio.parse::<f64>().unwrap();
        let disc = Disc::new(2.5e-5, 1e-5, 1e-5 * pitch_y, Param::MeltBridge).unwrap();
        let mut out = Mask { words: drawn.words.clone(), ..drawn };
        let mut view = BitmapMut::new(&mut out.words, width, height).unwrap();
        match what.as_str() {
            "mask" => continue,
            "opened_2.5" => {
                let mut room = vec![0; opened_words(width, height, &disc)];
                opened(drawn.view(), &disc, &mut view, &mut room, &mut Watch::quiet()).unwrap();
                assert_eq!(out.words, mask(rows).words, "{name} {ratio} {what}");
            }
            "closed_2.5" => {
                let mut room = vec![0; closed_words(width, height, &disc)];
                closed(drawn.view(), &disc, &mut view, &mut room, &mut Watch::quiet()).unwrap();
                assert_eq!(out.words, mask(rows).words, "{name} {ratio} {what}");
            }
            _ => {
                let nearest = if what == "set" { Nearest::Set } else { Nearest::Clear };
                let ruler = Ruler::new(1e-5, 1e-5 * pitch_y, 255).unwrap();
                let mut room = vec![0; distances_words(width, height, &ruler)];
                let each = |y: usize, row: spotwise::artwork::DistanceRow| {
                    for (x, value) in rows[y].split(' ').enumerate() {
                        let expected: f64 = value.parse().unwrap();
                        let got = 4.0 * row.squared_pixels(x);
                        assert!(
                            (got - expected).abs() <= 1e-14 * expected,
                            "{name} {ratio} {what} {x} {y} {got}"
                        );
                        compared += 1;
                    }
                };
                distances(drawn.view(), nearest, None, &ruler, &mut room, &mut Watch::quiet(), each).unwrap();
            }
        }
    }
    assert_eq!(compared, 4 * (2 * 24 * 70 + 40 * 140));
}
