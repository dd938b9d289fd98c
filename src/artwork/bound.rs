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
//! Many pixels beside edges stay undecided; where every centre-line is decided, the drawing holds without more work.
//! Specks count here as all other pixels: what holds by this holds without them too.

use crate::artwork::across::Nearest;
use crate::artwork::bitmap::{Bitmap, BitmapMut};
use crate::artwork::centre_line::{CentreSearch, Side, centre_line_words};
use crate::artwork::disc::{Disc, beyond_disc_where, disc_words, pixels_in_word};
use crate::artwork::distance::{Ruler, Square, same_size};
use crate::artwork::scan::WIDEST_INTERVAL;
use crate::artwork::watch::Watch;
use crate::artwork::workspace::Workspace;
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

/// How much of a drawing is decided without exposure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct BoundSummary {
    /// Pixels that are surely marked.
    pub marked: u64,
    /// Pixels that surely stay clear.
    pub clear: u64,
    /// All others.
    pub undecided: u64,
    /// Pixels in the middle of strokes that are not surely marked.
    pub doubtful_strokes: u64,
    /// Pixels in the middle of gaps that do not surely stay clear.
    pub doubtful_gaps: u64,
}

impl BoundSummary {
    /// Whether every stroke is surely marked and every gap surely stays open along its middle.
    ///
    /// "No" says nothing: centre-lines run into corners and into the steps of slanting edges too, and there no mark is
    /// sure, so that few drawings with corners hold by this alone.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.doubtful_strokes == 0 && self.doubtful_gaps == 0
    }
}

/// Radii of the discs that decide, with half a pixel's diagonal.
struct Radii {
    /// None: nothing is surely marked.
    mark: Option<f64>,
    /// None: nothing marks at all.
    clear: Option<f64>,
}

impl BoundInput<'_> {
    fn radii(&self) -> Result<Radii, Error> {
        check(Param::PitchX, self.pitch_x)?;
        check(Param::PitchY, self.pitch_y)?;
        check(Param::SpotDiameter, self.greatest_spot_diameter)?;
        let least = check(Param::AnyDoseRatio, self.least_dose_ratio)?;
        let (_, most) = Param::AnyDoseRatio.range();
        let greatest = check_within(Param::AnyDoseRatio, self.greatest_dose_ratio, least, most)?;
        let half_diagonal = 0.5 * math::sqrt(self.pitch_x * self.pitch_x + self.pitch_y * self.pitch_y);
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
    fn disc(&self, radius: f64) -> Option<Disc> {
        Disc::new(radius, self.pitch_x, self.pitch_y, Param::SpotDiameter).ok()
    }

    /// A ruler that reaches as far as the radius, and beyond it where edges are soft.
    fn ruler(&self, radius: f64) -> Result<Ruler, Error> {
        let reach = radius / math::lesser(self.pitch_x, self.pitch_y) + 3.0;
        Ruler::new(self.pitch_x, self.pitch_y, if reach < 255.0 { reach as u8 } else { u8::MAX })
    }
}

/// 64-bit words of room for [`quick_bound`] with one thread; with the feature `parallel`, as many threads work as the
/// room has whole shares of this length.
///
/// # Errors
/// As [`quick_bound`].
pub fn quick_bound_words(input: &BoundInput<'_>) -> Result<usize, Error> {
    let (width, height) = (input.ink.width(), input.ink.height());
    let radii = input.radii()?;
    let mut words = 0;
    for radius in [radii.mark, radii.clear] {
        if let Some(disc) = radius.and_then(|radius| input.disc(radius)) {
            words = words.max(disc_words(width, height, &disc));
        }
        words = words.max(centre_line_words(width, height, &input.ruler(radius.unwrap_or(0.0))?));
    }
    Ok(words)
}

/// Finds what is surely marked and what surely stays clear, and whether the drawing holds by that alone.
///
/// Sets the pixels of `marked` and of `clear`; none is in both. Outside the drawing there is no ink. Lines that lie apart
/// leave more undecided; from 1.25 of the least spot radius on nothing is surely marked. Where the spot is
/// so large that its disc would be more than 254 pixels in radius, nothing is decided.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number of the input, in the order of its fields;
/// [`Error::OutsideModel`] naming [`Param::LineInterval`] for lines farther apart than 2.5 of the least spot radius;
/// [`Error::LengthMismatch`] for masks of different sizes or less room than [`quick_bound_words`];
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
    let radii = input.radii()?;
    let mut part = watch.part(0.0, 0.2);
    match radii.mark.and_then(|radius| input.disc(radius)) {
        Some(disc) => beyond_disc_where(input.solid, Nearest::Clear, &disc, marked, room, &mut part)?,
        None => marked.words_mut().fill(0),
    }
    let mut part = watch.part(0.2, 0.4);
    match radii.clear.map(|radius| input.disc(radius)) {
        Some(Some(disc)) => beyond_disc_where(input.touched, Nearest::Set, &disc, clear, room, &mut part)?,
        Some(None) => clear.words_mut().fill(0),
        None => fill(clear, input.ink.width()),
    }
    let (marked, clear) = (marked.view(), clear.view());
    let doubtful_strokes =
        doubtful(input, Side::Ink, radii.mark.unwrap_or(0.0), marked, room, &mut watch.part(0.4, 0.7))?;
    let doubtful_gaps =
        doubtful(input, Side::Ground, radii.clear.unwrap_or(0.0), clear, room, &mut watch.part(0.7, 1.0))?;
    let pixels = (input.ink.width() * input.ink.height()) as u64;
    let (marked, clear) = (marked.count(), clear.count());
    // Masks that contradict each other may decide a pixel twice.
    let undecided = pixels.saturating_sub(marked).saturating_sub(clear);
    Ok(BoundSummary { marked, clear, undecided, doubtful_strokes, doubtful_gaps })
}

fn fill(mask: &mut BitmapMut<'_>, width: usize) {
    for row in mask.rows_mut() {
        for (index, word) in row.iter_mut().enumerate() {
            *word = pixels_in_word(width, index);
        }
    }
}

/// How many pixels in the middle of a side are not decided.
///
/// In the middle are those on the centre-line and those so far inside that they have none. The latter are decided too,
/// unless edges are so soft that the middle is far from what is ink all over, or bare.
fn doubtful(
    input: &BoundInput<'_>,
    side: Side,
    radius: f64,
    decided: Bitmap<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<u64, Error> {
    let ruler = input.ruler(radius)?;
    let search = CentreSearch { ink: input.ink, side, ruler };
    search.bands().read(room, watch, |wanted, room, watch| {
        let mut workspace = Workspace::new(room, search.words())?;
        let mut pixels = 0;
        if ruler.counts_pixels() {
            search.rows::<u16>(wanted, &mut workspace, watch, |y, line, squares| {
                pixels += doubtful_in_row(&search, y, line, squares, decided);
            })?;
        } else {
            search.rows::<f64>(wanted, &mut workspace, watch, |y, line, squares| {
                pixels += doubtful_in_row(&search, y, line, squares, decided);
            })?;
        }
        Ok(pixels)
    })
}

fn doubtful_in_row<S: Square>(
    search: &CentreSearch<'_>,
    y: usize,
    line: &[u64],
    squares: &[S],
    decided: Bitmap<'_>,
) -> u64 {
    let far = S::of_reach(&search.ruler);
    let mut pixels = 0;
    let words = line.iter().zip(search.ink.row(y)).zip(decided.row(y)).zip(squares.chunks(64)).enumerate();
    for (index, (((line, ink), decided), squares)) in words {
        let shape = match search.side {
            Side::Ink => *ink,
            Side::Ground => !ink & pixels_in_word(search.ink.width(), index),
        };
        pixels += u64::from((line & !decided).count_ones());
        let rest = shape & !line & !decided;
        if rest != 0 {
            let deep = squares
                .iter()
                .enumerate()
                .filter(|(place, square)| **square >= far && rest >> place & 1 == 1);
            pixels += deep.count() as u64;
        }
    }
    pixels
}
