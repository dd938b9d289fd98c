//! Shares of bilinear cells below a level.

use super::*;
use spotwise::model::surface::{Region, Surface, region_heights, share_in_focus};

/// The printed shares have 17 digits; each is one formula of the level and four heights.
#[test]
fn shares_of_bilinear_cells_match_the_table() {
    let table = Table::read(include_str!("bilinear.csv"));
    let mut ledger = Ledger::default();
    let mut cut = 0;
    for row in table.rows() {
        let z = ["z00", "z10", "z01", "z11"].map(|corner| row.number(corner));
        let cell = Surface::Grid { x: &[0.0, 1.0], y: &[0.0, 1.0], z: &z };
        let region = Region { x_least: 0.0, x_greatest: 1.0, y_least: 0.0, y_greatest: 1.0 };
        let (level, below) = (row.number("level"), row.number("area_share_below_level"));
        // Below the level is what lies toward the lens from it.
        let share = share_in_focus(&cell, &region, 1, level, 1e3).unwrap();
        ledger.near("area_share_below_level", share.toward_lens, below, 10.0);
        let share = share_in_focus(&cell, &region, 1, -1e3, level).unwrap();
        ledger.near("area_share_below_level", share.in_focus, below, 10.0);
        let heights = region_heights(&cell, &region, 1).unwrap();
        assert!((heights.mean_z - z.iter().sum::<f64>() / 4.0).abs() < ROUNDING);
        cut += usize::from(below > 0.0 && below < 1.0);
    }
    assert_eq!((table.rows.len(), cut), (36, 22));
}
