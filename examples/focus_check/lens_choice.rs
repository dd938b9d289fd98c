//! Which lens: the heights are those of the part, the tolerance is a stack of what its set-up may be off by.

use crate::job_file::LengthField;
use crate::report::{distance, mm, percent, um};
use serde::Deserialize;
use spotwise::uom::si::f64::Length;
use spotwise::{
    Calibration, Contribution, Distribution, Error, Job, JobLens, LensCandidate, LensChoice, LensRanking,
    Offset, SetUp, SurfaceExtent, ToleranceSource, ToleranceStack, tolerance_stack,
};
use std::fmt::{self, Write};

/// The lenses to choose from, and the set-up, as the file says it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChoiceText {
    lenses: Vec<LensText>,
    least_clearance: LengthField,
    tolerance: ToleranceText,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LensText {
    lens: JobLens,
    working_distance: LengthField,
}

/// What the set-up may be off by: one contribution or more, and how many of all cases they are to cover.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ToleranceText {
    coverage_probability: f64,
    contributions: Vec<ContributionText>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ContributionText {
    source: SourceText,
    strays: DistributionText,
    mean: Option<Offset>,
}

#[derive(Deserialize, Clone, Copy)]
enum SourceText {
    #[serde(rename = "part bow")]
    PartBow,
    #[serde(rename = "thickness")]
    Thickness,
    #[serde(rename = "fixture")]
    Fixture,
    #[serde(rename = "lens change")]
    LensChange,
    #[serde(rename = "height gauge")]
    HeightGauge,
    #[serde(rename = "backlash")]
    Backlash,
    #[serde(rename = "axis step")]
    AxisStep,
    #[serde(rename = "thermal drift")]
    ThermalDrift,
    #[serde(rename = "other")]
    Other,
}

/// By half a width; a normal law tells besides how many deviations that is.
#[derive(Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum DistributionText {
    Uniform(LengthField),
    Triangular(LengthField),
    ArcSine(LengthField),
    TwoValued(LengthField),
    Normal { half_width: LengthField, coverage_factor: f64 },
}

/// What the choice comes to.
pub struct Chosen {
    lenses: Vec<LensCandidate>,
    sources: Vec<&'static str>,
    coverage_probability: f64,
    span: Length,
    tolerance: Length,
    stack: ToleranceStack,
    choice: LensChoice,
    rankings: Vec<LensRanking>,
}

impl ChoiceText {
    /// The lenses to choose from.
    pub fn lenses(&self) -> Vec<JobLens> {
        self.lenses.iter().map(|text| text.lens).collect()
    }

    /// Chooses a lens for a surface whose heights span so much, or that of the job.
    /// What the height of focus of a calibrated machine may be off by is added to its tolerance.
    pub fn choose(
        self,
        job: &Job,
        heights: Option<Length>,
        calibration: Option<&Calibration>,
    ) -> Result<Chosen, Error> {
        let mut sources: Vec<_> = self.tolerance.contributions.iter().map(|one| one.source.name()).collect();
        let mut contributions: Vec<_> =
            self.tolerance.contributions.into_iter().map(Contribution::from).collect();
        if let Some(calibration) = calibration {
            sources.push("the height of focus, as test pieces told it");
            contributions.push(calibration.focus_contribution()?);
        }
        let coverage_probability = self.tolerance.coverage_probability;
        let stack = tolerance_stack(&contributions, coverage_probability)?;
        let tolerance =
            farther(stack.expanded_toward_lens.distance(), stack.expanded_away_from_lens.distance());
        // From the highest place of the part down: for the choice it does not matter where its datum is.
        let zero = Length::default();
        let surface = heights.map_or(job.surface, |span| SurfaceExtent { rise: zero, fall: span });
        let lenses: Vec<_> = self
            .lenses
            .into_iter()
            .map(|text| LensCandidate { lens: text.lens, working_distance: text.working_distance.0 })
            .collect();
        let mut rankings = vec![LensRanking::BLANK; lenses.len()];
        let set_up = SetUp { tolerance, least_clearance: self.least_clearance.0 };
        let choice = Job { surface, ..*job }.choose_lens(&lenses, set_up, &mut rankings)?;
        let span = surface.rise + surface.fall;
        Ok(Chosen { lenses, sources, coverage_probability, span, tolerance, stack, choice, rankings })
    }
}

impl Chosen {
    pub fn text(&self) -> Result<String, fmt::Error> {
        let mut out = String::new();
        writeln!(out, "\nThe lens, focus at mid-height of the surface")?;
        writeln!(out, "  heights           {} from the highest place to the lowest", distance(self.span))?;
        let stack = &self.stack;
        let worst = farther(stack.worst_toward_lens.distance(), stack.worst_away_from_lens.distance());
        let most = self.sources.get(stack.dominant.place).unwrap_or(&"");
        writeln!(
            out,
            "  set-up            up to {} off in {} of cases, as of a normal sum; {} at worst; mostly {most} ({} of the variance)",
            distance(self.tolerance),
            percent(self.coverage_probability),
            distance(worst),
            percent(stack.dominant.share)
        )?;
        let mut ranked: Vec<_> = self.rankings.iter().zip(&self.lenses).collect();
        ranked.sort_by_key(|(ranking, _)| ranking.rank);
        for (ranking, candidate) in &ranked {
            let focal_length = mm(candidate.lens.focal_length, 1);
            match &ranking.found {
                Ok(found) => writeln!(
                    out,
                    "  {}. {focal_length:<14} spot {} in focus, {} at worst; clear of the surface by {}",
                    ranking.rank,
                    um(found.spot_in_focus),
                    um(found.worst.spot),
                    mm(found.clearance, 1)
                )?,
                Err(refused) => writeln!(out, "  {}. {focal_length:<14} {refused}", ranking.rank)?,
            }
            for reason in ranking.reasons.texts() {
                writeln!(out, "     - {reason}")?;
            }
        }
        if let Some(span) = self.choice.flip_span {
            writeln!(
                out,
                "  1 and 2 swap      where the heights span {}: beyond it the other has the smaller spot at worst",
                distance(span)
            )?;
        }
        Ok(out)
    }
}

impl SourceText {
    fn name(self) -> &'static str {
        match self {
            Self::PartBow => "bow of the part",
            Self::Thickness => "its thickness",
            Self::Fixture => "the fixture",
            Self::LensChange => "changes of the lens",
            Self::HeightGauge => "the height gauge",
            Self::Backlash => "backlash",
            Self::AxisStep => "the step of the axis",
            Self::ThermalDrift => "thermal drift",
            Self::Other => "what has no name",
        }
    }
}

impl From<ContributionText> for Contribution {
    fn from(text: ContributionText) -> Self {
        let source = match text.source {
            SourceText::PartBow => ToleranceSource::PartBow,
            SourceText::Thickness => ToleranceSource::Thickness,
            SourceText::Fixture => ToleranceSource::Fixture,
            SourceText::LensChange => ToleranceSource::LensChange,
            SourceText::HeightGauge => ToleranceSource::HeightGauge,
            SourceText::Backlash => ToleranceSource::Backlash,
            SourceText::AxisStep => ToleranceSource::AxisStep,
            SourceText::ThermalDrift => ToleranceSource::ThermalDrift,
            SourceText::Other => ToleranceSource::Other,
        };
        let distribution = match text.strays {
            DistributionText::Uniform(half_width) => Distribution::Uniform { half_width: half_width.0 },
            DistributionText::Triangular(half_width) => Distribution::Triangular { half_width: half_width.0 },
            DistributionText::ArcSine(half_width) => Distribution::ArcSine { half_width: half_width.0 },
            DistributionText::TwoValued(half_width) => Distribution::TwoValued { half_width: half_width.0 },
            DistributionText::Normal { half_width, coverage_factor } => {
                Distribution::Normal { half_width: half_width.0, coverage_factor }
            }
        };
        Self { source, distribution, mean: text.mean.unwrap_or(Offset::ZERO) }
    }
}

fn farther(one: Length, other: Length) -> Length {
    if one > other { one } else { other }
}
