//! Whether a drawing survives its preflight, from distances alone, where these suffice to say so.
//!
//! | symbol  | meaning                                                                              | unit |
//! |---------|--------------------------------------------------------------------------------------|------|
//! | q       | dose ratio of the preflight                                                          | 1    |
//! | t       | least dose over the threshold dose that shows: that of [`Answer`](super::Answer)     | 1    |
//! | c       | factor of irradiance: the cosine of the incidence angle, or 1                        | 1    |
//! | w_x     | spot **radius** along the rows, blur included; w_y from row to row                   | m    |
//! | e       | 5e-4, by which an exposure map is off at the most                                    | 1    |
//! | f       | 3.2e-4, by which samples that are points may add up to more than full dose           | 1    |
//! | D       | ink of known height                                                                  |      |
//! | S, U, M | the least mark, the greatest mark, and the mark of the preflight: S ⊆ M ⊆ U          |      |
//!
//! The preflight marks a pixel where c·E ≥ t/q, E the exposure by the spot at that pixel. The bound of `artwork/bound.rs`
//! is asked with
//!
//! greatest spot radius: the greatest of w_x and w_y at any pixel
//! 1/(least dose ratio) = t/(q·c) + e for the least c of any pixel
//! 1/(greatest dose ratio) = t/(q·c) − e − f for the greatest c
//! lines as the scan has them, and the least w_y of any pixel
//!
//! and gives S and U of each pixel. Derived here, as are all of these steps:
//!
//! - A Gaussian of unequal radii leaves no more outside a disc than a round one with the greater of them: a wider spread
//!   along an axis takes every share of the dose farther out.
//! - Dose that is laid out in boxes of pixels is the integral over them: that is what the bound speaks of.
//! - Where samples are points, k pixels away get a share in proportion to exp(−2·k²/w′²), w′² = w² − ⅓, rather than the box's
//!   b(k) = ∫exp(−2·t²/w²)dt from k − ½ to k + ½. Their ratio falls as k grows: it is exp(−2·k²·(1/w′² − 1/w²)) over
//!   ∫exp(−2·t²/w²)·cosh(4·k·t/w²)dt from −½ to ½. So points leave no more than boxes do beyond any k, in both axes
//!   at once too, and the bound holds all the more. Not scaled to full dose, as those of the exposure in doubles are not, they
//!   add up to at most 1 + 2·exp(−π²·w′²/2) along each axis (Poisson's sum), 1 + 1.6e-4 from 1.5 pixels on: that is f.
//! - Along a scan line the same holds of the chord that a disc has there.
//! - A melt closes gaps of its mark. What closing makes of a greater mark holds all that it makes of a less one: S and U
//!   closed are the least and the greatest closed mark.
//! - Where the surface is known over the rectangle that the drawing covers, spots and slopes are bounded by the extremes there
//!   (`surface_extremes`) instead of those of all pixels; else each pixel is looked at, as for the preflight.
//! - Where the height is not known nothing is marked, and no ink counts; but its ink gives dose to what is around.
//!
//! What follows for pieces and holes of D, specks left out, whatever M is between S and U:
//!
//! | surely not so of M            | if not so of | surely so of M              | if so of |
//! |-------------------------------|--------------|-----------------------------|----------|
//! | a piece lost                  | S            | a piece lost                | U        |
//! | a piece starved               | S            | pieces merged               | S        |
//! | pieces merged                 | U            | a hole closed               | S        |
//! | a hole closed                 | U            | a hole opened               | U        |
//! | a hole opened                 | S            |                             |          |
//!
//! Besides, a piece is lost of which no pixel has enough ink around it: `artwork/too_little_ink.rs`.
//!
//! The left side is proven in `artwork/between.rs`. The right side is the same, read from the other end: each of these is so
//! of a mark if it is so of a greater one, or of a less one. That no piece is split is not shown, as is said there.
//!
//! Of a piece's centre-line S need not have all looked at. As far as a short ruler reaches it is known; if all that lies
//! deeper is in S, each run of it in a row has a pixel of the centre-line more that S marks (`least_middles`). What S does not
//! mark of the centre-line is all within the ruler's reach then, so that a piece can only seem to have less marked than it has.
//!
//! Centre-lines and what is far from S are looked for only where all else holds: a drawing that passes takes longest.

use super::across::Nearest;
use super::between::Between;
use super::bitmap::{Bitmap, BitmapMut};
use super::bound::{Light, Radii, fill};
use super::centre_line::Side;
use super::disc::{Disc, beyond_disc_where, closed, closed_words, disc_words, lost, pixels_in_word};
use super::drawing::TOUCHED;
use super::exposure::ExposurePlan;
use super::preflight::{Known, Preflight, PreflightPlan, starved};
use super::runs::rows_at_a_time;
use super::specks::sizes_words;
use super::strokes::{CentreShare, add_component_shares, least_middles, widths_words};
use super::too_little_ink::{Around, pieces_without_enough};
use super::topology::{Topology, compare, compare_words};
use super::watch::Watch;
use crate::error::{Error, Param};
use crate::model::math;

/// What distances alone say of a drawing. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum QuickVerdict {
    /// No piece is lost or starved, no two come to touch, no hole closes or opens. Not shown is that no further speck of a
    /// piece comes out beside the rest of it, as a part of a split piece: see [`QuickCounts::far_ink`]. Code 1.
    NothingAtRisk = 1,
    /// A piece is lost, two pieces come to touch, or a hole closes or opens: the drawing does not hold. Code 2.
    SomethingLost = 2,
    /// It is for the whole preflight to say. Code 3.
    Unsure = 3,
}

impl QuickVerdict {
    /// Every verdict, in the order of its code.
    pub const ALL: [Self; 3] = [Self::NothingAtRisk, Self::SomethingLost, Self::Unsure];

    /// Name, the same in documents and in the WebAssembly package.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::NothingAtRisk => "nothing at risk",
            Self::SomethingLost => "something lost",
            Self::Unsure => "unsure",
        }
    }
}

/// The light that bounds every exposure of a preflight; what a [`BoundInput`](super::BoundInput) takes, with what a map
/// may be off taken off the dose ratios.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct QuickLight {
    /// Greatest 1/e² **diameter** of the spot anywhere on the drawing and in either direction, in metres, blur included.
    pub greatest_spot_diameter: f64,
    /// Least 1/e² **diameter** of the spot across the rows, likewise.
    pub least_spot_diameter: f64,
    /// Least dose ratio, over the dose that shows.
    pub least_dose_ratio: f64,
    /// Greatest dose ratio.
    pub greatest_dose_ratio: f64,
    /// From one scan line to the next in metres; 0 for an even fill.
    pub line_interval: f64,
}

/// What is sure of pieces and holes, and what may be; specks are left out, and what lies where no height is known.
///
/// The least mark is looked at first, then the greatest, then what is far and what is starved. Where one of these leaves a
/// doubt that the next cannot take away, it is not looked at: what it would tell stays 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct QuickCounts {
    /// Pixels with ink where no height is known: nothing is said of them.
    pub unknown_ink_pixels: u64,
    /// Pixels of ink farther than the greatest spot **diameter**, and half a pixel's diagonal, from whatever is surely
    /// marked.
    pub far_ink: u64,
    /// Pieces of the drawing.
    pub components: u32,
    /// Pieces that are surely lost.
    pub components_lost: u32,
    /// Pieces that may be lost, those that surely are included, as in all that follow.
    pub components_maybe_lost: u32,
    /// Pieces whose surely marked pixels are in two parts or more.
    pub components_maybe_split: u32,
    /// Pieces of the least mark that join two pieces of the drawing or more: these surely come to touch.
    pub components_merged: u32,
    /// Pieces of the greatest mark that join two pieces of the drawing or more.
    pub components_maybe_merged: u32,
    /// Pieces of which less than half of the middle of strokes is surely marked.
    pub components_maybe_starved: u32,
    /// Holes of the drawing.
    pub holes: u32,
    /// Holes that surely close.
    pub holes_closed: u32,
    /// Holes that may close.
    pub holes_maybe_closed: u32,
    /// Holes that surely open to the outside.
    pub holes_opened: u32,
    /// Holes that may open.
    pub holes_maybe_opened: u32,
}

/// What distances alone say of a preflight: not what it finds, but whether all holds, where that is sure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct QuickAnswer {
    /// What is sure.
    pub verdict: QuickVerdict,
    /// Of what.
    pub counts: QuickCounts,
    /// By which light.
    pub light: QuickLight,
}

/// By so much of full dose an exposure map is off at the most: `tests/artwork/exposure_error.rs`.
const MAP_ERROR: f64 = 5e-4;
/// By so much points may add up to more than full dose.
const POINTS_EXCESS: f64 = 3.2e-4;

/// The discs that decide.
struct Discs {
    /// No dose suffices anywhere.
    nothing_marks: bool,
    /// None: nothing is surely marked.
    mark: Option<Disc>,
    /// None: nothing surely stays clear, unless nothing marks.
    clear: Option<Disc>,
    beside: Option<Disc>,
}

impl QuickCounts {
    fn verdict(&self) -> QuickVerdict {
        if self.components_lost + self.components_merged + self.holes_closed + self.holes_opened > 0 {
            QuickVerdict::SomethingLost
        } else if self.parts_hold() && self.components_maybe_starved == 0 && self.far_ink == 0 {
            QuickVerdict::NothingAtRisk
        } else {
            QuickVerdict::Unsure
        }
    }

    /// Whether pieces and holes hold, but for what is starved or far.
    fn parts_hold(&self) -> bool {
        self.components_maybe_lost == 0
            && self.components_maybe_split == 0
            && self.components_maybe_merged == 0
            && self.holes_maybe_closed == 0
            && self.holes_maybe_opened == 0
    }

    /// What is sure of pieces and holes by the least mark.
    fn of_least(sure: &Topology) -> Self {
        Self {
            components: sure.components_drawing,
            components_maybe_lost: sure.components_lost,
            components_maybe_split: sure.components_split,
            components_merged: sure.components_merged,
            holes: sure.holes_drawing,
            holes_closed: sure.holes_closed,
            holes_maybe_opened: sure.holes_opened,
            ..Self::default()
        }
    }

    fn add_greatest(&mut self, possible: &Topology) {
        self.components_lost = possible.components_lost;
        self.components_maybe_merged = possible.components_merged;
        self.holes_maybe_closed = possible.holes_closed;
        self.holes_opened = possible.holes_opened;
    }
}

impl Discs {
    fn of(light: &Light) -> Self {
        // Of a spot that the bound does not take nothing is sure.
        let radii = light.radii().unwrap_or(Radii { mark: None, clear: Some(f64::INFINITY) });
        Discs {
            nothing_marks: radii.clear.is_none(),
            mark: radii.mark.and_then(|radius| light.disc(radius)),
            clear: radii.clear.and_then(|radius| light.disc(radius)),
            beside: light.beside().ok(),
        }
    }

    fn all(&self) -> impl Iterator<Item = &Disc> {
        [&self.mark, &self.clear, &self.beside].into_iter().flatten()
    }
}

/// 64-bit words of room that [`quick_answer`] needs for so many threads, at least one.
///
/// # Errors
/// As [`PreflightPlan::new`].
pub fn quick_answer_words(
    preflight: &Preflight<'_>,
    threads: usize,
    watch: &mut Watch<'_>,
) -> Result<usize, Error> {
    Ok(plan(preflight, watch)?.quick_words(threads))
}

/// Whether a drawing survives, from distances alone and without any exposure: an answer at once where these suffice, and
/// [`QuickVerdict::Unsure`] where the whole preflight must tell.
///
/// It never contradicts [`PreflightPlan::run`]: where nothing is at risk, that reports no piece lost, starved or merged, and
/// no hole closed or opened; where something is lost, its report does not hold. Nothing is said of the grade, of the dose
/// window and of areas. What is several spot diameters wide passes; what is finer, or only just comes out, stays unsure.
/// Most of what is lost is lost by a little, and stays unsure too: what is told at once is that no ink gets enough dose, that a
/// small piece has too little ink around it, and that a melt closes a gap. What is proven, and how, says the table in the module of this function,
/// `artwork/quick_answer.rs`.
///
/// # Errors
/// As [`PreflightPlan::new`]; [`Error::LengthMismatch`] naming [`Param::Workspace`] for less room than
/// [`quick_answer_words`]; [`Error::OutOfRange`] naming [`Param::PixelRuns`] for a drawing that is too intricate;
/// [`Error::Stopped`].
pub fn quick_answer(
    preflight: &Preflight<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<QuickAnswer, Error> {
    plan(preflight, &mut watch.part(0.0, 0.05))?.answer_quickly(room, &mut watch.part(0.05, 1.0))
}

fn plan<'a>(preflight: &Preflight<'a>, watch: &mut Watch<'_>) -> Result<PreflightPlan<'a>, Error> {
    PreflightPlan::by(preflight, |drawing, exposing| ExposurePlan::unsurveyed(drawing, exposing, watch))
}

impl PreflightPlan<'_> {
    /// The light that bounds every exposure.
    fn quick_light(&self) -> QuickLight {
        let (spot, reach) = (&self.exposure.map.spot, &self.exposure.reach);
        let [along, across] = spot.blurred(reach.greatest);
        let [_, least_across] = spot.blurred(reach.least);
        let (least, _) = Param::AnyDoseRatio.range();
        // 1/(1/q − less), and no less than a dose ratio may be: below 1 nothing marks whatever it is.
        let ratio = |factor: f64, less: f64| {
            let shows = self.dose_ratio * factor / self.answer.least_dose();
            math::greater(shows / (1.0 - shows * less), least)
        };
        QuickLight {
            greatest_spot_diameter: 2.0 * math::greater(along, across),
            least_spot_diameter: 2.0 * least_across,
            least_dose_ratio: ratio(reach.least_factor, -MAP_ERROR),
            greatest_dose_ratio: ratio(reach.greatest_factor, MAP_ERROR + POINTS_EXCESS),
            line_interval: spot.line_interval(),
        }
    }

    /// What bounds the exposure by the ink around.
    fn around(&self) -> Around {
        let (spot, reach) = (&self.exposure.map.spot, &self.exposure.reach);
        // Wide enough anywhere to be laid out as a point, a spot may be so at its least.
        let (least, greatest) = (spot.radii(reach.least), spot.radii(reach.greatest));
        Around {
            pitch: [self.drawing.pitch_x, self.drawing.pitch_y],
            least_radius: spot.blurred(reach.least),
            greatest_radius: spot.blurred(reach.greatest),
            points: [least.point_along || greatest.point_along, least.point_across || greatest.point_across],
            line_interval: spot.line_interval(),
            lines_alike: spot.lines.is_none_or(|lines| lines.alike_in_all_rows()),
            shows: 1.0 / self.quick_light().greatest_dose_ratio,
        }
    }

    fn bound_light(&self) -> Light {
        let light = self.quick_light();
        Light {
            pitch_x: self.drawing.pitch_x,
            pitch_y: self.drawing.pitch_y,
            greatest_spot_diameter: light.greatest_spot_diameter,
            least_dose_ratio: light.least_dose_ratio,
            greatest_dose_ratio: light.greatest_dose_ratio,
            line_interval: light.line_interval,
            least_spot_diameter: light.least_spot_diameter,
        }
    }

    fn quick_words(&self, threads: usize) -> usize {
        let (width, height) = self.size();
        let threads = threads.max(1);
        let share = Discs::of(&self.bound_light())
            .all()
            .map(|disc| disc_words(width, height, disc))
            .fold(widths_words(width, height, &self.long), usize::max);
        let closing = self.bridge.as_ref().map_or(0, |disc| closed_words(width, height, disc));
        let working = share
            .saturating_mul(threads)
            // Ink and ground are compared side by side.
            .max(compare_words(width, height) * threads.min(2))
            .max(sizes_words(width, height))
            .max(closing);
        (self.known_words() + 3 * self.mask_words()).saturating_add(working)
    }

    fn answer_quickly(&self, room: &mut [u64], watch: &mut Watch<'_>) -> Result<QuickAnswer, Error> {
        let (value, expected) = (room.len(), self.quick_words(1));
        if value < expected {
            return Err(Error::LengthMismatch { param: Param::Workspace, value, expected });
        }
        let discs = Discs::of(&self.bound_light());
        let (width, height) = self.size();
        let (own, room) = room.split_at_mut(self.known_words());
        let (surely, room) = room.split_at_mut(self.mask_words());
        let (perhaps, room) = room.split_at_mut(self.mask_words());
        let (spare, room) = room.split_at_mut(self.mask_words());
        let mut surely = BitmapMut::new(surely, width, height)?;
        let mut perhaps = BitmapMut::new(perhaps, width, height)?;
        let mut spare = BitmapMut::new(spare, width, height)?;
        let mut known = self.know(own, room, &mut watch.part(0.0, 0.15))?;

        self.least_mark(&discs, &known, [&mut surely, &mut spare], room, &mut watch.part(0.15, 0.3))?;
        let sure = compare(&known.parts, &surely.view(), room, &mut [], &mut watch.part(0.3, 0.4))?;
        let mut counts = QuickCounts::of_least(&sure);
        counts.unknown_ink_pixels = self.exposure.ink_spots().unknown_ink_pixels;
        // All ink is in the greatest mark if anything is: that loses no piece, and opens no hole.
        if counts.parts_hold() || discs.nothing_marks {
            let (marks, part) = ([&mut perhaps, &mut spare], &mut watch.part(0.4, 0.6));
            self.greatest_mark(&discs, &known, marks, room, part)?;
            let (perhaps, part) = (perhaps.view(), &mut watch.part(0.6, 0.7));
            counts.add_greatest(&compare(&known.parts, &perhaps, room, &mut [], part)?);
        } else if counts.components_maybe_lost > 0 && self.bridge.is_none() {
            // A bridge could mark what has too little ink itself.
            let part = &mut watch.part(0.4, 0.5);
            self.drawing.level_in_bands(TOUCHED, &mut spare, room, part)?;
            let (around, part) = (self.around(), &mut watch.part(0.5, 1.0));
            counts.components_lost =
                pieces_without_enough(&around, &mut known, surely.view(), spare.view(), part)?;
        }
        if counts.parts_hold() {
            let (far, part) = (&mut spare, &mut watch.part(0.7, 0.8));
            counts.far_ink = far_ink(&discs, &mut known, surely.view(), far, room, part)?;
        }
        if counts.parts_hold() && counts.far_ink == 0 {
            let (surely, part) = (surely.view(), &mut watch.part(0.8, 1.0));
            counts.components_maybe_starved = self.starved_in_least(&mut known, surely, room, part)?;
        }
        Ok(QuickAnswer { verdict: counts.verdict(), counts, light: self.quick_light() })
    }

    /// Pieces of which less than half of the middle of strokes is surely marked.
    fn starved_in_least(
        &self,
        known: &mut Known<'_>,
        surely: Bitmap<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<u32, Error> {
        // What is deep is marked, and seldom need be looked at as closely as what is not.
        let (centres, part) = (&mut known.centres, &mut watch.part(0.0, 0.2));
        let bare = least_middles(known.ink, surely, &self.short, centres, room, part)?;
        if bare == 0 && starved(known, surely, &mut watch.part(0.2, 0.3))? == 0 {
            return Ok(0);
        }
        let between = Between { ink: known.ink, marked: surely, clear: surely };
        let (side, centres, part) = (Side::Ink, &mut known.centres, &mut watch.part(0.3, 0.9));
        between.middles(side, self.long, centres, room, part)?;
        starved(known, surely, &mut watch.part(0.9, 1.0))
    }

    fn least_mark(
        &self,
        discs: &Discs,
        known: &Known<'_>,
        [mark, spare]: [&mut BitmapMut<'_>; 2],
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        let Some(disc) = &discs.mark else {
            mark.words_mut().fill(0);
            return Ok(());
        };
        self.drawing.level_in_bands(self.drawing.solid_level(), spare, room, &mut watch.part(0.0, 0.2))?;
        beyond_disc_where(spare.view(), Nearest::Clear, disc, mark, room, &mut watch.part(0.2, 0.6))?;
        self.close_gaps(known, mark, spare, room, &mut watch.part(0.6, 1.0))
    }

    fn greatest_mark(
        &self,
        discs: &Discs,
        known: &Known<'_>,
        [mark, spare]: [&mut BitmapMut<'_>; 2],
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        if discs.nothing_marks {
            mark.words_mut().fill(0);
            return Ok(());
        }
        if let Some(disc) = &discs.clear {
            self.drawing.level_in_bands(TOUCHED, spare, room, &mut watch.part(0.0, 0.2))?;
            beyond_disc_where(spare.view(), Nearest::Set, disc, mark, room, &mut watch.part(0.2, 0.6))?;
            for row in mark.rows_mut() {
                for (index, word) in row.iter_mut().enumerate() {
                    *word = !*word & pixels_in_word(self.drawing.width, index);
                }
            }
        } else {
            fill(mark, self.drawing.width);
        }
        self.close_gaps(known, mark, spare, room, &mut watch.part(0.6, 1.0))
    }

    /// Closes what a melt closes, and takes out what has no known height, as the preflight does.
    fn close_gaps(
        &self,
        known: &Known<'_>,
        mark: &mut BitmapMut<'_>,
        spare: &mut BitmapMut<'_>,
        room: &mut [u64],
        watch: &mut Watch<'_>,
    ) -> Result<(), Error> {
        take_out(mark, known.unknown);
        if let Some(bridge) = &self.bridge {
            spare.words_mut().copy_from_slice(mark.view().words());
            closed(spare.view(), bridge, mark, room, watch)?;
            take_out(mark, known.unknown);
        }
        Ok(())
    }
}

fn take_out(mask: &mut BitmapMut<'_>, out: Bitmap<'_>) {
    for (word, out) in mask.words_mut().iter_mut().zip(out.words()) {
        *word &= !out;
    }
}

/// Pixels of pieces, specks left out, that are far from the least mark; all of them if no disc is so large.
fn far_ink(
    discs: &Discs,
    known: &mut Known<'_>,
    surely: Bitmap<'_>,
    far: &mut BitmapMut<'_>,
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<u64, Error> {
    let ink = known.ink;
    match &discs.beside {
        Some(disc) => lost(ink, surely, disc, far, room, &mut watch.part(0.0, 0.9))?,
        None => far.words_mut().copy_from_slice(ink.words()),
    }
    if far.view().words().iter().all(|word| *word == 0) {
        return Ok(0);
    }
    known.shares.fill(CentreShare::default());
    let watch = &mut watch.part(0.9, 1.0);
    let piece = rows_at_a_time(ink.width());
    for first in (0..ink.height()).step_by(piece) {
        for y in first..ink.height().min(first + piece) {
            let runs = known.parts.ink.row(y).map(|run| (run.start, run.end, run.label));
            let far = far.view();
            add_component_shares(far.row(y), far.row(y), runs, known.shares);
        }
        watch.done(first as f64 / ink.height() as f64)?;
    }
    Ok(known.shares.iter().map(|share| u64::from(share.pixels)).sum())
}
