//! The solver on NIST's reference sets for nonlinear regression, all those of up to four unknowns.
//!
//! NIST Statistical Reference Datasets, nonlinear regression: the files of NIST themselves, each with its data, its
//! two starts and the certified values, as `lmfit` 1.3.4 carries them; in `tests/tables/nist_nonlinear/`.

use super::{Least, Local, Matrix, descend, inverse, settled};

/// A fall of this share of F is too small for F to tell of.
const SETTLED: f64 = 1e-13;

/// A number with its first and second derivatives by N unknowns.
#[derive(Clone, Copy)]
struct Jet<const N: usize> {
    value: f64,
    first: [f64; N],
    second: Matrix<N>,
}

impl<const N: usize> Jet<N> {
    fn constant(value: f64) -> Self {
        Self { value, first: [0.0; N], second: [[0.0; N]; N] }
    }

    fn unknowns(at: &[f64; N]) -> [Self; N] {
        core::array::from_fn(|i| {
            let mut jet = Self::constant(at[i]);
            jet.first[i] = 1.0;
            jet
        })
    }

    /// A function with this value, first and second derivative.
    fn through(self, value: f64, slope: f64, bend: f64) -> Self {
        let first = self.first.map(|d| slope * d);
        let second = core::array::from_fn(|i| {
            core::array::from_fn(|j| slope * self.second[i][j] + bend * self.first[i] * self.first[j])
        });
        Self { value, first, second }
    }

    fn exp(self) -> Self {
        let e = self.value.exp();
        self.through(e, e, e)
    }

    fn atan(self) -> Self {
        let x = self.value;
        let slope = 1.0 / (1.0 + x * x);
        self.through(x.atan(), slope, -2.0 * x * slope * slope)
    }

    fn ln(self) -> Self {
        let x = self.value;
        self.through(x.ln(), 1.0 / x, -1.0 / (x * x))
    }

    fn over(self, other: Self) -> Self {
        let x = other.value;
        self * other.through(1.0 / x, -1.0 / (x * x), 2.0 / (x * x * x))
    }

    fn scaled(self, factor: f64) -> Self {
        self.through(factor * self.value, factor, 0.0)
    }

    /// The power to an exponent that is unknown as well.
    fn power(self, exponent: Self) -> Self {
        (self.ln() * exponent).exp()
    }
}

impl<const N: usize> core::ops::Add for Jet<N> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            value: self.value + other.value,
            first: core::array::from_fn(|i| self.first[i] + other.first[i]),
            second: core::array::from_fn(|i| {
                core::array::from_fn(|j| self.second[i][j] + other.second[i][j])
            }),
        }
    }
}

impl<const N: usize> core::ops::Mul for Jet<N> {
    type Output = Self;
    #[expect(clippy::suspicious_arithmetic_impl, reason = "the rule of a product's derivative")]
    fn mul(self, other: Self) -> Self {
        let (a, b) = (self, other);
        Self {
            value: a.value * b.value,
            first: core::array::from_fn(|i| a.first[i] * b.value + a.value * b.first[i]),
            second: core::array::from_fn(|i| {
                core::array::from_fn(|j| {
                    a.second[i][j] * b.value
                        + a.value * b.second[i][j]
                        + a.first[i] * b.first[j]
                        + a.first[j] * b.first[i]
                })
            }),
        }
    }
}

/// Some sets lie in long, bent valleys.
const MOST_STEPS: u32 = 5000;

/// One certified set.
struct Certified<const N: usize> {
    starts: [[f64; N]; 2],
    values: [f64; N],
    deviations: [f64; N],
    residual_squares: f64,
    /// The response, then its predictors.
    data: Vec<Vec<f64>>,
}

fn numbers(line: &str) -> Vec<f64> {
    line.split_whitespace().filter_map(|word| word.parse().ok()).collect()
}

fn read<const N: usize>(file: &str) -> Certified<N> {
    let mut set = Certified {
        starts: [[0.0; N]; 2],
        values: [0.0; N],
        deviations: [0.0; N],
        residual_squares: 0.0,
        data: Vec::new(),
    };
    let mut found = 0;
    for line in file.lines() {
        let line = line.trim();
        if let Some((name, rest)) = line.split_once('=') {
            let name = name.trim();
            if name.len() == 2 && name.starts_with('b') && found < N {
                let [start1, start2, value, deviation] = numbers(rest)[..] else { panic!("{line}") };
                set.starts[0][found] = start1;
                set.starts[1][found] = start2;
                set.values[found] = value;
                set.deviations[found] = deviation;
                found += 1;
            }
        } else if let Some(rest) = line.strip_prefix("Residual Sum of Squares:") {
            set.residual_squares = numbers(rest)[0];
        }
    }
    assert_eq!(found, N);
    // The data begin on line 61 of every file.
    set.data = file.lines().skip(60).map(numbers).filter(|row| !row.is_empty()).collect();
    set
}

/// Fits from one start, and tells how many digits agree: of the values, and of their deviations.
fn agreed<const N: usize>(
    set: &Certified<N>,
    start: [f64; N],
    model: impl Fn(&[f64], &[Jet<N>; N]) -> (Jet<N>, f64),
) -> (f64, f64) {
    let problem = |at: &[f64; N]| {
        let unknowns = Jet::unknowns(at);
        let mut local = Local::NOTHING;
        for row in &set.data {
            let (response, wanted) = model(row, &unknowns);
            let residual = response + Jet::constant(-wanted);
            local.add(residual.value, &residual.first, &residual.second);
        }
        local.completed()
    };
    let Some(Least { at, local }) = descend(problem, start, MOST_STEPS, f64::INFINITY, SETTLED, |_, _| false)
        .map(|least| settled(problem, least))
    else {
        return (0.0, 0.0);
    };
    let digits = |got: f64, want: f64| -((got / want - 1.0).abs().max(1e-16).log10());
    let scatter = 2.0 * local.value / (set.data.len() - N) as f64;
    let covariance = inverse(&local.tangent).unwrap_or([[0.0; N]; N]);
    let mut least = (f64::INFINITY, f64::INFINITY);
    for i in 0..N {
        least.0 = least.0.min(digits(at[i], set.values[i]));
        least.1 = least.1.min(digits((scatter * covariance[i][i]).sqrt(), set.deviations[i]));
    }
    least.1 = least.1.min(digits(2.0 * local.value, set.residual_squares));
    least
}

/// A set by its file's name, its model, and from which of its starts it is to be solved.
macro_rules! sets {
    ($($test:ident, $file:literal, $unknowns:literal, $starts:expr, |$x:ident, $b:ident| $model:expr;)+) => { $(
        #[test]
        fn $test() {
            let set = read::<$unknowns>(include_str!(concat!(
                "../tables/nist_nonlinear/", $file, ".dat"
            )));
            for (place, start) in set.starts.into_iter().enumerate() {
                let found = agreed(&set, start, |row, $b| {
                    let $x = &row[1..];
                    let response: Jet<$unknowns> = $model;
                    // One set gives its response as a logarithm.
                    (response, if $file == "Nelson" { row[0].ln() } else { row[0] })
                });
                eprintln!("{} from start {}: {:.1} digits of values, {:.1} of deviations", $file, place + 1, found.0, found.1);
                if $starts.contains(&(place + 1)) {
                    assert!(found.0 > 9.0, "{} from start {}: {:?} digits", $file, place + 1, found);
                    assert!(found.1 > 7.0, "{} from start {}: {:?} digits", $file, place + 1, found);
                }
            }
        }
    )+ };
}

fn c<const N: usize>(value: f64) -> Jet<N> {
    Jet::constant(value)
}

sets! {
    misra1a, "Misra1a", 2, [1, 2], |x, b| b[0] * (c(1.0) + (b[1].scaled(-x[0])).exp().scaled(-1.0));
    misra1b, "Misra1b", 2, [1, 2], |x, b| {
        let base = c::<2>(1.0) + b[1].scaled(0.5 * x[0]);
        b[0] * (c(1.0) + c(1.0).over(base * base).scaled(-1.0))
    };
    misra1c, "Misra1c", 2, [1, 2], |x, b| {
        b[0] * (c(1.0) + (c::<2>(1.0) + b[1].scaled(2.0 * x[0])).power(c(-0.5)).scaled(-1.0))
    };
    misra1d, "Misra1d", 2, [1, 2], |x, b| (b[0] * b[1].scaled(x[0])).over(c::<2>(1.0) + b[1].scaled(x[0]));
    dan_wood, "DanWood", 2, [1, 2], |x, b| b[0] * c(x[0]).power(b[1]);
    box_bod, "BoxBOD", 2, [2], |x, b| b[0] * (c(1.0) + b[1].scaled(-x[0]).exp().scaled(-1.0));
    chwirut1, "Chwirut1", 3, [1, 2], |x, b| b[0].scaled(-x[0]).exp().over(b[1] + b[2].scaled(x[0]));
    chwirut2, "Chwirut2", 3, [1, 2], |x, b| b[0].scaled(-x[0]).exp().over(b[1] + b[2].scaled(x[0]));
    nelson, "Nelson", 3, [1, 2], |x, b| b[0] + (b[1].scaled(-x[0])) * b[2].scaled(-x[1]).exp();
    mgh10, "MGH10", 3, [2], |x, b| b[0] * b[1].over(c::<3>(x[0]) + b[2]).exp();
    rat42, "Rat42", 3, [1, 2], |x, b| b[0].over(c::<3>(1.0) + (b[1] + b[2].scaled(-x[0])).exp());
    eckerle4, "Eckerle4", 3, [2], |x, b| {
        let away = (c::<3>(x[0]) + b[2].scaled(-1.0)).over(b[1]);
        b[0].over(b[1]) * (away * away).scaled(-0.5).exp()
    };
    bennett5, "Bennett5", 3, [1, 2], |x, b| b[0] * (b[1] + c(x[0])).power(c::<3>(-1.0).over(b[2]));
    mgh09, "MGH09", 4, [1, 2], |x, b| {
        let square = c::<4>(x[0] * x[0]);
        (b[0] * (square + b[1].scaled(x[0]))).over(square + b[2].scaled(x[0]) + b[3])
    };
    rat43, "Rat43", 4, [1, 2], |x, b| {
        b[0].over((c::<4>(1.0) + (b[1] + b[2].scaled(-x[0])).exp()).power(c::<4>(1.0).over(b[3])))
    };
    roszman1, "Roszman1", 4, [1, 2], |x, b| {
        let angle = b[2].over(c::<4>(x[0]) + b[3].scaled(-1.0)).atan();
        b[0] + b[1].scaled(-x[0]) + angle.scaled(-1.0 / core::f64::consts::PI)
    };
}
