//! What the heights of a surface ask of the focus.

use super::given::*;
use super::refusal::{astigmatic_beam, astigmatic_inputs, beam, beam_inputs, told_well, value_of};
use proptest::prelude::*;
use spotwise::model::focus::{DepthCriterion, defocus, depth_of_focus, tilted_spot};
use spotwise::model::optics::{AstigmaticBeam, Axis, Beam, astigmatic_at, beam_parameters};
use spotwise::model::surface::{
    DepthEnds, FocusAim, cylinder_strip, focus_between, focus_between_astigmatic, height_bands, refocus_plan,
    spot_through,
};
use spotwise::{Error, Param};

/// What a dense search may better an optimum by: the rounding of both.
const ROUNDING: f64 = 1e-14;

/// A beam, and two heights up to many Rayleigh ranges apart.
fn beam_and_heights() -> impl Strategy<Value = (Beam, f64, f64)> {
    (any_beam(), signed_spread(1e-3, 10.0), spread(1e-3, 30.0)).prop_filter_map(
        "heights outside their range",
        |(beam, top, range)| {
            let zr = beam_parameters(&beam).unwrap().rayleigh_range;
            let (highest, lowest) = (top * zr, (top + range) * zr);
            (highest.abs() <= 1e3 && lowest.abs() <= 1e3 && lowest > highest)
                .then_some((beam, highest, lowest))
        },
    )
}

/// An astigmatic beam, and two heights up to some Rayleigh ranges apart, or the same height twice.
fn astigmatic_and_heights() -> impl Strategy<Value = (AstigmaticBeam, f64, f64)> {
    let range = prop_oneof![6 => spread(1e-2, 10.0), 1 => Just(0.0)];
    (prop_oneof![close_astigmatic(), paired_astigmatic()], -3.0..3.0f64, range).prop_filter_map(
        "heights outside their range",
        |(beam, top, range)| {
            let zr = longer_range(&beam);
            let (highest, lowest) = (top * zr, (top + range) * zr);
            (highest.abs() <= 1e3 && lowest.abs() <= 1e3).then_some((beam, highest, lowest))
        },
    )
}

fn round(beam: &AstigmaticBeam, axis: Axis) -> Beam {
    Beam { wavelength: beam.wavelength, m2: axis.m2, waist_diameter: axis.waist_diameter }
}

fn longer_range(beam: &AstigmaticBeam) -> f64 {
    [beam.x, beam.y]
        .map(|axis| beam_parameters(&round(beam, axis)).unwrap().rayleigh_range)
        .into_iter()
        .fold(0.0, f64::max)
}

/// The larger diameter of an astigmatic beam at the worse end of a surface.
fn worst_of(beam: &AstigmaticBeam, focus: f64, highest: f64, lowest: f64) -> f64 {
    let larger = |z: f64| {
        let section = astigmatic_at(beam, z - focus).unwrap();
        section.diameter_x.max(section.diameter_y)
    };
    larger(highest).max(larger(lowest))
}

/// A depth of focus, as far either way or not.
fn depth() -> BoxedStrategy<DepthEnds> {
    let half = spread(1e-5, 1e-2);
    prop_oneof![
        2 => half.clone().prop_map(|half| DepthEnds { toward_lens_z: -half, away_from_lens_z: half }),
        2 => (half.clone(), half).prop_map(|(t, a)| DepthEnds { toward_lens_z: -t, away_from_lens_z: a }),
    ]
    .boxed()
}

fn full(depth: &DepthEnds) -> f64 {
    depth.away_from_lens_z - depth.toward_lens_z
}

fn aim() -> impl Strategy<Value = FocusAim> {
    prop::sample::select(FocusAim::ALL.to_vec())
}

/// Whether a height is within a depth of focus, but for a part in 1e9 of it.
fn in_focus(depth: &DepthEnds, focus: f64, z: f64) -> bool {
    let slack = 2e-9 * full(depth) + 1e-15 * (focus.abs() + z.abs());
    z - focus >= depth.toward_lens_z - slack && z - focus <= depth.away_from_lens_z + slack
}

proptest! {
    #![proptest_config(few_cases())]

    /// No other focus height makes a smaller worst spot, whichever height of the surface that is at.
    #[test]
    fn no_focus_betters_the_best((beam, highest, lowest) in beam_and_heights()) {
        let best = focus_between(&beam, highest, lowest).unwrap();
        let worst = |focus: f64| {
            let at = |k: u32| highest + (lowest - highest) * f64::from(k) / 16.0;
            (0..=16).map(|k| defocus(&beam, at(k) - focus).unwrap().diameter).fold(0.0, f64::max)
        };
        prop_assert!(worst(best.focus_z) <= best.worst.diameter * (1.0 + ROUNDING));
        for k in 0..=200 {
            let focus = highest + (lowest - highest) * (f64::from(k) / 100.0 - 0.5);
            prop_assert!(worst(focus) >= best.worst.diameter * (1.0 - ROUNDING));
        }
    }

    /// The same of an astigmatic beam, searched densely near its answer and far.
    #[test]
    fn no_focus_betters_the_best_of_two_axes((beam, highest, lowest) in astigmatic_and_heights()) {
        let best = focus_between_astigmatic(&beam, highest, lowest).unwrap();
        let at_best = worst_of(&beam, best.focus_z, highest, lowest);
        prop_assert!((at_best / best.worst_diameter - 1.0).abs() < 1e-12, "{at_best} at {best:?}");
        let reach = 4.0 * longer_range(&beam) + (lowest - highest);
        for k in -200..=200 {
            let share = f64::from(k) / 200.0;
            for focus in [best.focus_z + reach * share, best.focus_z + reach * share.powi(5)] {
                let here = worst_of(&beam, focus, highest, lowest);
                prop_assert!(here >= best.worst_diameter * (1.0 - ROUNDING), "{here} at {focus}: {best:?}");
            }
        }
    }

    /// As many bands as are needed, and not one fewer; each is in focus, margin and all, and they meet.
    #[test]
    fn bands_cover_the_surface(
        top in -1e-2..1e-2f64, count in 0.0..40.0f64, depth in depth(),
        margin in prop_oneof![0.0..0.9f64, Just(0.0)],
    ) {
        let band = full(&depth) * (1.0 - margin);
        let lowest = top + count * band;
        let (mut limits, mut focus) = ([0.0; 48], [0.0; 44]);
        let bands = height_bands(top, lowest, &depth, margin, &mut limits, &mut focus).unwrap();
        let n = bands.count as usize;
        prop_assert!(f64::from(bands.count) >= count * (1.0 - 1e-8));
        prop_assert!(n == 1 || f64::from(bands.count - 1) < count * (1.0 + 1e-8));
        prop_assert!(bands.band_height <= band * (1.0 + 2e-9) && bands.share_of_depth <= 1.0 + 2e-9);
        same_bits(limits[0], top);
        same_bits(limits[n], lowest);
        for k in 0..n {
            let spare = 0.5 * margin * full(&depth);
            prop_assert!(limits[k] <= limits[k + 1]);
            let kept = DepthEnds {
                toward_lens_z: depth.toward_lens_z + spare, away_from_lens_z: depth.away_from_lens_z - spare,
            };
            prop_assert!(in_focus(&kept, focus[k], limits[k]) && in_focus(&kept, focus[k], limits[k + 1]));
        }
        prop_assert!(limits[n + 1..].iter().chain(&focus[n..]).all(|z| z.is_nan()));
        // Fewer, equally high or not, cannot: together they span less than the surface.
        prop_assert!(n == 1 || (n - 1) as f64 * band < (lowest - top) * (1.0 + 1e-8));
    }

    /// Every point of the strip is in focus and the next one beside it is not, unless that is the whole half.
    #[test]
    fn the_strip_ends_where_focus_does(radius in spread(1e-3, 1.0), depth in depth(), aim in aim()) {
        let strip = cylinder_strip(radius, &depth, aim).unwrap();
        let drop = |x: f64| {
            // R − √(R² − x²), by the angle: no root cancels.
            let half = 0.5 * (x / radius).asin();
            2.0 * radius * half.sin() * half.sin()
        };
        for k in 0..=50 {
            let x = strip.half_chord * f64::from(k) / 50.0 * (1.0 - 1e-12);
            prop_assert!(in_focus(&depth, strip.focus_z, drop(x)), "{x}: {strip:?}");
        }
        if strip.whole_upper_half {
            same_bits(strip.half_chord, radius);
            prop_assert_eq!(strip.edge_irradiance_ratio, 0.0);
        } else {
            let beyond = strip.half_chord * (1.0 + 1e-6);
            prop_assert!(beyond >= radius || !in_focus(&depth, strip.focus_z, drop(beyond)), "{strip:?}");
            // No other focus height reaches further.
            for k in -20..=20 {
                let focus = strip.focus_z + full(&depth) * f64::from(k) / 20.0;
                let reaches = in_focus(&depth, focus, 0.0) && in_focus(&depth, focus, drop(beyond.min(radius)));
                prop_assert!(!reaches || aim == FocusAim::HighestPlace || beyond >= radius);
            }
        }
    }

    /// The surface is in focus when each pass begins and when it ends, with as many passes to a stage as that
    /// allows; the last stage ends at the depth wanted, within a pass.
    #[test]
    fn a_plan_stays_in_focus(
        total in spread(1e-4, 0.05), each in spread(1e-4, 5e-3), depth in depth(), aim in aim(),
    ) {
        let mut focus = vec![0.0; 600];
        let plan = refocus_plan(total, each, &depth, aim, &mut focus).unwrap();
        prop_assert!(plan.reached_depth >= total * (1.0 - 2e-9));
        prop_assert!(plan.reached_depth - each < total);
        let (k, stages) = (plan.passes_per_stage, plan.stages);
        prop_assert_eq!((stages - 1) * k + plan.last_stage_passes, plan.passes);
        prop_assert!((1..=k).contains(&plan.last_stage_passes));
        prop_assert!(focus[stages as usize..].iter().all(|z| z.is_nan()));
        prop_assert_eq!(plan.stays_in_focus, each <= plan.usable_depth * (1.0 + 1e-9));
        for pass in 0..plan.passes {
            let here = focus[(pass / k) as usize];
            for removed in [pass, pass + 1].map(|passes| f64::from(passes) * each) {
                prop_assert!(!plan.stays_in_focus || in_focus(&depth, here, removed), "pass {pass}: {plan:?}");
            }
        }
        // One pass more to a stage would leave the depth, wherever focus is set.
        prop_assert!(k == plan.passes || f64::from(k + 1) * each > plan.usable_depth);
        if k < plan.passes && aim == FocusAim::Midway {
            let deeper = f64::from(k + 1) * each * (1.0 + 1e-8);
            for step in -100..=200 {
                let other = deeper * f64::from(step) / 100.0;
                prop_assert!(!(in_focus(&depth, other, 0.0) && in_focus(&depth, other, deeper)), "{other}: {plan:?}");
            }
        }
        for pair in focus[..stages as usize].windows(2) {
            prop_assert!(pair[0] < pair[1]);
        }
    }

    /// Mid-thickness makes the widest spot smallest, and what is called narrowest is.
    #[test]
    fn no_focus_betters_mid_thickness((beam, _, _) in beam_and_heights(), thickness in spread(0.01, 20.0), at in -2.0..3.0f64) {
        let zr = beam_parameters(&beam).unwrap().rayleigh_range;
        let thickness = thickness * zr;
        let Ok(through) = spot_through(&beam, at * thickness, thickness) else { return Ok(()) };
        let best = spot_through(&beam, through.best_focus_z, thickness).unwrap();
        same_bits(best.worst_growth, through.best_worst_growth);
        prop_assert_eq!((best.taper_half_angle, best.taper_ratio), (0.0, 1.0));
        prop_assert!(through.worst_growth >= best.worst_growth * (1.0 - ROUNDING));
        for k in -50..=150 {
            let other = thickness * f64::from(k) / 100.0;
            let worst = [0.0, 0.25, 0.5, 1.0].map(|at| defocus(&beam, at * thickness - other).unwrap().growth);
            let worst = worst.into_iter().fold(0.0, f64::max);
            prop_assert!(worst >= best.worst_growth * (1.0 - ROUNDING), "{worst} at {other}");
        }
        for k in 0..=64 {
            let here = defocus(&beam, (f64::from(k) / 64.0 - at) * thickness).unwrap().diameter;
            prop_assert!(here <= through.widest * (1.0 + ROUNDING));
            prop_assert!(here >= through.narrowest * (1.0 - ROUNDING));
        }
    }
}

proptest! {
    #![proptest_config(config())]

    /// The worst spot is that of either end, and the flags are those of the beam.
    #[test]
    fn both_ends_are_equally_bad((beam, highest, lowest) in beam_and_heights()) {
        let best = focus_between(&beam, highest, lowest).unwrap();
        // The focus height is rounded to a double, and may lie nearer one end by half its last digit.
        let slip = 3e-16 * (highest.abs() + lowest.abs()) / (lowest - highest);
        for z in [highest, lowest] {
            let end = defocus(&beam, z - best.focus_z).unwrap();
            prop_assert!((end.diameter / best.worst.diameter - 1.0).abs() <= 1e-15 + 4.0 * slip);
        }
        let off = defocus(&beam, best.half_range).unwrap();
        prop_assert!((off.growth_minus_one / best.worst.growth_minus_one - 1.0).abs() < 1e-14);
        prop_assert_eq!(best.worst.validity, off.validity);
        // More range is no better.
        let wider = focus_between(&beam, highest, lowest + 0.1 * (lowest - highest));
        if let Ok(wider) = wider {
            prop_assert!(wider.worst.diameter >= best.worst.diameter);
        }
    }

    /// Turned upside down, the answer is turned; moved by a height, it is moved.
    #[test]
    fn symmetric_and_shifted((beam, highest, lowest) in beam_and_heights(), shift in -1e-2..1e-2f64) {
        let best = focus_between(&beam, highest, lowest).unwrap();
        let turned = focus_between(&beam, -lowest, -highest).unwrap();
        prop_assert_eq!(turned.focus_z, -best.focus_z);
        same_bits(turned.worst.diameter, best.worst.diameter);
        if let Ok(moved) = focus_between(&beam, highest + shift, lowest + shift) {
            let scale = highest.abs() + lowest.abs() + shift.abs();
            prop_assert!((moved.focus_z - best.focus_z - shift).abs() <= 4e-16 * scale);
        }
    }

    /// With both axes alike the astigmatic answer is the round one, bit for bit.
    #[test]
    fn alike_axes_are_a_round_beam((beam, highest, lowest) in beam_and_heights()) {
        let axis = Axis { m2: beam.m2, waist_diameter: beam.waist_diameter, waist_z: 0.0 };
        let two = AstigmaticBeam { wavelength: beam.wavelength, x: axis, y: axis };
        let best = focus_between_astigmatic(&two, highest, lowest).unwrap();
        let one = focus_between(&beam, highest, lowest).unwrap();
        same_bits(best.focus_z, one.focus_z);
        for end in [best.highest_diameter_x, best.highest_diameter_y, best.lowest_diameter_x, best.lowest_diameter_y, best.worst_diameter] {
            same_bits(end, one.worst.diameter);
        }
    }

    /// At both ends the larger diameter is the worst, unless the surface is flat; axes may be exchanged, the
    /// beam turned upside down, and all lengths along the axis doubled with twice the λ⁻¹.
    #[test]
    fn ends_of_two_axes((beam, highest, lowest) in astigmatic_and_heights()) {
        let best = focus_between_astigmatic(&beam, highest, lowest).unwrap();
        let high = best.highest_diameter_x.max(best.highest_diameter_y);
        let low = best.lowest_diameter_x.max(best.lowest_diameter_y);
        prop_assert!((high / low - 1.0).abs() < 1e-14, "{best:?}");
        prop_assert_eq!(high.max(low), best.worst_diameter);

        let exchanged = focus_between_astigmatic(&swapped(&beam), highest, lowest).unwrap();
        prop_assert!((exchanged.worst_diameter / best.worst_diameter - 1.0).abs() < 1e-15);
        let turned = |axis: Axis| Axis { waist_z: -axis.waist_z, ..axis };
        let turned = AstigmaticBeam { x: turned(beam.x), y: turned(beam.y), ..beam };
        let upside_down = focus_between_astigmatic(&turned, -lowest, -highest).unwrap();
        let scale = longer_range(&beam) * 10.0 + highest.abs() + lowest.abs();
        prop_assert!((upside_down.focus_z + best.focus_z).abs() < 1e-15 * scale);
        prop_assert!((upside_down.worst_diameter / best.worst_diameter - 1.0).abs() < 1e-15);

        // Half the wavelength and twice every length along the axis: the same diameters.
        let longer = |axis: Axis| Axis { waist_z: 2.0 * axis.waist_z, ..axis };
        let longer = AstigmaticBeam { wavelength: 0.5 * beam.wavelength, x: longer(beam.x), y: longer(beam.y) };
        if let Ok(scaled) = focus_between_astigmatic(&longer, 2.0 * highest, 2.0 * lowest) {
            same_bits(scaled.worst_diameter, best.worst_diameter);
            same_bits(scaled.focus_z, 2.0 * best.focus_z);
        }
    }

    /// Powers of two scale bands, strip and plan without rounding.
    #[test]
    fn everything_scales(top in -1e-3..1e-3f64, range in spread(1e-4, 1e-2), depth in depth(), margin in 0.0..0.9f64, aim in aim(), radius in spread(1e-3, 1.0), each in spread(1e-5, 1e-3), k in power_of_two()) {
        let scaled = DepthEnds { toward_lens_z: k * depth.toward_lens_z, away_from_lens_z: k * depth.away_from_lens_z };
        let (mut limits, mut focus) = ([0.0; 9], [0.0; 8]);
        let (mut more_limits, mut more_focus) = (limits, focus);
        let bands = height_bands(top, top + range, &depth, margin, &mut limits, &mut focus);
        let more = height_bands(k * top, k * (top + range), &scaled, margin, &mut more_limits, &mut more_focus);
        match (bands, more) {
            (Ok(bands), Ok(more)) => {
                prop_assert_eq!(bands.count, more.count);
                same_bits(k * bands.band_height, more.band_height);
                same_bits(bands.share_of_depth, more.share_of_depth);
                for (one, other) in limits.iter().chain(&focus).zip(more_limits.iter().chain(&more_focus)) {
                    prop_assert!(one.is_nan() && other.is_nan() || k * one == *other);
                }
            }
            (Err(one), Err(other)) => prop_assert_eq!((one.code(), one.value()), (other.code(), other.value())),
            (one, other) => prop_assert!(false, "{one:?}, {other:?}"),
        }
        let (strip, larger) = (cylinder_strip(radius, &depth, aim).unwrap(), cylinder_strip(k * radius, &scaled, aim).unwrap());
        same_bits(k * strip.half_chord, larger.half_chord);
        same_bits(k * strip.arc_length, larger.arc_length);
        same_bits(strip.edge_incidence, larger.edge_incidence);
        let (plan, other) = (refocus_plan(range, each, &depth, aim, &mut []), refocus_plan(k * range, k * each, &scaled, aim, &mut []));
        let (plan, other) = (plan.unwrap(), other.unwrap());
        prop_assert_eq!((plan.passes, plan.passes_per_stage, plan.stages), (other.passes, other.passes_per_stage, other.stages));
    }

    /// The circle: x² + (R − s)² = R², the arc lies between chord and half round, and the incidence is that of a
    /// surface tilted so; for a slight sag the strip is √(2R·s) to a share of s/R.
    #[test]
    fn strips_are_of_a_circle(radius in spread(1e-3, 1e3), share in spread(2e-6, 0.999), aim in aim()) {
        let s = share * radius;
        let half = if aim == FocusAim::Midway { 0.5 * s } else { s };
        let depth = DepthEnds { toward_lens_z: -half, away_from_lens_z: half };
        let strip = cylinder_strip(radius, &depth, aim).unwrap();
        prop_assert!(!strip.whole_upper_half && strip.edge_sag == s);
        let x = strip.half_chord;
        prop_assert!((x * x / (s * (2.0 * radius - s)) - 1.0).abs() < 2e-15);
        prop_assert!((x / radius - strip.edge_incidence.sin()).abs() < 4e-16);
        prop_assert!((strip.edge_irradiance_ratio - strip.edge_incidence.cos()).abs() < 4e-16);
        prop_assert!(strip.arc_length >= strip.full_chord && strip.arc_length <= std::f64::consts::PI * radius);
        prop_assert!((x / (2.0 * radius * s).sqrt() - 1.0).abs() <= 0.3 * share + 1e-15);
        prop_assert_eq!(strip.focus_z, if aim == FocusAim::Midway { 0.5 * s } else { 0.0 });
        if strip.edge_incidence < 1.4 {
            let slender = Beam { wavelength: 1e-6, m2: 1.0, waist_diameter: 1e-3 };
            let edge = tilted_spot(&slender, 0.0, strip.edge_incidence).unwrap();
            prop_assert!((edge.irradiance_ratio / strip.edge_irradiance_ratio - 1.0).abs() < 1e-14);
        }
    }

    /// Midway reaches further than the crown: by √2 for a slight sag, less for a deep one.
    #[test]
    fn midway_is_wider(radius in spread(1e-3, 1.0), share in spread(1e-6, 0.49)) {
        let half = share * radius;
        let depth = DepthEnds { toward_lens_z: -half, away_from_lens_z: half };
        let crown = cylinder_strip(radius, &depth, FocusAim::HighestPlace).unwrap();
        let midway = cylinder_strip(radius, &depth, FocusAim::Midway).unwrap();
        let gain = midway.full_chord / crown.full_chord;
        // √((2R − 2s)/(2R − s))·√2
        prop_assert!(gain < 2f64.sqrt() && gain > 2f64.sqrt() * (1.0 - 0.5 * share));
        prop_assert!(midway.focus_z == half && crown.focus_z == 0.0);
    }

    /// A taper turns over with the part, is that of the two spots, and for a part of no thickness the slope of
    /// the beam's edge.
    #[test]
    fn tapers((beam, _, _) in beam_and_heights(), thickness in spread(1e-3, 20.0), at in -2.0..3.0f64) {
        let p = beam_parameters(&beam).unwrap();
        let (thickness, focus) = (thickness * p.rayleigh_range, at * thickness * p.rayleigh_range);
        let Ok(through) = spot_through(&beam, focus, thickness) else { return Ok(()) };
        if let Ok(turned) = spot_through(&beam, thickness - focus, thickness) {
            let scale = 1e-14 * (1.0 + focus.abs() / thickness);
            prop_assert!((turned.top_diameter / through.bottom_diameter - 1.0).abs() < scale);
            prop_assert!((turned.taper_half_angle + through.taper_half_angle).abs() < scale * p.divergence_half_angle);
        }
        let straight = ((through.top_diameter - through.bottom_diameter) / (2.0 * thickness)).atan();
        let rounding = 1e-15 * through.widest / thickness;
        prop_assert!((through.taper_half_angle - straight).abs() <= rounding + 1e-15 * straight.abs());
        prop_assert!(through.taper_half_angle.abs() <= p.divergence_half_angle);
        // Beyond the waist the edge of the beam opens by (θ/2)·u/√(1 + u²).
        let at_once = spot_through(&beam, focus, 0.0).unwrap();
        let u = focus / p.rayleigh_range;
        let slope = (p.divergence_half_angle * u / (1.0 + u * u).sqrt()).atan();
        prop_assert!((at_once.taper_half_angle - slope).abs() <= 1e-14 * slope.abs());
        prop_assert_eq!((at_once.taper_ratio, at_once.best_worst_growth), (1.0, 1.0));
    }
}

/// Any bits: what is given, in the order of the checks, each with its own range.
struct Given(Vec<(Param, f64, f64, f64)>);

impl Given {
    fn of(inputs: &[(Param, f64)]) -> Self {
        Self(inputs.iter().map(|(param, value)| (*param, *value, param.range().0, param.range().1)).collect())
    }

    fn heights(mut self, highest: f64, lowest: f64) -> Self {
        self.0.push((Param::HighestZ, highest, -1e7, 1e7));
        self.0.push((Param::LowestZ, lowest, highest, 1e7));
        self
    }

    /// Holds a result against what was given.
    fn judge<T: std::fmt::Debug>(&self, result: Result<T, Error>, numbers: impl FnOnce(&T) -> Vec<f64>) {
        let first = self.0.iter().find(|(_, value, least, greatest)| !(least <= value && value <= greatest));
        match result {
            Ok(answer) => {
                assert!(first.is_none(), "{first:?} was let through");
                assert!(numbers(&answer).iter().all(|number| number.is_finite()), "{answer:?}");
            }
            Err(error) => {
                told_well(&error);
                if matches!(error.code(), 1 | 2) {
                    let (param, value, ..) = first.unwrap_or_else(|| panic!("{error}, but all are in range"));
                    assert_eq!(
                        (error.param(), error.value().to_bits()),
                        (*param, value.to_bits()),
                        "{error}"
                    );
                    assert_eq!(error.code() == 1, !value.is_finite(), "{error}");
                } else {
                    assert_eq!(error.code(), 4, "{error}");
                }
            }
        }
    }
}

/// Two heights, half of them the right way round.
fn any_heights() -> BoxedStrategy<(f64, f64)> {
    let drawn = (value_of(Param::HighestZ), value_of(Param::LowestZ));
    prop_oneof![drawn.clone(), drawn.prop_map(|(a, b)| (a.min(b), a.max(b)))].boxed()
}

/// Two ends, half of them of a depth about its focus.
fn any_ends() -> BoxedStrategy<(f64, f64)> {
    let drawn = (value_of(Param::TowardLensZ), value_of(Param::AwayFromLensZ));
    prop_oneof![drawn.clone(), drawn.prop_map(|(a, b)| (-a.abs(), b.abs()))].boxed()
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn refusals_of_focus(beam in beam(), two in astigmatic_beam(), (highest, lowest) in any_heights()) {
        let given = Given::of(&beam_inputs(&beam)).heights(highest, lowest);
        given.judge(focus_between(&beam, highest, lowest), |best| {
            let d = best.worst;
            vec![best.focus_z, best.half_range, d.diameter, d.growth, d.growth_minus_one, d.irradiance_ratio, d.line_dose_ratio]
        });
        let given = Given::of(&astigmatic_inputs(&two)).heights(highest, lowest);
        given.judge(focus_between_astigmatic(&two, highest, lowest), |best| {
            vec![
                best.focus_z, best.worst_diameter, best.highest_diameter_x, best.highest_diameter_y,
                best.lowest_diameter_x, best.lowest_diameter_y, best.half_angle,
            ]
        });
    }

    #[test]
    fn refusals_of_bands((highest, lowest) in any_heights(), (t, a) in any_ends(), margin in value_of(Param::BandMargin), room in 0..9usize) {
        let depth = DepthEnds { toward_lens_z: t, away_from_lens_z: a };
        let given = Given::of(&[]).heights(highest, lowest);
        let more = Given::of(&[(Param::TowardLensZ, t), (Param::AwayFromLensZ, a), (Param::BandMargin, margin)]);
        let given = Given(given.0.into_iter().chain(more.0).collect());
        let (mut limits, mut focus) = (vec![7.0; room + 1], vec![7.0; room]);
        let bands = height_bands(highest, lowest, &depth, margin, &mut limits, &mut focus);
        if bands.is_err() {
            prop_assert!(limits.iter().chain(&focus).all(|z| z.is_nan()), "stale");
        }
        match bands {
            Err(error) if error.code() == 6 => {
                let alone = height_bands(highest, lowest, &depth, margin, &mut [], &mut []).unwrap();
                let needed = f64::from(alone.count);
                // With no room for a focus height there are none to write, and only the limits are too few.
                let limits_needed = (Param::BandLimits, needed + 1.0);
                prop_assert_eq!((error.param(), error.allowed().0), limits_needed);
                prop_assert!(room < alone.count as usize);
                told_well(&error);
            }
            bands => given.judge(bands, |bands| vec![bands.band_height, bands.share_of_depth]),
        }
    }

    #[test]
    fn refusals_of_strips_and_plans(radius in value_of(Param::PartRadius), (t, a) in any_ends(), aim in aim(), total in value_of(Param::TotalDepth), each in value_of(Param::DepthPerPass)) {
        let depth = DepthEnds { toward_lens_z: t, away_from_lens_z: a };
        let ends = |first: &[(Param, f64)]| {
            let mut given = Given::of(first);
            given.0.extend(Given::of(&[(Param::TowardLensZ, t), (Param::AwayFromLensZ, a)]).0);
            if aim == FocusAim::HighestPlace {
                // Known once there is a depth at all.
                given.0.push((Param::TowardLensZ, t, -1e7, 0.0));
            }
            given
        };
        ends(&[(Param::PartRadius, radius)]).judge(cylinder_strip(radius, &depth, aim), |strip| {
            vec![
                strip.half_chord, strip.full_chord, strip.arc_length, strip.edge_sag, strip.edge_incidence,
                strip.edge_irradiance_ratio, strip.focus_z,
            ]
        });
        let mut focus = [7.0; 5];
        let plan = refocus_plan(total, each, &depth, aim, &mut focus);
        prop_assert!(plan.is_ok() || focus.iter().all(|z| z.is_nan()), "stale");
        match plan {
            Err(error) if error.code() == 6 => {
                let alone = refocus_plan(total, each, &depth, aim, &mut []).unwrap();
                prop_assert_eq!((error.param(), error.allowed().0), (Param::FocusHeights, f64::from(alone.stages)));
                told_well(&error);
            }
            plan => ends(&[(Param::TotalDepth, total), (Param::DepthPerPass, each)]).judge(plan, |plan| {
                vec![plan.reached_depth, plan.stage_depth, plan.usable_depth]
            }),
        }
    }

    #[test]
    fn refusals_of_cuts(beam in beam(), focus in value_of(Param::FocusZ), thickness in value_of(Param::Thickness)) {
        let mut inputs = beam_inputs(&beam);
        inputs.extend([(Param::FocusZ, focus), (Param::Thickness, thickness)]);
        Given::of(&inputs).judge(spot_through(&beam, focus, thickness), |through| {
            vec![
                through.top_diameter, through.bottom_diameter, through.widest, through.narrowest, through.worst_growth,
                through.taper_ratio, through.taper_half_angle, through.best_focus_z, through.best_worst_growth,
            ]
        });
    }

    #[test]
    fn aims_by_their_code(code in any::<u32>(), known in 0..4u32) {
        for code in [code, known] {
            super::refusal::only_known_codes(code, 2, Param::FocusAim, FocusAim::from_code(code).map(|aim| aim as u32));
        }
    }
}

/// Whole numbers of bands and passes, as people write them: a thousandth more is one more, rounding is not.
#[test]
fn exact_multiples_are_not_rounded_up() {
    for tenths in 1..=30 {
        for count in 1..=40 {
            for unit in [1.0, 1e-3, 1e-4, 1e-6] {
                let part = f64::from(tenths) / 10.0 * unit;
                let whole = f64::from(tenths * count) / 10.0 * unit;
                let depth = DepthEnds { toward_lens_z: -0.5 * part, away_from_lens_z: 0.5 * part };
                let bands =
                    |whole: f64| height_bands(0.0, whole, &depth, 0.0, &mut [], &mut []).unwrap().count;
                assert_eq!(bands(whole), count as u32, "{whole} in {part}");
                assert_eq!(bands(whole * 1.001), count as u32 + 1, "{whole} in {part}");
                assert_eq!(bands(whole * 0.999), count.max(1) as u32, "{whole} in {part}");
                let plan = refocus_plan(whole, part, &depth, FocusAim::Midway, &mut []).unwrap();
                assert_eq!((plan.passes, plan.passes_per_stage), (count as u32, 1));
                // A depth of just so many passes holds them.
                let deep = DepthEnds { toward_lens_z: 0.0, away_from_lens_z: whole };
                let plan = refocus_plan(2.0 * whole, part, &deep, FocusAim::HighestPlace, &mut []).unwrap();
                assert_eq!((plan.passes_per_stage, plan.stages), (count as u32, 2), "{part} in {whole}");
            }
        }
    }
}

/// A depth of focus goes in as it is computed, and the edge of the strip then has just the growth allowed.
#[test]
fn a_computed_depth_bounds_the_strip() {
    let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
    let depth = depth_of_focus(&beam, DepthCriterion::Growth { ratio: 1.3 }).unwrap();
    for aim in FocusAim::ALL {
        let strip = cylinder_strip(30e-3, &depth.into(), aim).unwrap();
        let edge = defocus(&beam, strip.edge_sag - strip.focus_z).unwrap();
        assert!((edge.growth - 1.3).abs() < 1e-12, "{edge:?}");
    }
}
