//! Drawings, surfaces and materials of any kind, for C and for the core; mostly ordinary, sometimes not.

use super::agree_shape::{Given, given};
use super::raw::{choice, near};
use crate::abi::Plain;
use crate::artwork::*;
use crate::beam::spotwise_beam;
use crate::shape::spotwise_surface;
use proptest::prelude::*;
use spotwise::Error;
use spotwise::artwork::{Answer, Drawing, DrawingUse, Exposing, Preflight, SampleKind, Scan};
use spotwise::model::optics::Beam;

/// All that a preflight is asked.
#[derive(Debug)]
pub struct Asked {
    drawing: spotwise_drawing,
    samples: Vec<u8>,
    exposing: spotwise_exposing,
    surface: Given,
    pub marking: spotwise_marking,
}

impl Asked {
    pub fn drawing(&self) -> spotwise_drawing {
        spotwise_drawing { samples: self.samples.as_ptr(), sample_count: self.samples.len(), ..self.drawing }
    }

    pub fn surface(&self) -> spotwise_surface {
        self.surface.c()
    }

    /// What exposes the drawing, on the surface of [`surface`](Self::surface).
    pub fn exposing(&self, surface: &spotwise_surface) -> spotwise_exposing {
        spotwise_exposing { surface, ..self.exposing }
    }

    pub fn size(&self) -> (usize, usize) {
        (self.drawing.width, self.drawing.height)
    }

    pub fn pixels(&self) -> usize {
        self.drawing.width * self.drawing.height
    }

    pub fn mask_words(&self) -> usize {
        self.drawing.width.div_ceil(64) * self.drawing.height
    }

    pub fn model_drawing(&self) -> Result<Drawing<'_>, Error> {
        let drawing = &self.drawing;
        Ok(Drawing {
            samples: &self.samples,
            width: drawing.width,
            height: drawing.height,
            row_stride: drawing.row_stride,
            pitch_x: drawing.pitch_x_m,
            pitch_y: drawing.pitch_y_m,
            left_x: drawing.drawing_x_m,
            top_y: drawing.drawing_y_m,
            kind: SampleKind::from_code(drawing.sample_kind)?,
            drawing_use: DrawingUse::from_code(drawing.drawing_use)?,
        })
    }

    pub fn model_exposing(&self) -> Result<Exposing<'_>, Error> {
        let exposing = &self.exposing;
        let surface = self.surface.model()?;
        Ok(Exposing {
            beam: model_beam(&exposing.beam),
            focus_z: exposing.focus_z_m,
            surface,
            incidence_loss: exposing.incidence_loss != 0,
            blur_along: exposing.blur_along_m,
            blur_across: exposing.blur_across_m,
            scan: Scan::from_code(exposing.scan, exposing.line_interval_m, exposing.first_line_m)?,
        })
    }

    pub fn model_answer(&self) -> Result<Answer, Error> {
        let marking = &self.marking;
        Answer::from_code(
            marking.response,
            marking.penetration_depth_m,
            marking.threshold_depth_m,
            marking.visible_depth_m,
            marking.melt_bridge_m,
        )
    }

    pub fn model(&self) -> Result<Preflight<'_>, Error> {
        Ok(Preflight {
            drawing: self.model_drawing()?,
            exposing: self.model_exposing()?,
            answer: self.model_answer()?,
            dose_ratio: self.marking.dose_ratio,
            edge_tolerance: self.marking.edge_tolerance_m,
            speck_area: self.marking.speck_area_m2,
        })
    }
}

pub fn model_beam(beam: &spotwise_beam) -> Beam {
    Beam { wavelength: beam.wavelength_m, m2: beam.m2, waist_diameter: beam.waist_diameter_m }
}

/// A number from a range, now and then anything at all.
fn usual(range: std::ops::Range<f64>) -> impl Strategy<Value = f64> {
    let ordinary = range.end;
    prop_oneof![150 => range, 1 => near(ordinary)]
}

/// Bars and gaps, edges of any coverage between them, in rows of 1 to 70 pixels.
fn drawing() -> impl Strategy<Value = (spotwise_drawing, Vec<u8>)> {
    let bar = (0..70usize, 1..30usize, 0..30usize, 1..20usize, any::<u8>());
    let bars = prop::collection::vec(bar, 0..6);
    let lengths = (1..70usize, 1..30usize, 0..3usize, 0..40usize);
    let numbers = (usual(5e-6..30e-6), usual(5e-6..30e-6), usual(-1e-3..1e-3), usual(-1e-3..1e-3));
    (lengths, bars, numbers, rare(2), rare(2)).prop_map(
        |(lengths, bars, numbers, sample_kind, drawing_use)| {
            let (width, height, beyond, short) = lengths;
            let row_stride = width + beyond;
            let mut samples = vec![0; row_stride * height];
            for (left, wide, top, high, edge) in bars {
                for (y, row) in samples.chunks_mut(row_stride).enumerate().skip(top).take(high) {
                    for (x, sample) in row.iter_mut().enumerate().skip(left).take(wide) {
                        let inner = x > left && x + 1 < left + wide && y > top && y + 1 < top + high;
                        *sample = if inner { 255 } else { edge };
                    }
                }
            }
            if short == 0 {
                samples.pop();
            }
            let (pitch_x_m, pitch_y_m, drawing_x_m, drawing_y_m) = numbers;
            let c = spotwise_drawing {
                sample_kind,
                drawing_use,
                pitch_x_m,
                pitch_y_m,
                drawing_x_m,
                drawing_y_m,
                width,
                height,
                row_stride,
                ..spotwise_drawing::BLANK
            };
            (c, samples)
        },
    )
}

/// A choice with this many codes, rarely none of them.
pub fn rare(codes: u32) -> impl Strategy<Value = u32> {
    prop_oneof![150 => 1..=codes, 1 => choice(codes)]
}

/// Mostly a surface that bears the drawing: level, leaning, round, or probed with a probe missing.
fn surface() -> impl Strategy<Value = Given> {
    let lean = || prop_oneof![Just(0.0), -0.5..0.5f64];
    let plane = (lean(), lean()).prop_map(|(slope_x, slope_y)| {
        let c = spotwise_surface { surface: 1, slope_x, slope_y, ..spotwise_surface::BLANK };
        Given::new(c, [vec![], vec![], vec![]])
    });
    let round = (2..=3u32, 1..=2u32, 5e-3..50e-3f64, lean()).prop_map(|(surface, bulge, radius, slope)| {
        let c = spotwise_surface {
            surface,
            bulge,
            curvature_radius_m: radius,
            crown_x_m: 0.3e-3,
            crown_y_m: 0.1e-3,
            axis_angle_rad: 0.4,
            slope_x: slope,
            slope_y: 0.1,
            ..spotwise_surface::BLANK
        };
        Given::new(c, [vec![], vec![], vec![]])
    });
    let heights = prop::collection::vec(prop_oneof![12 => -0.5e-3..0.5e-3f64, 1 => Just(f64::NAN)], 12);
    let grid = heights.prop_map(|z| {
        let x = vec![-1e-3, 0.2e-3, 0.7e-3, 3e-3];
        let y = vec![-1e-3, 0.2e-3, 2e-3];
        Given::new(spotwise_surface { surface: 5, ..spotwise_surface::BLANK }, [x, y, z])
    });
    prop_oneof![4 => plane, 2 => round, 2 => grid, 1 => given()]
}

fn exposing() -> impl Strategy<Value = spotwise_exposing> {
    let beam = (usual(0.5e-6..10.6e-6), usual(1.0..2.0), usual(30e-6..150e-6));
    let blurs = (prop_oneof![Just(0.0), usual(0.0..50e-6)], prop_oneof![Just(0.0), usual(0.0..50e-6)]);
    let lines = (usual(10e-6..100e-6), usual(0.0..1.0));
    (beam, usual(-1e-3..1e-3), blurs, lines, rare(2), 0..2u32).prop_map(
        |(
            (wavelength_m, m2, waist_diameter_m),
            focus_z_m,
            blurs,
            (interval, first),
            scan,
            incidence_loss,
        )| {
            let beam = spotwise_beam { wavelength_m, m2, waist_diameter_m, ..spotwise_beam::BLANK };
            spotwise_exposing {
                scan,
                incidence_loss,
                focus_z_m,
                blur_along_m: blurs.0,
                blur_across_m: blurs.1,
                line_interval_m: interval,
                first_line_m: first * interval,
                beam,
                ..spotwise_exposing::BLANK
            }
        },
    )
}

fn marking() -> impl Strategy<Value = spotwise_marking> {
    let depths = (usual(1e-6..100e-6), usual(1e-6..100e-6), usual(0.0..5e-6));
    // The last is an area, up to a square of 60 µm.
    let sizes = (usual(0.0..60e-6), usual(0.0..60e-6), usual(0.0..3.6e-9));
    (rare(4), depths, usual(0.7..5.0), sizes).prop_map(
        |(
            response,
            (penetration_depth_m, threshold_depth_m, visible_depth_m),
            dose_ratio,
            (melt_bridge_m, edge_tolerance_m, speck_area_m2),
        )| {
            spotwise_marking {
                response,
                penetration_depth_m,
                threshold_depth_m,
                visible_depth_m,
                melt_bridge_m,
                dose_ratio,
                edge_tolerance_m,
                speck_area_m2,
                ..spotwise_marking::BLANK
            }
        },
    )
}

/// Anything that a preflight may be asked.
pub fn asked() -> impl Strategy<Value = Asked> {
    (drawing(), exposing().boxed(), surface().boxed(), marking().boxed()).prop_map(
        |((drawing, samples), mut exposing, surface, marking)| {
            // The lines of a raster are its rows; a few are left to be refused.
            if drawing.drawing_use == 2 && samples.len() % 5 != 0 {
                let first = exposing.first_line_m / exposing.line_interval_m;
                exposing.line_interval_m = drawing.pitch_y_m;
                exposing.first_line_m = first * drawing.pitch_y_m;
            }
            Asked { drawing, samples, exposing, surface, marking }
        },
    )
}

/// The comparisons would be worth little if most of what is asked were refused.
#[test]
fn most_of_what_is_asked_is_answered() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    use spotwise::artwork::{PreflightPlan, Watch};
    let mut runner = TestRunner::deterministic();
    let answered = (0..200).filter(|_| {
        let asked = asked().new_tree(&mut runner).unwrap().current();
        asked.model().is_ok_and(|preflight| PreflightPlan::new(&preflight, &mut Watch::quiet()).is_ok())
    });
    let answered = answered.count();
    assert!(answered > 100, "{answered} of 200");
}
