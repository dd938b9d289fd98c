//! What the trade takes for granted, held against the model. Every figure here is **common
//! practice, no source**: it was heard or read often, but none of it is a measurement that we
//! could cite. A test says which reading of the figure the model bears out.

use spotwise::model::focus::{DepthCriterion, FocusRange, depth_of_focus, wave_depth_of_focus};
use spotwise::model::mark::{contrast_at_pitch, largest_spot_for_details, smallest_details};
use spotwise::model::optics::{
    Beam, FocusedBeam, Glass, LensShape, Singlet, SingletFocus, SpotMeasure, Wave, focus_collimated,
    focus_singlet, focus_through_lens, lens_aberration, lens_at_wavelength, refractive_index, smallest_spot,
    wave_widths,
};

#[path = "practice/height_budget.rs"]
mod height_budget;
#[path = "practice/height_map.rs"]
mod height_map;
#[path = "practice/in_focus.rs"]
mod in_focus;
#[path = "practice/lens_choice.rs"]
mod lens_choice;
#[path = "practice/marks.rs"]
mod marks;
#[path = "practice/scan_field.rs"]
mod scan_field;
#[path = "practice/tolerance.rs"]
mod tolerance;

const CO2: f64 = 10.6e-6;
const INCH: f64 = 25.4e-3;
const SHORT_LENS: f64 = 1.5 * INCH;
/// Five thirds as long.
const LONG_LENS: f64 = 2.5 * INCH;

fn depth(focused: &FocusedBeam, m2: f64, criterion: DepthCriterion) -> FocusRange {
    let beam = Beam { wavelength: CO2, m2, waist_diameter: focused.waist_diameter };
    depth_of_focus(&beam, criterion).unwrap()
}

/// Common practice, no source: "a 2.5 inch lens makes a spot about 70 % larger than a 1.5 inch
/// lens". An ideal lens far from any waist would make it 5/3, 67 %, larger; raw beams of ordinary
/// lasers, whose waist lies a finite distance before the lens, bring it to 67 to 72 %.
#[test]
fn a_lens_five_thirds_as_long_makes_a_spot_about_70_percent_larger() {
    let mut seen = (f64::INFINITY, 0.0f64);
    for waist_diameter in [3e-3, 4e-3, 5e-3, 6e-3] {
        for waist_to_lens in [0.2, 0.5, 1.0, 1.5, 2.0] {
            for m2 in [1.0, 1.2, 1.5] {
                let raw = Beam { wavelength: CO2, m2, waist_diameter };
                let spot = |f| focus_through_lens(&raw, waist_to_lens, f).unwrap().waist_diameter;
                let larger = spot(LONG_LENS) / spot(SHORT_LENS);
                seen = (seen.0.min(larger), seen.1.max(larger));
            }
        }
    }
    println!("the spot is {:.3} to {:.3} times as large", seen.0, seen.1);
    assert!(seen.0 > 1.66 && seen.1 < 1.72, "{seen:?}");
}

/// Common practice, no source: "the depth of focus grows with the square of the focal length". It
/// does for an ideal lens and a criterion of equal growth: a lens 5/3 as long has 2.8 times the
/// depth.
#[test]
fn depth_of_focus_grows_with_the_square_of_the_focal_length() {
    let (m2, diameter_at_lens) = (1.2, 7e-3);
    for criterion in [
        DepthCriterion::Rayleigh,
        DepthCriterion::Growth { ratio: 1.05 },
        DepthCriterion::IrradianceDrop { drop: 0.2 },
        DepthCriterion::LineDoseDrop { drop: 0.1 },
    ] {
        let full = |f| depth(&focus_collimated(CO2, m2, diameter_at_lens, f).unwrap(), m2, criterion).full;
        let times = full(LONG_LENS) / full(SHORT_LENS);
        assert!((times / (25.0 / 9.0) - 1.0).abs() < 1e-3, "{criterion:?}: {times}");
    }
}

/// Common practice, no source: the ranges that people report grow far slower than with the square
/// of the focal length. That is what a **fixed** largest spot does: well above either waist its
/// range is its diameter over the cone's angle, which goes with f, not f²; and close to the longer
/// lens's waist it grows slower still, until that lens has no range left at all.
#[test]
fn a_fixed_largest_spot_grows_the_depth_with_the_focal_length_only() {
    let (m2, diameter_at_lens) = (1.2, 7e-3);
    let focus = |f| focus_collimated(CO2, m2, diameter_at_lens, f).unwrap();
    let times = |diameter| {
        let criterion = DepthCriterion::LargestDiameter { diameter };
        depth(&focus(LONG_LENS), m2, criterion).full / depth(&focus(SHORT_LENS), m2, criterion).full
    };
    // Spots of 88 µm and 147 µm: from ten times the larger one on, the ratio is that of f.
    assert!((times(1.5e-3) / (5.0 / 3.0) - 1.0).abs() < 0.005, "{}", times(1.5e-3));
    assert!((times(0.3e-3) / (5.0 / 3.0) - 1.0).abs() < 0.1, "{}", times(0.3e-3));
    // Just above the longer lens's waist the shorter lens has more depth.
    assert!(times(0.15e-3) < 1.0, "{}", times(0.15e-3));
    // Always below what equal growth gives.
    for diameter in [0.15e-3, 0.2e-3, 0.3e-3, 0.5e-3, 1.5e-3] {
        assert!(times(diameter) < 25.0 / 9.0);
    }
}

/// Common practice, no source: "a larger beam on the lens gives a smaller spot and less depth".
#[test]
fn a_larger_raw_beam_gives_a_smaller_spot_and_less_depth() {
    let m2 = 1.2;
    let mut before: Option<(f64, f64)> = None;
    for diameter_at_lens in [3e-3, 5e-3, 7e-3, 10e-3, 14e-3] {
        let focused = focus_collimated(CO2, m2, diameter_at_lens, SHORT_LENS).unwrap();
        let full = depth(&focused, m2, DepthCriterion::Rayleigh).full;
        if let Some((wider_spot, deeper)) = before {
            assert!(focused.waist_diameter < wider_spot && full < deeper);
        }
        before = Some((focused.waist_diameter, full));
    }
}

/// Real lenses of zinc selenide, as they are sold for carbon dioxide lasers.
mod real_lenses {
    use super::*;

    fn lens(shape: LensShape, focal_length: f64) -> Singlet {
        Singlet { index: refractive_index(Glass::ZincSelenide, CO2).unwrap().index, shape, focal_length }
    }

    fn focus(shape: LensShape, focal_length: f64, m2: f64, diameter_at_lens: f64) -> SingletFocus {
        let raw = Beam { wavelength: CO2, m2, waist_diameter: diameter_at_lens };
        focus_singlet(&raw, 0.0, &lens(shape, focal_length), f64::INFINITY).unwrap()
    }

    /// The spot by 86.5 % of the power.
    fn spot(shape: LensShape, focal_length: f64, m2: f64, diameter_at_lens: f64) -> f64 {
        focus(shape, focal_length, m2, diameter_at_lens).power86.waist_diameter
    }

    /// Common practice, no source: "a meniscus beats a plano-convex lens", and "the curved side faces the
    /// laser". By the factors of the blur: 1.5 from best form to plano-convex, more than 3 from there
    /// to plano-convex the wrong way round. In the spot of a beam as wide as is used, a few per cent
    /// and tens of per cent.
    #[test]
    fn best_form_then_curved_side_first_then_flat_side_first() {
        let blur = |shape| lens_aberration(&lens(shape, SHORT_LENS)).unwrap().blur_coefficient;
        let (best, right, wrong) =
            (blur(LensShape::BestForm), blur(LensShape::CurvedSideFirst), blur(LensShape::FlatSideFirst));
        assert!((1.4..1.7).contains(&(right / best)), "{}", right / best);
        assert!((3.0..3.5).contains(&(wrong / right)), "{}", wrong / right);
        for f in [SHORT_LENS, 2.0 * INCH, LONG_LENS] {
            for m2 in [1.0, 1.2, 1.5] {
                // By the angle that the spot fills from the lens: one that focuses nearer has a smaller spot
                // for that alone.
                let of = |shape| {
                    let found = focus(shape, f, m2, 7e-3);
                    let angle = found.power86.waist_diameter / found.power86.lens_to_waist;
                    (angle, found.ideal.waist_diameter / found.ideal.lens_to_waist)
                };
                let (best, ideal) = of(LensShape::BestForm);
                assert!(best < of(LensShape::CurvedSideFirst).0);
                assert!(of(LensShape::CurvedSideFirst).0 < of(LensShape::FlatSideFirst).0);
                // None of them beats an ideal lens.
                assert!(ideal < best);
            }
        }
        let wrong_way = spot(LensShape::FlatSideFirst, SHORT_LENS, 1.2, 7e-3)
            / spot(LensShape::CurvedSideFirst, SHORT_LENS, 1.2, 7e-3);
        println!("flat side first makes the spot {wrong_way:.3} times as large");
        assert!((1.05..1.2).contains(&wrong_way), "{wrong_way}");
    }

    /// Common practice, no source: "a larger beam gives a smaller spot, until the lens spoils it". For a
    /// 1.5 inch plano-convex lens that is somewhere from 9 to 13 mm; the largest beams that are sold are
    /// past it.
    #[test]
    fn a_larger_beam_gives_a_smaller_spot_until_aberration_wins() {
        let shape = LensShape::CurvedSideFirst;
        let best = smallest_spot(CO2, 1.2, &lens(shape, SHORT_LENS), SpotMeasure::Power86).unwrap();
        let turn = best.diameter_at_lens;
        println!("a 1.5 inch plano-convex lens is at its best at {:.1} mm", turn * 1e3);
        assert!((9e-3..13e-3).contains(&turn), "{turn:e}");
        let falling: Vec<_> =
            [3e-3, 5e-3, 7e-3, 9e-3].map(|d| spot(shape, SHORT_LENS, 1.2, d)).into_iter().collect();
        assert!(falling.windows(2).all(|pair| pair[1] < pair[0]), "{falling:?}");
        assert!(spot(shape, SHORT_LENS, 1.2, 1.1 * turn) > spot(shape, SHORT_LENS, 1.2, turn));
        // The rigorous spot turns there too.
        let rigorous = |d: f64| {
            let found = focus(shape, SHORT_LENS, 1.2, d);
            let wave = Wave {
                wavelength: CO2,
                m2: 1.2,
                diameter_at_lens: d,
                clear_aperture: f64::INFINITY,
                lens_to_focus: found.lens_to_focus,
                aberration_phase: found.aberration_phase,
            };
            let place = found.power86.lens_to_waist - found.lens_to_focus;
            wave_widths(&wave, place).unwrap().diameter_power86
        };
        let [narrow, near, wide] = [0.75, 1.0, 1.12].map(|share| rigorous(share * turn));
        assert!(near < narrow && near < wide, "{narrow:e} {near:e} {wide:e}");
        // And less so for a longer lens, or for one of best form.
        let turn_of = |shape, f| {
            smallest_spot(CO2, 1.2, &lens(shape, f), SpotMeasure::Power86).unwrap().diameter_at_lens
        };
        assert!(turn_of(LensShape::BestForm, SHORT_LENS) > turn && turn_of(shape, LONG_LENS) > turn);
    }

    /// Common practice, no source: "a lens 5/3 as long makes a spot about 70 % larger". It
    /// does so with real lenses of best form too, for beams up to some 7 mm wide; of wider ones aberration
    /// spoils the short lens more, so that a beam of 12 mm gains less than 50 %.
    #[test]
    fn a_real_lens_five_thirds_as_long() {
        let mut seen = (f64::INFINITY, 0.0f64);
        for waist_diameter in [3e-3, 4e-3, 5e-3, 6e-3] {
            for waist_to_lens in [0.2, 0.5, 1.0] {
                for m2 in [1.0, 1.2, 1.5] {
                    let raw = Beam { wavelength: CO2, m2, waist_diameter };
                    let spot = |f| {
                        let lens = lens(LensShape::BestForm, f);
                        focus_singlet(&raw, waist_to_lens, &lens, f64::INFINITY)
                            .unwrap()
                            .power86
                            .waist_diameter
                    };
                    let larger = spot(LONG_LENS) / spot(SHORT_LENS);
                    seen = (seen.0.min(larger), seen.1.max(larger));
                }
            }
        }
        println!("the spot is {:.3} to {:.3} times as large", seen.0, seen.1);
        assert!(seen.0 > 1.66 && seen.1 < 1.72, "{seen:?}");
        let wide = spot(LensShape::BestForm, LONG_LENS, 1.0, 12e-3)
            / spot(LensShape::BestForm, SHORT_LENS, 1.0, 12e-3);
        assert!(wide < 1.5, "{wide}");
    }

    /// Common practice, no source: "a 1.5 inch lens forgives about ±1.5 mm of height, a 2.5 inch lens ±2 to
    /// 3 mm", for cuts and coarse engraving. A fixed largest spot does that: whichever spot makes ±1.5 mm
    /// of the short lens, between 0.25 and 0.35 mm for ordinary beams, makes ±2 to 3 mm of the long one.
    /// Depth that goes with f² would make it ±4.2 mm. Aberration does not explain the figures: a real
    /// lens of best form says the same.
    #[test]
    fn usable_ranges_are_those_of_a_largest_spot() {
        for diameter_at_lens in [6e-3, 7e-3, 8e-3] {
            for real in [false, true] {
                let beam = |f| {
                    let found = focus(LensShape::BestForm, f, 1.2, diameter_at_lens);
                    let (m2, waist_diameter) = if real {
                        (found.power86.m2, found.power86.waist_diameter)
                    } else {
                        (1.2, found.ideal.waist_diameter)
                    };
                    Beam { wavelength: CO2, m2, waist_diameter }
                };
                let half = |f, criterion| depth_of_focus(&beam(f), criterion).unwrap().away_from_lens_z;
                // The spot 1.5 mm from the focus of the short lens is the largest that serves.
                let diameter = spotwise::model::focus::defocus(&beam(SHORT_LENS), 1.5e-3).unwrap().diameter;
                assert!((0.25e-3..0.35e-3).contains(&diameter), "{diameter:e}");
                let long = half(LONG_LENS, DepthCriterion::LargestDiameter { diameter });
                println!("{diameter_at_lens:e}, real {real}: {diameter:e} is ±1.5 mm and ±{long:e}");
                assert!((2e-3..3e-3).contains(&long), "{long:e}");
                // Equal growth instead: the spot may grow as much as the short lens's does in 1.5 mm.
                let ratio = diameter / beam(SHORT_LENS).waist_diameter;
                let by_growth = half(LONG_LENS, DepthCriterion::Growth { ratio });
                assert!(by_growth > 3.7e-3, "{by_growth:e}");
            }
        }
    }

    /// The same from the diffraction integral with a plano-convex lens, whose two ends differ: by little for
    /// so large a spot, by much where the lens is turned the wrong way round and the spot may hardly grow.
    #[test]
    fn usable_ranges_by_the_integral() {
        let range = |shape, f: f64, criterion| {
            let found = focus(shape, f, 1.2, 8e-3);
            let wave = Wave {
                wavelength: CO2,
                m2: 1.2,
                diameter_at_lens: 8e-3,
                clear_aperture: 18e-3,
                lens_to_focus: found.lens_to_focus,
                aberration_phase: found.aberration_phase,
            };
            wave_depth_of_focus(&wave, criterion).unwrap().range
        };
        let largest = DepthCriterion::LargestDiameter { diameter: 0.32e-3 };
        let short = range(LensShape::CurvedSideFirst, SHORT_LENS, largest);
        let long = range(LensShape::CurvedSideFirst, LONG_LENS, largest);
        let lopsided = |range: FocusRange| (range.away_from_lens_z / -range.toward_lens_z - 1.0).abs();
        assert!(lopsided(short) < 0.02 && lopsided(long) < 0.02);
        let wrong = range(LensShape::FlatSideFirst, SHORT_LENS, DepthCriterion::Growth { ratio: 1.2 });
        println!("turned the wrong way: {wrong:?}");
        assert!(lopsided(wrong) > 0.05, "{wrong:?}");
        assert!((1.2e-3..1.8e-3).contains(&(0.5 * short.full)), "{:e}", short.full);
        assert!((2e-3..3e-3).contains(&(0.5 * long.full)), "{:e}", long.full);
    }

    /// Common practice, no source: "the red pointer is not in focus where the laser is". Through a 2.5 inch
    /// lens of zinc selenide it focuses 6 to 8 mm nearer the lens; and between 9.3 µm and 10.6 µm the
    /// focus moves by a few tenths of a millimetre, which a short lens forgives.
    #[test]
    fn the_red_pointer_focuses_nearer_the_lens() {
        let red =
            lens_at_wavelength(Glass::ZincSelenide, LensShape::CurvedSideFirst, LONG_LENS, CO2, 0.65e-6)
                .unwrap();
        assert!((-8e-3..-6e-3).contains(&red.focal_shift), "{red:?}");
        let shorter =
            lens_at_wavelength(Glass::ZincSelenide, LensShape::CurvedSideFirst, LONG_LENS, CO2, 9.3e-6)
                .unwrap();
        assert!((-0.5e-3..-0.2e-3).contains(&shorter.focal_shift), "{shorter:?}");
    }
}

/// Common practice, no source: "a 1.5 inch lens engraves good 4 point text, a 2.5 inch lens 5 to
/// 6 point", where the spot of the first is 80 to 95 µm.
mod text {
    use super::*;

    /// The point, 1/72 inch.
    const POINT: f64 = INCH / 72.0;
    /// Width of a vertical stroke of an ordinary sans-serif face in the em; 0.081 to 0.091 in
    /// openly licensed ones.
    const STROKE: f64 = 0.087;
    /// Spots of the first lens, and those of a lens 5/3 as long.
    const SHORT_LENS_SPOTS: [f64; 2] = [80e-6, 95e-6];

    fn long_lens(spot: f64) -> f64 {
        spot * LONG_LENS / SHORT_LENS
    }

    fn stroke_at(points: f64) -> f64 {
        STROKE * points * POINT
    }

    /// Size of the text whose strokes are this wide.
    fn points_of(stroke: f64) -> f64 {
        stroke / (STROKE * POINT)
    }

    /// The least size at which the middle of a stroke still gets 98 % of the fill's dose, so that
    /// it comes out as evenly as a filled area.
    ///
    /// A bar's middle gets the share 1/q of the fill when the bar is the smallest that marks at
    /// the dose ratio q; so the bar wanted is the smallest one at q = 1/0.98, 1.163 spots wide.
    /// The 98 % is our choice.
    fn crisp_from(spot: f64) -> f64 {
        points_of(smallest_details(spot, 1.0 / 0.98).unwrap().bar)
    }

    /// The least size at which strokes, spaced by their own width, leave a dose window of 2: the
    /// dose may be off by a factor of two before a stroke is lost or a gap fills.
    fn forgiving_from(spot: f64) -> f64 {
        let (mut fine, mut coarse) = (spot / 100.0, 10.0 * spot);
        for _ in 0..60 {
            let pitch = 0.5 * (fine + coarse);
            if contrast_at_pitch(spot, pitch).unwrap().dose_window < 2.0 {
                fine = pitch;
            } else {
                coarse = pitch;
            }
        }
        points_of(coarse / 2.0)
    }

    /// The trade's figures are those of crisp strokes: 3.0 to 3.6 point for the short lens, whose
    /// next whole size is 4; 5.0 to 6.0 point for the long one.
    #[test]
    fn good_text_is_text_with_crisp_strokes() {
        for spot in SHORT_LENS_SPOTS {
            let (short, long) = (crisp_from(spot), crisp_from(long_lens(spot)));
            println!("spot {:.0} µm: crisp from {short:.2} pt, long lens {long:.2} pt", spot * 1e6);
            assert!(short > 3.0 && short <= 4.0, "{short}");
            // To the nearest tenth of a point.
            assert!((4.95..6.05).contains(&long), "{long}");
        }
    }

    /// 4 point text is crisp with the short lens and not with the long one.
    #[test]
    fn four_point_text_tells_the_lenses_apart() {
        let stroke = stroke_at(4.0);
        let holds_98_percent = |spot| smallest_details(spot, 1.0 / 0.98).unwrap().bar <= stroke;
        for spot in SHORT_LENS_SPOTS {
            assert!(holds_98_percent(spot));
            assert!(!holds_98_percent(long_lens(spot)));
        }
        let largest = largest_spot_for_details(stroke, stroke, 1.0 / 0.98).unwrap();
        assert!(largest > SHORT_LENS_SPOTS[1] && largest < long_lens(SHORT_LENS_SPOTS[0]));
    }

    /// They are not the limit of what can be read: with the short lens, strokes spaced by their own
    /// width keep a dose window of 2 down to 1.2 to 1.5 point, a factor of 2.4 below crisp. So the
    /// trade's sizes are a standard of quality, not of resolution.
    #[test]
    fn legible_text_is_several_times_smaller() {
        for spot in SHORT_LENS_SPOTS {
            let (legible, crisp) = (forgiving_from(spot), crisp_from(spot));
            println!("spot {:.0} µm: forgiving from {legible:.2} pt", spot * 1e6);
            assert!((1.2..1.5).contains(&legible), "{legible}");
            assert!((2.3..2.5).contains(&(crisp / legible)), "{}", crisp / legible);
            // And at 4 point the dose window of such strokes is beyond any dose error.
            let at_4_point = contrast_at_pitch(spot, 2.0 * stroke_at(4.0)).unwrap();
            assert!(at_4_point.dose_window > 20.0, "{}", at_4_point.dose_window);
        }
    }

    /// The same factor for the lens as for the spot: text sizes scale with the spot alone.
    #[test]
    fn sizes_scale_with_the_spot() {
        for spot in SHORT_LENS_SPOTS {
            let ratio = crisp_from(long_lens(spot)) / crisp_from(spot);
            assert!((ratio / (5.0 / 3.0) - 1.0).abs() < 1e-14);
        }
    }

    /// The spots quoted are those of an ordinary raw beam on that lens: 6.5 to 7.7 mm at M² = 1.2.
    #[test]
    fn the_spots_are_those_of_an_ordinary_beam() {
        for (diameter_at_lens, spot) in [(7.7e-3, SHORT_LENS_SPOTS[0]), (6.5e-3, SHORT_LENS_SPOTS[1])] {
            let focused = focus_collimated(CO2, 1.2, diameter_at_lens, SHORT_LENS).unwrap();
            assert!((focused.waist_diameter / spot - 1.0).abs() < 0.02, "{:e}", focused.waist_diameter);
        }
    }
}
