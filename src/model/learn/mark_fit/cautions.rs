//! What to beware of, and which further marks would help.

use super::outliers::Standing;
use super::series::Series;
use super::{Mark, MarkFit, WidthScatter};
use crate::flags::flags;
use crate::model::learn::bias::LARGE;
use crate::model::math;

/// A χ² that is met less often than this is not met by chance.
const LEAST_CHANCE: f64 = 0.01;
/// From this relative deviation on the waist diameter is weakly known.
const WEAK_SIZE: f64 = 0.2;
/// From this share of the Rayleigh range on the deviation of z₀ is large: a third of the half depth of focus in which
/// the spot grows by 10 %.
const WEAK_PLACE: f64 = 0.15;

/// What to beware of in a [`MarkFit`]; bits are permanent and the same on every face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[must_use = "a caution that nobody reads helps nobody"]
pub struct MarkFitCautions(u32);

flags!(MarkFitCautions);

impl MarkFitCautions {
    /// Marks were left out as outliers.
    pub const OUTLIERS: Self = Self(1);
    /// The marks scatter more than is stated: a χ² so great is met in less than 1 % of cases.
    pub const SCATTER: Self = Self(2);
    /// M² lies below 1 by more than its range: these are not widths of such marks, or wavelength, scale or kind are
    /// wrong.
    pub const M2_BELOW_ONE: Self = Self(4);
    /// Spot and dose are hard to tell apart: the waist diameter is known to 20 % at best, or the law is so bent that the
    /// values of the sizes are rough (T beyond ½, see [`fit_mark_widths`](super::fit_mark_widths)). Their ranges hold what
    /// they promise, and may be open.
    pub const WEAK_SIZE: Self = Self(8);
    /// The deviation of the height of the waist exceeds 0.15 Rayleigh ranges.
    pub const WEAK_PLACE: Self = Self(16);
    /// Another waist, farther off than two deviations, fits about as well (χ² less than 4 above, over χ²/ν where that exceeds 1).
    pub const SECOND_SOLUTION: Self = Self(32);
    /// Fewer than two used heights lie beyond the waist on one of its sides.
    pub const ONE_SIDED: Self = Self(64);

    /// Every flag, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 7] = [
        (Self::OUTLIERS, "Marks were left out as outliers."),
        (Self::SCATTER, "The marks scatter more than their stated deviations allow."),
        (
            Self::M2_BELOW_ONE,
            "M squared comes out clearly below 1: wavelength, scale or kind of the marks are wrong, or they heat and melt.",
        ),
        (
            Self::WEAK_SIZE,
            "Spot and dose are hard to tell apart: read the ranges of the sizes rather than their values.",
        ),
        (Self::WEAK_PLACE, "The height of the waist is uncertain by more than 0.15 Rayleigh ranges."),
        (Self::SECOND_SOLUTION, "A waist at another height fits the marks about as well."),
        (Self::ONE_SIDED, "Fewer than two heights lie beyond the waist on one side."),
    ];
}

/// Which further marks would make a [`MarkFit`] better; bits are permanent and the same on every face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct FurtherMarks(u32);

flags!(FurtherMarks);

impl FurtherMarks {
    /// At heights nearer to the lens.
    pub const TOWARD_LENS: Self = Self(1);
    /// At heights farther from the lens.
    pub const AWAY_FROM_LENS: Self = Self(2);
    /// At the same heights with twice the power: they tell the spot from the dose.
    pub const TWICE_THE_POWER: Self = Self(4);
    /// With less power, or out to where the marks vanish: they tell the height of the waist.
    pub const UNTIL_THEY_VANISH: Self = Self(8);
    /// The marks left out, once more.
    pub const REPEATS: Self = Self(16);

    /// Every flag, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 5] = [
        (Self::TOWARD_LENS, "Add marks at heights nearer to the lens."),
        (Self::AWAY_FROM_LENS, "Add marks at heights farther from the lens."),
        (Self::TWICE_THE_POWER, "Mark the same heights again at twice the power, or give M squared."),
        (Self::UNTIL_THEY_VANISH, "Mark with less power, or at heights out to where the marks vanish."),
        (Self::REPEATS, "Mark those heights again that were left out."),
    ];
}

/// Gives the fit what there is to beware of, and which further marks would help.
pub(super) fn beware(
    fit: &mut MarkFit,
    series: &Series<'_, impl Fn(usize) -> Mark>,
    standing: &Standing,
    scatter: WidthScatter,
    bend: f64,
) {
    let [waist, ..] = standing.least.at;
    let (mut before, mut beyond) = (0_u32, 0_u32);
    for (_, mark) in series.used() {
        if mark.height < waist {
            before = before.saturating_add(1);
        } else if mark.height > waist {
            beyond = beyond.saturating_add(1);
        }
    }
    let second = standing.second.is_some_and(|other| {
        let [place, ..] = other.at;
        let above = 2.0 * other.local.value - fit.chi_squared;
        let away = series.law.reach * math::fabs(place - waist);
        above < 4.0 * standing.excess() && math::fabs(place) <= 1.0 && away > 2.0 * fit.waist_z.deviation
    });
    let left_out = series.used.iter().any(|used| !used);
    let weak_size = fit.waist_diameter.deviation > WEAK_SIZE * fit.waist_diameter.value || bend > LARGE;
    let weak_place = fit.waist_z.deviation > WEAK_PLACE * fit.rayleigh_range.value;
    let scatters = scatter == WidthScatter::Stated && fit.chance < LEAST_CHANCE;
    let cautions = &mut fit.cautions;
    cautions.add(MarkFitCautions::OUTLIERS, left_out);
    cautions.add(MarkFitCautions::SCATTER, scatters);
    cautions.add(MarkFitCautions::M2_BELOW_ONE, fit.m2.greatest < 1.0);
    cautions.add(MarkFitCautions::WEAK_SIZE, weak_size);
    cautions.add(MarkFitCautions::WEAK_PLACE, weak_place);
    cautions.add(MarkFitCautions::SECOND_SOLUTION, second);
    cautions.add(MarkFitCautions::ONE_SIDED, before < 2 || beyond < 2);
    let further = &mut fit.further;
    further.add(FurtherMarks::TOWARD_LENS, before < 2);
    further.add(FurtherMarks::AWAY_FROM_LENS, beyond < 2);
    further.add(FurtherMarks::TWICE_THE_POWER, weak_size);
    further.add(FurtherMarks::UNTIL_THEY_VANISH, weak_place || second);
    further.add(FurtherMarks::REPEATS, left_out);
}
