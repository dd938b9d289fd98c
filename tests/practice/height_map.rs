//! Uneven surfaces. Every saying is common practice, no source.

use super::*;
use spotwise::model::surface::{HeightQuantity, in_focus_mask, map_heights};

/// The lid of a rain gauge, domed by a millimetre: 31 by 31 heights over 60 mm, + away from the lens. The corners
/// lie outside its rim, where there is nothing to probe.
fn lid() -> Vec<f64> {
    let place = |k: usize| (k as f64 - 15.0) / 15.0;
    let radius_squared = |k: usize| place(k % 31).powi(2) + place(k / 31).powi(2);
    (0..31 * 31).map(radius_squared).map(|r2| if r2 > 1.0 { f64::NAN } else { 1e-3 * r2 }).collect()
}

fn beam_behind(focal_length: f64) -> Beam {
    let focused = focus_collimated(CO2, 1.2, 7e-3, focal_length).unwrap();
    Beam { wavelength: CO2, m2: 1.2, waist_diameter: focused.waist_diameter }
}

/// Common practice, no source: "on a domed part set focus halfway between its highest and its lowest place".
/// No other height of focus makes the worst spot of the map smaller.
#[test]
fn halfway_is_the_best_focus_on_a_domed_lid() {
    let (beam, lid) = (beam_behind(SHORT_LENS), lid());
    let mut growth = vec![0.0; lid.len()];
    let mut worst =
        |focus| map_heights(&beam, focus, HeightQuantity::Growth, &lid, &mut growth).unwrap().greatest;
    let halfway = worst(0.5e-3);
    for step in 0..=400 {
        assert!(worst(f64::from(step) * 2.5e-6) >= halfway);
    }
    assert!(worst(0.0) > 1.4 * halfway, "the saying would not matter");
}

/// Common practice, no source: "take the long lens for uneven work". On the lid the long lens is in focus
/// everywhere by a growth of a tenth of the spot, the short one only on a ring of it; and the finest stroke
/// of the short lens, where it is sharp, is finer.
#[test]
fn the_long_lens_forgives_the_dome() {
    let lid = lid();
    let mut in_focus = vec![false; lid.len()];
    let mut stroke = vec![0.0; lid.len()];
    let mut seen = |focal_length: f64| {
        let beam = beam_behind(focal_length);
        let criterion = DepthCriterion::Growth { ratio: 1.1 };
        let mask = in_focus_mask(&beam, 0.5e-3, criterion, &lid, &mut in_focus).unwrap();
        let quantity = HeightQuantity::SmallestStroke { dose_ratio: 2.7 };
        let map = map_heights(&beam, 0.5e-3, quantity, &lid, &mut stroke).unwrap();
        (mask, map)
    };
    let ((long, long_strokes), (short, short_strokes)) = (seen(LONG_LENS), seen(SHORT_LENS));
    let measured = long.in_focus + long.too_near_lens + long.too_far_from_lens;
    assert_eq!(long.in_focus, measured);
    let share = short.in_focus as f64 / measured as f64;
    // ±0.22 mm of depth on 1 mm of dome, whose heights are spread evenly over its area: 44 %.
    assert!((0.40..0.48).contains(&share), "{share}");
    assert!(short.too_near_lens > 0 && short.too_far_from_lens > 0);
    assert!(short_strokes.least < 0.65 * long_strokes.least);
    assert!(short_strokes.greatest / short_strokes.least > long_strokes.greatest / long_strokes.least);
}
