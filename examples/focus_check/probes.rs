//! Heights of a part from a file of probes, one probe a line:
//!
//! ```text
//! x (mm),y (mm),toward lens (mm)
//! -60,0,-0.21
//! -40,0,
//! ```
//!
//! The third column is `toward lens` or `away from lens`; each names its unit of length. The order of the lines is
//! free. A place of the grid that no line names, or whose height is blank, is a missing probe.

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
    let mut csv = csv::ReaderBuilder::new().trim(csv::Trim::All).from_reader(text.as_bytes());
    let header = csv.headers().map_err(|error| format!("{title}: {error}"))?.clone();
    let fields: Vec<&str> = header.iter().collect();
    let [x, y, height] = fields[..] else {
        return Err(format!(
            "{title}: the first line must name three columns, as in \"x (mm),y (mm),toward lens (mm)\""
        ));
    };
    let in_column = |column: &str, name: &str| match column.split_once('(') {
        Some((found, unit)) if found.trim() == name => Ok(unit.trim_end_matches(')').trim().to_owned()),
        _ => Err(format!("{title}: column {column:?} must be {name} with its unit, as in \"{name} (mm)\"")),
    };
    let units = [in_column(x, "x")?, in_column(y, "y")?];
    let (height_unit, sign) = match in_column(height, "toward lens") {
        Ok(unit) => (unit, -1.0),
        Err(_) => match in_column(height, "away from lens") {
            Ok(unit) => (unit, 1.0),
            Err(_) => {
                return Err(format!(
                    "{title}: column {height:?} must be toward lens or away from lens with its unit, as in \"toward lens (mm)\""
                ));
            }
        },
    };

    let mut probes = Vec::new();
    for record in csv.records() {
        let record = record.map_err(|error| format!("{title}: {error}"))?;
        let line = record.position().map_or(0, csv::Position::line);
        let length = |column: usize, unit: &str| {
            let value = record.get(column).unwrap_or_default();
            parse_length(&format!("{value} {unit}")).map_err(|error| format!("{title}: line {line}: {error}"))
        };
        let [x_unit, y_unit] = &units;
        let blank = record.get(2).is_none_or(str::is_empty);
        let height = if blank { f64::NAN } else { sign * length(2, &height_unit)? };
        probes.push((length(0, x_unit)?, length(1, y_unit)?, height, line));
    }
    let x = places(probes.iter().map(|probe| probe.0));
    let y = places(probes.iter().map(|probe| probe.1));
    let mut z = vec![f64::NAN; x.len() * y.len()];
    let mut lines = vec![None; z.len()];
    for (probe_x, probe_y, height, line) in probes {
        let column = x.partition_point(|place| *place < probe_x);
        let row = y.partition_point(|place| *place < probe_y);
        let at = row * x.len() + column;
        if let Some(earlier) = lines[at].replace(line) {
            return Err(format!("{title}: line {line} probes the place of line {earlier} again"));
        }
        z[at] = height;
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
