//! Heights of a part from a file of probes, one probe a line:
//!
//! ```text
//! x (mm),y (mm),toward lens (mm)
//! -60,0,-0.21
//! -40,0,
//! ```
//!
//! The third column is `toward lens` or `away from lens`; each names its unit of length. The order of the lines is
//! free, and blank lines are skipped. A place of the grid that no line names, or whose height is blank, is a missing
//! probe; a file that names less than half of its grid is refused, since its places were hardly meant as one.

use spotwise::text::parse_length;

/// What a file of probes holds, as a grid in metres.
#[derive(Debug, PartialEq)]
pub struct Probes {
    /// Columns, ascending.
    pub x: Vec<f64>,
    /// Rows, ascending.
    pub y: Vec<f64>,
    /// Heights, + away from the lens, row after row; NaN where the probe found nothing.
    pub z: Vec<f64>,
}

/// Reads a file of probes, or says in one line what is wrong with it.
pub fn read(title: &str, text: &str) -> Result<Probes, String> {
    let probes = probed(text).and_then(|probed| on_grid(&probed));
    probes.map_err(|error| format!("{title}: {error}"))
}

/// A line of the file, in metres; the height is + away from the lens, and NaN if it is blank.
struct Probe {
    x: f64,
    y: f64,
    z: f64,
    line: u64,
}

/// A column of the file, as the header names it.
struct Column<'a> {
    name: &'static str,
    unit: &'a str,
}

impl<'a> Column<'a> {
    /// The column of this header field, which must have one of these names.
    fn of(field: &'a str, names: &[&'static str]) -> Result<Self, String> {
        let example = format!("as in \"{} (mm)\"", names.first().unwrap_or(&""));
        let found = field.split_once('(').and_then(|(found, rest)| {
            let name = names.iter().find(|name| **name == found.trim())?;
            Some((*name, rest.trim()))
        });
        let Some((name, rest)) = found else {
            let names = names.join(" or ");
            return Err(format!("column {field:?} must be {names} with its unit, {example}"));
        };
        let Some(unit) = rest.strip_suffix(')').map(str::trim) else {
            return Err(format!("column {field:?}: the closing bracket is missing, {example}"));
        };
        parse_length(&format!("1 {unit}")).map_err(|error| format!("column {field:?}: {error}"))?;
        Ok(Self { name, unit })
    }

    fn metres(&self, value: &str, line: u64) -> Result<f64, String> {
        let Self { name, unit } = self;
        if value.is_empty() {
            return Err(format!("line {line}, column {name}: the field is blank"));
        }
        // The unit is good, so the fault is the number's.
        parse_length(&format!("{value} {unit}"))
            .map_err(|_| format!("line {line}, column {name}: {value:?} is no number of {unit}"))
    }
}

/// The probes in the order of the lines. Lines whose fields are all blank are none.
fn probed(text: &str) -> Result<Vec<Probe>, String> {
    let mut csv = csv::ReaderBuilder::new().trim(csv::Trim::All).flexible(true).from_reader(text.as_bytes());
    let header = csv.headers().map_err(|error| error.to_string())?.clone();
    let fields: Vec<&str> = header.iter().collect();
    let [x, y, height] = fields[..] else {
        let separated = if fields.len() == 1 { " separated by commas" } else { "" };
        return Err(format!(
            "the first line must name three columns{separated}, as in \"x (mm),y (mm),toward lens (mm)\""
        ));
    };
    let x = Column::of(x, &["x"])?;
    let y = Column::of(y, &["y"])?;
    let height = Column::of(height, &[TOWARD_LENS, "away from lens"])?;
    let sign = if height.name == TOWARD_LENS { -1.0 } else { 1.0 };

    let mut probes = Vec::new();
    for record in csv.records() {
        let record = record.map_err(|error| error.to_string())?;
        if record.iter().all(str::is_empty) {
            continue;
        }
        let line = record.position().map_or(0, csv::Position::line);
        let fields: Vec<&str> = record.iter().collect();
        let [at_x, at_y, at_height] = fields[..] else {
            return Err(format!(
                "line {line} must have three fields separated by commas, not {}",
                fields.len()
            ));
        };
        let z = if at_height.is_empty() { f64::NAN } else { sign * height.metres(at_height, line)? };
        probes.push(Probe { x: x.metres(at_x, line)?, y: y.metres(at_y, line)?, z, line });
    }
    Ok(probes)
}

const TOWARD_LENS: &str = "toward lens";

/// The grid of all x and all y that are probed.
fn on_grid(probes: &[Probe]) -> Result<Probes, String> {
    let x = places(probes.iter().map(|probe| probe.x));
    let y = places(probes.iter().map(|probe| probe.y));
    let all = x.len().saturating_mul(y.len());
    // Places that stray make a column and a row each, whose other places were never meant.
    if probes.len() < all.div_ceil(2) {
        let named = probes.len();
        return Err(format!(
            "only {named} of {all} places of the grid are probed: round x and y to the grid"
        ));
    }
    let mut z = vec![f64::NAN; all];
    let mut lines = vec![None; all];
    for probe in probes {
        let column = x.partition_point(|place| *place < probe.x);
        let row = y.partition_point(|place| *place < probe.y);
        let at = row * x.len() + column;
        if let Some(earlier) = lines[at].replace(probe.line) {
            return Err(format!("line {} probes the place of line {earlier} again", probe.line));
        }
        z[at] = probe.z;
    }
    Ok(Probes { x, y, z })
}

/// The different places among these, ascending.
fn places(all: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut places: Vec<f64> = all.collect();
    places.sort_by(f64::total_cmp);
    places.dedup();
    places
}
