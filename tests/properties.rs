//! What must hold for every input, tried on thousands of drawn ones.
//!
//! The draws are the same on every run. `PROPTEST_RNG_SEED=… PROPTEST_CASES=…` draw others, or
//! more of them. A failure prints the smallest case it found; keep that case as a plain test.

#[path = "properties/astigmatic.rs"]
mod astigmatic;
#[path = "properties/beam.rs"]
mod beam;
#[path = "properties/beam_fit.rs"]
mod beam_fit;
#[path = "properties/by_eye.rs"]
mod by_eye;
#[path = "properties/calibration.rs"]
mod calibration;
#[path = "properties/check.rs"]
mod check;
#[path = "properties/clipping.rs"]
mod clipping;
#[path = "properties/focus.rs"]
mod focus;
#[path = "properties/gantry.rs"]
mod gantry;
#[path = "properties/given.rs"]
mod given;
#[path = "properties/glass.rs"]
mod glass;
#[path = "properties/height_budget.rs"]
mod height_budget;
#[path = "properties/height_map.rs"]
mod height_map;
#[path = "properties/in_focus.rs"]
mod in_focus;
#[path = "properties/lens.rs"]
mod lens;
#[path = "properties/lens_choice.rs"]
mod lens_choice;
#[path = "properties/mark.rs"]
mod mark;
#[path = "properties/marks.rs"]
mod marks;
#[path = "properties/path.rs"]
mod path;
#[path = "properties/plan.rs"]
mod plan;
#[path = "properties/plate.rs"]
mod plate;
#[path = "properties/refusal.rs"]
mod refusal;
#[path = "properties/refusal_diagnosis.rs"]
mod refusal_diagnosis;
#[path = "properties/refusal_marks.rs"]
mod refusal_marks;
#[path = "properties/refusal_real.rs"]
mod refusal_real;
#[path = "properties/scan_field.rs"]
mod scan_field;
#[path = "properties/shape.rs"]
mod shape;
#[path = "properties/singlet.rs"]
mod singlet;
#[path = "properties/singlet_focus.rs"]
mod singlet_focus;
#[path = "properties/statistics.rs"]
mod statistics;
#[path = "properties/strips.rs"]
mod strips;
#[path = "properties/surface_check.rs"]
mod surface_check;
#[path = "properties/switches.rs"]
mod switches;
#[path = "properties/threshold_fit.rs"]
mod threshold_fit;
#[path = "properties/tilt.rs"]
mod tilt;
#[path = "properties/tolerance.rs"]
mod tolerance;
#[path = "properties/wave.rs"]
mod wave;
#[path = "properties/width.rs"]
mod width;
