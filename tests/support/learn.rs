//! The functions of the list on learning from test pieces, called through the model.

use spotwise::Error;
use spotwise::model::learn::{chi_squared_chance, student_factor};

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "student_factor" => vec![student_factor(i[0], i[1])?],
        "chi_squared_chance" => vec![chi_squared_chance(i[0], i[1])?],
        _ => return Ok(None),
    }))
}
