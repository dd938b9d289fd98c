//! Fills and text. Every figure is common practice, no source.

use super::*;
use spotwise::model::mark::{
    Blur, MarkKind, POINT, TextGrades, Typeface, blur_budget, mark_width, raster_ripple, smallest_details,
    smallest_text,
};

/// Common practice, no source: "an interval of half the spot or less leaves no visible lines, one of the
/// whole spot leaves stripes". With the spot's radius for half of it: below 1.5 % of ripple, against 57 %.
#[test]
fn an_interval_of_the_radius_is_smooth_and_of_the_diameter_striped() {
    let spot = 100e-6;
    assert!(raster_ripple(spot, 0.5 * spot).unwrap().contrast < 0.015);
    assert!(raster_ripple(spot, spot).unwrap().contrast > 0.5);
}

/// Common practice, no source: "a 1.5 inch lens holds 4 point text, a 2.5 inch lens 5 to 6 point", with
/// ordinary sans serif type in a coating. The model's *crisp* agrees, by the way its cut-offs were set; good and
/// readable text are finer.
#[test]
fn a_short_lens_holds_four_point_text() {
    for diameter_at_lens in [6.5e-3, 7e-3, 8e-3] {
        let smallest = |f: f64| {
            let focused = focus_collimated(CO2, 1.2, diameter_at_lens, f).unwrap();
            let text =
                smallest_text(focused.waist_diameter, 2.7, Typeface::Sans, &TextGrades::default()).unwrap();
            [text.crisp_em, text.good_em, text.readable_em].map(|em| em / POINT)
        };
        let (short, long) = (smallest(SHORT_LENS), smallest(LONG_LENS));
        println!("{:.1} mm: short {short:.2?} pt, long {long:.2?} pt", diameter_at_lens * 1e3);
        assert!(short[0] < 4.0, "{short:?}");
        assert!(long[0] > 4.0 && long[0] < 6.0, "{long:?}");
        assert!(short[1] < short[0] && short[2] < short[1]);
    }
}

/// Common practice, no source: "in a coating, too little power looks like defocus: strokes thin and vanish".
/// A quarter less dose thins a line as an offset does, and farther off focus, where the strong line still
/// marks, the weak one is lost.
#[test]
fn too_little_power_looks_like_defocus_in_a_coating() {
    let beam = Beam { wavelength: CO2, m2: 1.2, waist_diameter: 88e-6 };
    let width = |q: f64, z: f64| mark_width(&beam, MarkKind::Line, q, z).unwrap().width;
    let good = width(1.6, 0.0);
    let weak = width(1.2, 0.0);
    assert!(weak < 0.7 * good);
    // The same thinning by focus alone.
    assert!((1..200).any(|k| width(1.6, 1e-5 * f64::from(k)) <= weak));
    let far = 0.45e-3;
    assert!(width(1.6, far) > 0.0);
    assert_eq!(width(1.2, far), 0.0);
}

/// Common practice, no source: "in plastic that melts, too much power looks like defocus: it blurs". Slower
/// is more dose; the heat spreads while the spot dwells, and the finest gap that holds grows, by dose and
/// by spread alike.
#[test]
fn too_much_power_looks_like_defocus_in_plastic() {
    let seen = |speed: f64| {
        let blur = Blur {
            diameter_across: 100e-6,
            diameter_along: 100e-6,
            speed,
            diffusivity: 1.09e-7,
            pixel: 0.0,
            jitter_deviation: 0.0,
            rise_time: 0.0,
            switch_delay: 0.0,
        };
        blur_budget(&blur).unwrap().diameter_across
    };
    let gap = |speed: f64, q: f64| smallest_details(seen(speed), q).unwrap().gap;
    let (quick, slow) = (gap(0.2, 2.0), gap(0.05, 8.0));
    println!("finest gap {:.0} um at speed, {:.0} um at a quarter of it", quick * 1e6, slow * 1e6);
    assert!(slow > 2.0 * quick);
    assert!(seen(0.05) > 1.1 * seen(0.2));
}
