//! Where to set focus, and how often. Every saying is common practice, no source; what the model makes of it is
//! worked out by hand.

use super::*;
use spotwise::model::focus::defocus;
use spotwise::model::surface::{
    DepthEnds, FocusAim, cylinder_strip, focus_between, height_bands, refocus_plan, spot_through,
};

/// 88 µm at 10.6 µm with M² 1.2: a Rayleigh range of π·88²/(4·1.2·10.6) µm = 0.47815 mm.
const BEAM: Beam = Beam { wavelength: CO2, m2: 1.2, waist_diameter: 88e-6 };

/// Common practice, no source: "put focus at mid-height of the marked area, not on its top". A plate that is bowed by
/// 0.8 mm: with focus on its top the bottom is 0.8/0.47815 = 1.6731 Rayleigh ranges off, and the spot there 1.949 waists;
/// at mid-height both are 0.8366 off, 1.304 waists.
#[test]
fn focus_belongs_at_mid_height() {
    let on_top = defocus(&BEAM, 0.8e-3).unwrap().growth;
    let best = focus_between(&BEAM, 0.0, 0.8e-3).unwrap();
    assert!((on_top - 1.949).abs() < 5e-4, "{on_top}");
    assert!((best.worst.growth - 1.304).abs() < 5e-4 && best.focus_z == 0.4e-3, "{best:?}");
}

/// Common practice, no source: "refocus when the removed depth reaches the half range". With focus on the surface a
/// depth of 0.25 mm either way takes five passes of 0.05 mm; a brass dial engraved 1 mm deep needs three refocusings,
/// each by 0.25 mm. Focus below the surface at first takes ten, and one refocusing.
#[test]
fn refocus_when_the_removed_depth_reaches_the_half_range() {
    let depth = DepthEnds { toward_lens_z: -0.25e-3, away_from_lens_z: 0.25e-3 };
    let mut focus = [0.0; 4];
    let plan = refocus_plan(1e-3, 0.05e-3, &depth, FocusAim::HighestPlace, &mut focus).unwrap();
    assert_eq!((plan.passes, plan.passes_per_stage, plan.stages), (20, 5, 4));
    assert!((plan.stage_depth - 0.25e-3).abs() < 1e-15, "the removed depth is the half range");
    assert_eq!(focus.map(|z| (z * 1e9).round()), [0.0, 250_000.0, 500_000.0, 750_000.0]);
    let plan = refocus_plan(1e-3, 0.05e-3, &depth, FocusAim::Midway, &mut focus).unwrap();
    assert_eq!((plan.passes_per_stage, plan.stages), (10, 2));
    // One pass that digs deeper than the whole range cannot be helped by refocusing.
    let coarse = refocus_plan(2e-3, 0.6e-3, &depth, FocusAim::Midway, &mut focus).unwrap();
    assert!(!coarse.stays_in_focus && coarse.stages == 4);
}

/// Common practice, no source: "on a round part only a narrow strip is sharp, unless it is turned". A rain gauge's tube
/// of 76 mm, 0.5 mm of depth either way: 2·√(0.5·75.5) = 12.29 mm with focus on the crown, 2·√(1·75) = 17.32 mm with
/// focus 0.5 mm below it, of a circumference of 239 mm.
#[test]
fn only_a_narrow_strip_of_a_round_part_is_sharp() {
    let depth = DepthEnds { toward_lens_z: -0.5e-3, away_from_lens_z: 0.5e-3 };
    let crown = cylinder_strip(38e-3, &depth, FocusAim::HighestPlace).unwrap();
    let midway = cylinder_strip(38e-3, &depth, FocusAim::Midway).unwrap();
    assert!((crown.full_chord - 12.29e-3).abs() < 5e-6, "{crown:?}");
    assert!((midway.full_chord - 17.32e-3).abs() < 5e-6, "{midway:?}");
    assert!(midway.arc_length < 0.08 * std::f64::consts::PI * 76e-3);
    // The edge leans by asin(8.660/38) = 13.2 degrees, which costs 2.6 % of the irradiance.
    assert!((midway.edge_incidence.to_degrees() - 13.17).abs() < 5e-3);
    assert!((midway.edge_irradiance_ratio - 37.0 / 38.0).abs() < 1e-15);
}

/// Common practice, no source: "for thick sheet set focus in its middle". For 3 mm the worst spot is then 3.29 waists,
/// with focus on top 6.35; for thin sheet, below a Rayleigh range, it hardly matters.
#[test]
fn thick_sheet_is_cut_with_focus_in_its_middle() {
    let on_top = spot_through(&BEAM, 0.0, 3e-3).unwrap();
    assert!((on_top.worst_growth - 6.353).abs() < 5e-4, "{on_top:?}");
    assert!((on_top.best_worst_growth - 3.293).abs() < 5e-4 && on_top.best_focus_z == 1.5e-3);
    let thin = spot_through(&BEAM, 0.0, 0.2e-3).unwrap();
    assert!(thin.worst_growth / thin.best_worst_growth < 1.07, "{thin:?}");
}

/// Common practice, no source: "steps higher than the depth of focus are marked one after the other". Three steps of
/// 1 mm with 0.5 mm of depth: four bands where a fifth of the depth is kept for set-up, three without.
#[test]
fn steps_are_marked_one_after_the_other() {
    let depth = DepthEnds { toward_lens_z: -0.5e-3, away_from_lens_z: 0.5e-3 };
    let bands = |margin| height_bands(0.0, 3e-3, &depth, margin, &mut [], &mut []).unwrap().count;
    assert_eq!((bands(0.0), bands(0.2)), (3, 4));
}
