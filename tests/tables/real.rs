//! Real lenses, paths, gantries, glasses and plates: closed forms, to 20 digits.

use super::*;
use spotwise::model::optics::{
    Element, Glass, LensShape, Singlet, aberration_growth, beam_after_path, focus_along_gantry,
    focus_behind_plate, focus_inside, lens_aberration, refractive_index,
};
use std::f64::consts::PI;

/// The sum of the condition numbers of each result to all inputs, by moving the inputs one by one.
pub fn conditions<const N: usize>(inputs: &[f64], of: impl Fn(&[f64]) -> [f64; N]) -> [f64; N] {
    const SHARE: f64 = 1e-7;
    let here = of(inputs);
    let mut sums = [0.0; N];
    for at in 0..inputs.len() {
        let mut moved = inputs.to_vec();
        moved[at] *= 1.0 + SHARE;
        for ((sum, there), here) in sums.iter_mut().zip(of(&moved)).zip(here) {
            *sum += ((there - here) / (SHARE * here)).abs();
        }
    }
    sums
}

#[test]
fn train_matches_the_table() {
    let table = Table::read(include_str!("train.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let lengths =
            ["lambda_mm", "d0_mm", "L1_mm", "f1_mm", "sep_mm", "f2_mm", "L2_mm", "f3_mm", "window_t_mm"];
        let inputs = lengths.map(|column| row.metres(column));
        let (m2, index) = (row.number("M2"), row.number("window_n"));
        let walk = |inputs: &[f64]| -> Result<[f64; 5], Error> {
            let &[wavelength, waist_diameter, l1, f1, sep, f2, l2, f3, thickness] = inputs else {
                panic!("{inputs:?}")
            };
            let axis = Axis { m2, waist_diameter, waist_z: 0.0 };
            let raw = AstigmaticBeam { wavelength, x: axis, y: axis };
            let elements = [
                Element::Space { length: l1 },
                Element::ThinLens { focal_length: f1 },
                Element::Space { length: sep },
                Element::ThinLens { focal_length: f2 },
                Element::Space { length: l2 },
                Element::ThinLens { focal_length: f3 },
                Element::Window { thickness, index },
            ];
            let at_lens = beam_after_path(&raw, &elements[..5])?;
            let out = beam_after_path(&raw, &elements)?.beam.x;
            let beam = Beam { wavelength, m2, waist_diameter: out.waist_diameter };
            Ok([
                at_lens.diameter_x,
                out.waist_diameter,
                out.waist_z,
                out.waist_z + thickness,
                beam_parameters(&beam).unwrap().rayleigh_range,
            ])
        };
        let got = match walk(&inputs) {
            Ok(got) => got,
            Err(error) if error.param() == Param::FocalLength => {
                // A lens of a thousand kilometres stands for none.
                assert!(["f1_mm", "f2_mm"].into_iter().any(|column| row.metres(column) > 1e4));
                ledger.refused::<()>(Err(error), 2, Param::FocalLength);
                continue;
            }
            Err(error) => {
                assert!(row.metres("d0_out_mm") / row.metres("zR_out_mm") > 0.59, "{error}");
                ledger.refused::<()>(Err(error), 4, Param::DivergenceHalfAngleX);
                continue;
            }
        };
        ledger.compared += 1;
        let conditions = conditions(&inputs, |inputs| walk(inputs).unwrap());
        let columns = [
            "d_at_last_lens_mm",
            "d0_out_mm",
            "waist_from_window_exit_mm",
            "waist_from_last_lens_mm",
            "zR_out_mm",
        ];
        for ((column, got), condition) in columns.into_iter().zip(got).zip(conditions) {
            ledger.length(&row, column, got, 1.0 + condition);
        }
    }
    ledger.finish("train", 41, 1);
}

#[test]
fn gantry_matches_the_table() {
    let table = Table::read(include_str!("gantry.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let lengths = ["lambda_mm", "d0_raw_mm", "waist_pos_from_laser_mm", "path_laser_to_lens_mm", "f_mm"];
        let inputs = lengths.map(|column| row.metres(column));
        let m2 = row.number("M2");
        let travel = |inputs: &[f64]| {
            let &[wavelength, waist_diameter, waist, lens, f] = inputs else { panic!("{inputs:?}") };
            let raw = Beam { wavelength, m2, waist_diameter };
            let (mut spot, mut shift) = ([0.0], [0.0]);
            let cone = focus_along_gantry(&raw, &[lens - waist], f, &mut spot, &mut shift)?;
            let focused = Beam { waist_diameter: spot[0], ..raw };
            let behind = beam_parameters(&focused).unwrap();
            let zr = behind.rayleigh_range;
            let raw_cone = beam_parameters(&raw).unwrap().divergence_half_angle;
            let widest = raw_cone.max(behind.divergence_half_angle);
            assert!((cone.half_angle / widest - 1.0).abs() < ROUNDING);
            Ok([beam_at(&raw, lens - waist).unwrap().diameter, spot[0], shift[0], zr])
        };
        let got = match travel(&inputs) {
            Ok(got) => got,
            Err(error) => {
                assert!(row.metres("d0_focus_mm") / row.metres("zR_focus_mm") > 0.59, "{error}");
                ledger.refused::<()>(Err(error), 4, Param::DivergenceHalfAngle);
                continue;
            }
        };
        ledger.compared += 1;
        let conditions = conditions(&inputs, |inputs| travel(inputs).unwrap());
        let columns = ["d_at_lens_mm", "d0_focus_mm", "shift_from_f_mm", "zR_focus_mm"];
        for ((column, got), condition) in columns.into_iter().zip(got).zip(conditions) {
            // The Rayleigh range is made anew from the rounded spot.
            ledger.length(&row, column, got, 4.0 + condition);
        }
    }
    ledger.finish("gantry", 43, 1);
}

#[test]
fn singlet_matches_the_table() {
    let table = Table::read(include_str!("singlet.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let shape = match row.text("shape") {
            "best" => LensShape::BestForm,
            "pc" => LensShape::CurvedSideFirst,
            "pc_rev" => LensShape::FlatSideFirst,
            "biconvex" => LensShape::ShapeFactor { factor: 0.0 },
            "custom" => LensShape::ShapeFactor { factor: row.number("q_custom") },
            other => panic!("{other}"),
        };
        let (wavelength, f, d) = (row.metres("lambda_mm"), row.metres("f_mm"), row.metres("D_mm"));
        let m2 = row.number("M2");
        let lens = Singlet { index: row.number("n"), shape, focal_length: f };
        let aberration = lens_aberration(&lens).unwrap();
        ledger.compared += 1;
        ledger.number(&row, "q", aberration.shape_factor, 0.0);
        ledger.number(&row, "k", aberration.blur_coefficient, 0.0);
        ledger.number(&row, "S", 128.0 * aberration.blur_coefficient, 0.0);
        // In 1/mm³, so that the exponent moves the other way.
        let c4 = shifted(row.text("C4_per_mm3"), 9);
        ledger.near("C4_per_mm3", aberration.wavefront_coefficient, c4, 3.0);
        // α = π·C₄·D⁴/(8·λ), computed here in plain doubles.
        let alpha = PI * aberration.wavefront_coefficient * d.powi(4) / (8.0 * wavelength);
        let in_alpha = 3.0 + 4.0 + 1.0 + 4.0;
        ledger.number(&row, "alpha_rad", alpha, in_alpha);

        let growth = aberration_growth(m2, alpha).unwrap();
        // The spot of a collimated beam and its Rayleigh range.
        let spot = 4.0 * m2 * wavelength * f / (PI * d);
        let zr = spot * f / d;
        let (in_spot, in_zr) = (4.0, 8.0);
        let all = in_alpha + in_zr;
        ledger.length(&row, "d_linear_sum_mm", growth.handbook_growth * spot, all);
        ledger.length(&row, "d_quadrature_mm", growth.quadrature_growth * spot, all);
        ledger.number(&row, "M2_total", growth.second_moment_m2, in_alpha);
        ledger.length(&row, "d_d4sigma_mm", growth.second_moment_growth * spot, in_alpha + in_spot);
        ledger.length(&row, "dz_d4sigma_mm", growth.second_moment_shift * zr, all);
        ledger.length(&row, "zR_d4sigma_mm", growth.second_moment_growth * zr, all);
        let t = row.number("t");
        if t > spotwise::REFUSED_ABERRATION {
            // The fit is not continued beyond its domain.
            assert!(growth.power86_growth.is_nan() && growth.power86_shift.is_nan());
            ledger.refused += 1;
            continue;
        }
        ledger.number(&row, "F86", growth.power86_growth, in_alpha);
        ledger.length(&row, "d86_mm", growth.power86_growth * spot, all);
        ledger.length(&row, "dz_86_mm", growth.power86_shift * zr, all);
        ledger.length(&row, "zR_86_mm", growth.power86_growth * zr, all);
    }
    // A row whose fit is refused is compared by second moments besides.
    ledger.finish("singlet", 43, 12);
}

#[test]
fn index_matches_the_table() {
    let table = Table::read(include_str!("index.csv"));
    let mut ledger = Ledger::default();
    let mut other_formulas = 0;
    for row in table.rows() {
        let glass = match row.text("material") {
            "ZnSe_Connolly1979_Tatian1984" => Glass::ZincSelenide,
            "Ge_Burnett2016" => Glass::Germanium,
            "GaAs_Skauli2003" => Glass::GalliumArsenide,
            "SiO2_Malitson1965" => Glass::FusedSilica,
            "N-BK7_Schott" => Glass::NBk7,
            "ZnSe_Marple1964" | "Ge_Icenogle1976_Barnes1979" => {
                other_formulas += 1;
                continue;
            }
            other => panic!("{other}"),
        };
        let wavelength = shifted(row.text("lambda_um"), -6);
        let of = |wavelength: f64| {
            // A difference inward, at the end of the range too.
            refractive_index(glass, wavelength.min(glass.wavelengths().1)).map(|at| [at.index, at.dispersion])
        };
        let got = match of(wavelength) {
            Ok(got) => got,
            Err(error) => {
                ledger.refused::<()>(Err(error), 2, Param::Wavelength);
                continue;
            }
        };
        ledger.compared += 1;
        let [in_n, in_slope] = conditions(&[wavelength], |inputs| of(inputs[0]).unwrap());
        // The coefficients too are rounded to doubles: four to seven of them.
        ledger.number(&row, "n", got[0], in_n + 2.0);
        let slope = shifted(row.text("dn_dlambda_per_um"), 6);
        ledger.near("dn_dlambda_per_um", got[1], slope, in_slope + 8.0);
    }
    assert_eq!(other_formulas, 21);
    ledger.finish("index", 60, 0);
}

/// The columns of `offset.csv` that tell of plates and transparent parts.
#[test]
fn plates_match_the_table() {
    let table = Table::read(include_str!("offset.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let beam = row.beam("d0_mm");
        let (n, thickness) = (row.number("n"), row.metres("thickness_mm"));
        let lowered = row.metres("z_mm").abs();
        let plate = focus_behind_plate(&beam, thickness, n);
        if let Some((code, param)) = refusal_of(beam.wavelength, beam.m2, beam.waist_diameter) {
            ledger.refused(plate, code, param);
            continue;
        }
        let plate = plate.unwrap();
        ledger.compared += 1;
        ledger.length(&row, "window_focus_shift_mm", plate.focus_shift, 1.0);
        // The aberration is that of another cone, printed as an angle. Four times in it are π, λ and its
        // waist, which is rounded once.
        let waist_diameter =
            2.0 * beam.wavelength / (std::f64::consts::PI * row.number("half_angle_1e2_rad"));
        let cone = Beam { wavelength: beam.wavelength, m2: 1.0, waist_diameter };
        let aberration = focus_behind_plate(&cone, thickness, n).unwrap().aberration_phase;
        ledger.number(&row, "plate_alpha_rad", -aberration, 2.0 + 4.0 * 4.0);
        // A lens may be lowered, not raised: the model counts the depth without a sign.
        let inside = focus_inside(&beam, lowered, n).unwrap();
        let depth = row.metres("depth_in_medium_mm");
        ledger.near("depth_in_medium_mm", inside.depth, depth.abs(), 1.0);
        ledger.length(&row, "zR_in_medium_mm", inside.rayleigh_range, 3.0);
    }
    ledger.finish("plates", 40, 4);
}
