//! The ranges that the header states, against the core's.

use spotwise::Param;
use std::collections::BTreeSet;

const HEADER: &str = include_str!("../../../include/spotwise.h");

/// Arrays and a text, whose allowed lengths are not fixed.
pub const ARRAYS: [Param; 12] = [
    Param::PlannedPieces,
    Param::Judgements,
    Param::Output,
    Param::Text,
    Param::Workspace,
    Param::Widths,
    Param::Deviations,
    Param::BandLimits,
    Param::FocusHeights,
    Param::StepHeights,
    Param::ProbedHeights,
    Param::PowerRatios,
];

/// The structs that a caller fills in.
const INPUTS: [&str; 29] = [
    "spotwise_beam",
    "spotwise_astigmatic_beam",
    "spotwise_singlet",
    "spotwise_path_element",
    "spotwise_wave",
    "spotwise_depth_criterion",
    "spotwise_scan",
    "spotwise_material",
    "spotwise_blur",
    "spotwise_taste",
    "spotwise_mark_setting",
    "spotwise_typeface",
    "spotwise_text_grades",
    "spotwise_job",
    "spotwise_surface",
    "spotwise_region",
    "spotwise_scan_lens",
    "spotwise_drawing",
    "spotwise_exposing",
    "spotwise_marking",
    "spotwise_bound_input",
    "spotwise_beam_candidate",
    "spotwise_good_mark",
    "spotwise_depth_reading",
    "spotwise_power_step",
    "spotwise_height_readings",
    "spotwise_learned_focus",
    "spotwise_learned_line",
    "spotwise_mark_series",
];

/// Every comment that opens with `/**`, in one line, with the code that follows it.
fn documented() -> Vec<(String, &'static str)> {
    let parts = HEADER.split("/**\n").skip(1);
    parts
        .map(|part| {
            let (comment, code) = part.split_once("*/").expect("the end of a comment");
            let words: Vec<&str> = comment.split_whitespace().filter(|word| *word != "*").collect();
            (words.join(" "), code.trim_start())
        })
        .collect()
}

/// Name and code of a parameter's constant.
fn constant(code: &str) -> Option<(&str, u32)> {
    let definition = code.lines().next()?.strip_prefix("#define SPOTWISE_PARAM_")?;
    let (name, number) = definition.split_once(' ')?;
    Some((name, number.parse().expect("a number")))
}

#[test]
fn each_constant_states_the_range_of_its_parameter() {
    let mut seen = 0;
    for (comment, code) in documented() {
        let Some((name, number)) = constant(code) else { continue };
        let param = Param::ALL[number as usize - 1];
        seen += 1;
        if ARRAYS.contains(&param) {
            assert!(comment.ends_with("No fixed range."), "{name}: {comment}");
            continue;
        }
        let (_, range) = comment.split_once("Range").unwrap_or_else(|| panic!("{name}: {comment}"));
        let (_, range) = range.split_once(": ").unwrap();
        let words: Vec<&str> = range.strip_suffix('.').unwrap().split(' ').collect();
        if words[1..] == ["and", "above"] {
            assert_eq!((words[0].parse().unwrap(), f64::MAX), param.range(), "{name}: {comment}");
            assert_eq!(param.unit(), "", "{name}: {comment}");
            continue;
        }
        assert_eq!(words[1], "to", "{name}: {comment}");
        let stated: (f64, f64) = (words[0].parse().unwrap(), words[2].parse().unwrap());
        assert_eq!(stated, param.range(), "{name}: {comment}");
        assert_eq!(words[3..].join(" "), param.unit(), "{name}: {comment}");
    }
    assert_eq!(seen, Param::ALL.len());
}

/// The parameters whose range a comment names.
fn named(comment: &str) -> Vec<&str> {
    let (_, range) = comment.split_once("range: SPOTWISE_PARAM_").unwrap_or_default();
    let range = range.split(['.', ',']).next().unwrap_or_default();
    range.split(" or SPOTWISE_PARAM_").filter(|name| !name.is_empty()).collect()
}

/// The name of a number without its unit, as the constants have it.
fn without_unit(number: &str) -> String {
    let units =
        ["_m2_per_s", "_j_per_m2", "_j_per_m3", "_m_per_s", "_per_m", "_m2", "_m", "_rad", "_w", "_s", "_hz"];
    let unit = units.into_iter().find(|unit| number.ends_with(unit)).unwrap_or_default();
    number[..number.len() - unit.len()].to_uppercase()
}

/// What also takes a dose ratio too small to mark.
const ANY_DOSE: [&str; 7] = [
    "spotwise_mark_width",
    "spotwise_mark_limits",
    "spotwise_fill_width",
    "spotwise_fill_limits",
    "spotwise_pulsed_line",
    "spotwise_job",
    "spotwise_marking",
];

/// Whether a number of this struct or call may have the range of this parameter. Most have that of their own name.
fn fits(owner: &str, number: &str, parameter: &str) -> bool {
    if number == "dose_ratio" {
        return parameter == if ANY_DOSE.contains(&owner) { "ANY_DOSE_RATIO" } else { "DOSE_RATIO" };
    }
    without_unit(number) == parameter
        || match number {
            "drop" => matches!(parameter, "IRRADIANCE_DROP" | "LINE_DOSE_DROP"),
            "diameter_m" => matches!(parameter, "BEAM_DIAMETER" | "SPOT_DIAMETER"),
            "least_spot_diameter_m" | "greatest_spot_diameter_m" => parameter == "SPOT_DIAMETER",
            "least_dose_ratio" | "greatest_dose_ratio" => parameter == "ANY_DOSE_RATIO",
            "growth" => parameter == "GROWTH_RATIO",
            "index" => parameter == "REFRACTIVE_INDEX",
            "length_m" => matches!(parameter, "SPACE_LENGTH" | "THICKNESS"),
            "distance_m" => parameter == "PATH_DISTANCE",
            "exposures" => parameter == "PULSES",
            "aside_m" => parameter == "RADIUS",
            "width_m" => parameter == "MARK_WIDTH",
            "measured_m2" => parameter == "MEASURED_M2",
            "deviation_m" => parameter == "WIDTH_DEVIATION",
            "good_depth" | "depth" | "toward_lens" | "middle" | "away_from_lens" => parameter == "MARK_DEPTH",
            "good_depth_deviation" | "deviation" => parameter == "DEPTH_DEVIATION",
            "stepped_width_m" => parameter == "MARK_WIDTH",
            "stepped_width_deviation_m" => parameter == "WIDTH_DEVIATION",
            "patch_dose_ratio" => parameter == "DOSE_RATIO",
            "relative_deviation" => parameter == "JUDGEMENT_DEVIATION",
            "height_m" => matches!(parameter, "Z_OFFSET" | "PIECE_HEIGHT"),
            "relative_m2_deviation" | "relative_waist_diameter_deviation" => parameter == "PRIOR_DEVIATION",
            "stem" => parameter == "STEM_SHARE",
            "effective_stroke" => parameter == "STROKE_SHARE",
            "effective_counter" => parameter == "COUNTER_SHARE",
            "effective_gap" => parameter == "GAP_SHARE",
            "good_window" | "readable_window" => parameter == "DOSE_WINDOW",
            "x_least_m" | "x_greatest_m" => parameter == "REGION_X",
            "y_least_m" | "y_greatest_m" => parameter == "REGION_Y",
            "x_m" => matches!(parameter, "STEP_EDGE" | "GRID_X"),
            "y_m" => parameter == "GRID_Y",
            "z_m" => matches!(parameter, "STEP_HEIGHT" | "PROBED_HEIGHT" | "PIECE_HEIGHT"),
            _ => false,
        }
}

/// Fails unless the comment names a range that the number may have.
fn check(owner: &str, number: &str, comment: &str, known: &BTreeSet<&str>) {
    let named = named(comment);
    assert!(!named.is_empty(), "{number}: {comment}");
    for parameter in named {
        assert!(known.contains(parameter), "{number}: {comment}");
        assert!(fits(owner, number, parameter), "{owner}, {number}: {comment}");
    }
}

#[test]
fn each_number_that_goes_in_names_its_range() {
    let documented = documented();
    let known: BTreeSet<&str> =
        documented.iter().filter_map(|(_, code)| constant(code)).map(|(name, _)| name).collect();
    let mut members = 0;
    let mut arguments = 0;
    let mut inside = "";
    for (comment, code) in &documented {
        if let Some(rest) = code.strip_prefix("typedef struct ") {
            inside = rest.split(' ').next().unwrap();
        } else if let Some(rest) = code.strip_prefix("double ").or(code.strip_prefix("const double *")) {
            if INPUTS.contains(&inside) {
                check(inside, rest.split(';').next().unwrap(), comment, &known);
                members += 1;
            }
        } else if code.contains("(") && comment.contains("@param[in]") {
            for text in comment.split("@param[in] ").skip(1) {
                let (argument, text) = text.split_once(' ').unwrap();
                let declaration = code.split(';').next().unwrap();
                let call = declaration.split('(').next().unwrap().split_whitespace().last().unwrap();
                let number = [format!("double {argument},"), format!("const double *{argument},")];
                if number.iter().any(|number| declaration.contains(number.as_str())) {
                    check(call, argument, text.split('@').next().unwrap(), &known);
                    arguments += 1;
                }
            }
        }
    }
    // So that none is passed over if the form of the header changes: 3, 7, 3, 6, 6, 3, 5, 5, 8, 2, 7,
    // 4, 3, 37, 9, 4, 6, 4, 5, 7, 7, 1, 4, 4, 7, 5, 8, 8 and 7 members, 3 of them arrays, and every argument that is a
    // number.
    let numbers = HEADER.split("double ").skip(1).filter_map(|rest| rest.split_whitespace().next());
    let numbers = numbers.filter(|name| !name.starts_with('*') && name.ends_with(',')).count();
    assert_eq!(members, 185);
    assert_eq!(arguments, numbers + HEADER.matches("const double *").count() - 3);
}
