//! From test pieces to a job on the same machine: what a series tells becomes a document, and the verdict on a job and
//! the preflight of its drawing are those of the machine, not of its data sheets.
//!
//! The machine: 1.064 µm, M² = 1.4, a waist of 60 µm behind a lens of 160 mm, 0.4 mm below where its gauge says zero.
//! Lines of 12 W at 0.8 m/s mark from 0.1 J/mm² on. By hand, with √(8/π) = 1.595769: q = 1.595769·12/(0.8·60e-6·1e5)
//! = 3.989423; z_R = π·60²/(4·1.4·1.064) µm = 1.898116 mm.

use spotwise::model::learn::NORMAL_FACTOR_95;
use spotwise::units::{j_per_m2, m_per_s, mm, um, w};
use spotwise::{
    Beam, BeamParts, BeamWidth, CalibratedLine, Calibration, Criterion, Drawing, FocusSetting, Job, JobDose,
    JobScan, Laser, Lens, LineInterval, MarkKind, Offset, Outcome, RawBeam, Response, SurfaceExtent,
    tolerance_stack,
};

const FOCUS: f64 = 0.4;
const POWER: f64 = 12.0;
const SPEED: f64 = 0.8;
const THRESHOLD: f64 = 1e5;

fn machine() -> Beam {
    let waist = BeamWidth::from_diameter_1e2(um(60.0)).unwrap();
    Beam::new(BeamParts { wavelength: um(1.064), m_squared: 1.4, waist }).unwrap()
}

/// Dose on the middle of a line of this power in the waist, over that which just marks.
fn dose_ratio(power: f64) -> f64 {
    1.595_769_121_605_730_7 * power / (SPEED * 60e-6 * THRESHOLD)
}

/// Width of the line on a test piece at this height, in mm away from the lens.
fn width_at(height: f64, power: f64) -> f64 {
    let offset = Offset::from_z_away_from_lens(mm(height - FOCUS)).unwrap();
    machine().mark_width(MarkKind::Line, dose_ratio(power), offset).unwrap().width.value
}

/// What the series tells: the middle between equal widths for the height of focus; then, with two powers at that height,
/// the line b² = (d²/2)·ln(P/P₀) for spot and threshold; and M² by the one of which the widths 3 mm off are those seen.
fn learned() -> Calibration {
    let equal = |low: f64, high: f64| width_at(low, POWER) - width_at(high, POWER);
    let (mut near, mut far) = (0.0_f64, 1.0_f64);
    for _ in 0..60 {
        let middle = 0.5 * (near + far);
        if equal(middle - 2.0, middle + 2.0) > 0.0 { near = middle } else { far = middle }
    }
    let focus = 0.5 * (near + far);
    let (strong, weak) = (width_at(focus, POWER).powi(2), width_at(focus, 0.5 * POWER).powi(2));
    let diameter = (2.0 * (strong - weak) / 2.0_f64.ln()).sqrt();
    let q = (2.0 * strong / diameter.powi(2)).exp();
    // b² = (d²/2)·ln(q·d₀/d) falls with d beyond d₀·q/√e, and rises before.
    let seen = width_at(focus + 3.0, POWER).powi(2);
    let (mut small, mut large) = (diameter, diameter * q * (-0.5_f64).exp());
    for _ in 0..60 {
        let d = 0.5 * (small + large);
        if 0.5 * d * d * (q * diameter / d).ln() > seen { large = d } else { small = d }
    }
    let growth = small / diameter;
    let rayleigh_range = 3e-3 / (growth * growth - 1.0).sqrt();
    Calibration {
        wavelength: um(1.064),
        focal_length: mm(160.0),
        focus_shift: Offset::ZERO,
        focus: Offset::from_z_away_from_lens(mm(focus)).unwrap(),
        focus_deviation: um(50.0),
        waist: BeamWidth::from_diameter_1e2(um(diameter * 1e6)).unwrap(),
        waist_diameter_deviation: um(1.0),
        m_squared: std::f64::consts::PI * diameter * diameter / (4.0 * 1.064e-6 * rayleigh_range),
        m_squared_deviation: 0.05,
        coverage_factor_95: NORMAL_FACTOR_95,
        line: Some(CalibratedLine {
            power: w(POWER),
            speed: m_per_s(SPEED),
            dose_ratio: q,
            relative_deviation: 0.02,
            correlation: -0.5,
        }),
    }
}

/// The job as it was planned from data sheets: another spot, focus at zero, another threshold.
fn planned() -> Job {
    Job {
        laser: Laser { wavelength: um(1.064), m_squared: 1.1 },
        raw_beam: RawBeam::WidthAtLens(BeamWidth::from_diameter_1e2(mm(4.5)).unwrap()),
        lens: Lens::new(mm(160.0)).into(),
        focus: FocusSetting::FromDatum(Offset::ZERO),
        surface: SurfaceExtent { rise: mm(1.6), fall: mm(0.4) },
        depth_criterion: Criterion::Rayleigh,
        drawing: Drawing { finest_stroke: mm(0.1), finest_gap: mm(0.1) },
        dose: JobDose::Scan(JobScan {
            power: w(POWER),
            speed: m_per_s(SPEED),
            line_interval: LineInterval::from_length(um(30.0)).unwrap(),
            threshold: j_per_m2(2e5),
            response: Response::Coating,
        }),
        text: None,
    }
}

fn close(found: f64, expected: f64, share: f64) {
    assert!((found / expected - 1.0).abs() < share, "{found}, not {expected}");
}

#[test]
fn a_series_becomes_the_machine_of_a_job() {
    let learned = learned();
    close(learned.focus.z_away_from_lens().value, 0.4e-3, 1e-9);
    close(learned.waist.diameter_1e2().value, 60e-6, 1e-9);
    close(learned.m_squared, 1.4, 1e-8);
    close(learned.line.unwrap().dose_ratio, 3.989_423, 1e-6);

    // Kept as a document, and read again.
    #[cfg(feature = "serde")]
    let learned = {
        let kept: Calibration = serde_json::from_str(&serde_json::to_string(&learned).unwrap()).unwrap();
        assert_eq!(kept, learned);
        kept
    };

    let job = planned().with_calibration(&learned).unwrap();
    let verdict = job.check().unwrap();
    close(verdict.focus.spot.diameter_1e2().value, 60e-6, 1e-9);
    close(verdict.focus.rayleigh_range.value, 1.898_116e-3, 1e-6);
    // 12/(0.8·30e-6) J/m² over 0.1 J/mm²
    close(verdict.dose_ratio, 5.0, 1e-8);
    // The highest place is 2.0 mm from the true focus, and the plan did not see that it is out of focus.
    assert_eq!(planned().check().unwrap().outcome, Outcome::Holds);
    assert_eq!(verdict.outcome, Outcome::HoldsOutOfFocus);
    close(
        verdict.highest.spot.diameter_1e2().value,
        60e-6 * (1.0 + (2.0_f64 / 1.898_116).powi(2)).sqrt(),
        1e-6,
    );

    // What the line of the series is at a height, the calibrated machine predicts.
    let set_up = learned.set_up().unwrap();
    let predicted =
        |height| set_up.focused.mark_width(MarkKind::Line, learned.line.unwrap().dose_ratio, height).unwrap();
    let high = Offset::toward_lens(mm(1.5)).unwrap();
    close(predicted(high).width.value, width_at(FOCUS - 1.5, POWER), 1e-8);

    let stack = tolerance_stack(&[learned.focus_contribution().unwrap()], 0.95).unwrap();
    close(stack.expanded_half_width.value, 1.959_964 * 50e-6, 1e-6);
    // √((1/60)² + 0.02² − 0.02/60) = 0.018559
    close(learned.threshold().unwrap().unwrap().relative_deviation, 0.018_559, 1e-4);
}

/// The preflight of a drawing by the job is on the machine as well.
#[cfg(feature = "artwork")]
#[test]
fn the_preflight_is_on_the_same_machine() {
    use spotwise::artwork::{DrawingUse, SampleKind, Watch};
    use spotwise::{Artwork, JobMarking, PixelPitch, Surface, SurfaceSlope, TablePlace};
    let job = planned().with_calibration(&learned()).unwrap();
    // A bar of 0.4 mm, drawn at 10 µm to the pixel.
    let samples: Vec<u8> = (0..80 * 80)
        .map(|at| if (20..60).contains(&(at % 80)) && (20..60).contains(&(at / 80)) { 255 } else { 0 })
        .collect();
    let artwork = Artwork {
        samples: &samples,
        width: 80,
        height: 80,
        row_stride: 80,
        pitch: PixelPitch { x: um(10.0), y: um(10.0) },
        corner: TablePlace { x: mm(0.0), y: mm(0.0) },
        kind: SampleKind::Coverage,
        drawing_use: DrawingUse::Shapes,
    };
    let level = Surface::Plane(SurfaceSlope::LEVEL);
    let preflight = job.preflight(artwork, level, &JobMarking::default()).unwrap();
    close(preflight.drawn_on.beam.waist().diameter_1e2().value, 60e-6, 1e-9);
    close(preflight.drawn_on.beam.m_squared(), 1.4, 1e-8);
    close(preflight.drawn_on.focus.z_away_from_lens().value, 0.4e-3, 1e-9);
    close(preflight.dose_ratio, 5.0, 1e-8);
    let verdict = preflight.run(&mut Watch::quiet()).unwrap();
    // At five times the threshold the mark reaches to where a half plane gets a fifth of its dose, 0.84162 quarters
    // of the spot of 60·√(1 + (0.4/1.898116)²) = 61.318 µm beyond the edge: 12.9 µm, one pixel on either side.
    assert_eq!((0..80).filter(|x| verdict.mark.get(*x, 40)).count(), 42);
}
