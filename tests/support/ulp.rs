//! The error of a result against an exact value of many digits, told to a part of a unit in the last
//! place.

/// Error of `got` in units in the last place of the double nearest to the exact value.
///
/// Infinite if one of them is not a number, or not finite, and the other differs.
pub fn ulp_error(got: f64, exact: &str) -> f64 {
    let nearest: f64 = exact.parse().unwrap();
    if nearest == got || nearest.is_nan() && got.is_nan() {
        // Right to the last bit, and for whole numbers and infinities all there is to say.
        return if nearest == 0.0 || !nearest.is_finite() {
            0.0
        } else {
            beyond_nearest(nearest, exact).abs()
        };
    }
    if !nearest.is_finite() || !got.is_finite() {
        return f64::INFINITY;
    }
    // Neighbours differ by a double, so this is exact where it matters.
    ((got - nearest) / unit(nearest) + beyond_nearest(nearest, exact)).abs()
}

/// Distance between a double and the next one away from zero.
fn unit(value: f64) -> f64 {
    value.abs().next_up() - value.abs()
}

/// The nearest double less the exact value, in ulp; by digits, since it is far below a double.
fn beyond_nearest(nearest: f64, exact: &str) -> f64 {
    if nearest == 0.0 {
        return 0.0;
    }
    let (double, at_double) = digits(&format!("{nearest:.29e}"));
    let (wanted, at_wanted) = digits(exact);
    let (double, wanted) = match at_wanted - at_double {
        0 => (double, wanted),
        1 => (double, wanted * 10),
        -1 => (double * 10, wanted),
        _ => return f64::INFINITY,
    };
    // The digits are those of the magnitudes; the sign is the number's.
    (double - wanted) as f64 / double as f64 * (nearest / unit(nearest))
}

/// Thirty digits of a number without its sign, and the power of ten of the first.
fn digits(text: &str) -> (i128, i32) {
    let (mantissa, power) = text.trim_start_matches('-').split_once('e').unwrap_or((text, "0"));
    let mut digits: String = mantissa.chars().filter(char::is_ascii_digit).collect();
    let power: i32 = power.parse().unwrap();
    assert!(digits.len() <= 30, "{text}");
    while digits.len() < 30 {
        digits.push('0');
    }
    // A whole number may have several digits before the point; the vectors write one.
    let before_point = mantissa.trim_start_matches('-').split('.').next().unwrap().len();
    (digits.parse().unwrap(), power + i32::try_from(before_point).unwrap() - 1)
}
