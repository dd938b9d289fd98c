//! Readings of test pieces from a file of comma-separated values, one reading a line:
//!
//! ```text
//! away from lens (mm),power (W),mark width (um),deviation (um),rank
//! -0.2,10,69,3,acceptable
//! 0.0,10,none,3,
//! ```
//!
//! | column | meaning |
//! | --- | --- |
//! | `away from lens` or `toward lens` | height of the surface; must be there |
//! | `mark width` or `beam width` | what was measured; `none` where no mark is to be seen |
//! | `deviation` | standard deviation of the width, or the least width that would be seen where there is none |
//! | `power` | power of the line; left out where all pieces had the same |
//! | `rank` | `poor`, `acceptable` or `sharp`, as judged by eye |
//! | `wavelength` | of the laser; only where the file stands alone, and then the same in each line |
//!
//! Each column but the rank names its unit. The order of columns and lines is free; a blank field was not read.

use spotwise::PieceRank;
use spotwise::text::{parse_length, parse_power};

/// What the widths are widths of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WidthOf {
    Mark,
    Beam,
}

/// What was read off one mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Height of the surface in metres, + away from the lens.
    pub z: f64,
    /// Power of the line in watts.
    pub power: Option<f64>,
    /// Width in metres, 0 where no mark is to be seen; none if it was not read.
    pub width: Option<f64>,
    /// Its standard deviation in metres.
    pub deviation: Option<f64>,
    pub rank: Option<PieceRank>,
}

/// Everything that a file holds.
#[derive(Debug, PartialEq)]
pub struct Readings {
    pub width_of: WidthOf,
    pub all: Vec<Reading>,
    /// Wavelength in metres.
    pub wavelength: Option<f64>,
}

/// Reads a file of readings, or says in one line what is wrong with it.
pub fn read(title: &str, text: &str) -> Result<Readings, String> {
    readings(text).map_err(|error| format!("{title}: {error}"))
}

const TOWARD_LENS: &str = "toward lens";
const BEAM_WIDTH: &str = "beam width";
const NAMES: [&str; 8] =
    ["away from lens", TOWARD_LENS, "mark width", BEAM_WIDTH, "deviation", "power", "rank", "wavelength"];

/// A column of the file, as the header names it.
struct Column<'a> {
    name: &'static str,
    unit: &'a str,
    at: usize,
}

impl<'a> Column<'a> {
    fn of(field: &'a str, at: usize) -> Result<Self, String> {
        let (name, unit) = match field.split_once('(') {
            None => (field, ""),
            Some((name, rest)) => match rest.trim().strip_suffix(')') {
                Some(unit) => (name.trim(), unit.trim()),
                None => return Err(format!("column {field:?}: the closing bracket is missing")),
            },
        };
        let Some(name) = NAMES.into_iter().find(|known| *known == name) else {
            return Err(format!("column {field:?} must be one of: {}, each with its unit", NAMES.join(", ")));
        };
        let column = Self { name, unit, at };
        if name != "rank" {
            column.number("1").map_err(|_| {
                format!("column {field:?} must name its unit, as in \"{}\"", column.example())
            })?;
        }
        Ok(column)
    }

    fn example(&self) -> &'static str {
        match self.name {
            "power" => "power (W)",
            "mark width" => "mark width (um)",
            BEAM_WIDTH => "beam width (um)",
            "deviation" => "deviation (um)",
            "wavelength" => "wavelength (um)",
            TOWARD_LENS => "toward lens (mm)",
            _ => "away from lens (mm)",
        }
    }

    /// A field of this column in SI.
    fn number(&self, field: &str) -> Result<f64, spotwise::Error> {
        let text = format!("{field} {}", self.unit);
        if self.name == "power" { parse_power(&text) } else { parse_length(&text) }
    }
}

/// A line of the file.
struct Line<'a> {
    fields: &'a csv::StringRecord,
    number: u64,
}

impl Line<'_> {
    /// What a column says here; none if there is no such column, or the field is blank.
    fn field<'a>(&'a self, column: Option<&Column<'_>>) -> Option<&'a str> {
        column.and_then(|column| self.fields.get(column.at)).filter(|field| !field.is_empty())
    }

    fn number(&self, column: Option<&Column<'_>>) -> Result<Option<f64>, String> {
        let (Some(column), Some(field)) = (column, self.field(column)) else { return Ok(None) };
        column.number(field).map(Some).map_err(|_| {
            let Self { number, .. } = self;
            format!("line {number}, column {}: {field:?} is no number of {}", column.name, column.unit)
        })
    }
}

fn readings(text: &str) -> Result<Readings, String> {
    let mut csv = csv::ReaderBuilder::new().trim(csv::Trim::All).from_reader(text.as_bytes());
    let header = csv.headers().map_err(|error| error.to_string())?.clone();
    let columns: Vec<Column> =
        header.iter().enumerate().map(|(at, field)| Column::of(field, at)).collect::<Result<_, _>>()?;
    for (place, column) in columns.iter().enumerate() {
        if columns.iter().skip(place + 1).any(|other| other.name == column.name) {
            return Err(format!("column {} stands there twice", column.name));
        }
    }
    let column = |name: &str| columns.iter().find(|column| column.name == name);
    let one_of = |one: &str, other: &str| match (column(one), column(other)) {
        (Some(_), Some(_)) => Err(format!("columns {one} and {other} cannot both be there")),
        (one, other) => Ok(one.or(other)),
    };
    let height = one_of("away from lens", TOWARD_LENS)?
        .ok_or("a column must tell the height, as in \"away from lens (mm)\"")?;
    let sign = if height.name == TOWARD_LENS { -1.0 } else { 1.0 };
    let width = one_of("mark width", BEAM_WIDTH)?;

    let (mut all, mut wavelength) = (Vec::new(), None);
    for record in csv.records() {
        let record = record.map_err(|error| error.to_string())?;
        let line = Line { fields: &record, number: record.position().map_or(0, csv::Position::line) };
        let z = line.number(Some(height))?;
        let z = sign * z.ok_or_else(|| format!("line {}: the height is blank", line.number))?;
        let nothing_seen = line.field(width) == Some("none");
        all.push(Reading {
            z,
            power: line.number(column("power"))?,
            width: if nothing_seen { Some(0.0) } else { line.number(width)? },
            deviation: line.number(column("deviation"))?,
            rank: line.field(column("rank")).map(|rank| rank_of(rank, line.number)).transpose()?,
        });
        if let Some(found) = line.number(column("wavelength"))?
            && *wavelength.get_or_insert(found) != found
        {
            return Err(format!("line {}: the wavelength is not that of the lines before", line.number));
        }
    }
    let width_of = match width {
        Some(column) if column.name == BEAM_WIDTH => WidthOf::Beam,
        _ => WidthOf::Mark,
    };
    Ok(Readings { width_of, all, wavelength })
}

fn rank_of(name: &str, line: u64) -> Result<PieceRank, String> {
    PieceRank::ALL
        .into_iter()
        .find(|rank| rank.name() == name)
        .ok_or_else(|| format!("line {line}, column rank: {name:?} is not poor, acceptable or sharp"))
}
