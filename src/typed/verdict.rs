//! The verdict on a job.

use super::depth::FocusRange;
use super::dose::ScanDose;
use super::job::Laser;
use super::length;
use super::lens::Focus;
use super::lettering::SmallestText;
use super::offset::Offset;
use super::singlet::SingletFocus;
use super::width::{Aperture, BeamWidth};
use crate::model::check::{self, Outcome, Reasons};
use crate::model::mark::TextGrade;
use crate::validity::{Level, Validity};
use uom::si::f64::Length;

/// The spot at one height of the surface, and what it holds there.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Place {
    /// Where the surface lies, seen from the waist.
    pub from_waist: Offset,
    /// Spot on the surface.
    pub spot: BeamWidth,
    /// Spot width over waist width.
    pub growth: f64,
    /// Irradiance on the axis over that at the waist.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist.
    pub line_dose_ratio: f64,
    /// The spot as the material sees it, widened by heat in a melt.
    pub seen_spot: BeamWidth,
    /// Width of the finest stroke that holds; none, as the next three, if nothing marks.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length_or_none"))]
    pub smallest_stroke: Option<Length>,
    /// Width of the finest gap that holds.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length_or_none"))]
    pub smallest_gap: Option<Length>,
    /// Diameter of the finest dot that holds.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length_or_none"))]
    pub smallest_dot_diameter: Option<Length>,
    /// Diameter of the finest hole that holds.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length_or_none"))]
    pub smallest_hole_diameter: Option<Length>,
    /// Contrast of the ripple of the fill; none if the job names no line interval.
    pub ripple_contrast: Option<f64>,
    /// The smallest type of the job's typeface; none if the job has no text or nothing marks.
    pub smallest_text: Option<SmallestText>,
    /// How the job's text comes out; none if it has none.
    pub text_grade: Option<TextGrade>,
    /// Whether the drawing's finest stroke and gap both hold, and its text keeps its grade.
    pub details_hold: bool,
    /// Whether the place lies within the depth of focus.
    pub in_depth: bool,
}

/// What [`Job::check`](super::Job::check) finds.
///
/// Everything except [`Self::focus_from_datum`] and [`Self::best_focus_from_datum`] counts its
/// heights from the **waist**: that of a real lens by 86.5 % of the power, that of an ideal lens if the
/// job knows no more.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Verdict {
    /// Whether the drawing holds.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::outcome"))]
    pub outcome: Outcome,
    /// Why.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::reasons"))]
    pub reasons: Reasons,
    /// What an ideal lens makes of the beam.
    pub focus: Focus,
    /// What the real lens makes of it; none if the job takes its lens for ideal.
    pub real: Option<SingletFocus>,
    /// The outcome of the same job with its lens taken for ideal: what the ideal lens would have promised.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::outcome"))]
    pub promised: Outcome,
    /// Where the waist lies, from the datum of the surface.
    pub focus_from_datum: Offset,
    /// The depth of focus; none if even the waist is wider than the largest spot allowed.
    pub depth: Option<FocusRange>,
    /// The heights at which the finest stroke and gap both hold; none if even the waist loses them.
    pub detail_range: Option<FocusRange>,
    /// The heights at which the text keeps its grade; none if it does not even in the waist, or if the job has
    /// no text.
    pub text_range: Option<FocusRange>,
    /// Fill dose over the dose at which the material just marks.
    pub dose_ratio: f64,
    /// Dose of the scan in the waist; none if the job gives a ratio only.
    pub scan: Option<ScanDose>,
    /// Depth that an even fill digs at its mean dose, whatever the height; 0 if nothing marks; none for a coating or
    /// a melt, or if the job gives a ratio only.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length_or_none"))]
    pub fill_depth: Option<Length>,
    /// The place of the surface nearest the lens.
    pub highest: Place,
    /// The datum of the surface.
    pub datum: Place,
    /// The place of the surface farthest from the lens.
    pub lowest: Place,
    /// Where to put the waist, from the datum, so that the worst growth is least.
    pub best_focus_from_datum: Offset,
    /// Growth at both ends of the surface if focus is set there.
    pub best_worst_growth: f64,
    /// How much the verdict is worth: the level of [`Self::validity`].
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::level"))]
    pub level: Level,
    /// How far the numbers may be trusted: cones, aberration, clipping and focus shift.
    #[cfg_attr(
        feature = "serde",
        serde(rename = "cautions", serialize_with = "super::serde_text::cautions")
    )]
    pub validity: Validity,
}

pub(super) fn place(place: &check::Place) -> Place {
    Place {
        from_waist: Offset::from_metres(place.z_offset),
        spot: BeamWidth::computed(place.diameter),
        growth: place.growth,
        irradiance_ratio: place.irradiance_ratio,
        line_dose_ratio: place.line_dose_ratio,
        seen_spot: BeamWidth::computed(place.seen_diameter),
        smallest_stroke: place.smallest.map(|finest| length(finest.bar)),
        smallest_gap: place.smallest.map(|finest| length(finest.gap)),
        smallest_dot_diameter: place.smallest.map(|finest| length(finest.dot_diameter)),
        smallest_hole_diameter: place.smallest.map(|finest| length(finest.hole_diameter)),
        ripple_contrast: place.ripple_contrast,
        smallest_text: place.smallest_text.map(SmallestText::from_model),
        text_grade: place.text_grade,
        details_hold: place.details_hold,
        in_depth: place.in_depth,
    }
}

impl Verdict {
    /// `laser` and `clear_aperture` are those of the job.
    pub(super) fn from_model(
        verdict: &check::Verdict,
        laser: Laser,
        clear_aperture: Option<Aperture>,
    ) -> Self {
        let real = |focus| SingletFocus::from_model(focus, laser, clear_aperture);
        Self {
            outcome: verdict.outcome,
            reasons: verdict.reasons,
            focus: Focus::from_model(&verdict.focused),
            real: verdict.real.as_ref().map(real),
            promised: verdict.promised,
            focus_from_datum: Offset::from_metres(verdict.focus_z),
            depth: verdict.depth.map(FocusRange::from_model),
            detail_range: verdict.detail_range.map(FocusRange::from_model),
            text_range: verdict.text_range.map(FocusRange::from_model),
            dose_ratio: verdict.dose_ratio,
            scan: verdict.scan.as_ref().map(ScanDose::from_model),
            fill_depth: verdict.fill_depth.map(length),
            highest: place(&verdict.highest),
            datum: place(&verdict.datum),
            lowest: place(&verdict.lowest),
            best_focus_from_datum: Offset::from_metres(verdict.best_focus_z),
            best_worst_growth: verdict.best_worst_growth,
            level: verdict.validity.level(),
            validity: verdict.validity,
        }
    }
}
