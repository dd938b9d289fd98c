//! What a spot surely marks and what it surely leaves clear, from distances alone and without any exposure.
//!
//! | symbol | meaning                                                        | unit |
//! |--------|----------------------------------------------------------------|------|
//! | w      | greatest spot **radius** anywhere on the drawing, 1/e²         | m    |
//! | q      | dose ratio                                                     | 1    |
//! | a, b   | pitch of the pixels                                            | m    |
//! | d      | distance from the centre of a pixel to the nearest pixel of    | m    |
//! |        | the other kind, to its centre, less √(a² + b²)/2               |      |
//! | p, v   | line interval, least spot **radius** across the lines          | m    |
//! | s      | √(2/π)·p/v, the most that one line gives                       | 1    |
//!
//! A disc of ink of radius d around a point is exposed at least as much as that disc alone would be, a point in a bare
//! disc at most as much as in a hole of an endless fill:
//! surely marked where d > w·√(ln(q/(q − 1))/2), surely clear where d > w·√(ln(q)/2); these are the smallest dot and
//! hole of [`smallest_details`]. Derived here: no edge of a pixel is nearer than its centre less half its diagonal,
//! and both exposures of the disc get worse as w grows, so the greatest w serves for a surface of any shape.
//!
//! Holds for an even fill: where tilt changes the exposure, the least and the greatest dose ratio must say so.
//!
//! Of lines that lie apart, the disc gets p·Σf(yₙ) instead of ∫f(y)dy, where f is what a line at y gives through its
//! chord of the disc. As f rises up to the centre, falls behind it and nowhere exceeds √(2/π)/v, sum and integral differ by
//! s at the most, wherever the lines lie: beside each line but the middle one, an interval of the integral is greater, and
//! another is less. A wide fill is no stronger than its ripple r = [`raster_ripple`] says. So the bounds above hold with
//! 1/q + s in the place of 1/q for what is marked, and 1/q − s − r for what stays clear; where that is not between 0 and
//! 1, nothing is sure. From p = 1.25·v on no pixel is surely marked at any dose.
//!
//! Many pixels beside edges stay undecided. What follows for pieces, holes and strokes whatever becomes of these says
//! `artwork/between.rs`, and so whether the drawing holds without more work.

use crate::artwork::across::Nearest;
use crate::artwork::between::{Between, Doubts, Rulers};
use crate::artwork::bitmap::{Bitmap, BitmapMut};
use crate::artwork::disc::{Disc, beyond_disc_where, disc_words, pixels_in_word};
use crate::artwork::distance::{Ruler, same_size};
use crate::artwork::report::depth_ruler;
use crate::artwork::scan::WIDEST_INTERVAL;
use crate::artwork::watch::Watch;
use crate::error::{Error, Param, check, check_within};
use crate::model::mark::{raster_ripple, smallest_details};
use crate::model::math;

/// What bounds the exposure of a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoundInput<'m> {
    /// The pixels that count as ink when centre-lines are sought.
    pub ink: Bitmap<'m>,
    /// The pixels that are ink all over; with samples that are either ink or not the same as `ink`.
    pub solid: Bitmap<'m>,
    /// The pixels with any ink in them; with samples that are either ink or not the same as `ink`.
    pub touched: Bitmap<'m>,
    /// From pixel to pixel in metres, along a row.
    pub pitch_x: f64,
    /// From row to row in metres.
    pub pitch_y: f64,
    /// Greatest 1/e² **diameter** of the spot anywhere on the drawing, in metres.
    pub greatest_spot_diameter: f64,
    /// Least dose ratio anywhere on the drawing: dose in the middle of a wide fill over that at which it marks.
    pub least_dose_ratio: f64,
    /// Greatest dose ratio anywhere on the drawing, at least the least.
    pub greatest_dose_ratio: f64,
    /// From one scan line to the next in metres, at most 2.5 of the least spot **radius**; 0 for an even fill.
    pub line_interval: f64,
    /// Least 1/e² **diameter** of the spot across the lines anywhere on the drawing, in metres, at most the greatest; of
    /// an even fill it is not looked at.
    pub least_spot_diameter: f64,
}

/// What scan lines take from a disc, and add to what is around a bare one, at the most, as shares of full dose.
#[derive(Clone, Copy, PartialEq)]
struct Unevenness {
    less: f64,
    more: f64,
}

/// √(2/π).
const ROOT_TWO_OVER_PI: f64 = 0.797_884_560_802_865_4;

/// How much of a drawing is decided without exposure, and what stays in doubt.
///
/// Of "surely" every mark is meant that marks all of what is surely marked and nothing of what surely stays clear.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct BoundSummary {
    /// Pixels that are surely marked.
    pub marked: u64,
    /// Pixels that surely stay clear.
    pub clear: u64,
    /// All others.
    pub undecided: u64,
    /// Pixels in the middle of strokes.
    pub stroke_pixels: u64,
    /// Those that are not surely marked: over all of them, the greatest share of strokes' length that may be lost.
    pub doubtful_strokes: u64,
    /// Pixels in the middle of gaps.
    pub gap_pixels: u64,
    /// Those that do not surely stay clear.
    pub doubtful_gaps: u64,
    /// Pieces of the drawing.
    pub components: u32,
    /// Pieces of which no pixel is surely marked.
    pub components_maybe_lost: u32,
    /// Pieces whose surely marked pixels are in two parts or more.
    pub components_maybe_split: u32,
    /// Pieces of what does not surely stay clear that hold two pieces of the drawing or more: these may come to touch.
    pub components_maybe_merged: u32,
    /// Pieces of which less than half of the middle of strokes is surely marked.
    pub components_maybe_starved: u32,
    /// Holes of the drawing.
    pub holes: u32,
    /// Holes of which no pixel surely stays clear.
    pub holes_maybe_closed: u32,
    /// Holes that what is surely marked does not part from the outside.
    pub holes_maybe_opened: u32,
    /// Pixels of ink farther than the greatest spot **diameter**, and half a pixel's diagonal, from whatever is surely
    /// marked.
    pub far_ink: u64,
}

impl BoundSummary {
    /// Whether the drawing holds whatever becomes of the pixels that are not decided, but for specks beside edges.
    ///
    /// Then no piece is lost, none is starved, no two come to touch, no hole closes and none opens; and of each piece all
    /// that is surely marked hangs together. These are the findings that
    /// [`Report::holds`](super::Report::holds) asks for, all but one: what is surely marked does not show that no further
    /// speck of a piece comes out beside the rest of it, as a part of a split piece. Such a speck lies within a spot
    /// diameter of what is surely marked, and no pixel of it is surely marked. Specks of the ground are not spoken of.
    ///
    /// "No" says nothing: the spot may still do. A drawing without ink holds.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.components_maybe_lost == 0
            && self.components_maybe_split == 0
            && self.components_maybe_merged == 0
            && self.components_maybe_starved == 0
            && self.holes_maybe_closed == 0
            && self.holes_maybe_opened == 0
            && self.far_ink == 0
    }
}

/// The numbers of a [`BoundInput`].
#[derive(Clone, Copy)]
pub(crate) struct Light {
    pub(crate) pitch_x: f64,
    pub(crate) pitch_y: f64,
    pub(crate) greatest_spot_diameter: f64,
    pub(crate) least_dose_ratio: f64,
    pub(crate) greatest_dose_ratio: f64,
    pub(crate) line_interval: f64,
    pub(crate) least_spot_diameter: f64,
}

/// Radii of the discs that decide, with half a pixel's diagonal.
pub(crate) struct Radii {
    /// None: nothing is surely marked.
    pub(crate) mark: Option<f64>,
    /// None: nothing marks at all.
    pub(crate) clear: Option<f64>,
}

impl BoundInput<'_> {
    fn light(&self) -> Light {
        Light {
            pitch_x: self.pitch_x,
            pitch_y: self.pitch_y,
            greatest_spot_diameter: self.greatest_spot_diameter,
            least_dose_ratio: self.least_dose_ratio,
            greatest_dose_ratio: self.greatest_dose_ratio,
            line_interval: self.line_interval,
            least_spot_diameter: self.least_spot_diameter,
        }
    }
}

impl Light {
    pub(crate) fn radii(&self) -> Result<Radii, Error> {
        check(Param::PitchX, self.pitch_x)?;
        check(Param::PitchY, self.pitch_y)?;
        check(Param::SpotDiameter, self.greatest_spot_diameter)?;
        let least = check(Param::AnyDoseRatio, self.least_dose_ratio)?;
        let (_, most) = Param::AnyDoseRatio.range();
        let greatest = check_within(Param::AnyDoseRatio, self.greatest_dose_ratio, least, most)?;
        let half_diagonal = self.half_diagonal();
        let Unevenness { less, more } = self.unevenness()?;
        let (least, greatest) = if less > 0.0 {
            let beside = 1.0 / greatest - more;
            // No hole is so wide that it is sure to stay clear.
            (1.0 / (1.0 / least + less), if beside > 0.0 { 1.0 / beside } else { f64::INFINITY })
        } else {
            (least, greatest)
        };
        let (marks, most) = Param::DoseRatio.range();
        let details = |ratio| smallest_details(self.greatest_spot_diameter, ratio);
        let mark =
            if least >= marks { Some(0.5 * details(least)?.dot_diameter + half_diagonal) } else { None };
        let clear = if greatest > most {
            Some(f64::INFINITY)
        } else if greatest >= marks {
            Some(0.5 * details(greatest)?.hole_diameter + half_diagonal)
        } else if greatest >= 1.0 {
            Some(half_diagonal)
        } else {
            None
        };
        Ok(Radii { mark, clear })
    }

    fn half_diagonal(&self) -> f64 {
        0.5 * math::sqrt(self.pitch_x * self.pitch_x + self.pitch_y * self.pitch_y)
    }

    fn unevenness(&self) -> Result<Unevenness, Error> {
        let (lowest, most) = Param::LineInterval.range();
        let interval = check_within(Param::LineInterval, self.line_interval, 0.0, most)?;
        if interval == 0.0 {
            return Ok(Unevenness { less: 0.0, more: 0.0 });
        }
        check(Param::LineInterval, interval)?;
        let (finest, _) = Param::SpotDiameter.range();
        let diameter =
            check_within(Param::SpotDiameter, self.least_spot_diameter, finest, self.greatest_spot_diameter)?;
        let greatest = WIDEST_INTERVAL * 0.5 * diameter;
        if interval > greatest {
            let param = Param::LineInterval;
            return Err(Error::OutsideModel { param, value: interval, least: lowest, greatest });
        }
        let less = ROOT_TWO_OVER_PI * interval / (0.5 * diameter);
        Ok(Unevenness { less, more: less + (raster_ripple(diameter, interval)?.greatest_over_mean - 1.0) })
    }

    /// A disc of this radius; none if it is too large for any to be looked for.
    pub(crate) fn disc(&self, radius: f64) -> Option<Disc> {
        Disc::new(radius, self.pitch_x, self.pitch_y, Param::SpotDiameter).ok()
    }

    /// A ruler that reaches as far as the radius, and beyond it where edges are soft.
    fn ruler(&self, radius: f64) -> Result<Ruler, Error> {
        let reach = radius / math::lesser(self.pitch_x, self.pitch_y) + 3.0;
        Ruler::new(self.pitch_x, self.pitch_y, if reach < 255.0 { reach as u8 } else { u8::MAX })
    }

    fn rulers(&self, radii: &Radii) -> Result<Rulers, Error> {
        Ok(Rulers {
            strokes: depth_ruler(self.pitch_x, self.pitch_y)?,
            gaps: self.ruler(radii.clear.unwrap_or(0.0))?,
            beside: self.beside()?,
        })
    }

    /// Ink beyond this disc around it is far from the least mark.
    pub(crate) fn beside(&self) -> Result<Disc, Error> {
        // Where the disc would be too large, a smaller one finds more ink to be far.
        let widest = WIDEST_DISC * math::lesser(self.pitch_x, self.pitch_y);
        let beside = math::lesser(self.greatest_spot_diameter + self.half_diagonal(), widest);
        Disc::new(beside, self.pitch_x, self.pitch_y, Param::SpotDiameter)
    }
}

/// Pixels in the radius of the widest disc.
const WIDEST_DISC: f64 = 254.0;

/// 64-bit words of room that [`quick_bound`] needs for so many threads, at least one.
///
/// # Errors
/// As [`quick_bound`].
pub fn quick_bound_words(input: &BoundInput<'_>, threads: usize) -> Result<usize, Error> {
    let (width, height) = (input.ink.width(), input.ink.height());
    let light = input.light();
    let radii = light.radii()?;
    let rulers = light.rulers(&radii)?;
    let mut share = rulers.share_words(width, height);
    for radius in [radii.mark, radii.clear] {
        if let Some(disc) = radius.and_then(|radius| light.disc(radius)) {
            share = share.max(disc_words(width, height, &disc));
        }
    }
    Ok(rulers.words(width, height, share, threads))
}

/// Finds what is surely marked and what surely stays clear, and whether the drawing holds by that alone.
///
/// Sets the pixels of `marked` and of `clear`; none is in both. Outside the drawing there is no ink. Lines that lie apart
/// leave more undecided; from 1.25 of the least spot radius on nothing is surely marked. Where the spot is
/// so large that its disc would be more than 254 pixels in radius, nothing is decided.
///
/// The masks hold for exposures as they are; an [`exposure`](super::ExposurePlan::expose) map may be wrong by 5e-4 of
/// full dose, so that within that of the threshold its mark may differ.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number of the input, in the order of its fields;
/// [`Error::OutsideModel`] naming [`Param::LineInterval`] for lines farther apart than 2.5 of the least spot radius;
/// [`Error::LengthMismatch`] for masks of different sizes or less room than [`quick_bound_words`];
/// [`Error::OutOfRange`] naming [`Param::PixelRuns`] for a drawing that is too intricate;
/// [`Error::Stopped`] by the watch.
pub fn quick_bound(
    input: &BoundInput<'_>,
    marked: &mut BitmapMut<'_>,
    clear: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<BoundSummary, Error> {
    for mask in [input.solid, input.touched, marked.view(), clear.view()] {
        same_size(input.ink, mask)?;
    }
    let light = input.light();
    let radii = light.radii()?;
    let expected = quick_bound_words(input, 1)?;
    if room.len() < expected {
        return Err(Error::LengthMismatch { param: Param::Workspace, value: room.len(), expected });
    }
    let mut part = watch.part(0.0, 0.1);
    match radii.mark.and_then(|radius| light.disc(radius)) {
        Some(disc) => beyond_disc_where(input.solid, Nearest::Clear, &disc, marked, room, &mut part)?,
        None => marked.words_mut().fill(0),
    }
    let mut part = watch.part(0.1, 0.2);
    match radii.clear.map(|radius| light.disc(radius)) {
        Some(Some(disc)) => beyond_disc_where(input.touched, Nearest::Set, &disc, clear, room, &mut part)?,
        Some(None) => clear.words_mut().fill(0),
        None => fill(clear, input.ink.width()),
    }
    let between = Between { ink: input.ink, marked: marked.view(), clear: clear.view() };
    let Doubts { strokes, gaps, sure, possible, starved, far_ink } =
        between.doubts(&light.rulers(&radii)?, room, &mut watch.part(0.2, 1.0))?;
    let pixels = (input.ink.width() * input.ink.height()) as u64;
    let (marked, clear) = (marked.view().count(), clear.view().count());
    Ok(BoundSummary {
        marked,
        clear,
        // Masks that contradict each other may decide a pixel twice.
        undecided: pixels.saturating_sub(marked).saturating_sub(clear),
        stroke_pixels: strokes.pixels,
        doubtful_strokes: strokes.doubtful,
        gap_pixels: gaps.pixels,
        doubtful_gaps: gaps.doubtful,
        components: sure.components_drawing,
        components_maybe_lost: sure.components_lost,
        components_maybe_split: sure.components_split,
        components_maybe_merged: possible.components_merged,
        components_maybe_starved: starved,
        holes: sure.holes_drawing,
        holes_maybe_closed: possible.holes_closed,
        holes_maybe_opened: sure.holes_opened,
        far_ink,
    })
}

/// Sets every pixel.
pub(crate) fn fill(mask: &mut BitmapMut<'_>, width: usize) {
    for row in mask.rows_mut() {
        for (index, word) in row.iter_mut().enumerate() {
            *word = pixels_in_word(width, index);
        }
    }
}
