//! Every row of `tests/vectors`, through the model: the same errors as the independent reference,
//! and every output within the ulp that `functions.toml` allows.
//!
//! `cargo test --test vectors -- --nocapture` prints the worst error of every output.

#[path = "support/dispatch.rs"]
mod dispatch;
#[path = "support/list.rs"]
mod list;
#[cfg(feature = "units")]
#[path = "support/typed.rs"]
mod typed;
#[path = "support/ulp.rs"]
mod ulp;

use dispatch::call;
use list::{Function, Row, functions, rows};
#[cfg(feature = "units")]
use spotwise::Param;
use spotwise::{
    CAUTION_ABERRATION, CAUTION_CLIPPING, CAUTION_FOCUS_SHIFT, CAUTION_GRAZING, CAUTION_HALF_ANGLE,
    CAUTION_OFF_FOCUS_CLIPPING, CAUTION_OFF_FOCUS_IRRADIANCE, DOMAIN_ABERRATION, DOMAIN_CLIPPING,
    REFUSED_HALF_ANGLE, Validity,
};
use std::path::Path;
use ulp::ulp_error;

fn vectors() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/vectors"))
}

const LEAST_ROWS: usize = 10_000;
/// Faults that are shown of each function.
const SHOWN: usize = 12;

/// The worst error of one output so far.
#[derive(Clone, Default)]
struct Worst {
    ulp: f64,
    /// The error over the error allowed.
    share: f64,
    id: String,
}

#[test]
fn every_row_is_within_its_budget() {
    let mut total = 0;
    let mut faults = Vec::new();
    for function in functions(vectors()).unwrap() {
        let rows = rows(vectors(), &function).unwrap();
        total += rows.len();
        let mut worst = vec![Worst::default(); function.outputs.len()];
        let found: Vec<String> = rows.iter().flat_map(|row| compare(&function, row, &mut worst)).collect();
        report(&function, rows.len(), &worst);
        if !found.is_empty() {
            faults.push(format!("{}: {} faults", function.name, found.len()));
            faults.extend(found.into_iter().take(SHOWN));
        }
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
    assert!(total >= LEAST_ROWS, "only {total} rows");
}

/// What is wrong with the answer to one row.
fn compare(function: &Function, row: &Row, worst: &mut [Worst]) -> Vec<String> {
    let label = format!("  {} ({})", row.id, row.stratum);
    let got = match call(&function.name, &row.inputs) {
        Ok(got) => got,
        Err(error) if (error.code(), error.param() as u32) == (row.code, row.param) => return Vec::new(),
        Err(error) => {
            return vec![format!(
                "{label}: error {} of {}, expected {} of {}: {error}",
                error.code(),
                error.param() as u32,
                row.code,
                row.param
            )];
        }
    };
    if row.code != 0 {
        return vec![format!("{label}: accepted, expected error {} of {}", row.code, row.param)];
    }
    assert_eq!(got.len(), function.outputs.len(), "{}", function.name);
    let mut faults = Vec::new();
    for (at, name) in function.outputs.iter().enumerate() {
        let (expected, allowed) = (&row.outputs[at], row.ulp[at]);
        // What is allowed no error is a double itself, written with fewer digits than it has.
        let ulp = match allowed {
            0.0 if Ok(got[at]) == expected.parse() => 0.0,
            _ => ulp_error(got[at], expected),
        };
        let share = if allowed > 0.0 { ulp / allowed } else { ulp };
        if share > worst[at].share {
            worst[at] = Worst { ulp, share, id: row.id.clone() };
        }
        // Also refuses an error that is not a number.
        let within = ulp <= allowed;
        if !within {
            faults.push(format!(
                "{label}: {name} = {:e}, expected {expected}: {ulp:.3} ulp, {allowed} allowed",
                got[at]
            ));
        }
    }
    faults
}

fn report(function: &Function, rows: usize, worst: &[Worst]) {
    println!("{}::{} ({rows} rows)", function.module, function.name);
    for ((name, allowed), worst) in function.outputs.iter().zip(&function.ulp).zip(worst) {
        println!("    {name:32} {:9.3} ulp of {allowed}  {}", worst.ulp, worst.id);
    }
}

/// The number behind a flag stands in the result that carries it, and the flag stands where that number
/// exceeds its limit, and only there.
#[test]
fn the_numbers_behind_the_flags() {
    let mut wide = 0;
    let mut with_a_cone = 0;
    for function in functions(vectors()).unwrap() {
        if !function.outputs.iter().any(|name| name == "validity") {
            continue;
        }
        // The one result of which the divergence is the subject.
        let cone = if function.name == "beam_parameters" { "divergence_half_angle" } else { "half_angle" };
        for row in rows(vectors(), &function).unwrap() {
            let Ok(outputs) = call(&function.name, &row.inputs) else { continue };
            let of = |name: &str| Some(outputs[function.outputs.iter().position(|output| output == name)?]);
            let validity = of("validity").unwrap() as u32;
            let flag = |flag: Validity| validity & flag.bits() != 0;
            let label = format!("{}: {validity:#b}", row.id);
            // A verdict rests on the ideal and on the real lens. (`max` ignores what is not there.)
            let of_either = |name: &str| {
                let real = of(&format!("real_{name}")).unwrap_or(f64::NAN);
                of(name).map_or(real, |ideal| ideal.max(real))
            };
            if function.name != "aberration_growth" {
                let half_angle = of_either(cone);
                assert!((0.0..=REFUSED_HALF_ANGLE).contains(&half_angle), "{label}, {half_angle}");
                assert_eq!(
                    flag(Validity::WIDE_CONE),
                    half_angle > CAUTION_HALF_ANGLE,
                    "{label}, {half_angle}"
                );
                with_a_cone += 1;
                wide += u32::from(flag(Validity::WIDE_CONE));
            }
            let aberration = of_either("normalised_aberration");
            if !aberration.is_nan() {
                assert_eq!(flag(Validity::ABERRATED), aberration > CAUTION_ABERRATION, "{label}");
                assert_eq!(flag(Validity::STRONGLY_ABERRATED), aberration > DOMAIN_ABERRATION, "{label}");
            }
            // Wherever irradiance or line dose off focus are told behind a real lens.
            let criterion = function.inputs.iter().position(|name| name == "criterion");
            let tells = match function.name.as_str() {
                "singlet_defocus" | "focus_check" | "surface_check" => true,
                "singlet_depth_of_focus" => matches!(row.inputs[criterion.unwrap()] as u32, 3 | 5),
                _ => false,
            };
            assert_eq!(
                flag(Validity::GAUSSIAN_OFF_FOCUS),
                tells
                    && (aberration > CAUTION_OFF_FOCUS_IRRADIANCE
                        || of_either("clipping_ratio") < CAUTION_OFF_FOCUS_CLIPPING),
                "{label}"
            );
            // (The clipped focus and its depth are made for clipped beams: no flag for that.)
            let ratio = of_either("clipping_ratio");
            if !ratio.is_nan()
                && !["focus_clipped", "clipped_depth_of_focus"].contains(&function.name.as_str())
            {
                assert_eq!(flag(Validity::CLIPPED), ratio < CAUTION_CLIPPING, "{label}");
                assert_eq!(flag(Validity::STRONGLY_CLIPPED), ratio < DOMAIN_CLIPPING, "{label}");
            }
            let shares =
                ["relative_focus_shift", "relative_rayleigh_range", "relative_half_depth"].map(of_either);
            if shares.iter().any(|share| !share.is_nan()) {
                let greatest = shares.into_iter().fold(f64::NAN, f64::max);
                assert_eq!(flag(Validity::FOCUS_SHIFTED), greatest > CAUTION_FOCUS_SHIFT, "{label}");
            }
            if let Some(grazing) = of("grazing_ratio") {
                assert_eq!(flag(Validity::TILTED), grazing > CAUTION_GRAZING, "{label}");
            }
        }
    }
    assert!(with_a_cone > 5000 && wide > 100, "{wide} wide cones of {with_a_cone}");
}

/// The typed layer holds no formula: it gives the model's bits, and refuses what the model refuses.
/// Its roles are checked as they are made, so of several faults it may name another first.
#[cfg(feature = "units")]
#[test]
fn typed_layer_gives_the_bits_of_the_model() {
    let mut faults = Vec::new();
    for function in functions(vectors()).unwrap() {
        for row in rows(vectors(), &function).unwrap() {
            let model = call(&function.name, &row.inputs);
            let typed = typed::call(&function.name, &row.inputs);
            let same = match (&model, &typed) {
                // A width is kept at 1/e², so another definition may cost a rounding.
                (Ok(model), Ok(typed)) if function.name == "convert_width" => {
                    (model[0].next_down()..=model[0].next_up()).contains(&typed[0])
                }
                (Ok(model), Ok(typed)) => {
                    model.len() == typed.len() && model.iter().zip(typed).all(|(a, b)| same_bits(*a, *b))
                }
                // As documented: a result wider than 10 m, or finer than 1 nm, is no `BeamWidth`.
                (Ok(_), Err(error)) => error.code() == 2 && error.param() == Param::BeamDiameter,
                (Err(_), Err(_)) => true,
                (Err(_), Ok(_)) => false,
            };
            if !same {
                faults.push(format!("{}: model {model:?}, typed {typed:?}", row.id));
            }
        }
    }
    let shown: Vec<_> = faults.iter().take(SHOWN).cloned().collect();
    assert!(faults.is_empty(), "{} rows differ:\n{}", faults.len(), shown.join("\n"));
}

/// NaN compares by class.
#[cfg(feature = "units")]
fn same_bits(a: f64, b: f64) -> bool {
    a.to_bits() == b.to_bits() || a.is_nan() && b.is_nan()
}

#[test]
fn an_error_in_ulp_is_told_to_a_part_of_one() {
    // 1/3 lies 1/3 ulp above its nearest double.
    let third = "3.333333333333333333333333e-1";
    assert!((ulp_error(1.0 / 3.0, third) - 1.0 / 3.0).abs() < 1e-6);
    assert!((ulp_error((1.0_f64 / 3.0).next_up(), third) - 2.0 / 3.0).abs() < 1e-6);
    assert!((ulp_error((1.0_f64 / 3.0).next_down(), third) - 4.0 / 3.0).abs() < 1e-6);
    assert!((ulp_error(-1.0 / 3.0, "-3.333333333333333333333333e-1") - 1.0 / 3.0).abs() < 1e-6);
    // Halfway between two doubles, either is half an ulp away, also below zero.
    let half = "-1.0000000000000001110223025";
    assert!((ulp_error(-1.0, half) - 0.5).abs() < 1e-6);
    assert!((ulp_error((-1.0_f64).next_down(), half) - 0.5).abs() < 1e-6);
    assert_eq!(ulp_error(4.0, "4"), 0.0);
    assert_eq!(ulp_error(f64::NAN, "nan"), 0.0);
    assert_eq!(ulp_error(f64::INFINITY, "inf"), 0.0);
    assert_eq!(ulp_error(0.0, "2.5e-601"), 0.0);
    assert_eq!(ulp_error(5e-324, "2.5e-601"), 1.0);
    assert_eq!(ulp_error(f64::NAN, "4"), f64::INFINITY);
    assert_eq!(ulp_error(f64::MAX, "inf"), f64::INFINITY);
    assert_eq!(ulp_error(f64::NEG_INFINITY, "inf"), f64::INFINITY);
}

/// The rows try every function's right answers and its refusals, and between them every error that a
/// plain number can cause.
#[test]
fn rows_cover_what_they_must() {
    let mut codes = std::collections::BTreeSet::new();
    for function in functions(vectors()).unwrap() {
        let rows = rows(vectors(), &function).unwrap();
        // A row of a wave takes up to a second of an emulated controller's time.
        let least = if function.name.starts_with("wave_") { 50 } else { 150 };
        assert!(rows.len() >= least, "{}: only {} rows", function.name, rows.len());
        let right = rows.iter().filter(|row| row.code == 0).count();
        assert!(2 * right > rows.len(), "{}: most rows are refusals", function.name);
        for code in [1, 2] {
            assert!(rows.iter().any(|row| row.code == code), "{}: no error {code}", function.name);
        }
        codes.extend(rows.iter().map(|row| row.code));
    }
    // 6 and 7 are of arrays and texts.
    assert_eq!(codes, [0, 1, 2, 3, 4, 5, 8].into());
}
