//! Where the findings lie: those that are told, gathered to places.

use crate::mark_check::Marked;
use crate::mark_report;
use spotwise::artwork::{ChangeKind, PixelBox};

/// Of more areas of a kind than this, the largest are told.
pub const AREAS_TOLD: usize = 3;
/// Findings no farther apart make one place, in metres.
const NEAR: f64 = 1e-3;

/// Findings that lie close together.
pub struct FoundPlace {
    pub extent: PixelBox,
    /// The worst pixel of the largest area in it, and how many pixels that has.
    pub worst: Option<((u32, u32), u32)>,
    /// What was found, in words, each but once.
    pub found: Vec<&'static str>,
    changes: usize,
}

/// The boxes of all that is told: pieces and counters that changed, and the largest areas.
pub fn told(marked: &Marked<'_>) -> Vec<PixelBox> {
    findings(marked).into_iter().map(|finding| finding.extent).collect()
}

/// The places of all that is told, those with most changes first.
pub fn found_places(marked: &Marked<'_>) -> Vec<FoundPlace> {
    let near = near(marked);
    let mut places: Vec<FoundPlace> = Vec::new();
    for mut finding in findings(marked) {
        // It may join several of the places so far.
        while let Some(at) = places.iter().position(|place| is_near(&place.extent, &finding.extent, near)) {
            finding = places.remove(at).with(finding);
        }
        places.push(finding);
    }
    // Places of as many changes stay in their order: pieces and counters first, then what is lost, then what is filled.
    places.sort_by_key(|place| usize::MAX - place.changes);
    places
}

/// So many pixels are near.
pub fn near(marked: &Marked<'_>) -> u32 {
    (NEAR / marked.preflight.artwork.pitch.x.value).ceil() as u32
}

fn findings(marked: &Marked<'_>) -> Vec<FoundPlace> {
    let verdict = &marked.verdict;
    let kinds = ChangeKind::ALL.into_iter().filter(|kind| is_told(*kind));
    let changes = kinds.flat_map(|kind| verdict.changes_of(kind)).map(|change| FoundPlace {
        extent: change.extent,
        worst: None,
        found: vec![mark_report::name(change.kind)],
        changes: 1,
    });
    let areas = [("lost", &verdict.lost_areas), ("filled", &verdict.filled_areas)];
    let areas = areas.into_iter().flat_map(|(name, areas)| {
        areas.iter().take(AREAS_TOLD).map(move |area| FoundPlace {
            extent: area.extent,
            worst: Some((area.worst_pixel, area.pixels)),
            found: vec![name],
            changes: 0,
        })
    });
    changes.chain(areas).collect()
}

impl FoundPlace {
    fn with(mut self, other: Self) -> Self {
        let (first, second) = (self.extent, other.extent);
        self.extent = PixelBox {
            left: first.left.min(second.left),
            top: first.top.min(second.top),
            right: first.right.max(second.right),
            bottom: first.bottom.max(second.bottom),
        };
        let pixels = |worst: Option<(_, u32)>| worst.map_or(0, |(_, pixels)| pixels);
        if pixels(other.worst) > pixels(self.worst) {
            self.worst = other.worst;
        }
        for name in other.found {
            if !self.found.contains(&name) {
                self.found.push(name);
            }
        }
        self.changes += other.changes;
        self
    }
}

/// What is new without a loss is left to the document.
pub fn is_told(kind: ChangeKind) -> bool {
    !matches!(kind, ChangeKind::ComponentNew | ChangeKind::HoleNew)
}

fn is_near(one: &PixelBox, other: &PixelBox, near: u32) -> bool {
    let apart = |end: u32, start: u32| start > end.saturating_add(near);
    !(apart(one.right, other.left)
        || apart(other.right, one.left)
        || apart(one.bottom, other.top)
        || apart(other.bottom, one.top))
}
