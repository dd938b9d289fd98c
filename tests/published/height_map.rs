//! Maps of heights.

use super::*;
use spotwise::model::surface::{HeightQuantity, in_focus_mask, map_heights};

/// B. Saleh, M. Teich, *Fundamentals of Photonics*, section 3.1, properties of the Gaussian beam, from memory:
/// at the Rayleigh range the radius is √2 times that of the waist and the irradiance on the axis one half; at
/// twice that, √5 and one fifth.
#[test]
fn a_stair_of_rayleigh_ranges() {
    let he_ne = beam(633e-9, 1.0, 50e-6);
    let zr = beam_parameters(&he_ne).unwrap().rayleigh_range;
    let stair = [-2.0, -1.0, 0.0, 1.0, 2.0].map(|step| 0.25 + step * zr);
    let map = |quantity| {
        let mut out = [0.0; 5];
        map_heights(&he_ne, 0.25, quantity, &stair, &mut out).unwrap();
        out
    };
    let growth = map(HeightQuantity::Growth);
    let irradiance = map(HeightQuantity::IrradianceRatio);
    let line_dose = map(HeightQuantity::LineDoseRatio);
    for (i, (grown, dimmed)) in
        [("2.236068", "0.2"), ("1.414214", "0.5"), ("1.0", "1.0"), ("1.414214", "0.5"), ("2.236068", "0.2")]
            .into_iter()
            .enumerate()
    {
        rounds_to(growth[i], grown);
        // The height of a step is known to its last digit only, and the irradiance goes with its square.
        assert!((irradiance[i] - dimmed.parse::<f64>().unwrap()).abs() < 1e-13);
        assert!((line_dose[i] * growth[i] - 1.0).abs() < 1e-15);
    }
    // A sheet level to half a Rayleigh range is in focus by Rayleigh's criterion, one of two is not at its ends.
    let mut in_focus = [false; 3];
    let z = [0.25 - 0.5 * zr, 0.25 + 0.999 * zr, 0.25 + 1.001 * zr];
    in_focus_mask(&he_ne, 0.25, DepthCriterion::Rayleigh, &z, &mut in_focus).unwrap();
    assert_eq!(in_focus, [true, true, false]);
}

/// A. E. Siegman, *Lasers* (1986), section 17.1, from memory: the confocal parameter, twice the Rayleigh range,
/// is the depth over which the area of the spot stays within twice that of the waist.
#[test]
fn the_confocal_parameter_is_where_the_area_doubles() {
    let yag = beam(1.064e-6, 1.0, 20e-6);
    let mut in_focus = [];
    let mask =
        in_focus_mask(&yag, 0.0, DepthCriterion::Growth { ratio: SQRT_2 }, &[], &mut in_focus).unwrap();
    // b = 2·π·(20 µm)²/1.064 µm = 2.3621 mm
    rounds_to((mask.away_from_lens_z - mask.toward_lens_z) * 1e3, "2.3621");
}
