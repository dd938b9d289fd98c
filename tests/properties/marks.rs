//! Isolated marks, fills, doses, blur, pulses, compensation and text.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::check::{
    FocusSetting, Job, JobDose, JobLens, JobText, Outcome, RawBeam, Reasons, Verdict, focus_check,
};
use spotwise::model::focus::{DepthCriterion, defocus};
use spotwise::model::mark::{
    Blur, CompensationLimits, CompensationRule, MarkKind, MarkSetting, Material, POINT, Response, Scan,
    Taste, TextGrade, TextGrades, Typeface, blur_budget, compensate, connected_speed, contrast_at_pitch,
    crater, detail_exposure, dots_per_inch, fill_limits, fill_quality, fill_width, groove,
    interval_for_ripple, line_interval, mark_limits, mark_width, material_mark, offset_for_taste,
    offset_for_text, pitch_for_contrast, pulse_dose, pulsed_line, raster_ripple, scan_dose, smallest_details,
    smallest_text, text_quality,
};
use spotwise::model::optics::Beam;
use spotwise::{Error, Param};
use std::f64::consts::{E, PI};

fn spot() -> BoxedStrategy<f64> {
    spread(2e-6, 1e-3)
}

fn dose_ratio() -> BoxedStrategy<f64> {
    spread(1.01, 100.0)
}

fn kind() -> impl Strategy<Value = MarkKind> {
    prop_oneof![Just(MarkKind::Pulse), Just(MarkKind::Line)]
}

fn typeface() -> impl Strategy<Value = Typeface> {
    prop_oneof![
        Just(Typeface::Sans),
        Just(Typeface::BoldSans),
        Just(Typeface::LightSans),
        Just(Typeface::Serif),
        Just(Typeface::Monospaced),
    ]
}

/// A beam of a laser that engraves, well within the paraxial domain.
fn beam() -> impl Strategy<Value = Beam> {
    (spread(2e-5, 2e-4), spread(1.0, 2.0)).prop_map(|(waist_diameter, m2)| Beam {
        wavelength: 1.064e-6,
        m2,
        waist_diameter,
    })
}

fn rayleigh_range(beam: &Beam) -> f64 {
    std::f64::consts::PI * beam.waist_diameter.powi(2) / (4.0 * beam.m2 * beam.wavelength)
}

fn scan() -> impl Strategy<Value = Scan> {
    (spread(1e-2, 1e3), spread(1e-3, 10.0), spot(), spot(), spread(1e-6, 1e-3)).prop_map(
        |(power, speed, diameter_across, diameter_along, line_interval)| Scan {
            power,
            speed,
            diameter_across,
            diameter_along,
            line_interval,
        },
    )
}

/// A flat part in the focus of a common machine, with details that any dose holds.
fn flat_job(dose: JobDose) -> Job {
    Job {
        wavelength: 10.6e-6,
        m2: 1.2,
        raw_beam: RawBeam::Collimated { diameter_at_lens: 7e-3 },
        focal_length: 38.1e-3,
        lens: JobLens::Ideal,
        focus: FocusSetting::FromDatum { focus_z: 0.0 },
        surface_rise: 0.0,
        surface_fall: 0.0,
        criterion: DepthCriterion::Rayleigh,
        finest_stroke: 1e-3,
        finest_gap: 1e-3,
        dose,
        text: None,
    }
}

proptest! {
    #![proptest_config(config())]

    // --- Dose --------------------------------------------------------------------------------

    /// Twice the power gives twice every dose; twice the speed half of all but the irradiance.
    #[test]
    fn dose_is_proportional(scan in scan(), a in power_of_two()) {
        let here = scan_dose(&scan).unwrap();
        let stronger = scan_dose(&Scan { power: a * scan.power, ..scan }).unwrap();
        let faster = scan_dose(&Scan { speed: a * scan.speed, ..scan }).unwrap();
        same_bits(stronger.line_dose, a * here.line_dose);
        same_bits(stronger.fill_dose, a * here.fill_dose);
        same_bits(stronger.peak_irradiance, a * here.peak_irradiance);
        same_bits(faster.line_dose, here.line_dose / a);
        same_bits(faster.fill_dose, here.fill_dose / a);
        same_bits(faster.peak_irradiance, here.peak_irradiance);
        same_bits(faster.dwell, here.dwell / a);
    }

    /// The line dose is the peak irradiance for the dwell, and so many effective pulses.
    #[test]
    fn doses_agree_with_each_other(scan in scan(), rate in spread(1e2, 1e7)) {
        let (dose, pulses) = (scan_dose(&scan).unwrap(), pulse_dose(&scan, rate).unwrap());
        close(dose.peak_irradiance * dose.dwell, dose.line_dose, 8.0);
        close(pulses.peak_fluence * pulses.effective_pulses, dose.line_dose, 8.0);
        close(pulses.pulse_energy * rate, scan.power, 2.0);
        // The mean of a fill is the energy of a line over its share of the surface.
        close(dose.fill_dose * scan.line_interval * scan.speed, scan.power, 4.0);
    }

    #[test]
    fn interval_and_density_are_inverse(p in spread(1e-9, 1.0)) {
        close(line_interval(dots_per_inch(p).unwrap()).unwrap(), p, 3.0);
    }

    // --- Isolated marks ----------------------------------------------------------------------

    /// Width is alike on both sides of the waist, and grows with dose.
    #[test]
    fn marks_are_symmetric_and_grow_with_dose(
        beam in beam(), kind in kind(), q in dose_ratio(), more in spread(1.001, 4.0), u in 0.0f64..4.0,
    ) {
        let z = u * rayleigh_range(&beam);
        let here = mark_width(&beam, kind, q, z).unwrap();
        same_bits(mark_width(&beam, kind, q, -z).unwrap().width, here.width);
        let stronger = mark_width(&beam, kind, q * more, z).unwrap();
        prop_assert!(stronger.width >= here.width * (1.0 - 1e-12));
        prop_assert_eq!(here.marks, here.width > 0.0);
    }

    /// Just inside its limit there is a mark, just outside there is none.
    #[test]
    fn marks_vanish_at_their_limit(beam in beam(), kind in kind(), q in dose_ratio()) {
        let limit = mark_limits(&beam, kind, q).unwrap().vanishing_offset;
        prop_assert!(mark_width(&beam, kind, q, limit * (1.0 - 1e-9)).unwrap().marks);
        prop_assert!(!mark_width(&beam, kind, q, limit * (1.0 + 1e-9)).unwrap().marks);
    }

    /// No offset gives a wider mark than the widest one, which is a mark of its own offset.
    #[test]
    fn widest_mark_is_widest(beam in beam(), kind in kind(), q in dose_ratio(), share in 0.0..1.0) {
        let limits = mark_limits(&beam, kind, q).unwrap();
        let there = mark_width(&beam, kind, q, limits.widest_offset).unwrap().width;
        near(there, limits.greatest_width, 1e-9 * limits.greatest_width);
        let other = mark_width(&beam, kind, q, share * limits.vanishing_offset).unwrap().width;
        prop_assert!(other <= limits.greatest_width * (1.0 + 1e-12));
        close(limits.width_in_waist, mark_width(&beam, kind, q, 0.0).unwrap().width, 8.0);
    }

    /// At √e for a line and e for a pulse the width does not react to focus to second order: a small
    /// offset changes it by a quarter of the fourth power; at another dose by the square.
    #[test]
    fn insensitive_dose_ratio_is_flat(beam in beam(), kind in kind(), u in 0.01f64..0.1) {
        let zr = rayleigh_range(&beam);
        let change = |q: f64| {
            let width = |z| mark_width(&beam, kind, q, z).unwrap().width;
            (width(u * zr) / width(0.0) - 1.0).abs()
        };
        let flat = kind.focus_insensitive_dose_ratio();
        prop_assert!(change(flat) <= u.powi(4));
        prop_assert!(change(1.5 * flat) > 0.1 * u * u);
        prop_assert!(change(flat / 1.3) > 0.1 * u * u);
    }

    // --- Fills -------------------------------------------------------------------------------

    /// The edges lie where the dose is the threshold, by the exposure of a bar written out.
    #[test]
    fn fills_end_at_the_threshold(d in spot(), a in spread(0.2, 20.0), q in dose_ratio()) {
        let drawn = a * d;
        let beam = Beam { wavelength: 1e-7, m2: 1.0, waist_diameter: d };
        let fill = fill_width(&beam, drawn, q, 0.0).unwrap();
        if fill.marks && fill.width > 0.05 * d {
            let (y, scale) = (0.5 * fill.width, 2.0 * 2f64.sqrt() / d);
            let h = 0.5 * drawn;
            let dose = 0.5 * q * (libm::erf(scale * (y + h)) - libm::erf(scale * (y - h)));
            near(dose, 1.0, 1e-9);
        }
        prop_assert_eq!(fill.marks, q * detail_exposure(d, drawn).unwrap().bar >= 1.0);
    }

    /// A stroke much wider than the spot grows by twice the shift of an edge.
    #[test]
    fn wide_fills_grow_by_their_edges(d in spot(), q in dose_ratio()) {
        let beam = Beam { wavelength: 1e-7, m2: 1.0, waist_diameter: d };
        let shift = smallest_details(d, q).unwrap().edge_shift;
        near(fill_width(&beam, 20.0 * d, q, 0.0).unwrap().growth, 2.0 * shift, 1e-12 * d);
    }

    #[test]
    fn fills_vanish_at_their_limit_and_are_widest_where_told(
        beam in beam(), a in spread(0.5, 3.0), q in spread(1.3, 20.0), share in 0.0..1.0,
    ) {
        let drawn = a * beam.waist_diameter;
        let limits = fill_limits(&beam, drawn, q).unwrap();
        if limits.marks {
            let at = |z: f64| fill_width(&beam, drawn, q, z).unwrap();
            if limits.vanishing_offset > 1e-3 * rayleigh_range(&beam) {
                prop_assert!(at(limits.vanishing_offset * (1.0 - 1e-9)).marks);
                prop_assert!(!at(limits.vanishing_offset * (1.0 + 1e-9)).marks);
            }
            let other = at(share * limits.vanishing_offset).width;
            prop_assert!(other <= limits.greatest_width * (1.0 + 1e-9));
            near(at(limits.widest_offset).width, limits.greatest_width, 1e-7 * limits.greatest_width);
        } else {
            prop_assert_eq!(limits.greatest_width, 0.0);
        }
    }

    // --- Raster ------------------------------------------------------------------------------

    /// A finer interval is smoother; greatest and least enclose the mean.
    #[test]
    fn ripple_grows_with_the_interval(d in spot(), r in spread(0.05, 9.0), finer in 0.2..0.99) {
        let p = 0.5 * r * d;
        let (here, fine) = (raster_ripple(d, p).unwrap(), raster_ripple(d, finer * p).unwrap());
        prop_assert!(fine.contrast <= here.contrast);
        prop_assert!(here.greatest_over_mean >= 1.0 && here.least_over_mean <= 1.0);
        let (max, min) = (here.greatest_over_mean, here.least_over_mean);
        near((max - min) / (max + min), here.contrast, 1e-14);
        close(1.0 / min, here.gap_free_dose_ratio, 2.0);
        prop_assert!(here.gap_free_dose_ratio_without_memory >= here.gap_free_dose_ratio * (1.0 - 1e-14));
    }

    /// The sums over lines, written out.
    #[test]
    fn ripple_is_the_sum_over_lines(d in spot(), r in spread(0.1, 9.0)) {
        let ripple = raster_ripple(d, 0.5 * r * d).unwrap();
        let sum = |from: f64| {
            let reach = (8.0 / r).ceil() as i32 + 2;
            let of = |k: i32| (-2.0 * ((f64::from(k) + from) * r).powi(2)).exp();
            (-reach..=reach).map(of).sum::<f64>() * (2.0 / std::f64::consts::PI).sqrt() * r
        };
        near(ripple.greatest_over_mean, sum(0.0), 1e-13 * sum(0.0));
        near(ripple.least_over_mean, sum(0.5), 1e-12);
    }

    #[test]
    fn interval_for_ripple_is_the_inverse(d in spot(), contrast in spread(1e-12, 0.999)) {
        let p = interval_for_ripple(d, contrast).unwrap();
        near(raster_ripple(d, p).unwrap().contrast, contrast, 1e-12 * contrast);
    }

    /// Where the two sums change over, the neighbours of the limit differ by rounding only.
    #[test]
    fn ripple_is_continuous_at_its_switch(d in spot()) {
        let p = 0.8 * d;
        let (below, above) = (raster_ripple(d, p * (1.0 - 1e-15)).unwrap(), raster_ripple(d, p * (1.0 + 1e-15)).unwrap());
        close(above.contrast, below.contrast, 60.0);
        close(above.least_over_mean, below.least_over_mean, 40.0);
        close(above.greatest_over_mean, below.greatest_over_mean, 40.0);
    }

    // --- Details -----------------------------------------------------------------------------

    /// The smallest square gets the threshold dose in its middle; it is larger than the bar.
    #[test]
    fn smallest_square_just_marks(d in spot(), q in dose_ratio()) {
        let details = smallest_details(d, q).unwrap();
        near(q * detail_exposure(d, details.square).unwrap().square, 1.0, 1e-12);
        prop_assert!(details.square >= details.bar);
    }

    /// What a bar gets a gap does not.
    #[test]
    fn exposures_complete_each_other(d in spot(), a in spread(1e-3, 5.0)) {
        let exposure = detail_exposure(d, a * d).unwrap();
        near(exposure.bar + exposure.gap, 1.0, 2e-16);
        near(exposure.dot + exposure.hole, 1.0, 2e-16);
        prop_assert!(exposure.square <= exposure.bar);
    }

    #[test]
    fn pitch_of_bars_is_the_inverse(d in spot(), contrast in spread(1e-6, 0.99)) {
        let pitch = pitch_for_contrast(d, contrast).unwrap();
        near(contrast_at_pitch(d, pitch.bars).unwrap().bars, contrast, 1e-12 * contrast.max(1e-3));
        prop_assert!(pitch.bars <= pitch.sine * (1.0 + 1e-15));
    }

    // --- Blur --------------------------------------------------------------------------------

    /// Nothing sharpens; with no blur the spot stays; blurs add as squares.
    #[test]
    fn blurs_only_widen(
        d in spot(), v in spread(1e-3, 10.0), kappa in spread(1e-8, 1e-4),
        a in spread(1e-7, 1e-4), jitter in spread(1e-8, 1e-5), rise in spread(1e-7, 1e-4),
    ) {
        let none = Blur {
            diameter_across: d, diameter_along: d, speed: v, diffusivity: 0.0, pixel: 0.0,
            jitter_deviation: 0.0, rise_time: 0.0, switch_delay: 0.0,
        };
        let plain = blur_budget(&none).unwrap();
        close(plain.diameter_across, d, 1.0);
        let added = |blur: Blur| blur_budget(&blur).unwrap().diameter_along.powi(2) - d * d;
        let parts = added(Blur { diffusivity: kappa, ..none })
            + added(Blur { pixel: a, ..none })
            + added(Blur { jitter_deviation: jitter, ..none })
            + added(Blur { rise_time: rise, ..none });
        let all = Blur { diffusivity: kappa, pixel: a, jitter_deviation: jitter, rise_time: rise, ..none };
        near(added(all), parts, 1e-13 * (parts + d * d));
        let budget = blur_budget(&all).unwrap();
        prop_assert!(budget.diameter_along >= budget.diameter_across && budget.diameter_across >= d);
    }

    // --- Crisp or smooth ---------------------------------------------------------------------

    /// No offset costs less than the compromise; more weight on crispness never moves it outward.
    #[test]
    fn compromise_costs_least(
        beam in beam(), r in spread(0.3, 6.0), s in 0.01f64..1.0, other in 0.0..6.0, more in 0.0f64..1.0,
    ) {
        let p = 0.5 * r * beam.waist_diameter;
        let best = |s| offset_for_taste(&beam, p, Taste::Compromise { crispness_weight: s }).unwrap();
        let cost = |offset: f64| {
            let quality = fill_quality(&beam, p, offset).unwrap();
            s * (quality.spot_diameter / beam.waist_diameter - 1.0) + (1.0 - s) * quality.ripple_contrast
        };
        let chosen = best(s).offset;
        prop_assert!(cost(chosen) <= cost(other * rayleigh_range(&beam)) + 1e-12);
        let crisper = best((s + more * (1.0 - s)).min(1.0)).offset;
        prop_assert!(crisper <= chosen * (1.0 + 1e-6) + 1e-9 * rayleigh_range(&beam));
    }

    /// The smoothest fill under a limit has just that edge, and crispest is the waist.
    #[test]
    fn tastes_are_served(beam in beam(), r in spread(0.3, 6.0), grown in spread(1.001, 5.0)) {
        let p = 0.5 * r * beam.waist_diameter;
        let crispest = offset_for_taste(&beam, p, Taste::Crispest).unwrap();
        prop_assert_eq!(crispest.offset, 0.0);
        let largest_edge = grown * crispest.edge_width;
        let smoothest = offset_for_taste(&beam, p, Taste::SmoothestWithin { largest_edge }).unwrap();
        near(smoothest.edge_width, largest_edge, 1e-12 * largest_edge);
        prop_assert!(smoothest.ripple_contrast <= crispest.ripple_contrast);
        let too_crisp = Taste::SmoothestWithin { largest_edge: 0.99 * crispest.edge_width };
        let refused = matches!(offset_for_taste(&beam, p, too_crisp), Err(Error::Unreachable { .. }));
        prop_assert!(refused);
    }

    // --- Pulses ------------------------------------------------------------------------------

    /// The largest speed for a scallop leaves that scallop, with the dots of as many pulses as fall there; and
    /// incubation, which widens dots, never slows it down.
    #[test]
    fn connected_speed_is_the_inverse(d in spot(), q in spread(1.1, 100.0), rate in spread(1e3, 1e6), s in 0.5..1.0, share in 0.001..0.9) {
        let dot = pulsed_line(d, q, 1e-9, 1.0, 1.0).unwrap().dot_diameter;
        let scallop = 0.5 * share * dot;
        let fresh = connected_speed(d, q, rate, 1.0, scallop).unwrap();
        let worn = connected_speed(d, q, rate, s, scallop).unwrap();
        for (s, fastest) in [(1.0, fresh), (s, worn)] {
            let line = pulsed_line(d, q, fastest.pulse_pitch, s, fastest.pulses).unwrap();
            prop_assert!(line.connected);
            near(line.scallop, scallop, 1e-10 * dot);
            close(fastest.speed / rate, fastest.pulse_pitch, 2.0);
        }
        prop_assert!(worn.speed >= fresh.speed);
        // √(π/8)·d/p
        close(fresh.pulses, (0.626_657_068_657_750_1 * d / fresh.pulse_pitch).max(1.0), 4.0);
    }

    /// Craters that do not meet are no groove.
    #[test]
    fn grooves_want_dots_that_touch(d in spot(), q in dose_ratio(), wider in spread(1e-9, 10.0)) {
        let dot = crater(d, q, 1e-8, 0.0).unwrap().diameter;
        let pitch = dot * (1.0 + wider);
        prop_assume!(pitch <= 10.0);
        let refused = groove(d, q, 1e-8, pitch, 0.0).unwrap_err();
        prop_assert_eq!((refused.code(), refused.param()), (2, Param::PulsePitch));
        prop_assert!(groove(d, q, 1e-8, dot, 0.0).is_ok());
    }

    /// A dose below the threshold is no error: nothing marks, at any height, until pulses have added up.
    #[test]
    fn too_weak_a_dose_marks_nothing(beam in beam(), kind in kind(), q in spread(1e-6, 1.0), u in -5.0f64..5.0, a in spread(0.1, 1e3)) {
        let z = u * rayleigh_range(&beam);
        let mark = mark_width(&beam, kind, q, z).unwrap();
        prop_assert!(!mark.marks && mark.width == 0.0 && mark.dose_ratio <= q);
        let limits = mark_limits(&beam, kind, q).unwrap();
        prop_assert!(!limits.marks && limits.vanishing_offset == 0.0 && limits.greatest_width == 0.0);
        let drawn = (a * beam.waist_diameter).min(10.0);
        let fill = fill_width(&beam, drawn, q, z).unwrap();
        prop_assert!(!fill.marks && fill.width == 0.0 && fill.growth == -drawn);
        prop_assert!(!fill_limits(&beam, drawn, q).unwrap().marks);
        let alone = pulsed_line(beam.waist_diameter, q, 1e-6, 0.8, 1.0).unwrap();
        prop_assert!(!alone.marks && alone.dot_diameter == 0.0 && !alone.connected);
        // N^0.2 pulses make up for q.
        let enough = (1.01 / q).powi(5);
        if enough <= 1e9 {
            prop_assert!(pulsed_line(beam.waist_diameter, q, 1e-6, 0.8, enough).unwrap().marks);
        }
    }

    /// The mean groove is the crater summed over the pulses that pass, by a fine sum.
    #[test]
    fn grooves_are_summed_craters(d in spot(), q in spread(1.2, 50.0), y in 0.0f64..0.9) {
        let depth = 1e-8;
        let dot = crater(d, q, depth, 0.0).unwrap().diameter;
        let (aside, steps) = (0.5 * y * dot, 4000);
        let pitch = dot / f64::from(steps);
        let at = |k: i32| {
            let x = (f64::from(k) + 0.5) * pitch - 0.5 * dot;
            crater(d, q, depth, x.hypot(aside)).unwrap().depth_at_radius
        };
        let sum: f64 = (0..steps).map(at).sum();
        let dug = groove(d, q, depth, pitch, aside).unwrap();
        near(dug.depth_aside, sum, 1e-4 * sum);
        // and its cross-section is the volume of a crater over the pitch
        close(dug.area * pitch, crater(d, q, depth, 0.0).unwrap().volume, 4.0);
    }

    /// Incubation never raises the threshold, and without it nothing changes.
    #[test]
    fn incubation_lowers_the_threshold(d in spot(), q in dose_ratio(), s in 0.5..1.0, n in spread(1.0, 1e6)) {
        let fresh = pulsed_line(d, q, 1e-6, 1.0, n).unwrap();
        prop_assert_eq!(fresh.threshold_ratio, 1.0);
        let worn = pulsed_line(d, q, 1e-6, s, n).unwrap();
        prop_assert!(worn.threshold_ratio <= 1.0 && worn.dot_diameter >= fresh.dot_diameter);
        let material = Material { threshold: 1e4, incubation: s, response: Response::Coating };
        let mark = material_mark(&material, q * 1e4, n, d, 0.0).unwrap();
        near(mark.dose_ratio, worn.dose_ratio, 1e-12 * worn.dose_ratio);
    }

    // --- Materials ---------------------------------------------------------------------------

    /// Depth starts from nothing at the threshold, continuously, and grows with dose.
    #[test]
    fn depth_starts_at_the_threshold(threshold in spread(1.0, 1e9), q in dose_ratio(), more in spread(1.0, 10.0)) {
        let responses = [
            Response::LogarithmicAblation { penetration_depth: 1e-8 },
            Response::LinearAblation { removal_energy: 1e10 },
        ];
        for response in responses {
            let material = Material { threshold, incubation: 1.0, response };
            let depth = |dose: f64| material_mark(&material, dose, 1.0, 1e-4, 0.0).unwrap().depth;
            prop_assert_eq!(depth(threshold), 0.0);
            prop_assert_eq!(depth(0.5 * threshold), 0.0);
            prop_assert!(depth(q * more * threshold) >= depth(q * threshold));
            prop_assert!(depth(q * threshold) > 0.0);
        }
    }

    // --- Compensation ------------------------------------------------------------------------

    /// Without limits every rule reaches what it asks for: the same dose, the same width, or the local
    /// dose ratio at which the width is flat.
    #[test]
    fn rules_reach_their_aim(beam in beam(), kind in kind(), q in spread(1.2, 20.0), u in 0.0f64..2.0) {
        let z = u * rayleigh_range(&beam);
        let setting = MarkSetting {
            kind, dose_ratio: q, power: 10.0, speed: 1.0, greatest_power: 1e6, least_speed: 1e-9,
            greatest_speed: 1e4, least_irradiance_ratio: 0.0,
        };
        let made = |rule| compensate(&beam, z, rule, &setting).unwrap();
        let same_dose = made(CompensationRule::SameDose);
        near(same_dose.dose_ratio, q, 1e-13 * q);
        let width = mark_width(&beam, kind, q, 0.0).unwrap().width;
        near(made(CompensationRule::SameWidth).mark_width, width, 1e-9 * width);
        let flat = made(CompensationRule::FocusInsensitiveWidth);
        near(flat.dose_ratio, kind.focus_insensitive_dose_ratio(), 1e-13 * E);
        for made in [same_dose, flat] {
            prop_assert_eq!(made.limits, CompensationLimits::NONE);
            near(made.reached_factor, made.wanted_factor, 1e-14 * made.wanted_factor);
        }
    }

    /// Power and speed stay within their limits, and a dose or an irradiance that stays short says which binds.
    #[test]
    fn limits_are_kept_and_told(
        beam in beam(), kind in kind(), q in spread(1.2, 20.0), u in 0.0f64..5.0,
        room in spread(1.0, 5.0), slower in spread(0.1, 1.0), faster in spread(1.0, 5.0), least in 0.0..1.0,
    ) {
        let z = u * rayleigh_range(&beam);
        let setting = MarkSetting {
            kind, dose_ratio: q, power: 10.0, speed: 1.0, greatest_power: 10.0 * room, least_speed: slower,
            greatest_speed: faster, least_irradiance_ratio: least,
        };
        let made = compensate(&beam, z, CompensationRule::SameDose, &setting).unwrap();
        prop_assert!(made.power <= setting.greatest_power);
        prop_assert!(made.speed >= setting.least_speed && made.speed <= setting.greatest_speed);
        let says = |limit| made.limits.contains(limit);
        let short = made.reached_factor < made.wanted_factor * (1.0 - 1e-12);
        let dim = made.irradiance_ratio < least * (1.0 - 1e-12);
        prop_assert_eq!(dim, says(CompensationLimits::LEAST_IRRADIANCE));
        let bound = says(CompensationLimits::GREATEST_POWER) || says(CompensationLimits::GREATEST_SPEED);
        match kind {
            MarkKind::Line => {
                prop_assert_eq!(short, says(CompensationLimits::LEAST_SPEED));
                prop_assert!(bound || !dim);
                prop_assert!(says(CompensationLimits::GREATEST_POWER) || !short);
            }
            // Speed does nothing for a pulse, and its power is not raised for the irradiance.
            _ => {
                prop_assert_eq!(short, says(CompensationLimits::GREATEST_POWER));
                prop_assert!(!says(CompensationLimits::LEAST_SPEED) && !says(CompensationLimits::GREATEST_SPEED));
            }
        }
        prop_assert!(made.reached_factor <= made.wanted_factor * (1.0 + 1e-12));
        near(made.irradiance_ratio, made.power / 10.0 * defocus(&beam, z).unwrap().irradiance_ratio, 1e-14);
    }

    // --- Text --------------------------------------------------------------------------------

    /// Sizes scale with the spot; a better grade needs larger type; the smallest type has its grade.
    #[test]
    fn smallest_text_has_its_grade(d in spot(), q in spread(1.2, 20.0), typeface in typeface(), a in power_of_two()) {
        let grades = TextGrades::default();
        let text = smallest_text(d, q, typeface, &grades).unwrap();
        prop_assert!(text.readable_em <= text.good_em && text.good_em <= text.crisp_em);
        same_bits(smallest_text(a * d, q, typeface, &grades).unwrap().good_em, a * text.good_em);
        let grade = |em: f64| text_quality(d, em, q, typeface, &grades).unwrap().grade;
        prop_assert!(grade(text.crisp_em * (1.0 + 1e-12)) == TextGrade::Crisp);
        prop_assert!(grade(text.good_em * (1.0 + 1e-12)) <= TextGrade::Good);
        prop_assert!(grade(text.good_em * (1.0 - 1e-12)) >= TextGrade::Readable);
        prop_assert!(grade(text.readable_em * (1.0 - 1e-12)) == TextGrade::Lost);
    }

    /// The dose ratio of readable text lies in the window of its counters.
    #[test]
    fn readable_text_has_its_dose_window(d in spot(), q in spread(1.2, 20.0), typeface in typeface(), grown in spread(1.0001, 10.0)) {
        let grades = TextGrades::default();
        let em = grown * smallest_text(d, q, typeface, &grades).unwrap().readable_em;
        let quality = text_quality(d, em, q, typeface, &grades).unwrap();
        prop_assert!(quality.least_dose_ratio <= q && q <= quality.greatest_dose_ratio_for_counters);
        let window = quality.greatest_dose_ratio_for_counters / quality.least_dose_ratio;
        prop_assert!(window >= grades.readable_window * (1.0 - 1e-9));
    }

    /// At its largest offset text just keeps its grade.
    #[test]
    fn text_keeps_its_grade_to_the_offset(beam in beam(), q in spread(1.2, 20.0), typeface in typeface(), grown in spread(1.01, 5.0)) {
        let grades = TextGrades::default();
        let em = grown * smallest_text(beam.waist_diameter, q, typeface, &grades).unwrap().good_em;
        let found = offset_for_text(&beam, em, TextGrade::Good, q, typeface, &grades).unwrap();
        let there = |share: f64| {
            let spot = defocus(&beam, share * found.offset).unwrap().diameter;
            text_quality(spot, em, q, typeface, &grades).unwrap().grade
        };
        prop_assert!(there(1.0 - 1e-9) <= TextGrade::Good);
        prop_assert!(there(1.0 + 1e-9) > TextGrade::Good);
    }
    /// A surface that passes through the waist has gaps in its fill if a flat one in the waist has, and then
    /// nothing holds.
    #[test]
    fn gaps_in_the_waist_are_never_missed(rise in 0.0f64..2e-3, fall in 0.0f64..2e-3, share in 0.0f64..1.0, r in 0.5f64..6.0, q in 1.05f64..6.0) {
        let d0 = 88e-6;
        let dose = JobDose::Scan { power: 20.0, speed: 0.5, line_interval: 0.5 * r * d0, threshold: 20.0 / (0.5 * 0.5 * r * d0) / q, response: Response::Coating };
        let job = |surface_rise, surface_fall, focus_z| Job {
            focus: FocusSetting::FromDatum { focus_z },
            surface_rise,
            surface_fall,
            ..flat_job(dose)
        };
        let flat = focus_check(&job(0.0, 0.0, 0.0)).unwrap();
        let through = focus_check(&job(rise, fall, share * (rise + fall) - rise)).unwrap();
        let gaps = flat.reasons.contains(Reasons::FILL_HAS_GAPS);
        prop_assert_eq!(through.reasons.contains(Reasons::FILL_HAS_GAPS), gaps);
        if gaps {
            prop_assert_eq!((flat.outcome, through.outcome), (Outcome::Lost, Outcome::Lost));
        }
    }

    /// A fill whose lines lie apart in the waist may be even out of focus. Another focus is proposed only where
    /// the fill is even there too.
    #[test]
    fn focus_that_leaves_gaps_is_no_help(half in 1e-6f64..2e-3, off in -3e-3f64..3e-3, r in 0.5f64..3.0, q in 1.05f64..6.0, stroke in spread(2e-5, 5e-4)) {
        let d0 = 88e-6;
        let dose = JobDose::Scan { power: 20.0, speed: 0.5, line_interval: 0.5 * r * d0, threshold: 20.0 / (0.5 * 0.5 * r * d0) / q, response: Response::Coating };
        let job = |focus_z| Job {
            focus: FocusSetting::FromDatum { focus_z },
            surface_rise: half,
            surface_fall: half,
            finest_stroke: stroke,
            finest_gap: stroke,
            ..flat_job(dose)
        };
        let first = focus_check(&job(off)).unwrap();
        let again = focus_check(&job(first.best_focus_z)).unwrap();
        let helps = first.outcome == Outcome::Lost && again.outcome != Outcome::Lost;
        prop_assert_eq!(first.reasons.contains(Reasons::REFOCUS_HELPS), helps);
        if again.reasons.contains(Reasons::FILL_HAS_GAPS) {
            prop_assert!(!first.reasons.contains(Reasons::BANDS_HELP));
        }
    }

    /// In a melt, details and text of a job are those of the spot that heat has widened: sqrt(d² + 32·κ·t) with t
    /// the dwell √(π/8)·d/v. Without diffusivity it is a coating; the ends of its ranges are where the details
    /// just hold; more heat never brings finer ones.
    #[test]
    fn a_melt_is_seen_through_its_heat(half in 1e-6f64..5e-4, kappa in spread(1e-9, 1e-5), v in spread(1e-3, 5.0), stroke in spread(1e-5, 1e-3), q in 1.3f64..6.0) {
        let dose = |response| JobDose::Scan { power: 20.0, speed: v, line_interval: 40e-6, threshold: 20.0 / (v * 40e-6) / q, response };
        let job = |response| Job {
            surface_rise: half,
            surface_fall: half,
            finest_stroke: stroke,
            finest_gap: 2.0 * stroke,
            text: Some(JobText { typeface: Typeface::Sans, em: 4.0 * POINT, least_grade: TextGrade::Good, grades: TextGrades::default() }),
            ..flat_job(dose(response))
        };
        let melt = |diffusivity| focus_check(&job(Response::Melt { diffusivity })).unwrap();
        let (warm, warmer) = (melt(kappa), melt(2.0 * kappa));
        for place in [warm.highest, warm.datum] {
            let dwell = (std::f64::consts::PI / 8.0).sqrt() * place.diameter / v;
            let seen = (place.diameter.powi(2) + 32.0 * kappa * dwell).sqrt();
            near(place.seen_diameter, seen, 1e-14 * seen);
            let detail = smallest_details(place.seen_diameter, warm.dose_ratio).unwrap();
            prop_assert_eq!(place.smallest, Some(detail));
            let text = smallest_text(place.seen_diameter, warm.dose_ratio, Typeface::Sans, &TextGrades::default()).unwrap();
            prop_assert_eq!(place.smallest_text, Some(text));
        }
        prop_assert!(warmer.datum.smallest.unwrap().bar > warm.datum.smallest.unwrap().bar);
        let full = |verdict: &Verdict| verdict.detail_range.map_or(0.0, |range| range.full);
        prop_assert!(full(&warmer) <= full(&warm) * (1.0 + 1e-12));
        if let Some(range) = warm.detail_range {
            let spot = defocus(&Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: warm.focused.waist_diameter }, range.away_from_lens_z).unwrap().diameter;
            let seen = (spot * spot + 32.0 * kappa * (std::f64::consts::PI / 8.0).sqrt() * spot / v).sqrt();
            let finest = smallest_details(seen, warm.dose_ratio).unwrap();
            near((finest.bar / stroke).max(finest.gap / (2.0 * stroke)), 1.0, 1e-9);
        }
        let cold = melt(0.0);
        prop_assert_eq!(Verdict { fill_depth: None, ..focus_check(&job(Response::Coating)).unwrap() }, cold);
    }

    /// A job too weak to mark says so, whatever else it asks, and names no detail.
    #[test]
    fn a_weak_job_says_that_nothing_marks(q in spread(1e-5, 0.99), with_text in any::<bool>()) {
        let text = JobText { typeface: Typeface::Sans, em: 4.0 * POINT, least_grade: TextGrade::Readable, grades: TextGrades::default() };
        let dose = JobDose::Scan { power: 20.0, speed: 0.5, line_interval: 40e-6, threshold: 1e6 / q, response: Response::LinearAblation { removal_energy: 1e10 } };
        let details = Job { finest_stroke: 1e-6, finest_gap: 1e-6, ..flat_job(dose) };
        let verdict = focus_check(&Job { text: with_text.then_some(text), ..details }).unwrap();
        prop_assert_eq!(verdict.outcome, Outcome::NothingMarks);
        prop_assert_eq!(verdict.reasons, Reasons::NOTHING_MARKS);
        prop_assert_eq!(verdict.fill_depth, Some(0.0));
        prop_assert!(verdict.detail_range.is_none() && verdict.text_range.is_none());
        for place in [verdict.highest, verdict.datum, verdict.lowest] {
            prop_assert!(place.smallest.is_none() && place.smallest_text.is_none() && !place.details_hold);
            prop_assert_eq!(place.text_grade, with_text.then_some(TextGrade::Lost));
        }
    }

    /// Where one formula takes over from another, neighbouring doubles differ by rounding only: the edges of a
    /// fill at q = 2, its widest stroke at q = 4, the inverse of the ripple at a contrast of a half, and the
    /// inverse error function at a half (a bar at q = 2).
    #[test]
    fn formulas_meet_where_they_change_over(d in spot(), a in spread(0.3, 10.0)) {
        let beam = Beam { wavelength: 1e-7, m2: 1.0, waist_diameter: d };
        let edges = |q: f64| fill_width(&beam, a * d, q, 0.0).unwrap().width;
        let both = |at: f64| [at.next_down(), at, at.next_up()];
        for q in both(2.0) {
            near(edges(q), edges(2.0), 1e-14 * (1.0 + a) * d);
            close(smallest_details(d, q).unwrap().bar, smallest_details(d, 2.0).unwrap().bar, 16.0);
        }
        for q in both(4.0) {
            let (here, there) = (fill_limits(&beam, a * d, q).unwrap(), fill_limits(&beam, a * d, 4.0).unwrap());
            near(here.greatest_width, there.greatest_width, 1e-13 * (1.0 + a) * d);
        }
        for contrast in both(0.5) {
            let (here, there) =
                (interval_for_ripple(d, contrast).unwrap(), interval_for_ripple(d, 0.5).unwrap());
            close(here, there, 16.0);
        }
    }
}

// --- Edges that run along the lines of a fill ----------------------------------------------------

/// Dose at y of lines at 0, −p, −2p … over the mean of a fill, with p = r·w and lengths in w.
fn dose_of_lines(y: f64, r: f64) -> f64 {
    let lines = (0..=(8.0 / r) as i32).map(|k| (-2.0 * (y + f64::from(k) * r).powi(2)).exp());
    (2.0 / PI).sqrt() * r * lines.sum::<f64>()
}

/// The outermost place at which lines give this share of the mean dose, half an interval outside the last line
/// being 0.
fn edge_of_lines(share: f64, r: f64) -> f64 {
    let step = 1e-3;
    let outside = (0..).map(|k| 4.0 - step * f64::from(k)).find(|y| dose_of_lines(*y, r) >= share).unwrap();
    let (mut inside, mut outside) = (outside, outside + step);
    for _ in 0..50 {
        let middle = 0.5 * (inside + outside);
        if dose_of_lines(middle, r) >= share { inside = middle } else { outside = middle }
    }
    inside - 0.5 * r
}

/// What the documentation of `crisp` says of them: steeper than the edge of an even fill, by so much.
#[test]
fn edges_along_the_lines_are_steeper() {
    let beam = Beam { wavelength: 1e-7, m2: 1.0, waist_diameter: 1e-4 };
    for (r, share) in [(0.25, 0.99), (0.5, 0.96), (0.75, 0.90), (1.0, 0.78), (2.0, 0.50)] {
        let told = fill_quality(&beam, 0.5 * r * 1e-4, 0.0).unwrap().edge_width;
        let steeper = 0.5e-4 * (edge_of_lines(0.1, r) - edge_of_lines(0.9, r)) / told;
        println!("r = {r}: {steeper:.4} of the edge of an even fill");
        near(steeper, share, 0.006);
        // Never wider than told, and good to 5 % up to half a radius.
        assert!(steeper < 1.0 && (r > 0.5 || steeper > 0.95));
    }
    // Behind the last line of a fill an interval of a diameter wide, the least of all.
    near(dose_of_lines(-1.0, 2.0), 0.43, 0.005);
}

/// What the documentation of `fill_width` says of them: the mark ends elsewhere than that of an even fill.
#[test]
fn marks_along_the_lines_end_elsewhere() {
    let beam = Beam { wavelength: 1e-7, m2: 1.0, waist_diameter: 2.0 };
    for (r, stated) in [(0.25, 0.0061), (0.5, 0.025), (1.0, 0.112), (2.0, 0.45)] {
        let mut worst = 0.0f64;
        for k in 0..=60 {
            let q = 1.5 * (8.0f64 / 1.5).powf(f64::from(k) / 60.0);
            // In units of w, of a stroke wide against the spot.
            let even = 0.5 * fill_width(&beam, 10.0, q, 0.0).unwrap().growth;
            let farther = edge_of_lines(1.0 / q, r) - even;
            worst = worst.max(farther.abs());
            if r <= 0.5 && (q - 2.0).abs() > 0.01 {
                assert!((farther > 0.0) == (q < 2.0), "{q}: {farther}");
            }
        }
        println!("r = {r}: {worst:.4} w");
        assert!(worst <= stated && worst > 0.9 * stated, "{r}: {worst}, {stated} is stated");
    }
}
