//! Planes, cylinders and spheres.
//!
//! | symbol     | meaning                                                              | unit |
//! |------------|----------------------------------------------------------------------|------|
//! | R          | **radius** of the cylinder or sphere                                 | m    |
//! | (dx, dy)   | from the crown to the place                                          | m    |
//! | α          | angle of the cylinder's axis from the x axis                         | rad  |
//! | t          | distance from the crown: −dx·sin α + dy·cos α, or √(dx² + dy²)       | m    |
//! | (s_x, s_y) | slopes that lean the surface                                         | 1    |
//!
//! sag h(t) = R − √(R² − t²) = t²/(R + √((R − t)·(R + t))), the second without cancellation      \[1\]
//! z = s_x·dx + s_y·dy ± h(t), + where the surface bulges toward the lens
//! slope of the sag h′(t) = t/√((R − t)·(R + t)), along the direction in which t grows
//!
//! \[1\] The sagitta of an arc; any handbook of machinist's formulas. Pythagoras' theorem gives it.

use super::region::Region;
use super::shape::Bulge;
use crate::error::{Error, Param};
use crate::model::math;
use crate::model::twofold::Twofold;

/// Height and slopes of a surface at one place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Facet {
    pub(crate) z: Twofold,
    pub(crate) slope_x: Twofold,
    pub(crate) slope_y: Twofold,
}

/// A height and where it is.
#[derive(Debug, Clone, Copy)]
pub(crate) struct HeightAt {
    pub(crate) z: Twofold,
    pub(crate) x: f64,
    pub(crate) y: f64,
}

#[derive(Debug, Clone, Copy)]
pub(crate) enum Curve {
    Flat,
    Cylinder { radius: f64, bulge: Bulge, sine: f64, cosine: f64 },
    Sphere { radius: f64, bulge: Bulge },
}

impl Curve {
    pub(crate) fn cylinder(radius: f64, bulge: Bulge, axis_angle: f64) -> Self {
        let (sine, cosine) = math::sincos(axis_angle);
        Self::Cylinder { radius, bulge, sine, cosine }
    }
}

/// A plane, cylinder or sphere whose numbers are checked.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Smooth {
    pub(crate) curve: Curve,
    pub(crate) crown_x: f64,
    pub(crate) crown_y: f64,
    pub(crate) slope_x: f64,
    pub(crate) slope_y: f64,
}

/// A sag, and its slope over the distance from the crown.
struct Bow {
    sag: Twofold,
    slope_over_distance: Twofold,
}

/// The sag of an arc at a distance from its crown, whose square is given.
fn bow(radius: f64, bulge: Bulge, squared: Twofold) -> Bow {
    let root = (Twofold::product(radius, radius) - squared).square_root();
    let sag = squared / (root + radius.into());
    let slope_over_distance = Twofold::ONE / root;
    match bulge {
        Bulge::TowardLens => Bow { sag, slope_over_distance },
        Bulge::AwayFromLens => Bow { sag: -sag, slope_over_distance: -slope_over_distance },
    }
}

/// Refuses a place beside the part.
fn on_the_part(distance: Twofold, radius: f64) -> Result<(), Error> {
    let value = distance.magnitude().to_f64();
    if value < radius {
        Ok(())
    } else {
        Err(Error::OutsideModel { param: Param::DistanceFromCrown, value, least: 0.0, greatest: radius })
    }
}

/// Distance from the crown line of a cylinder, with a sign.
fn across(dx: Twofold, dy: Twofold, sine: f64, cosine: f64) -> Twofold {
    dy * cosine.into() - dx * sine.into()
}

impl Smooth {
    fn offset_from_crown(&self, x: f64, y: f64) -> (Twofold, Twofold) {
        (Twofold::sum(x, -self.crown_x), Twofold::sum(y, -self.crown_y))
    }

    /// What leaning adds to the height.
    fn lean(&self, dx: Twofold, dy: Twofold) -> Twofold {
        dx * self.slope_x.into() + dy * self.slope_y.into()
    }

    /// What leaning adds to the height at a place: all the height that a plane has.
    pub(crate) fn lean_at(&self, x: f64, y: f64) -> Twofold {
        let (dx, dy) = self.offset_from_crown(x, y);
        self.lean(dx, dy)
    }

    /// Height and slopes; refused beside the part.
    pub(crate) fn at(&self, x: f64, y: f64) -> Result<Facet, Error> {
        let (dx, dy) = self.offset_from_crown(x, y);
        let level = self.lean(dx, dy);
        let (slope_x, slope_y) = (Twofold::from(self.slope_x), Twofold::from(self.slope_y));
        Ok(match self.curve {
            Curve::Flat => Facet { z: level, slope_x, slope_y },
            Curve::Cylinder { radius, bulge, sine, cosine } => {
                let t = across(dx, dy, sine, cosine);
                on_the_part(t, radius)?;
                let bow = bow(radius, bulge, t.squared());
                let slope = t * bow.slope_over_distance;
                Facet {
                    z: level + bow.sag,
                    slope_x: slope_x - slope * sine.into(),
                    slope_y: slope_y + slope * cosine.into(),
                }
            }
            Curve::Sphere { radius, bulge } => {
                let squared = dx.squared() + dy.squared();
                on_the_part(squared.square_root(), radius)?;
                let bow = bow(radius, bulge, squared);
                Facet {
                    z: level + bow.sag,
                    slope_x: slope_x + dx * bow.slope_over_distance,
                    slope_y: slope_y + dy * bow.slope_over_distance,
                }
            }
        })
    }

    /// Refuses a region that reaches beside the part. The distance from the crown is greatest at a corner.
    pub(crate) fn holds(&self, region: &Region) -> Result<(), Error> {
        for (x, y) in region.corners() {
            let (dx, dy) = self.offset_from_crown(x, y);
            match self.curve {
                Curve::Flat => {}
                Curve::Cylinder { radius, sine, cosine, .. } => {
                    on_the_part(across(dx, dy, sine, cosine), radius)?;
                }
                Curve::Sphere { radius, .. } => {
                    on_the_part((dx.squared() + dy.squared()).square_root(), radius)?;
                }
            }
        }
        Ok(())
    }

    /// The places inside the region or on its edges, corners excepted, where the height may be extreme
    /// because its slope vanishes: at most one on each edge, and one inside.
    ///
    /// On a cylinder none need be looked for inside: where the slope vanishes it does so along a line, whose
    /// ends are on the edges.
    pub(crate) fn level_places(&self, region: &Region) -> [Option<HeightAt>; 5] {
        let xs = [region.x_least, region.x_greatest];
        let ys = [region.y_least, region.y_greatest];
        let [left, right] = xs.map(|x| self.level_on_edge_of_x(x, region));
        let [near, far] = ys.map(|y| self.level_on_edge_of_y(y, region));
        [left, right, near, far, self.level_inside(region)]
    }

    /// Where dz/dy = 0 on the edge of this x.
    fn level_on_edge_of_x(&self, x: f64, region: &Region) -> Option<HeightAt> {
        let (dx, _) = self.offset_from_crown(x, 0.0);
        let (dy, sag) = match self.curve {
            Curve::Flat => return None,
            Curve::Cylinder { radius, bulge, sine, cosine } => {
                let t = level_distance(radius, bulge, self.slope_y, cosine)?;
                ((t + dx * sine.into()) / cosine.into(), bow(radius, bulge, t.squared()).sag)
            }
            Curve::Sphere { radius, bulge } => {
                let there = Twofold::product(radius, radius) - dx.squared();
                let unit = level_distance(1.0, bulge, self.slope_y, 1.0)?;
                let dy = there.square_root() * unit;
                (dy, bow(radius, bulge, dx.squared() + dy.squared()).sag)
            }
        };
        let y = (dy + self.crown_y.into()).to_f64();
        let inside = y >= region.y_least && y <= region.y_greatest;
        inside.then(|| HeightAt { z: self.lean(dx, dy) + sag, x, y })
    }

    /// Where dz/dx = 0 on the edge of this y.
    fn level_on_edge_of_y(&self, y: f64, region: &Region) -> Option<HeightAt> {
        let (_, dy) = self.offset_from_crown(0.0, y);
        let (dx, sag) = match self.curve {
            Curve::Flat => return None,
            Curve::Cylinder { radius, bulge, sine, cosine } => {
                let t = level_distance(radius, bulge, self.slope_x, -sine)?;
                ((dy * cosine.into() - t) / sine.into(), bow(radius, bulge, t.squared()).sag)
            }
            Curve::Sphere { radius, bulge } => {
                let there = Twofold::product(radius, radius) - dy.squared();
                let unit = level_distance(1.0, bulge, self.slope_x, 1.0)?;
                let dx = there.square_root() * unit;
                (dx, bow(radius, bulge, dx.squared() + dy.squared()).sag)
            }
        };
        let x = (dx + self.crown_x.into()).to_f64();
        let inside = x >= region.x_least && x <= region.x_greatest;
        inside.then(|| HeightAt { z: self.lean(dx, dy) + sag, x, y })
    }

    /// Where both slopes of a sphere vanish.
    fn level_inside(&self, region: &Region) -> Option<HeightAt> {
        let Curve::Sphere { radius, bulge } = self.curve else { return None };
        let (slope_x, slope_y) = (Twofold::from(self.slope_x), Twofold::from(self.slope_y));
        // (dx, dy) = ∓R·(s_x, s_y)/√(1 + s_x² + s_y²), by the side to which it bulges
        let length = (Twofold::ONE + slope_x.squared() + slope_y.squared()).square_root();
        let reach = match bulge {
            Bulge::TowardLens => Twofold::from(-radius) / length,
            Bulge::AwayFromLens => Twofold::from(radius) / length,
        };
        let (dx, dy) = (reach * slope_x, reach * slope_y);
        let (x, y) = ((dx + self.crown_x.into()).to_f64(), (dy + self.crown_y.into()).to_f64());
        let inside =
            x >= region.x_least && x <= region.x_greatest && y >= region.y_least && y <= region.y_greatest;
        let sag = bow(radius, bulge, dx.squared() + dy.squared()).sag;
        inside.then(|| HeightAt { z: self.lean(dx, dy) + sag, x, y })
    }
}

/// The distance t from the crown at which slope + n·h′(t) vanishes: ∓R·(slope/n)/√(1 + (slope/n)²), where n is
/// how much t grows along the edge. None where the height along the edge is a straight line.
fn level_distance(radius: f64, bulge: Bulge, slope: f64, n: f64) -> Option<Twofold> {
    if n == 0.0 {
        return None;
    }
    if slope == 0.0 {
        return Some(Twofold::ZERO);
    }
    let length = Twofold::from(slope).root_sum_square(n.into());
    let t = Twofold::product(radius, slope) / length;
    let falls = matches!(bulge, Bulge::TowardLens) == (n > 0.0);
    Some(if falls { -t } else { t })
}
