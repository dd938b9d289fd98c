//! A series of test pieces, planned; and its drift.

use super::beam::Beam;
use super::offset::Offset;
use super::{angle, length};
use crate::error::Error;
use crate::model::learn::{self, HeightLabel, PieceRole, SkipReason, SweepDirection};
use crate::model::mark::MarkKind;
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// What a series is engraved for.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum SeriesPurpose {
    /// To measure widths, or to rank pieces by eye.
    Widths,
    /// To see where marks of little power vanish.
    Vanishing {
        /// What the pieces are made of.
        kind: MarkKind,
        /// Dose in focus over threshold dose, as expected; 1.2 to 2 is best.
        dose_ratio: f64,
    },
}

/// What the axis and the head allow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesAxis {
    /// Smallest step of the axis, 1 nm to 1 m; none if it takes any height.
    pub axis_step: Option<Length>,
    /// Backlash of the axis, up to 1 m.
    pub backlash: Length,
    /// Which way to sweep.
    pub direction: SweepDirection,
    /// From the lowest part of the head to a piece in expected focus.
    pub clearance: Length,
    /// What must be left of it over any piece.
    pub least_clearance: Length,
    /// How far pieces can move from expected focus toward the lens; none if that is no limit.
    pub travel_toward_lens: Option<Length>,
    /// How far they can move away from the lens, likewise.
    pub travel_away_from_lens: Option<Length>,
}

/// Sizes of the pieces and their labels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceLayout {
    /// Width of a piece.
    pub piece_width: Length,
    /// Height of a piece on the drawing.
    pub piece_height: Length,
    /// Width of the room for a label.
    pub label_width: Length,
    /// Height of the room for a label.
    pub label_height: Length,
    /// What is left free between a piece, its label and its neighbours.
    pub gap: Length,
    /// Greatest width of a row; none for one row.
    pub row_width: Option<Length>,
}

/// What a series is to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesRequest {
    /// What it is engraved for.
    pub purpose: SeriesPurpose,
    /// Where focus is expected, from the caller's datum.
    pub expected_focus: Offset,
    /// How far focus may be from there, either way.
    pub focus_uncertainty: Length,
    /// Step from height to height; none to have it chosen.
    pub step: Option<Length>,
    /// Half of the range; none to have it chosen.
    pub half_range: Option<Length>,
    /// What the axis and the head allow.
    pub axis: SeriesAxis,
    /// Sizes on the drawing.
    pub layout: PieceLayout,
}

impl SeriesRequest {
    fn as_model(&self) -> learn::SeriesRequest {
        let chosen = |length: Option<Length>| length.map_or(0.0, |length| length.value);
        let endless = |length: Option<Length>| length.map_or(f64::INFINITY, |length| length.value);
        let (axis, layout) = (&self.axis, &self.layout);
        learn::SeriesRequest {
            purpose: match self.purpose {
                SeriesPurpose::Widths => learn::SeriesPurpose::Widths,
                SeriesPurpose::Vanishing { kind, dose_ratio } => {
                    learn::SeriesPurpose::Vanishing { kind, dose_ratio }
                }
            },
            expected_focus_z: self.expected_focus.metres(),
            focus_uncertainty: self.focus_uncertainty.value,
            step: chosen(self.step),
            half_range: chosen(self.half_range),
            axis: learn::SeriesAxis {
                axis_step: chosen(axis.axis_step),
                backlash: axis.backlash.value,
                direction: axis.direction,
                clearance: axis.clearance.value,
                least_clearance: axis.least_clearance.value,
                travel_toward_lens: endless(axis.travel_toward_lens),
                travel_away_from_lens: endless(axis.travel_away_from_lens),
            },
            layout: learn::PieceLayout {
                piece_width: layout.piece_width.value,
                piece_height: layout.piece_height.value,
                label_width: layout.label_width.value,
                label_height: layout.label_height.value,
                gap: layout.gap.value,
                row_width: endless(layout.row_width),
            },
        }
    }
}

/// A place on the drawing of a series, from its lower left corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawingPlace {
    /// To the right.
    pub x: Length,
    /// Upward.
    pub y: Length,
}

/// Where the axis goes for a piece, and where it stands on the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EngravedPiece {
    /// Where the axis is to be before it goes to the height of the piece; of a piece that follows another one in the
    /// sweep the height of that.
    pub approach: Offset,
    /// Lower left corner of the piece.
    pub corner: DrawingPlace,
    /// Lower left corner of the room for its label.
    pub label_corner: DrawingPlace,
}

/// One piece of a planned series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlannedPiece {
    /// Its height from the caller's datum.
    pub height: Offset,
    /// Why it is in the series.
    pub role: PieceRole,
    /// How it is engraved, or why it is left out.
    pub engraved: Result<EngravedPiece, SkipReason>,
}

impl PlannedPiece {
    /// The height as it is printed below the piece.
    #[must_use]
    pub fn label(&self) -> HeightLabel {
        HeightLabel::of(self.height.metres())
    }

    fn from_model(piece: &learn::PlannedPiece) -> Self {
        let place = |x, y| DrawingPlace { x: length(x), y: length(y) };
        Self {
            height: Offset::from_metres(piece.z),
            role: piece.role,
            engraved: match piece.skipped {
                Some(reason) => Err(reason),
                None => Ok(EngravedPiece {
                    approach: Offset::from_metres(piece.approach_z),
                    corner: place(piece.x, piece.y),
                    label_corner: place(piece.label_x, piece.label_y),
                }),
            },
        }
    }
}

/// A planned series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesPlan {
    /// Step from height to height.
    pub step: Length,
    /// Steps on either side of expected focus, skipped ones among them.
    pub steps_per_side: u32,
    /// Half of the range: so many steps.
    pub half_range: Length,
    /// Steps that are engraved on the side toward the lens.
    pub steps_toward_lens: u32,
    /// Steps that are engraved on the side away from the lens.
    pub steps_away_from_lens: u32,
    /// Pieces in all, skipped ones among them.
    pub pieces: usize,
    /// Pieces that are engraved.
    pub engraved: u32,
    /// From how far before its height the first piece of the sweep, and every repeat, is approached.
    pub pre_travel: Length,
    /// Rayleigh range of the expected beam.
    pub rayleigh_range: Length,
    /// How far from focus the mark is expected to vanish; none unless that is what the series is for.
    pub vanishing_offset: Option<Length>,
    /// Pieces in a full row.
    pub columns: u32,
    /// Rows.
    pub rows: u32,
    /// Width of the whole drawing.
    pub width: Length,
    /// Height of the whole drawing.
    pub height: Length,
    /// Half angle of the cone of the expected beam.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl Beam {
    /// Plans a series of test pieces for this beam, as it is expected. As
    /// [`model::learn::plan_series`](crate::model::learn::plan_series); `each` is told every piece in the order in
    /// which they are engraved, those that are left out among them.
    ///
    /// # Errors
    /// As there: [`Error::OutsideModel`] for too many steps or where too few are left on one side. Then no piece is
    /// told.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{
    ///     Beam, BeamParts, BeamWidth, Offset, PieceLayout, SeriesAxis, SeriesPurpose, SeriesRequest, SweepDirection,
    /// };
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(1.064),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(um(60.0))?,
    /// })?;
    /// let request = SeriesRequest {
    ///     purpose: SeriesPurpose::Widths,
    ///     expected_focus: Offset::ZERO,
    ///     focus_uncertainty: mm(0.0),
    ///     step: None,
    ///     half_range: None,
    ///     axis: SeriesAxis {
    ///         axis_step: Some(mm(0.1)),
    ///         backlash: mm(0.05),
    ///         direction: SweepDirection::AwayFromLens,
    ///         clearance: mm(6.0),
    ///         least_clearance: mm(2.0),
    ///         travel_toward_lens: None,
    ///         travel_away_from_lens: None,
    ///     },
    ///     layout: PieceLayout {
    ///         piece_width: mm(8.0),
    ///         piece_height: mm(8.0),
    ///         label_width: mm(8.0),
    ///         label_height: mm(2.0),
    ///         gap: mm(2.0),
    ///         row_width: None,
    ///     },
    /// };
    /// let mut labels = Vec::new();
    /// let plan = beam.plan_series(&request, |piece| {
    ///     if piece.engraved.is_ok() {
    ///         labels.push(piece.label().as_str().to_owned());
    ///     }
    /// })?;
    /// // z_R = π·(30 µm)²/(1.2·1.064 µm) = 2.2145 mm, of which 0.4 are 0.886 mm.
    /// assert_eq!((plan.step.value * 1e7).round(), 9000.0);
    /// assert_eq!(labels[..4], ["0.000", "+1.800", "-3.600", "-2.700"]); // -4.5 mm would be too near the head
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn plan_series(
        &self,
        request: &SeriesRequest,
        mut each: impl FnMut(PlannedPiece),
    ) -> Result<SeriesPlan, Error> {
        let tell = |_, piece| each(PlannedPiece::from_model(&piece));
        let plan = request.as_model().plan(self.as_model(), usize::MAX, tell)?;
        Ok(SeriesPlan {
            step: length(plan.step),
            steps_per_side: plan.steps_per_side,
            half_range: length(plan.half_range),
            steps_toward_lens: plan.steps_toward_lens,
            steps_away_from_lens: plan.steps_away_from_lens,
            pieces: plan.pieces as usize,
            engraved: plan.engraved,
            pre_travel: length(plan.pre_travel),
            rayleigh_range: length(plan.rayleigh_range),
            vanishing_offset: plan.vanishing_offset.map(length),
            columns: plan.columns,
            rows: plan.rows,
            width: length(plan.width),
            height: length(plan.height),
            half_angle: angle(plan.half_angle),
            validity: plan.validity,
        })
    }
}

/// A width with its standard deviation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredWidth {
    /// Width of a mark.
    pub width: Length,
    /// Its standard deviation.
    pub deviation: Length,
}

/// What two repeats of one height say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesDrift {
    /// Last width less first; negative where marks became narrower.
    pub change: Length,
    /// Its standard deviation.
    pub change_deviation: Length,
    /// Change over its deviation.
    pub significance: f64,
    /// The chance of a change so great either way, were there no drift.
    pub chance: f64,
    /// Whether that is less than 1 − coverage probability.
    pub drifted: bool,
}

/// Whether something drifted in the course of a series, from a height that was engraved before and after it. As
/// [`model::learn::series_drift`](crate::model::learn::series_drift).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a width, a deviation or the coverage probability.
///
/// # Example
/// ```
/// use spotwise::units::um;
/// use spotwise::{MeasuredWidth, series_drift};
/// let first = MeasuredWidth { width: um(60.0), deviation: um(3.0) };
/// let last = MeasuredWidth { width: um(70.0), deviation: um(4.0) };
/// let drift = series_drift(first, last, 0.95)?;
/// assert_eq!((drift.chance * 1e4).round(), 455.0); // two deviations of √(3² + 4²) µm
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn series_drift(
    first: MeasuredWidth,
    last: MeasuredWidth,
    coverage_probability: f64,
) -> Result<SeriesDrift, Error> {
    let repeats = learn::RepeatedWidth {
        first_width: first.width.value,
        first_deviation: first.deviation.value,
        last_width: last.width.value,
        last_deviation: last.deviation.value,
    };
    let drift = learn::series_drift(&repeats, coverage_probability)?;
    Ok(SeriesDrift {
        change: length(drift.change),
        change_deviation: length(drift.change_deviation),
        significance: drift.significance,
        chance: drift.chance,
        drifted: drift.drifted,
    })
}
