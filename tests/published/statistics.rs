//! Student's t and χ²: percentage points as every textbook prints them, such as M. Abramowitz and I. A. Stegun, *Handbook
//! of Mathematical Functions*, tables 26.8 and 26.10, and JCGM 100:2008, table G.2. From memory.

use super::*;
use spotwise::model::learn::{chi_squared_chance, student_factor};

/// t₀.₉₇₅ and t₀.₉₉₅, which is 95 % and 99 % within ± t.
#[test]
fn percentage_points_of_t() {
    let printed = [
        (1.0, "12.706", "63.657"),
        (2.0, "4.303", "9.925"),
        (3.0, "3.182", "5.841"),
        (4.0, "2.776", "4.604"),
        (5.0, "2.571", "4.032"),
        (6.0, "2.447", "3.707"),
        (7.0, "2.365", "3.499"),
        (8.0, "2.306", "3.355"),
        (9.0, "2.262", "3.250"),
        (10.0, "2.228", "3.169"),
        (20.0, "2.086", "2.845"),
        (30.0, "2.042", "2.750"),
        (40.0, "2.021", "2.704"),
        (60.0, "2.000", "2.660"),
        (120.0, "1.980", "2.617"),
    ];
    for (degrees, at_95, at_99) in printed {
        rounds_to(student_factor(0.95, degrees).unwrap(), at_95);
        rounds_to(student_factor(0.99, degrees).unwrap(), at_99);
    }
    // 90 %, and one deviation of the normal law.
    rounds_to(student_factor(0.90, 1.0).unwrap(), "6.314");
    rounds_to(student_factor(0.6827, 1.0).unwrap(), "1.84");
    rounds_to(student_factor(0.9545, 10.0).unwrap(), "2.28");
    rounds_to(student_factor(0.95, 1e5).unwrap(), "1.960");
}

/// χ² beyond which 5 %, 1 % and 99 % of cases lie.
#[test]
fn percentage_points_of_chi_squared() {
    let printed = [
        (1.0, 3.841, 6.635, 0.000_157),
        (2.0, 5.991, 9.210, 0.0201),
        (3.0, 7.815, 11.345, 0.115),
        (4.0, 9.488, 13.277, 0.297),
        (5.0, 11.070, 15.086, 0.554),
        (8.0, 15.507, 20.090, 1.646),
        (10.0, 18.307, 23.209, 2.558),
        (20.0, 31.410, 37.566, 8.260),
        (30.0, 43.773, 50.892, 14.953),
    ];
    for (degrees, at_5, at_1, at_99) in printed {
        let chance = |chi_squared: f64| chi_squared_chance(chi_squared, degrees).unwrap();
        assert!((chance(at_5) - 0.05).abs() < 2e-5, "{degrees}: {}", chance(at_5));
        assert!((chance(at_1) - 0.01).abs() < 5e-6, "{degrees}: {}", chance(at_1));
        assert!((chance(at_99) - 0.99).abs() < 1e-4, "{degrees}: {}", chance(at_99));
    }
}
