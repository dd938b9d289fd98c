//! A series of test pieces at stepped heights, planned before anything is burnt.
//!
//! | symbol | meaning                                                             | unit |
//! |--------|---------------------------------------------------------------------|------|
//! | z_R    | Rayleigh range of the expected beam                                 | m    |
//! | z₀, U  | where focus is expected, and how far off it may be, either way      | m    |
//! | s, H   | step from height to height, and half of the range                   | m    |
//! | N      | steps on either side of z₀; the series has 2N + 1 heights           | 1    |
//! | q, n   | dose ratio in focus, and 2 for pulses, 1 for lines                  | 1    |
//! | z_c    | offset at which the mark vanishes, z_R·√(q^(2/n) − 1)               | m    |
//! | b      | backlash of the axis                                                | m    |
//!
//! widths or ranks:      s = 0.4·z_R, H = 2·z_R + U: eleven heights where focus is known
//! vanishing marks:      s = z_c/4, H = 1.5·z_c + U: thirteen
//! N = H/s rounded up, at least 2; a step is rounded to whole steps of the axis
//! heights z₀ + i·s, i = −N … N: an odd number, so that a piece stands where focus is expected, with as many on either
//! side of it; it is also the one that is engraved again to reveal a drift
//!
//! Beyond 2 z_R on either side a series of eleven widths gains little (the project's own physics paper); the step and
//! range of vanishing marks are our choice, so that two heights lie beyond either end. What the caller gives goes
//! before.
//!
//! **Order.** The axis sweeps one way, so that its backlash is taken up once: every piece is approached in the
//! direction of the sweep, the first of it, and every repeat, from 2·b before its height (our choice).
//!
//! **Drift.** Two heights are engraved before the sweep and again after it: expected focus, and the
//! farthest within a Rayleigh range away from it. [`series_drift`] compares them. In focus the width hardly reacts to height, whatever the
//! drift of the axis, but to dose; on the flank it reacts to both. A repeat in focus alone would not see a height that
//! drifts. Marks that vanish have no width; their series repeats expected focus only, to show that the laser still
//! marks.
//!
//! **Skipped heights.** A height is left out, and says why, where the head would come closer to the piece than the
//! least clearance, where it is beyond the travel of the axis, or where no room is left to approach it. With fewer
//! than two steps left on one side the plan is refused.
//!
//! **Layout.** Pieces stand in rows in the order in which they are engraved, the height printed below each. x goes to
//! the right, y up, from the lower left corner of the whole.
//!
//! Not modelled: how long a piece takes, and heat that the pieces before leave behind.

use crate::error::{Error, Param, check, check_within, within_model};
use crate::model::mark::MarkKind;
use crate::model::math;
use crate::model::optics::{Beam, checked_beam};
use crate::model::surface::{fits, parts_fitting, parts_needed};
use crate::model::twofold::Twofold;
use crate::validity::Validity;
use core::f64::consts::SQRT_2;

/// Least number of steps that must be left on either side of expected focus.
const LEAST_STEPS: u32 = 2;

/// What a series is engraved for.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum SeriesPurpose {
    /// To measure widths, or to rank pieces by eye. Code 1.
    Widths,
    /// To see where marks of little power vanish. Code 2.
    Vanishing {
        /// What the pieces are made of.
        kind: MarkKind,
        /// Dose in focus over threshold dose, as expected; 1.2 to 2 is best.
        dose_ratio: f64,
    },
}

impl SeriesPurpose {
    /// Permanent number of this purpose, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Widths => 1,
            Self::Vanishing { .. } => 2,
        }
    }

    /// The purpose with this permanent code; only vanishing marks read their kind and dose ratio.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The dose ratio is checked when it is used.
    pub fn from_code(code: u32, kind: u32, dose_ratio: f64) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Widths),
            2 => Ok(Self::Vanishing { kind: MarkKind::from_code(kind)?, dose_ratio }),
            value => Err(Error::UnknownChoice { param: Param::SeriesPurpose, value }),
        }
    }
}

/// Which way the axis sweeps. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[repr(u32)]
pub enum SweepDirection {
    /// From the height nearest the lens on.
    AwayFromLens = 1,
    /// From the height farthest from the lens on.
    TowardLens = 2,
}

impl SweepDirection {
    /// Both directions, in the order of their codes.
    pub const ALL: [Self; 2] = [Self::AwayFromLens, Self::TowardLens];

    /// The direction with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|direction| *direction as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::SweepDirection, value: code })
    }

    /// +1 where heights grow along the sweep.
    const fn sign(self) -> f64 {
        match self {
            Self::AwayFromLens => 1.0,
            Self::TowardLens => -1.0,
        }
    }
}

/// What the axis and the head allow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesAxis {
    /// Smallest step of the axis in metres; 0 if it takes any height.
    pub axis_step: f64,
    /// Backlash of the axis in metres; 0 for none.
    pub backlash: f64,
    /// Which way to sweep.
    pub direction: SweepDirection,
    /// From the lowest part of the head to a piece in expected focus, in metres.
    pub clearance: f64,
    /// What must be left of it over any piece, in metres.
    pub least_clearance: f64,
    /// How far pieces can move from expected focus toward the lens, in metres; infinite if that is no limit.
    pub travel_toward_lens: f64,
    /// How far they can move away from the lens, likewise.
    pub travel_away_from_lens: f64,
}

/// Sizes of the pieces and their labels, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceLayout {
    /// Width of a piece.
    pub piece_width: f64,
    /// Height of a piece on the drawing.
    pub piece_height: f64,
    /// Width of the room for a label.
    pub label_width: f64,
    /// Height of the room for a label.
    pub label_height: f64,
    /// What is left free between a piece, its label and its neighbours.
    pub gap: f64,
    /// Greatest width of a row; infinite for one row.
    pub row_width: f64,
}

/// What a series is to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesRequest {
    /// What it is engraved for.
    pub purpose: SeriesPurpose,
    /// Where focus is expected, in metres from the caller's datum, + away from the lens.
    pub expected_focus_z: f64,
    /// How far focus may be from there, in metres, either way.
    pub focus_uncertainty: f64,
    /// Step from height to height in metres; 0 to have it chosen.
    pub step: f64,
    /// Half of the range in metres; 0 to have it chosen.
    pub half_range: f64,
    /// What the axis and the head allow.
    pub axis: SeriesAxis,
    /// Sizes on the drawing.
    pub layout: PieceLayout,
}

/// Why a piece is in a series. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum PieceRole {
    /// A height of the sweep.
    Sweep = 1,
    /// Engraved before the sweep, to reveal drift.
    FirstRepeat = 2,
    /// The same after the sweep.
    LastRepeat = 3,
}

/// Why a height is left out. Codes are permanent; 0 stands for one that is not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum SkipReason {
    /// The head would come closer than the least clearance.
    TooNearHead = 1,
    /// Beyond the travel toward the lens.
    BeyondTravelTowardLens = 2,
    /// Beyond the travel away from the lens.
    BeyondTravelAwayFromLens = 3,
    /// No room to approach it in the direction of the sweep.
    NoRoomToApproach = 4,
}

impl SkipReason {
    /// Every reason, in the order of its code.
    pub const ALL: [Self; 4] = [
        Self::TooNearHead,
        Self::BeyondTravelTowardLens,
        Self::BeyondTravelAwayFromLens,
        Self::NoRoomToApproach,
    ];

    /// One sentence, with what would bring the height back.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::TooNearHead => {
                "The head would come too close to the piece: raise the nozzle or the head, or make the range shorter."
            }
            Self::BeyondTravelTowardLens => {
                "The axis does not reach so far toward the lens: pack the piece up."
            }
            Self::BeyondTravelAwayFromLens => {
                "The axis does not reach so far away from the lens: use a thinner piece or support."
            }
            Self::NoRoomToApproach => {
                "There is no room to approach it from outside: sweep the other way, or reduce the backlash."
            }
        }
    }
}

/// One piece of a planned series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlannedPiece {
    /// Its height in metres from the caller's datum, + away from the lens.
    pub z: f64,
    /// Where the axis is to be before it goes to that height, in metres; of a piece that follows another one in the
    /// sweep the height of that; not a number for a piece that is left out.
    pub approach_z: f64,
    /// Why it is in the series.
    pub role: PieceRole,
    /// Why it is left out; none if it is engraved.
    pub skipped: Option<SkipReason>,
    /// Lower left corner of the piece, in metres; not a number, as the next, for a piece that is left out.
    pub x: f64,
    /// The same, upward.
    pub y: f64,
    /// Lower left corner of the room for its label, in metres.
    pub label_x: f64,
    /// The same, upward.
    pub label_y: f64,
}

impl PlannedPiece {
    /// What stands in an array before it is filled.
    pub const BLANK: Self = Self {
        z: f64::NAN,
        approach_z: f64::NAN,
        role: PieceRole::Sweep,
        skipped: None,
        x: f64::NAN,
        y: f64::NAN,
        label_x: f64::NAN,
        label_y: f64::NAN,
    };

    /// The height as it is printed below the piece.
    #[must_use]
    pub fn label(&self) -> HeightLabel {
        HeightLabel::of(self.z)
    }
}

/// Text of a height: millimetres with three decimals and a sign, such as `+0.400`.
///
/// ```
/// use spotwise::model::learn::HeightLabel;
/// assert_eq!(HeightLabel::of(0.4e-3).as_str(), "+0.400");
/// assert_eq!(HeightLabel::of(-12.3456e-3).as_str(), "-12.346");
/// assert_eq!(HeightLabel::of(1e-9).as_str(), "0.000");
/// assert_eq!(HeightLabel::of(f64::NAN).as_str(), "");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HeightLabel {
    /// The text stands at the end.
    digits: [u8; Self::ROOM],
    start: usize,
}

impl HeightLabel {
    /// The longest text: seven digits before the point, three behind it, and a sign.
    pub const ROOM: usize = 12;

    /// The text of this height in metres; empty for what is no height of up to 1000 m.
    #[must_use]
    pub fn of(z: f64) -> Self {
        let micrometres = math::round(math::fabs(z) * 1e6);
        let mut label = Self { digits: [b'0'; Self::ROOM], start: Self::ROOM };
        if micrometres.is_nan() || micrometres > 1e9 {
            return label;
        }
        // At most 1e9, which a u32 holds.
        let mut rest = micrometres as u32;
        for _ in 0..3 {
            rest = label.put_digit(rest);
        }
        label.put(b'.');
        rest = label.put_digit(rest);
        while rest > 0 {
            rest = label.put_digit(rest);
        }
        if micrometres > 0.0 {
            label.put(if z < 0.0 { b'-' } else { b'+' });
        }
        label
    }

    /// Puts the last digit before the text so far; what is left of the number.
    fn put_digit(&mut self, number: u32) -> u32 {
        self.put(b'0' + (number % 10) as u8);
        number / 10
    }

    fn put(&mut self, byte: u8) {
        self.start = self.start.saturating_sub(1);
        if let Some(place) = self.digits.get_mut(self.start) {
            *place = byte;
        }
    }

    /// The text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        self.digits.get(self.start..).and_then(|text| core::str::from_utf8(text).ok()).unwrap_or("")
    }
}

/// A planned series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesPlan {
    /// Step from height to height in metres.
    pub step: f64,
    /// Steps on either side of expected focus, skipped ones among them.
    pub steps_per_side: u32,
    /// Half of the range in metres: so many steps.
    pub half_range: f64,
    /// Steps that are engraved on the side toward the lens.
    pub steps_toward_lens: u32,
    /// Steps that are engraved on the side away from the lens.
    pub steps_away_from_lens: u32,
    /// Pieces in all, skipped ones among them: as many entries has the list.
    pub pieces: u32,
    /// Pieces that are engraved.
    pub engraved: u32,
    /// From how far before its height the first piece of the sweep, and every repeat, is approached, in metres.
    pub pre_travel: f64,
    /// Rayleigh range of the expected beam in metres.
    pub rayleigh_range: f64,
    /// How far from focus the mark is expected to vanish, in metres; none unless that is what the series is for.
    pub vanishing_offset: Option<f64>,
    /// Pieces in a full row.
    pub columns: u32,
    /// Rows.
    pub rows: u32,
    /// Width of the whole drawing in metres.
    pub width: f64,
    /// Height of the whole drawing in metres.
    pub height: f64,
    /// Half angle of the cone of the expected beam, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// A height as steps from expected focus, with what the axis does there.
struct Checked<'a> {
    request: &'a SeriesRequest,
    step: f64,
    steps: u32,
    pre_travel: Twofold,
    rayleigh_range: Twofold,
}

impl Checked<'_> {
    fn z(&self, steps: f64) -> Twofold {
        Twofold::from(self.request.expected_focus_z) + Twofold::product(steps, self.step)
    }

    /// Why a height so many steps from expected focus is left out, if it is.
    fn skipped(&self, steps: f64) -> Option<SkipReason> {
        let axis = &self.request.axis;
        let away = Twofold::product(steps, self.step);
        let head_room = Twofold::sum(axis.clearance, -axis.least_clearance);
        let reaches = |part: Twofold, travel: f64| {
            travel == f64::INFINITY || fits(part.to_f64(), Twofold::from(travel))
        };
        let fits_at = |away: Twofold| {
            if !fits((-away).to_f64(), head_room) {
                Some(SkipReason::TooNearHead)
            } else if !reaches(-away, axis.travel_toward_lens) {
                Some(SkipReason::BeyondTravelTowardLens)
            } else if !reaches(away, axis.travel_away_from_lens) {
                Some(SkipReason::BeyondTravelAwayFromLens)
            } else {
                None
            }
        };
        let approach = away - Twofold::from(axis.direction.sign()) * self.pre_travel;
        fits_at(away).or(fits_at(approach).map(|_| SkipReason::NoRoomToApproach))
    }

    /// How many steps are left on a side; its heights next to focus are kept, if any is.
    fn steps_left(&self, side: f64) -> u32 {
        let mut left = 0;
        for i in 1..=self.steps {
            if self.skipped(side * f64::from(i)).is_some() {
                break;
            }
            left = i;
        }
        left
    }
}

/// Where the pieces stand on the drawing.
struct Rows<'a> {
    layout: &'a PieceLayout,
    columns: u32,
    rows: u32,
}

impl Rows<'_> {
    fn cell_width(&self) -> f64 {
        math::greater(self.layout.piece_width, self.layout.label_width)
    }

    /// From one column to the next.
    fn column_pitch(&self) -> Twofold {
        Twofold::sum(self.cell_width(), self.layout.gap)
    }

    /// From one row to the next.
    fn row_pitch(&self) -> Twofold {
        let gaps = Twofold::product(2.0, self.layout.gap);
        Twofold::sum(self.layout.piece_height, self.layout.label_height) + gaps
    }

    /// Corners of the piece at this place, and of its label.
    fn corners(&self, place: u32) -> [f64; 4] {
        let PieceLayout { piece_width, label_width, label_height, gap, .. } = *self.layout;
        let (row, column) = (place / self.columns.max(1), place % self.columns.max(1));
        let left = Twofold::from(f64::from(column)) * self.column_pitch();
        let low = Twofold::from(f64::from(self.rows.saturating_sub(row + 1))) * self.row_pitch();
        let centred = |width: f64| left + Twofold::from(0.5) * Twofold::sum(self.cell_width(), -width);
        [
            centred(piece_width).to_f64(),
            (low + Twofold::sum(label_height, gap)).to_f64(),
            centred(label_width).to_f64(),
            low.to_f64(),
        ]
    }
}

/// A number that 0 leaves to the plan.
fn check_or_chosen(param: Param, value: f64) -> Result<Option<f64>, Error> {
    if value == 0.0 { Ok(None) } else { check(param, value).map(Some) }
}

/// A length of which infinity says that there is no limit.
fn check_or_endless(param: Param, value: f64) -> Result<f64, Error> {
    if value == f64::INFINITY { Ok(value) } else { check(param, value) }
}

fn check_layout(layout: &PieceLayout) -> Result<(), Error> {
    for size in [layout.piece_width, layout.piece_height, layout.label_width, layout.label_height] {
        check(Param::PieceSize, size)?;
    }
    check(Param::PieceGap, layout.gap)?;
    let cell = math::greater(layout.piece_width, layout.label_width);
    if layout.row_width != f64::INFINITY {
        let (_, greatest) = Param::RowWidth.range();
        check_within(Param::RowWidth, layout.row_width, cell, greatest)?;
    }
    Ok(())
}

/// Plans a series of test pieces at stepped heights.
///
/// `beam` is the one that is expected; that of a lens and a rough beam is what
/// [`focus_through_lens`](crate::model::optics::focus_through_lens) makes of them. `pieces` is filled in the order in
/// which they are engraved, those that are left out among them; ask first, with an empty slice, how many there are.
/// What is longer stays [`PlannedPiece::BLANK`], and so is all of it on any error. What is chosen and why is told in
/// the [module](self).
///
/// Accuracy: heights, approaches, sizes and places at most 0.75 ulp, counted from the step as it is rounded
/// (`tests/vectors/plan_series.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for the beam, then the dose ratio, expected focus, its uncertainty
/// ([`Param::SetUpTolerance`]), step, half range, then the axis from its step to its travel, then the layout; a
/// row must hold at least one piece and its label. [`Error::OutsideModel`] for fewer than 2 or more than 120 steps on
/// either side ([`Param::StepsPerSide`]: make the step greater or the range less), for heights beyond 1 km, for a
/// chosen step below 1 nm, and where fewer than two steps are left on one side ([`Param::StepsTowardLens`],
/// [`Param::StepsAwayFromLens`]: take smaller steps, or make room there). [`Error::LengthMismatch`] for a slice that
/// is too short, naming what is needed ([`Param::PlannedPieces`]).
///
/// # Example
/// ```
/// use spotwise::model::learn::{
///     PieceLayout, PieceRole, PlannedPiece, SeriesAxis, SeriesPurpose, SeriesRequest, SkipReason, SweepDirection,
///     plan_series,
/// };
/// use spotwise::model::optics::Beam;
/// // z_R = π·(30 µm)²/(1.2·1.064 µm) = 2.2145 mm: steps of 0.4·z_R = 0.8858 mm, 0.9 mm on an axis of 0.1 mm.
/// let beam = Beam { wavelength: 1.064e-6, m2: 1.2, waist_diameter: 60e-6 };
/// let request = SeriesRequest {
///     purpose: SeriesPurpose::Widths,
///     expected_focus_z: 0.0,
///     focus_uncertainty: 0.0,
///     step: 0.0,
///     half_range: 0.0,
///     axis: SeriesAxis {
///         axis_step: 0.1e-3,
///         backlash: 0.05e-3,
///         direction: SweepDirection::AwayFromLens,
///         clearance: 6e-3,
///         least_clearance: 2e-3,
///         travel_toward_lens: f64::INFINITY,
///         travel_away_from_lens: f64::INFINITY,
///     },
///     layout: PieceLayout {
///         piece_width: 8e-3, piece_height: 8e-3, label_width: 8e-3, label_height: 2e-3, gap: 2e-3,
///         row_width: f64::INFINITY,
///     },
/// };
/// let mut pieces = [PlannedPiece::BLANK; 15];
/// let plan = plan_series(&beam, &request, &mut pieces)?;
/// // 2·z_R make five steps of 0.9 mm; 4 mm of room over the highest piece hold four of them.
/// assert_eq!((plan.steps_per_side, plan.steps_toward_lens, plan.steps_away_from_lens), (5, 4, 5));
/// assert_eq!((plan.pieces, plan.engraved), (15, 14));
/// assert_eq!(pieces[0].role, PieceRole::FirstRepeat);
/// assert_eq!((pieces[2].z * 1e7).round(), -45_000.0);
/// assert_eq!(pieces[2].skipped, Some(SkipReason::TooNearHead));
/// assert_eq!((pieces[3].z * 1e7).round(), -36_000.0);
/// assert_eq!((pieces[3].approach_z * 1e7).round(), -37_000.0); // twice the backlash before
/// assert_eq!(pieces[3].label().as_str(), "-3.600");
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn plan_series(
    beam: &Beam,
    request: &SeriesRequest,
    pieces: &mut [PlannedPiece],
) -> Result<SeriesPlan, Error> {
    pieces.fill(PlannedPiece::BLANK);
    request.plan(beam, pieces.len(), |place, piece| {
        if let Some(out) = pieces.get_mut(place) {
            *out = piece;
        }
    })
}

impl SeriesRequest {
    /// As [`plan_series`], which tells each piece with its place in the order instead of filling an array: room for
    /// `room` of them, none if that is 0. On any error no piece is told.
    ///
    /// # Errors
    /// As [`plan_series`].
    pub fn plan(
        &self,
        beam: &Beam,
        room: usize,
        each: impl FnMut(usize, PlannedPiece),
    ) -> Result<SeriesPlan, Error> {
        plan(beam, self, room, each)
    }
}

fn plan(
    beam: &Beam,
    request: &SeriesRequest,
    room: usize,
    each: impl FnMut(usize, PlannedPiece),
) -> Result<SeriesPlan, Error> {
    let checked_beam = checked_beam(beam)?;
    let rayleigh_range = checked_beam.rayleigh_range;
    let vanishing_offset = match request.purpose {
        SeriesPurpose::Widths => None,
        SeriesPurpose::Vanishing { kind, dose_ratio } => {
            let q = check(Param::DoseRatio, dose_ratio)?;
            let less_one = Twofold::sum(q, -1.0);
            let beyond = match kind {
                MarkKind::Pulse => less_one,
                MarkKind::Line => less_one * Twofold::sum(q, 1.0),
            };
            Some(rayleigh_range * beyond.square_root())
        }
    };
    check(Param::FocusZ, request.expected_focus_z)?;
    let uncertainty = check(Param::SetUpTolerance, request.focus_uncertainty)?;
    let step = check_or_chosen(Param::SeriesStep, request.step)?;
    let half_range = check_or_chosen(Param::SeriesHalfRange, request.half_range)?;
    let axis = &request.axis;
    let axis_step = check_or_chosen(Param::AxisStep, axis.axis_step)?;
    check(Param::AxisBacklash, axis.backlash)?;
    check(Param::WorkingDistance, axis.clearance)?;
    check(Param::LeastClearance, axis.least_clearance)?;
    check_or_endless(Param::AxisTravel, axis.travel_toward_lens)?;
    check_or_endless(Param::AxisTravel, axis.travel_away_from_lens)?;
    check_layout(&request.layout)?;

    let (usual_step, usual_range) = match vanishing_offset {
        None => {
            (rayleigh_range * Twofold::from(2.0) / Twofold::from(5.0), Twofold::from(2.0) * rayleigh_range)
        }
        Some(offset) => (Twofold::from(0.25) * offset, Twofold::from(1.5) * offset),
    };
    let step = step.unwrap_or(usual_step.to_f64());
    let step = match axis_step {
        Some(axis_step) => math::greater(math::round(step / axis_step), 1.0) * axis_step,
        None => step,
    };
    within_model(Param::SeriesStep, step)?;
    let half_range = half_range.map_or(usual_range + Twofold::from(uncertainty), Twofold::from);
    let steps = parts_needed(Param::StepsPerSide, half_range / Twofold::from(step))?.max(LEAST_STEPS);
    let series =
        Checked { request, step, steps, pre_travel: Twofold::product(2.0, axis.backlash), rayleigh_range };
    for side in [-1.0, 1.0] {
        within_model(Param::PieceHeight, series.z(side * f64::from(steps)).to_f64())?;
    }
    let left = [(-1.0, Param::StepsTowardLens), (1.0, Param::StepsAwayFromLens)].map(|(side, param)| {
        let left = series.steps_left(side);
        within_model(param, f64::from(left)).map(|_| left)
    });
    let [toward, away] = left;
    let (toward, away) = (toward?, away?);
    lay_out(&series, (toward, away), vanishing_offset, room, each).map(|plan| SeriesPlan {
        half_angle: checked_beam.cone.half_angle,
        validity: checked_beam.cone.validity,
        ..plan
    })
}

fn lay_out(
    series: &Checked<'_>,
    (toward, away): (u32, u32),
    vanishing_offset: Option<Twofold>,
    room: usize,
    mut each: impl FnMut(usize, PlannedPiece),
) -> Result<SeriesPlan, Error> {
    // The flank only where there is a width to compare.
    let rayleigh_steps = parts_fitting(series.rayleigh_range / Twofold::from(series.step), series.steps);
    let flank = f64::from(rayleigh_steps.min(away));
    let repeats = if vanishing_offset.is_some() { 1 } else { 2 };
    let heights = 2 * series.steps + 1;
    let count = heights + 2 * repeats;
    let engraved = toward + away + 1 + 2 * repeats;
    if room > 0 && room < count as usize {
        let expected = count as usize;
        return Err(Error::LengthMismatch { param: Param::PlannedPieces, value: room, expected });
    }
    let layout = &series.request.layout;
    let mut rows = Rows { layout, columns: engraved, rows: 1 };
    if layout.row_width != f64::INFINITY {
        let fitting = Twofold::sum(layout.row_width, layout.gap) / rows.column_pitch();
        rows.columns = parts_fitting(fitting, engraved);
        rows.rows = engraved.div_ceil(rows.columns.max(1));
    }

    let sign = series.request.axis.direction.sign();
    let (mut place, mut before) = (0, None);
    for number in 0..if room > 0 { count } else { 0 } {
        let in_sweep = number.checked_sub(repeats).filter(|number| *number < heights);
        let (steps, role) = match in_sweep {
            Some(number) => (sign * (f64::from(number) - f64::from(series.steps)), PieceRole::Sweep),
            None => {
                let is_first = number < repeats;
                let of_pair = if is_first { number } else { number - repeats - heights };
                let role = if is_first { PieceRole::FirstRepeat } else { PieceRole::LastRepeat };
                (if of_pair == 0 { 0.0 } else { flank }, role)
            }
        };
        let z = series.z(steps);
        let skipped = series.skipped(steps);
        let mut piece = PlannedPiece { z: z.to_f64(), role, skipped, ..PlannedPiece::BLANK };
        if skipped.is_none() {
            let from_outside = (z - Twofold::from(sign) * series.pre_travel).to_f64();
            piece.approach_z = before.filter(|_| role == PieceRole::Sweep).unwrap_or(from_outside);
            before = (role == PieceRole::Sweep).then_some(piece.z);
            [piece.x, piece.y, piece.label_x, piece.label_y] = rows.corners(place);
            place += 1;
        }
        each(number as usize, piece);
    }
    let gap = Twofold::from(layout.gap);
    Ok(SeriesPlan {
        step: series.step,
        steps_per_side: series.steps,
        half_range: f64::from(series.steps) * series.step,
        steps_toward_lens: toward,
        steps_away_from_lens: away,
        pieces: count,
        engraved,
        pre_travel: series.pre_travel.to_f64(),
        rayleigh_range: series.rayleigh_range.to_f64(),
        vanishing_offset: vanishing_offset.map(Twofold::to_f64),
        columns: rows.columns,
        rows: rows.rows,
        width: (Twofold::from(f64::from(rows.columns)) * rows.column_pitch() - gap).to_f64(),
        height: (Twofold::from(f64::from(rows.rows)) * rows.row_pitch() - gap).to_f64(),
        half_angle: f64::NAN,
        validity: Validity::default(),
    })
}

/// A height that was engraved before and after a sweep, as it was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RepeatedWidth {
    /// Width of the mark before the sweep, in metres.
    pub first_width: f64,
    /// Standard deviation of that, in metres.
    pub first_deviation: f64,
    /// Width of the mark after the sweep, in metres.
    pub last_width: f64,
    /// Standard deviation of that, in metres.
    pub last_deviation: f64,
}

/// What two repeats of one height say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesDrift {
    /// Last width less first, in metres.
    pub change: f64,
    /// Its standard deviation in metres.
    pub change_deviation: f64,
    /// Change over its deviation.
    pub significance: f64,
    /// The chance of a change so great either way, were there no drift.
    pub chance: f64,
    /// Whether that is less than 1 − coverage probability.
    pub drifted: bool,
}

/// Whether something drifted in the course of a series, from a height that was engraved before and after it.
///
/// In focus a change tells of dose: power, speed, material. On the flank, about a Rayleigh range off, it tells of
/// height as well, of which focus tells next to nothing. Who sees no drift in focus but one on the flank has an axis
/// or a part that moved, by about change over slope of the width there; who sees both cannot tell them apart.
/// The deviations are taken for known and the errors for normal: change over deviation is then normal.
///
/// Accuracy: change at most 0.75 ulp, its deviation 2, their quotient 3; the chance 3 ulp times (1 + quotient²)
/// (`tests/vectors/series_drift.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a width or deviation, in their order, then for the coverage
/// probability.
///
/// # Example
/// ```
/// use spotwise::model::learn::{RepeatedWidth, series_drift};
/// let repeats = RepeatedWidth {
///     first_width: 60e-6, first_deviation: 3e-6, last_width: 70e-6, last_deviation: 4e-6,
/// };
/// let drift = series_drift(&repeats, 0.95)?;
/// // 10 µm over √(3² + 4²) = 5 µm: two deviations, with a chance of 4.55 %.
/// assert_eq!((drift.significance * 1e9).round(), 2e9);
/// assert_eq!((drift.chance * 1e4).round(), 455.0);
/// assert!(drift.drifted);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn series_drift(repeats: &RepeatedWidth, coverage_probability: f64) -> Result<SeriesDrift, Error> {
    let first = check(Param::MarkWidth, repeats.first_width)?;
    let first_deviation = check(Param::WidthDeviation, repeats.first_deviation)?;
    let last = check(Param::MarkWidth, repeats.last_width)?;
    let last_deviation = check(Param::WidthDeviation, repeats.last_deviation)?;
    let p = check(Param::CoverageProbability, coverage_probability)?;
    let change = last - first;
    let change_deviation = math::sqrt(first_deviation * first_deviation + last_deviation * last_deviation);
    let significance = change / change_deviation;
    let chance = math::erfc(math::fabs(significance) / SQRT_2);
    Ok(SeriesDrift { change, change_deviation, significance, chance, drifted: chance < 1.0 - p })
}
