//! The machine of a job, as test pieces told it: what a calibration puts in the place of a job's own fields.

use crate::report::{distance, mm, offset, um, um_length};
use serde::Serialize;
use serde_json::{Map, Value};
use spotwise::text::DoseText;
use spotwise::{CalibratedSetUp, Calibration, JobDose, LearnedThreshold};
use std::fmt::{self, Write};

/// A calibration, and what of a job it tells.
pub struct Machine {
    pub calibration: Calibration,
    set_up: CalibratedSetUp,
    threshold: Option<LearnedThreshold>,
}

impl Machine {
    /// The machine that a job file names in its `calibration`: there, or in a file beside it. None if it names none.
    pub fn of(text: &str, read: impl Fn(&str) -> Result<Vec<u8>, String>) -> Result<Option<Self>, String> {
        // What is no JSON is refused when the job is read, with its place.
        let file: Value = serde_json::from_str(text).unwrap_or_default();
        let calibration = match file.get("calibration") {
            None => return Ok(None),
            Some(Value::String(name)) => {
                let beside = read(name)?;
                let beside = serde_json::from_slice(&beside).map_err(|error| format!("{name}: {error}"))?;
                told(&beside).map_err(|error| format!("{name}: {error}"))?
            }
            Some(inside) => told(inside).map_err(|error| format!("calibration: {error}"))?,
        };
        let set_up = calibration.set_up().map_err(|error| format!("calibration: {error}"))?;
        let threshold = calibration.threshold().map_err(|error| format!("calibration: {error}"))?;
        Ok(Some(Self { calibration, set_up, threshold }))
    }

    /// The fields of a job file that the calibration tells.
    pub fn fields(&self) -> Vec<(&'static str, Value)> {
        let CalibratedSetUp { laser, raw_beam, lens, focus, .. } = self.set_up;
        vec![
            ("laser", written(&laser)),
            ("raw_beam", written(&raw_beam)),
            ("lens", written(&lens)),
            ("focus", written(&focus)),
        ]
    }

    /// The scan of this dose, to which the calibration's threshold may be added.
    pub fn scan_without_threshold<'a>(&self, dose: &'a mut Value) -> Option<&'a mut Map<String, Value>> {
        self.threshold?;
        dose.get_mut("scan")?.as_object_mut()
    }

    /// The threshold as a job file has it.
    pub fn threshold(&self) -> Option<Value> {
        self.threshold.map(|learned| Value::String(DoseText(learned.threshold.value).to_string()))
    }

    pub fn text(&self, dose: &JobDose) -> Result<String, fmt::Error> {
        let it = &self.calibration;
        let mut out = String::new();
        writeln!(out, "\nThe machine, as test pieces told it")?;
        writeln!(
            out,
            "  focus lies        {} the datum, known to a standard deviation of {}",
            offset(it.focus, "on"),
            distance(self.set_up.focus_deviation)
        )?;
        writeln!(
            out,
            "  spot in focus     {} +- {}, M2 = {} +- {}{}",
            um(it.waist),
            um_length(it.waist_diameter_deviation),
            it.m_squared,
            it.m_squared_deviation,
            if it.m_squared < 1.0 { ", taken for 1" } else { "" }
        )?;
        writeln!(
            out,
            "  as if from        a beam of {} on an ideal lens of {}",
            mm(self.set_up.width_at_lens.diameter_1e2(), 2),
            mm(it.focal_length, 1)
        )?;
        if let (Some(learned), JobDose::Scan(_)) = (self.threshold, dose) {
            writeln!(
                out,
                "  threshold         {:.3} J/mm2 +- {:.1} %",
                learned.threshold.value * 1e-6,
                100.0 * learned.relative_deviation
            )?;
        }
        Ok(out)
    }
}

/// A calibration, or the field that is wrong.
fn told(document: &Value) -> Result<Calibration, String> {
    serde_path_to_error::deserialize(document).map_err(|error| error.to_string())
}

fn written(field: &impl Serialize) -> Value {
    serde_json::to_value(field).expect("what was read from a document can be written to one")
}
