//! Shapes of a surface: heights, slopes and extremes.

use super::given::*;
use super::refusal::value_of;
use super::refusal_real::{input, judge};
use proptest::prelude::*;
use spotwise::model::surface::{
    Bulge, Region, Surface, SurfaceExtremes, SurfacePlace, surface_at, surface_extremes,
};
use spotwise::{Error, Param};
use std::f64::consts::FRAC_PI_2;

/// A plane, cylinder or sphere.
#[derive(Debug, Clone, Copy)]
struct Smooth {
    kind: u32,
    radius: f64,
    bulge: Bulge,
    crown: (f64, f64),
    axis_angle: f64,
    slope: (f64, f64),
}

impl Smooth {
    fn surface(&self) -> Surface<'static> {
        let Self { kind, radius, bulge, crown: (crown_x, crown_y), axis_angle, slope: (slope_x, slope_y) } =
            *self;
        match kind {
            1 => Surface::Plane { slope_x, slope_y },
            2 => Surface::Cylinder { radius, bulge, crown_x, crown_y, axis_angle, slope_x, slope_y },
            _ => Surface::Sphere { radius, bulge, crown_x, crown_y, slope_x, slope_y },
        }
    }

    fn at(&self, x: f64, y: f64) -> SurfacePlace {
        surface_at(&self.surface(), x, y).unwrap()
    }

    /// The place of a plane that counts as its crown.
    fn crown(&self) -> (f64, f64) {
        if self.kind == 1 { (0.0, 0.0) } else { self.crown }
    }

    /// Of what size heights are that come from sums, at a place or beyond.
    fn size(&self, reach: f64) -> f64 {
        let sag = if self.kind == 1 { 0.0 } else { reach };
        (self.slope.0.abs() + self.slope.1.abs()) * reach + sag
    }
}

fn bulge() -> impl Strategy<Value = Bulge> {
    prop::sample::select(vec![Bulge::TowardLens, Bulge::AwayFromLens])
}

fn slope() -> BoxedStrategy<f64> {
    prop_oneof![3 => -0.1f64..0.1, 2 => -2.0f64..2.0, 2 => Just(0.0)].boxed()
}

fn smooth() -> impl Strategy<Value = Smooth> {
    let crown = (-0.1f64..0.1, -0.1f64..0.1);
    let axis_angle = prop_oneof![3 => -4.0f64..4.0, 1 => Just(0.0), 1 => Just(FRAC_PI_2)];
    (1u32..4, spread(2e-3, 2.0), bulge(), crown, axis_angle, (slope(), slope())).prop_map(
        |(kind, radius, bulge, crown, axis_angle, slope)| Smooth {
            kind,
            radius,
            bulge,
            crown,
            axis_angle,
            slope,
        },
    )
}

/// A surface and how far from its crown to look.
fn smooth_and_reach() -> impl Strategy<Value = (Smooth, f64)> {
    (smooth(), spread(1e-4, 1.0)).prop_map(|(it, share)| (it, 0.98 * share * it.radius))
}

/// A place on the part, and how far off the crown it may be.
fn smooth_and_place() -> impl Strategy<Value = (Smooth, f64, (f64, f64))> {
    (smooth_and_reach(), 0.0f64..1.0, 0.0f64..6.3).prop_map(|((it, reach), share, turn)| {
        let (x, y) = it.crown();
        (it, reach, (x + share * reach * turn.cos(), y + share * reach * turn.sin()))
    })
}

/// Four numbers from −1 to 1 as a rectangle; sometimes its middle is the crown.
fn corners() -> impl Strategy<Value = [f64; 4]> {
    let sorted = |a: f64, b: f64| if a < b { (a, b) } else { (b, a) };
    prop_oneof![
        3 => [-1.0f64..1.0, -1.0f64..1.0, -1.0f64..1.0, -1.0f64..1.0].prop_map(move |[a, b, c, d]| {
            let ((a, b), (c, d)) = (sorted(a, b), sorted(c, d));
            [a, b + 0.02, c, d + 0.02]
        }),
        1 => (0.01f64..1.0, 0.01f64..1.0).prop_map(|(a, b)| [-a, a, -b, b]),
    ]
}

fn smooth_and_region() -> impl Strategy<Value = (Smooth, f64, Region)> {
    (smooth(), spread(1e-2, 1.0), corners()).prop_map(|(it, share, [a, b, c, d])| {
        let (x, y) = it.crown();
        let reach = 0.98 * share * it.radius;
        let half = 0.69 * reach;
        let region = Region {
            x_least: x + a * half,
            x_greatest: x + b * half,
            y_least: y + c * half,
            y_greatest: y + d * half,
        };
        (it, reach, region)
    })
}

/// A grid with its lists; some probes found nothing where it may have holes.
#[derive(Debug, Clone)]
struct Probed {
    x: Vec<f64>,
    y: Vec<f64>,
    z: Vec<f64>,
}

impl Probed {
    fn surface(&self) -> Surface<'_> {
        Surface::Grid { x: &self.x, y: &self.y, z: &self.z }
    }

    fn whole(&self) -> Region {
        let ends = |list: &[f64]| (list[0], *list.last().unwrap());
        let ((x_least, x_greatest), (y_least, y_greatest)) = (ends(&self.x), ends(&self.y));
        Region { x_least, x_greatest, y_least, y_greatest }
    }
}

fn places() -> impl Strategy<Value = Vec<f64>> {
    (-0.1f64..0.1, prop::collection::vec(spread(1e-4, 0.1), 1..6)).prop_map(|(start, spacings)| {
        let mut places = vec![start];
        for spacing in spacings {
            places.push(places.last().unwrap() + spacing);
        }
        places
    })
}

fn probed(holes: bool) -> impl Strategy<Value = Probed> {
    let height = prop_oneof![6 => -2e-3f64..2e-3, 1 => Just(0.0)];
    (places(), places(), prop::collection::vec((height, 0u32..8), 36)).prop_map(move |(x, y, heights)| {
        let height = |(z, dice): (f64, u32)| if holes && dice == 0 { f64::NAN } else { z };
        let z = heights.into_iter().map(height).take(x.len() * y.len()).collect();
        Probed { x, y, z }
    })
}

/// A place in a stretch, often one of its ends.
fn within(least: f64, greatest: f64, share: f64) -> f64 {
    if share < 0.1 {
        least
    } else if share > 0.9 {
        greatest
    } else {
        least + (greatest - least) * share
    }
}

/// What a region has of a surface that takes a share of its places: the number of known ones among the searched.
fn search(surface: &Surface<'_>, region: &Region, extremes: &SurfaceExtremes, slack: f64) -> usize {
    const STEPS: u32 = 24;
    let mut known = 0;
    for i in 0..=STEPS {
        for j in 0..=STEPS {
            let share = |k: u32| f64::from(k) / f64::from(STEPS);
            let x = region.x_least * (1.0 - share(i)) + region.x_greatest * share(i);
            let y = region.y_least * (1.0 - share(j)) + region.y_greatest * share(j);
            let x = x.clamp(region.x_least, region.x_greatest);
            let y = y.clamp(region.y_least, region.y_greatest);
            let Ok(place) = surface_at(surface, x, y) else { continue };
            known += 1;
            assert!(place.z >= extremes.highest_z - slack, "{place:?} at {x}, {y} is higher");
            assert!(place.z <= extremes.lowest_z + slack, "{place:?} at {x}, {y} is lower");
            assert!(
                place.incidence <= extremes.steepest_incidence + 1e-12,
                "{place:?} at {x}, {y} is steeper"
            );
        }
    }
    known
}

/// A nanometre.
const H: f64 = 1e-9;

/// The extremes are at places of the region, and the surface is there what they say.
fn are_there(surface: &Surface<'_>, region: &Region, e: &SurfaceExtremes, slack: f64) {
    for (x, y, z) in [(e.highest_x, e.highest_y, e.highest_z), (e.lowest_x, e.lowest_y, e.lowest_z)] {
        assert!((region.x_least..=region.x_greatest).contains(&x), "{x}");
        assert!((region.y_least..=region.y_greatest).contains(&y), "{y}");
        near(surface_at(surface, x, y).unwrap().z, z, slack);
    }
    // Between cells it is the steepest of them: one of those a nanometre off.
    let beside = |dx: f64, dy: f64| surface_at(surface, e.steepest_x + dx, e.steepest_y + dy);
    let all = [(0.0, 0.0), (H, H), (H, -H), (-H, H), (-H, -H)].map(|(dx, dy)| beside(dx, dy));
    let incidence =
        |place: &Result<SurfacePlace, Error>| place.map_or(f64::INFINITY, |place| place.incidence);
    let least =
        all.iter().map(|place| (incidence(place) - e.steepest_incidence).abs()).fold(f64::INFINITY, f64::min);
    assert!(least < 1e-4, "{all:?} are all off {}", e.steepest_incidence);
    near(e.range, e.lowest_z - e.highest_z, slack);
    assert!(e.range >= 0.0 && e.highest_z <= e.lowest_z);
}

/// Both halves of a region, cut across the longer side.
fn halves(region: Region) -> [Region; 2] {
    let middle = |least: f64, greatest: f64| 0.5 * (least + greatest);
    if region.x_greatest - region.x_least > region.y_greatest - region.y_least {
        let cut = middle(region.x_least, region.x_greatest);
        [Region { x_greatest: cut, ..region }, Region { x_least: cut, ..region }]
    } else {
        let cut = middle(region.y_least, region.y_greatest);
        [Region { y_greatest: cut, ..region }, Region { y_least: cut, ..region }]
    }
}

proptest! {
    #![proptest_config(config())]

    /// Slopes are what the height rises by; stretch and factor are those of the incidence angle.
    #[test]
    fn slopes_are_derivatives((it, reach, (x, y)) in smooth_and_place()) {
        let place = it.at(x, y);
        // Fourth-order differences; near the rim the step must be small against what is left of the radius.
        let step = 1e-3 * (it.radius - 0.99 * reach);
        let rise = |f: &dyn Fn(f64) -> f64| (8.0 * (f(step) - f(-step)) - (f(2.0 * step) - f(-2.0 * step))) / (12.0 * step);
        let budget = 1e-7 * (1.0 + place.stretch.powi(9)) + 1e-13 * it.size(it.radius) / step;
        near(rise(&|h| it.at(x + h, y).z), place.slope_x, budget);
        near(rise(&|h| it.at(x, y + h).z), place.slope_y, budget);
        let slope = place.slope_x.hypot(place.slope_y);
        close(place.incidence.tan(), slope, 8.0 * place.stretch.powi(2));
        close(place.stretch, slope.hypot(1.0), 4.0);
        close(place.irradiance_factor * place.stretch, 1.0, 2.0);
    }

    /// A hollow is a hill seen from behind.
    #[test]
    fn bulges_are_mirror_images((it, _, (x, y)) in smooth_and_place(), region in corners()) {
        let other = if it.bulge == Bulge::TowardLens { Bulge::AwayFromLens } else { Bulge::TowardLens };
        let behind = Smooth { bulge: other, slope: (-it.slope.0, -it.slope.1), ..it };
        let (here, there) = (it.at(x, y), behind.at(x, y));
        opposite(here.z, there.z);
        opposite(here.slope_x, there.slope_x);
        opposite(here.slope_y, there.slope_y);
        same_bits(here.incidence, there.incidence);
        let [a, b, c, d] = region.map(|share| 0.6 * share * it.radius);
        let (x, y) = it.crown();
        let region = Region { x_least: x + a, x_greatest: x + b, y_least: y + c, y_greatest: y + d };
        let (here, there) = (surface_extremes(&it.surface(), &region).unwrap(), surface_extremes(&behind.surface(), &region).unwrap());
        opposite(here.highest_z, there.lowest_z);
        opposite(here.lowest_z, there.highest_z);
        prop_assert_eq!((here.highest_x, here.highest_y), (there.lowest_x, there.lowest_y));
        same_bits(here.range, there.range);
        same_bits(here.steepest_incidence, there.steepest_incidence);
    }

    /// Everything twice as large is twice as high, as steep, and extreme at the same places.
    #[test]
    fn scales((it, _, region) in smooth_and_region(), k in power_of_two()) {
        let larger = Smooth { radius: k * it.radius, crown: (k * it.crown.0, k * it.crown.1), ..it };
        let region_of = |k: f64| Region { x_least: k * region.x_least, x_greatest: k * region.x_greatest, y_least: k * region.y_least, y_greatest: k * region.y_greatest };
        let (here, there) = (surface_extremes(&it.surface(), &region).unwrap(), surface_extremes(&larger.surface(), &region_of(k)).unwrap());
        same_bits(k * here.highest_z, there.highest_z);
        same_bits(k * here.lowest_z, there.lowest_z);
        same_bits(k * here.range, there.range);
        same_bits(here.steepest_incidence, there.steepest_incidence);
        prop_assert_eq!((k * here.highest_x, k * here.highest_y), (there.highest_x, there.highest_y));
        prop_assert_eq!((k * here.lowest_x, k * here.lowest_y), (there.lowest_x, there.lowest_y));
    }

    /// A cylinder that is turned with the place, the slopes and the axis about its crown is the same there.
    #[test]
    fn turns((it, reach, (x, y)) in smooth_and_place(), turn in -3.0f64..3.0) {
        let about = |(x, y): (f64, f64)| (x * turn.cos() - y * turn.sin(), x * turn.sin() + y * turn.cos());
        let slope = about(it.slope);
        prop_assume!(slope.0.abs() <= 2.0 && slope.1.abs() <= 2.0);
        let turned = Smooth { axis_angle: it.axis_angle + turn, slope, ..it };
        let (cx, cy) = it.crown();
        let (dx, dy) = about((x - cx, y - cy));
        let (here, there) = (it.at(x, y), turned.at(cx + dx, cy + dy));
        let rounding = 1e-15 * (0.2 + reach) * (1.0 + here.stretch + here.stretch.powi(3) * reach / it.radius);
        near(there.z, here.z, 20.0 * rounding * (1.0 + it.slope.0.abs() + it.slope.1.abs() + here.stretch));
        let steep = 20.0 * rounding / it.radius * here.stretch.powi(2) + 1e-14 * here.stretch;
        near(there.stretch, here.stretch, steep * here.stretch);
    }

    /// Across its axis a cylinder is an arc, and so is a sphere along any line through its crown.
    #[test]
    fn a_cylinder_and_a_sphere_have_the_same_arc((it, _, (_, y)) in smooth_and_place()) {
        let bar = Smooth { kind: 2, axis_angle: 0.0, ..it };
        let dome = Smooth { kind: 3, ..it };
        let y = if it.kind == 1 { it.crown.1 + y.min(0.9 * it.radius) } else { y };
        let (bar, dome) = (bar.at(it.crown.0, y), dome.at(it.crown.0, y));
        close(bar.z, dome.z, 1.0);
        close(bar.slope_y, dome.slope_y, 1.0);
        same_bits(bar.slope_x, dome.slope_x);
    }

    /// A part of a huge radius is a plane through its crown.
    #[test]
    fn a_huge_radius_is_flat(it in smooth(), dx in -0.5f64..0.5, dy in -0.5f64..0.5) {
        let huge = Smooth { radius: 1e9, ..it };
        let (cx, cy) = huge.crown();
        let place = huge.at(cx + dx, cy + dy);
        let level = it.slope.0 * (cx + dx - cx) + it.slope.1 * (cy + dy - cy);
        near(place.z, level, 0.26e-9 + 1e-15);
        near(place.slope_x, it.slope.0, 1e-9);
        near(place.slope_y, it.slope.1, 1e-9);
    }

    /// What a dense search finds never beats the extremes, and they are where they are said to be.
    #[test]
    fn no_search_beats_the_extremes_of_smooth_shapes((it, reach, region) in smooth_and_region()) {
        let surface = it.surface();
        let extremes = surface_extremes(&surface, &region).unwrap();
        let slack = 1e-14 * it.size(reach) + 1e-17;
        prop_assert_eq!(search(&surface, &region, &extremes, slack), 25 * 25);
        // (A place is rounded to a double, and the surface slopes.)
        are_there(&surface, &region, &extremes, slack + 1e-15 * (1.0 + extremes.steepest_incidence.tan().powi(2)));
        prop_assert_eq!((extremes.missing_probes, extremes.unknown_share), (0, 0.0));
    }

    /// The extremes of a region are those of its halves.
    #[test]
    fn halves_have_the_extremes_of_the_whole((it, reach, region) in smooth_and_region()) {
        let surface = it.surface();
        let whole = surface_extremes(&surface, &region).unwrap();
        let [one, other] = halves(region).map(|half| surface_extremes(&surface, &half).unwrap());
        let slack = 1e-15 * it.size(reach);
        near(one.highest_z.min(other.highest_z), whole.highest_z, slack);
        near(one.lowest_z.max(other.lowest_z), whole.lowest_z, slack);
        same_bits(one.steepest_incidence.max(other.steepest_incidence), whole.steepest_incidence);
    }

    /// Of places equally extreme the one of least y is told, then of least x: both sides of a level part are alike.
    #[test]
    fn ties_go_to_the_least_place(it in smooth(), a in 0.01f64..0.69, b in 0.01f64..0.69) {
        let level = Smooth { slope: (0.0, 0.0), crown: (0.0, 0.0), ..it };
        let (a, b) = (a * it.radius, b * it.radius);
        let region = Region { x_least: -a, x_greatest: a, y_least: -b, y_greatest: b };
        let extremes = surface_extremes(&level.surface(), &region).unwrap();
        prop_assert_eq!(extremes.steepest_y, -b);
        match (it.kind, it.bulge) {
            (1, _) => {
                prop_assert_eq!((extremes.highest_x, extremes.highest_y), (-a, -b));
                prop_assert_eq!((extremes.lowest_x, extremes.lowest_y), (-a, -b));
                prop_assert_eq!(extremes.steepest_x, -a);
            }
            (3, Bulge::TowardLens) => {
                prop_assert_eq!((extremes.highest_x, extremes.highest_y), (0.0, 0.0));
                prop_assert_eq!((extremes.lowest_x, extremes.lowest_y), (-a, -b));
            }
            (3, _) => prop_assert_eq!((extremes.highest_x, extremes.highest_y), (-a, -b)),
            (_, Bulge::TowardLens) => prop_assert_eq!((extremes.highest_z, extremes.lowest_y), (0.0, -b)),
            _ => prop_assert_eq!((extremes.lowest_z, extremes.highest_y), (0.0, -b)),
        }
    }

    /// A plane that is probed at any places is that plane between them.
    #[test]
    fn a_probed_plane_is_flat(grid in probed(false), slope in (slope(), slope()), share in (0.0f64..1.0, 0.0f64..1.0)) {
        let plane = |x: f64, y: f64| slope.0 * x + slope.1 * y;
        let z = grid.y.iter().flat_map(|y| grid.x.iter().map(|x| plane(*x, *y))).collect();
        let grid = Probed { z, ..grid };
        let whole = grid.whole();
        let x = within(whole.x_least, whole.x_greatest, share.0);
        let y = within(whole.y_least, whole.y_greatest, share.1);
        let place = surface_at(&grid.surface(), x, y).unwrap();
        // The heights of the grid are rounded, over spacings of 0.1 mm and more.
        near(place.z, plane(x, y), 2e-15);
        near(place.slope_x, slope.0, 1e-11);
        near(place.slope_y, slope.1, 1e-11);
    }

    /// Heights are those of the probes at their places, and of either cell between two; extremes of the whole
    /// grid are the least and the greatest.
    #[test]
    fn heights_of_a_grid_hang_together(grid in probed(false), share in 0.0f64..1.0, side in any::<prop::sample::Index>()) {
        let at = |x: f64, y: f64| surface_at(&grid.surface(), x, y).unwrap().z;
        let columns = grid.x.len();
        for (row, y) in grid.y.iter().enumerate() {
            for (column, x) in grid.x.iter().enumerate() {
                assert_eq!(at(*x, *y), grid.z[row * columns + column]);
            }
        }
        let (x, whole) = (grid.x[side.index(columns)], grid.whole());
        let y = within(whole.y_least, whole.y_greatest, share);
        for beside in [x.next_down(), x.next_up()] {
            if (whole.x_least..=whole.x_greatest).contains(&beside) {
                near(at(beside, y), at(x, y), 1e-14 * 40.0);
            }
        }
        let extremes = surface_extremes(&grid.surface(), &whole).unwrap();
        let least = grid.z.iter().copied().fold(f64::INFINITY, f64::min);
        let greatest = grid.z.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        prop_assert_eq!((extremes.highest_z, extremes.lowest_z), (least, greatest));
        prop_assert_eq!((extremes.missing_probes, extremes.unknown_share), (0, 0.0));
    }

    /// Within a part of a grid, with holes and beside it, a dense search does not beat the extremes either; the
    /// share of the unknown is what the search finds unknown.
    #[test]
    fn no_search_beats_the_extremes_of_grids(grid in probed(true), shares in [0.0f64..1.0, 0.0f64..1.0, 0.0f64..1.0, 0.0f64..1.0], beside in 0.0f64..0.3) {
        let whole = grid.whole();
        let (long, wide) = (whole.x_greatest - whole.x_least, whole.y_greatest - whole.y_least);
        let x = shares[0].min(shares[1])..shares[0].max(shares[1]);
        let y = shares[2].min(shares[3])..shares[2].max(shares[3]);
        let region = Region {
            x_least: whole.x_least + long * (x.start - beside),
            x_greatest: whole.x_least + long * (x.end + 1e-3),
            y_least: whole.y_least + wide * y.start,
            y_greatest: whole.y_least + wide * (y.end + beside + 1e-3),
        };
        let surface = grid.surface();
        match surface_extremes(&surface, &region) {
            Ok(extremes) => {
                search(&surface, &region, &extremes, 1e-17);
                are_there(&surface, &region, &extremes, 1e-17);
                prop_assert!((0.0..1.0).contains(&extremes.unknown_share));
                let [one, other] = halves(region).map(|half| {
                    surface_extremes(&surface, &half).map_or(1.0, |extremes| extremes.unknown_share)
                });
                near(0.5 * (one + other), extremes.unknown_share, 1e-12);
            }
            Err(error) => {
                prop_assert_eq!(error.code(), 8);
                prop_assert!([Param::KnownProbes, Param::KnownParts].contains(&error.param()));
            }
        }
    }

    /// On steps the height is that of the strip, whatever y; a step is level.
    #[test]
    fn steps_are_level(edges in places(), heights in prop::collection::vec(-1e-3f64..1e-3, 5), share in 0.0f64..1.0, y in -5.0f64..5.0) {
        let z = &heights[..edges.len() - 1];
        let steps = Surface::Steps { edges: &edges, z };
        let (least, greatest) = (edges[0], *edges.last().unwrap());
        let x = within(least, greatest, share);
        let strip = edges.iter().rposition(|edge| *edge <= x).unwrap().min(z.len() - 1);
        let place = surface_at(&steps, x, y).unwrap();
        prop_assert_eq!((place.z, place.incidence, place.stretch, place.irradiance_factor), (z[strip], 0.0, 1.0, 1.0));
        // Half of the region lies beside them.
        let region = Region { x_least: least - (greatest - least), x_greatest: greatest, y_least: y, y_greatest: y + 1.0 };
        let extremes = surface_extremes(&steps, &region).unwrap();
        prop_assert_eq!(extremes.highest_z, z.iter().copied().fold(f64::INFINITY, f64::min));
        prop_assert_eq!(extremes.lowest_z, z.iter().copied().fold(f64::NEG_INFINITY, f64::max));
        // (Where it begins is rounded.)
        near(extremes.unknown_share, 0.5, 1e-12);
        let first = z.iter().position(|z| *z == extremes.lowest_z).unwrap();
        prop_assert_eq!((extremes.lowest_x, extremes.lowest_y), (edges[first], y));
    }

    /// Any bits: no panic, no number that is none, and refusals that name what is wrong.
    #[test]
    fn smooth_shapes_refuse(
        kind in 1u32..4, bulge in bulge(),
        (radius, crown_x, crown_y, axis_angle) in (value_of(Param::CurvatureRadius), value_of(Param::CrownX), value_of(Param::CrownY), value_of(Param::AxisAngle)),
        (slope_x, slope_y) in (value_of(Param::SlopeX), value_of(Param::SlopeY)),
        (x, y) in (value_of(Param::PlaceX), value_of(Param::PlaceY)),
        (x_least, x_greatest) in (value_of(Param::RegionX), value_of(Param::RegionX)),
        (y_least, y_greatest) in (value_of(Param::RegionY), value_of(Param::RegionY)),
    ) {
        let it = Smooth { kind, radius, bulge, crown: (crown_x, crown_y), axis_angle, slope: (slope_x, slope_y) };
        let mut inputs = vec![];
        if kind > 1 {
            inputs.extend([input(Param::CurvatureRadius, radius), input(Param::CrownX, crown_x), input(Param::CrownY, crown_y)]);
        }
        if kind == 2 {
            inputs.push(input(Param::AxisAngle, axis_angle));
        }
        inputs.extend([input(Param::SlopeX, slope_x), input(Param::SlopeY, slope_y)]);
        let mut placed = inputs.clone();
        placed.extend([input(Param::PlaceX, x), input(Param::PlaceY, y)]);
        let place = surface_at(&it.surface(), x, y);
        judge(place.map(|p| vec![p.z, p.slope_x, p.slope_y, p.incidence, p.stretch, p.irradiance_factor]), &placed);
        inputs.extend([input(Param::RegionX, x_least), input(Param::RegionX, x_greatest)]);
        inputs.extend([input(Param::RegionY, y_least), input(Param::RegionY, y_greatest)]);
        inputs.extend([input(Param::RegionWidthX, x_greatest - x_least), input(Param::RegionWidthY, y_greatest - y_least)]);
        let region = Region { x_least, x_greatest, y_least, y_greatest };
        judge(surface_extremes(&it.surface(), &region).map(|e| numbers(&e)), &inputs);
    }

    /// Any bits in a grid or steps: no panic, and numbers that are some.
    #[test]
    fn cells_refuse(
        x in prop::collection::vec(value_of(Param::GridX), 0..4), y in prop::collection::vec(value_of(Param::GridY), 0..4),
        z in prop::collection::vec(prop_oneof![4 => value_of(Param::ProbedHeight), 1 => Just(f64::NAN)], 0..10),
        place in (value_of(Param::PlaceX), value_of(Param::PlaceY)),
    ) {
        let (mut x, mut y, mut z) = (x, y, z);
        // Mostly in order, with as many heights as there must be.
        x.sort_by(f64::total_cmp);
        y.sort_by(f64::total_cmp);
        z.resize(x.len() * y.len(), 0.25);
        let whole = Region { x_least: -1e3, x_greatest: 1e3, y_least: -1e3, y_greatest: 1e3 };
        for surface in [Surface::Grid { x: &x, y: &y, z: &z }, Surface::Steps { edges: &x, z: &z[..x.len().saturating_sub(1).min(z.len())] }] {
            if let Ok(place) = surface_at(&surface, place.0, place.1) {
                prop_assert!([place.z, place.incidence, place.stretch].iter().all(|number| number.is_finite()));
            }
            if let Ok(extremes) = surface_extremes(&surface, &whole) {
                prop_assert!(numbers(&extremes).iter().all(|number| number.is_finite()));
            }
        }
    }
}

fn numbers(e: &SurfaceExtremes) -> Vec<f64> {
    let places = [e.highest_x, e.highest_y, e.lowest_x, e.lowest_y, e.steepest_x, e.steepest_y];
    [&[e.highest_z, e.lowest_z, e.range, e.steepest_incidence, e.unknown_share], &places[..]].concat()
}

const LEVEL: Region = Region { x_least: 0.0, x_greatest: 2.0, y_least: 0.0, y_greatest: 1.0 };

fn grid<'a>(x: &'a [f64], y: &'a [f64], z: &'a [f64]) -> Surface<'a> {
    Surface::Grid { x, y, z }
}

fn steps<'a>(edges: &'a [f64], z: &'a [f64]) -> Surface<'a> {
    Surface::Steps { edges, z }
}

#[track_caller]
fn refused(surface: &Surface<'_>, code: u32, param: Param, value: f64) -> Error {
    let error = surface_at(surface, 0.5, 0.5).unwrap_err();
    assert_eq!((error.code(), error.param()), (code, param), "{error}");
    assert!(error.value() == value || error.value().is_nan() && value.is_nan(), "{error}");
    let other = surface_extremes(surface, &LEVEL).unwrap_err();
    assert_eq!(error, other);
    error
}

/// Grids and steps that are none: every message names what is wrong, its value and what is allowed.
#[test]
fn bad_grids_are_refused() {
    let nan = f64::NAN;
    let z = [0.0; 6];
    let error = refused(&grid(&[0.0], &[0.0, 1.0], &z[..2]), 2, Param::GridColumns, 1.0);
    assert_eq!(error.to_string(), "number of grid columns = 1 is out of range (must be at least 2)");
    refused(&grid(&[0.0, 1.0], &[0.0], &z[..2]), 2, Param::GridRows, 1.0);
    refused(&grid(&[], &[], &[]), 2, Param::GridColumns, 0.0);
    let error = refused(&grid(&[0.0, 1.0], &[0.0, 1.0], &z[..3]), 6, Param::ProbedHeights, 3.0);
    assert_eq!(error.allowed(), (4.0, 4.0));
    refused(&grid(&[0.0, nan], &[0.0, 1.0], &z[..4]), 1, Param::GridX, nan);
    refused(&grid(&[0.0, 1.0], &[0.0, 2e3], &z[..4]), 2, Param::GridY, 2e3);
    refused(&grid(&[0.5, 0.5], &[0.0, 1.0], &z[..4]), 2, Param::GridSpacing, 0.0);
    refused(&grid(&[0.0, 1.0], &[1.0, 0.25], &z[..4]), 2, Param::GridSpacing, -0.75);
    refused(
        &grid(&[0.0, 1.0], &[0.0, 1.0], &[0.0, 0.0, f64::INFINITY, 0.0]),
        1,
        Param::ProbedHeight,
        f64::INFINITY,
    );
    refused(&grid(&[0.0, 1.0], &[0.0, 1.0], &[0.0, 0.0, 1.5e3, 0.0]), 2, Param::ProbedHeight, 1.5e3);
    let error = refused(&grid(&[0.0, 1.0], &[0.0, 1.0], &[nan; 4]), 8, Param::KnownProbes, 0.0);
    assert_eq!(error.to_string(), "the data cannot tell: known probes = 0 (must be at least 4)");
    refused(&steps(&[0.0], &[]), 2, Param::StepEdges, 1.0);
    refused(&steps(&[0.0, 1.0], &[0.0, 0.0]), 6, Param::StepHeights, 2.0);
    refused(&steps(&[0.0, 0.0], &[0.0]), 2, Param::StepWidth, 0.0);
    refused(&steps(&[nan, 1.0], &[0.0]), 1, Param::StepEdge, nan);
    refused(&steps(&[0.0, 1.0], &[nan]), 1, Param::StepHeight, nan);
}

/// What a hole in a grid does to a place and to a region, by hand.
#[test]
fn a_hole_is_told() {
    let nan = f64::NAN;
    let z = [0.1, 0.2, 0.3, 0.4, 0.5, nan];
    let grid = Surface::Grid { x: &[0.0, 1.0, 2.0], y: &[0.0, 1.0], z: &z };
    // Between the cells the one is taken that is complete.
    let place = surface_at(&grid, 1.0, 0.5).unwrap();
    assert_eq!((place.z, (place.slope_x * 1e12).round()), (0.35, 0.1e12));
    let error = surface_at(&grid, 1.5, 0.5).unwrap_err();
    assert_eq!((error.code(), error.param(), error.value()), (8, Param::KnownProbes, 3.0));
    let error = surface_at(&grid, 2.5, 0.5).unwrap_err();
    assert_eq!((error.code(), error.param(), error.allowed()), (2, Param::PlaceX, (0.0, 2.0)));
    let error = surface_at(&grid, 0.5, -0.5).unwrap_err();
    assert_eq!((error.code(), error.param(), error.allowed()), (2, Param::PlaceY, (0.0, 1.0)));
    let extremes = surface_extremes(&grid, &LEVEL).unwrap();
    assert_eq!((extremes.missing_probes, extremes.unknown_share, extremes.lowest_z), (1, 0.5, 0.5));
    let known = Region { x_greatest: 1.0, ..LEVEL };
    let extremes = surface_extremes(&grid, &known).unwrap();
    assert_eq!((extremes.missing_probes, extremes.unknown_share), (0, 0.0));
    let unknown = Region { x_least: 1.25, ..LEVEL };
    let error = surface_extremes(&grid, &unknown).unwrap_err();
    assert_eq!((error.code(), error.param(), error.value()), (8, Param::KnownParts, 0.0));
    let beside = Region { x_least: 5.0, x_greatest: 6.0, ..LEVEL };
    assert_eq!(surface_extremes(&grid, &beside).unwrap_err(), error);
}

/// A part narrower than what is marked on it.
#[test]
fn a_radius_below_half_the_width_is_refused() {
    for kind in [2, 3] {
        let level = (0.0, 0.0);
        let part = Smooth {
            kind,
            radius: 8e-3,
            bulge: Bulge::TowardLens,
            crown: level,
            axis_angle: 0.0,
            slope: level,
        };
        let region = |half: f64| Region { x_least: 0.0, x_greatest: 1e-6, y_least: -half, y_greatest: half };
        assert!(surface_extremes(&part.surface(), &region(7.999e-3)).is_ok());
        for half in [8e-3, 9e-3] {
            let error = surface_extremes(&part.surface(), &region(half)).unwrap_err();
            assert_eq!((error.code(), error.param()), (4, Param::DistanceFromCrown));
            assert_eq!(error.allowed(), (0.0, 8e-3));
            near(error.value(), half, 1e-9);
            let error = surface_at(&part.surface(), 0.0, half).unwrap_err();
            assert_eq!((error.code(), error.value(), error.allowed()), (4, half, (0.0, 8e-3)));
            let half = half * 1e3;
            assert_eq!(
                error.to_string(),
                format!(
                    "distance from the crown = 0.00{half} m is outside the model (must be from 0 to less than 0.008 m)"
                )
            );
        }
    }
}
