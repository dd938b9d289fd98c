//! The one list of functions, and the rows of vectors that belong to each.

use serde::Deserialize;
use std::fs;
use std::path::Path;

/// One function of `tests/vectors/functions.toml`.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Function {
    /// Its name on every face, in words joined by underscores.
    pub name: String,
    /// Its module in the model.
    pub module: String,
    /// Names of its inputs, structs flattened.
    pub inputs: Vec<String>,
    /// Names of its outputs, structs flattened.
    pub outputs: Vec<String>,
    /// Worst error allowed for each output, in units in the last place.
    pub ulp: Vec<f64>,
    /// Outputs whose allowance is written in the row, since the problem itself magnifies errors.
    #[serde(default)]
    pub conditioned: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct List {
    function: Vec<Function>,
}

/// One row of vectors.
#[derive(Debug)]
pub struct Row {
    /// Its name, such as `defocus-0042`.
    pub id: String,
    /// What it tries, such as `near-waist`.
    pub stratum: String,
    /// The exact inputs.
    pub inputs: Vec<f64>,
    /// Code of the error expected; 0 for none.
    pub code: u32,
    /// Code of the parameter that the error names; 0 for none.
    pub param: u32,
    /// The outputs expected, in decimal, to 25 digits.
    pub outputs: Vec<String>,
    /// Units in the last place allowed for each output.
    pub ulp: Vec<f64>,
}

/// Every function, in the order of the list.
pub fn functions(vectors: &Path) -> Result<Vec<Function>, String> {
    let list: List = toml::from_str(&read(&vectors.join("functions.toml"))?).map_err(|e| e.to_string())?;
    for function in &list.function {
        if function.ulp.len() != function.outputs.len() {
            return Err(format!("{}: as many ulp as outputs are needed", function.name));
        }
    }
    Ok(list.function)
}

/// Every row of one function.
pub fn rows(vectors: &Path, function: &Function) -> Result<Vec<Row>, String> {
    let path = vectors.join(format!("{}.csv", function.name));
    let text = read(&path)?;
    let mut lines = text.lines();
    let header: Vec<&str> = lines.next().unwrap_or_default().split(',').collect();
    let column = |name: &str| {
        let found = header.iter().position(|column| *column == name);
        found.ok_or_else(|| format!("{}: no column {name}", path.display()))
    };
    // An output may bear the name of an input; the outputs come after `param`.
    let (id, stratum, code, param) = (column("id")?, column("stratum")?, column("code")?, column("param")?);
    let inputs = function.inputs.iter().map(|name| column(name)).collect::<Result<Vec<_>, _>>()?;
    let output_column = |name: &str| {
        let found = header[param + 1..].iter().position(|column| *column == name);
        found.map(|at| param + 1 + at).ok_or_else(|| format!("{}: no output {name}", path.display()))
    };
    let outputs = function.outputs.iter().map(|name| output_column(name)).collect::<Result<Vec<_>, _>>()?;
    let mut rows = Vec::new();
    for line in lines {
        let cells: Vec<&str> = line.split(',').collect();
        if cells.len() != header.len() {
            return Err(format!("{}: not {} cells: {line}", path.display(), header.len()));
        }
        let whole = |at: usize| cells[at].parse().map_err(|_| format!("not a whole number: {line}"));
        let code = whole(code)?;
        let mut ulp = function.ulp.clone();
        for name in &function.conditioned {
            let at = function.outputs.iter().position(|output| output == name);
            let at = at.ok_or_else(|| format!("{name} is no output of {}", function.name))?;
            let cell = cells[output_column(&format!("{name}_ulp"))?];
            ulp[at] = cell.parse().map_err(|_| format!("{name}_ulp is no number: {line}"))?;
        }
        rows.push(Row {
            id: cells[id].to_owned(),
            stratum: cells[stratum].to_owned(),
            inputs: inputs.iter().map(|&at| exact(cells[at])).collect::<Result<_, _>>()?,
            code,
            param: whole(param)?,
            outputs: outputs.iter().map(|&at| cells[at].to_owned()).collect(),
            ulp,
        });
    }
    Ok(rows)
}

fn read(path: &Path) -> Result<String, String> {
    fs::read_to_string(path).map_err(|error| format!("{}: {error}", path.display()))
}

/// An exact number: a hexadecimal float such as `-0x1.8p-3`, a whole number, nan or ±inf.
fn exact(text: &str) -> Result<f64, String> {
    let refused = || format!("not an exact number: {text}");
    let Some((sign, digits)) = text.split_once("0x") else {
        return text.parse().map_err(|_| refused());
    };
    let (mantissa, exponent) = digits.split_once('p').ok_or_else(refused)?;
    let (whole, fraction) = mantissa.split_once('.').unwrap_or((mantissa, ""));
    let bits = u64::from_str_radix(&format!("{whole}{fraction}"), 16).map_err(|_| refused())?;
    let exponent: i32 = exponent.parse().map_err(|_| refused())?;
    // At most 53 bits, so that the conversion is exact; two steps, so that neither power of two
    // underflows before the product does.
    let exponent = exponent - 4 * i32::try_from(fraction.len()).map_err(|_| refused())?;
    let half = exponent / 2;
    let value = bits as f64 * 2.0_f64.powi(half) * 2.0_f64.powi(exponent - half);
    Ok(if sign == "-" { -value } else { value })
}
