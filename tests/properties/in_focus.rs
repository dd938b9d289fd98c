//! Shares of a surface in focus, and the focus heights that serve it best.

use super::given::*;
use super::strips::{Run, cells_over, counted_share, mean_square_from, runs};
use proptest::prelude::*;
use spotwise::Param;
use spotwise::model::focus::{DepthCriterion, defocus, depth_of_focus};
use spotwise::model::optics::{Beam, beam_parameters};
use spotwise::model::surface::{
    Bulge, FocusHeight, Region, ShareInFocus, Surface, SurfaceFocus, focus_for_surface, region_heights,
    share_in_focus, surface_at, surface_extremes,
};

/// Parts of a millionth of a metre: sums of few such numbers are exact.
const GRAIN: f64 = 1.0 / (1u64 << 30) as f64;
/// Last digits of a share.
const LAST: f64 = 1e-14;

/// A surface that owns its numbers.
#[derive(Debug, Clone)]
enum Shape {
    Plane(f64, f64),
    Cylinder(f64, Bulge, f64, f64, f64),
    Sphere(f64, Bulge, f64, f64, f64),
    Steps(Vec<f64>, Vec<f64>),
    Grid(Vec<f64>, Vec<f64>, Vec<f64>),
}

impl Shape {
    fn surface(&self) -> Surface<'_> {
        match self {
            &Self::Plane(slope_x, slope_y) => Surface::Plane { slope_x, slope_y },
            &Self::Cylinder(radius, bulge, crown_y, axis_angle, slope_x) => {
                Surface::Cylinder { radius, bulge, crown_x: 0.0, crown_y, axis_angle, slope_x, slope_y: 0.0 }
            }
            &Self::Sphere(radius, bulge, crown_x, slope_x, slope_y) => {
                Surface::Sphere { radius, bulge, crown_x, crown_y: 0.0, slope_x, slope_y }
            }
            Self::Steps(edges, z) => Surface::Steps { edges, z },
            Self::Grid(x, y, z) => Surface::Grid { x, y, z },
        }
    }
}

fn bulge() -> impl Strategy<Value = Bulge> {
    prop_oneof![Just(Bulge::TowardLens), Just(Bulge::AwayFromLens)]
}

fn grains(most: i64) -> BoxedStrategy<f64> {
    (-most..=most).prop_map(|k| k as f64 * GRAIN).boxed()
}

/// Heights of up to a millimetre in grains, sometimes alike.
fn height() -> BoxedStrategy<f64> {
    prop_oneof![4 => grains(1 << 20), 1 => grains(2).prop_map(|z| z * f64::from(1 << 18))].boxed()
}

/// Places from this one on, in grains.
fn ascending(start: f64, count: usize) -> BoxedStrategy<Vec<f64>> {
    prop::collection::vec(1i64 << 20..1i64 << 24, count)
        .prop_map(move |steps| {
            let mut at = start;
            let mut places = vec![start];
            for step in steps {
                at += step as f64 * GRAIN;
                places.push(at);
            }
            places
        })
        .boxed()
}

fn grid() -> BoxedStrategy<Shape> {
    (2usize..5, 2usize..5)
        .prop_flat_map(|(columns, rows)| {
            let z = prop::collection::vec(height(), columns * rows);
            (ascending(0.0, columns - 1), ascending(0.0, rows - 1), z)
        })
        .prop_map(|(x, y, z)| Shape::Grid(x, y, z))
        .boxed()
}

fn steps() -> BoxedStrategy<Shape> {
    (1usize..6)
        .prop_flat_map(|count| (ascending(0.0, count), prop::collection::vec(height(), count)))
        .prop_map(|(edges, z)| Shape::Steps(edges, z))
        .boxed()
}

fn curved() -> BoxedStrategy<Shape> {
    let slope = || -0.02..0.02;
    prop_oneof![
        (spread(0.05, 5.0), bulge(), -0.01..0.01, -2.0..2.0, slope())
            .prop_map(|(r, b, y, a, s)| Shape::Cylinder(r, b, y, a, s)),
        (spread(0.05, 5.0), bulge(), -0.01..0.01, slope(), slope())
            .prop_map(|(r, b, x, s, t)| Shape::Sphere(r, b, x, s, t)),
    ]
    .boxed()
}

fn plane() -> BoxedStrategy<Shape> {
    (signed_spread(1e-9, 0.05), signed_spread(1e-9, 0.05)).prop_map(|(p, q)| Shape::Plane(p, q)).boxed()
}

/// A grid of which some probes found nothing, but the cell of the first place is whole.
fn holed() -> BoxedStrategy<Shape> {
    (grid(), prop::collection::vec(0usize..16, 1..4))
        .prop_map(|(shape, holes)| {
            let Shape::Grid(x, y, mut z) = shape else { unreachable!() };
            let columns = x.len();
            for hole in holes {
                let is_kept = hole % columns < 2 && hole / columns < 2;
                if let Some(z) = z.get_mut(hole).filter(|_| !is_kept) {
                    *z = f64::NAN;
                }
            }
            Shape::Grid(x, y, z)
        })
        .boxed()
}

/// How finely curved shapes are measured where they are counted.
const CELLS: u32 = 6;

/// The bilinear cells that a shape is measured as, in runs.
fn counted(shape: &Shape, region: &Region, strips: u32) -> Vec<Run> {
    let surface = shape.surface();
    if matches!(shape, Shape::Cylinder(..) | Shape::Sphere(..)) {
        let (x, y, z) = cells_over(&surface, region, CELLS);
        return runs(&Surface::Grid { x: &x, y: &y, z: &z }, region, strips);
    }
    runs(&surface, region, strips)
}

fn any_shape() -> BoxedStrategy<Shape> {
    prop_oneof![1 => plane(), 2 => curved(), 1 => steps(), 3 => grid()].boxed()
}

/// A region of some centimetres, which meets every shape and may leave steps and grids.
fn region() -> BoxedStrategy<Region> {
    (-0.01..0.001, 0.005..0.02, -0.01..0.001, 0.005..0.02)
        .prop_map(|(x_least, x_greatest, y_least, y_greatest)| Region {
            x_least,
            x_greatest,
            y_least,
            y_greatest,
        })
        .boxed()
}

/// Two heights about a surface, in order.
fn band(shape: &Shape, region: &Region, ends: (f64, f64)) -> (f64, f64) {
    let extremes = surface_extremes(&shape.surface(), region).unwrap();
    let at = |part: f64| extremes.highest_z + part * extremes.range;
    let (a, b) = (at(ends.0), at(ends.1));
    (a.min(b), a.max(b))
}

fn part() -> BoxedStrategy<f64> {
    prop_oneof![6 => -0.2..1.2, 1 => Just(0.0), 1 => Just(1.0)].boxed()
}

fn shares(shape: &Shape, region: &Region, cells: u32, band: (f64, f64)) -> ShareInFocus {
    share_in_focus(&shape.surface(), region, cells, band.0, band.1).unwrap()
}

/// The region as a whole of a grid or of steps.
fn whole(shape: &Shape) -> Region {
    let ends = |list: &[f64]| (list[0], list[list.len() - 1]);
    let ((x_least, x_greatest), (y_least, y_greatest)) = match shape {
        Shape::Grid(x, y, _) => (ends(x), ends(y)),
        Shape::Steps(edges, _) => (ends(edges), (0.0, 0.01)),
        _ => ((-0.01, 0.01), (-0.01, 0.01)),
    };
    Region { x_least, x_greatest, y_least, y_greatest }
}

/// Heights at the middles of n × n equal parts of the region, by the shape's own formula.
fn sampled(surface: &Surface<'_>, region: &Region, n: u32) -> Vec<f64> {
    let middle = |least: f64, greatest: f64, k: u32| {
        least + (greatest - least) * ((f64::from(k) + 0.5) / f64::from(n))
    };
    let mut heights = Vec::new();
    for row in 0..n {
        for column in 0..n {
            let x = middle(region.x_least, region.x_greatest, column);
            let y = middle(region.y_least, region.y_greatest, row);
            heights.push(surface_at(surface, x, y).unwrap().z);
        }
    }
    heights
}

proptest! {
    #![proptest_config(config())]

    /// The three shares are shares, and add up to one; so do unknown and known.
    #[test]
    fn shares_add_up(shape in any_shape(), region in region(), ends in (part(), part()), cells in 1u32..7) {
        let share = shares(&shape, &region, cells, band(&shape, &region, ends));
        for one in [share.in_focus, share.toward_lens, share.away_from_lens, share.unknown_share] {
            prop_assert!((0.0..=1.0 + LAST).contains(&one), "{share:?}");
        }
        let sum = share.in_focus + share.toward_lens + share.away_from_lens;
        prop_assert!((sum - 1.0).abs() < LAST, "{share:?}");
    }

    /// A wider band holds no less, and a band of all heights holds everything.
    #[test]
    fn shares_grow_with_the_band(
        shape in any_shape(),
        region in region(),
        ends in (part(), part()),
        wider in (0.0..0.3, 0.0..0.3),
        cells in 1u32..7,
    ) {
        let narrow = band(&shape, &region, ends);
        let range = surface_extremes(&shape.surface(), &region).unwrap().range;
        let wide = (narrow.0 - wider.0 * range, narrow.1 + wider.1 * range);
        let (less, more) = (shares(&shape, &region, cells, narrow), shares(&shape, &region, cells, wide));
        prop_assert!(more.in_focus >= less.in_focus - LAST);
        prop_assert!(more.toward_lens <= less.toward_lens + LAST);
        prop_assert!(more.away_from_lens <= less.away_from_lens + LAST);
        let all = shares(&shape, &region, cells, band(&shape, &region, (-0.01, 1.01)));
        prop_assert!((all.in_focus - 1.0).abs() < LAST);
    }

    /// How far beyond the surface an end lies does not matter, also where heights differ in their last digits only.
    #[test]
    fn an_end_far_away(shape in grid(), t in 0.0f64..1.0, is_level: bool) {
        let region = whole(&shape);
        let Shape::Grid(x, y, z) = &shape else { unreachable!() };
        let scale = if is_level { 1e-10 } else { 1.0 };
        let shape = Shape::Grid(x.clone(), y.clone(), z.iter().map(|z| scale * z).collect());
        let (_, level) = band(&shape, &region, (0.0, t));
        let near = shares(&shape, &region, 1, (-2e-3 * scale, level));
        let far = shares(&shape, &region, 1, (-1e3, level));
        prop_assert!((near.in_focus - far.in_focus).abs() < LAST && far.toward_lens == 0.0, "{near:?} {far:?}");
        let near = shares(&shape, &region, 1, (level, 2e-3 * scale));
        let far = shares(&shape, &region, 1, (level, 1e3));
        prop_assert!((near.in_focus - far.in_focus).abs() < LAST && far.away_from_lens == 0.0, "{near:?} {far:?}");
    }

    /// Bands side by side share the area without rest.
    #[test]
    fn bands_side_by_side(shape in any_shape(), region in region(), ends in (part(), part()), middle in 0.0..1.0) {
        let (a, c) = band(&shape, &region, ends);
        let b = a + middle * (c - a);
        let [first, second, both] = [(a, b), (b, c), (a, c)].map(|band| shares(&shape, &region, 5, band).in_focus);
        // A level part at just this height belongs to both.
        let level = shares(&shape, &region, 5, (b, b)).in_focus;
        prop_assert!((first + second - level - both).abs() < LAST, "{first} + {second} − {level}, {both}");
    }

    /// A surface turned upside down has its shares exchanged.
    #[test]
    fn upside_down(shape in grid(), ends in (part(), part())) {
        let region = whole(&shape);
        let (a, b) = band(&shape, &region, ends);
        let Shape::Grid(x, y, z) = &shape else { unreachable!() };
        let turned = Shape::Grid(x.clone(), y.clone(), z.iter().map(|z| -z).collect());
        let (up, down) = (shares(&shape, &region, 1, (a, b)), shares(&turned, &region, 1, (-b, -a)));
        prop_assert!((up.in_focus - down.in_focus).abs() < LAST);
        prop_assert!((up.toward_lens - down.away_from_lens).abs() < LAST);
        let (up, down) = (
            region_heights(&shape.surface(), &region, 1).unwrap(),
            region_heights(&turned.surface(), &region, 1).unwrap(),
        );
        prop_assert!((up.mean_z + down.mean_z).abs() < 1e-18);
        prop_assert!((up.z_deviation - down.z_deviation).abs() <= 1e-14 * up.z_deviation);
    }

    /// x and y exchanged.
    #[test]
    fn turned_by_a_quarter(shape in grid(), region in region(), ends in (part(), part())) {
        let Shape::Grid(x, y, z) = &shape else { unreachable!() };
        let columns = x.len();
        let turned_z = (0..columns).flat_map(|c| (0..y.len()).map(move |r| z[r * columns + c])).collect();
        let turned = Shape::Grid(y.clone(), x.clone(), turned_z);
        let turned_region = Region {
            x_least: region.y_least,
            x_greatest: region.y_greatest,
            y_least: region.x_least,
            y_greatest: region.x_greatest,
        };
        let band = band(&shape, &region, ends);
        let (one, other) = (shares(&shape, &region, 1, band), shares(&turned, &turned_region, 1, band));
        // The middle of the range, from which heights are counted, may differ in its last digit.
        prop_assert!((one.in_focus - other.in_focus).abs() < 1e-12, "{one:?} {other:?}");
        prop_assert!((one.unknown_share - other.unknown_share).abs() < LAST);
    }

    /// Raised as a whole, surface and band keep their shares, and focus goes with them.
    #[test]
    fn moved_along_the_axis(shape in grid(), ends in (part(), part()), by in grains(1 << 30)) {
        let region = whole(&shape);
        let Shape::Grid(x, y, z) = &shape else { unreachable!() };
        let moved = Shape::Grid(x.clone(), y.clone(), z.iter().map(|z| z + by).collect());
        let (a, b) = band(&shape, &region, ends);
        let (a, b) = ((a / GRAIN).round() * GRAIN, (b / GRAIN).round() * GRAIN);
        let (here, there) = (shares(&shape, &region, 1, (a, b)), shares(&moved, &region, 1, (a + by, b + by)));
        prop_assert_eq!(here.in_focus, there.in_focus);
        prop_assert_eq!(here.toward_lens, there.toward_lens);
        let (here, there) = (
            region_heights(&shape.surface(), &region, 1).unwrap(),
            region_heights(&moved.surface(), &region, 1).unwrap(),
        );
        prop_assert_eq!(here.z_deviation, there.z_deviation);
        prop_assert!((here.mean_z + by - there.mean_z).abs() <= 3e-16 * by.abs() + 1e-18);
    }

    /// Cut in two, a surface is what its parts are together, each by its area.
    #[test]
    fn parts_make_the_whole(shape in any_shape(), ends in (part(), part()), cut in 0.1f64..0.9, is_x: bool) {
        // The cells of a curved shape would be others.
        let shape = if matches!(shape, Shape::Cylinder(..) | Shape::Sphere(..)) { Shape::Plane(0.01, 0.02) } else { shape };
        let region = whole(&shape);
        let (mut first, mut second) = (region, region);
        if is_x {
            first.x_greatest = region.x_least + cut * (region.x_greatest - region.x_least);
            second.x_least = first.x_greatest;
        } else {
            first.y_greatest = region.y_least + cut * (region.y_greatest - region.y_least);
            second.y_least = first.y_greatest;
        }
        let band = band(&shape, &region, ends);
        let joined = |a: f64, b: f64| cut * a + (1.0 - cut) * b;
        let [all, a, b] = [region, first, second].map(|part| shares(&shape, &part, 1, band));
        prop_assert!((all.in_focus - joined(a.in_focus, b.in_focus)).abs() < 1e-11);
        prop_assert!((all.toward_lens - joined(a.toward_lens, b.toward_lens)).abs() < 1e-11);
        let [all, a, b] = [region, first, second].map(|part| region_heights(&shape.surface(), &part, 1).unwrap());
        let mean = joined(a.mean_z, b.mean_z);
        prop_assert!((all.mean_z - mean).abs() < 1e-16);
        let square = |part: f64, deviation: f64| deviation.powi(2) + (part - mean).powi(2);
        let squares = joined(square(a.mean_z, a.z_deviation), square(b.mean_z, b.z_deviation));
        prop_assert!((all.z_deviation - squares.sqrt()).abs() < 1e-12 * (all.lowest_z - all.highest_z) + 1e-18);
    }

    /// On a plane that falls in x only, area is height; that falls alike in x and y over a square, heights
    /// are spread as the sum of two numbers that are each spread evenly: shares are areas of triangles.
    #[test]
    fn planes_by_hand(slope in spread(1e-6, 1.0), side in spread(1e-4, 1.0), t in 0.0f64..1.0) {
        let region = Region { x_least: 0.0, x_greatest: side, y_least: 0.0, y_greatest: side };
        let range = slope * side;
        let one_way = share_in_focus(&Surface::Plane { slope_x: slope, slope_y: 0.0 }, &region, 1, 0.0, t * range);
        prop_assert!((one_way.unwrap().in_focus - t).abs() < LAST);
        let both = Surface::Plane { slope_x: slope, slope_y: slope };
        let triangle = share_in_focus(&both, &region, 1, 0.0, t * range).unwrap().in_focus;
        prop_assert!((triangle - 0.5 * t * t).abs() < LAST, "{triangle}, {t}");
    }

    /// What does not know its cells is not changed by them.
    #[test]
    fn cells_matter_to_curved_shapes_only(shape in prop_oneof![plane(), steps(), grid()], ends in (part(), part()), cells in 1u32..1001) {
        let region = whole(&shape);
        let band = band(&shape, &region, ends);
        prop_assert_eq!(shares(&shape, &region, 1, band), shares(&shape, &region, cells, band));
    }
}

// --- Curved surfaces --------------------------------------------------------------------------

/// Share of a cylinder's or sphere's area within a band, mean and deviation of its height, by many heights.
fn by_quadrature(surface: &Surface<'_>, region: &Region, n: u32) -> (f64, f64) {
    let heights = sampled(surface, region, n);
    let count = heights.len() as f64;
    let mean = heights.iter().sum::<f64>() / count;
    let variance = heights.iter().map(|z| (z - mean).powi(2)).sum::<f64>() / count;
    (mean, variance.sqrt())
}

proptest! {
    #![proptest_config(few_cases())]

    /// Brute force: of many strips, along which the height is linear, the share that lies in the band; and the mean.
    #[test]
    fn shares_by_counting(shape in prop_oneof![1 => any_shape(), 1 => holed()], region in region(), ends in (part(), part())) {
        let (a, b) = band(&shape, &region, ends);
        let runs = counted(&shape, &region, 300);
        // A level part may lie just at an end.
        let last = 1e-15 + 4.0 * f64::EPSILON * a.abs().max(b.abs());
        let (least, most) = (counted_share(&runs, a + last, b - last), counted_share(&runs, a - last, b + last));
        let share = shares(&shape, &region, CELLS, (a, b));
        // Where an edge of a cell is level at an end of the band, half a strip on either side of the cell.
        let slack = 1.05 / 300.0;
        prop_assert!(share.in_focus > least - slack && share.in_focus < most + slack, "{least} {most} {share:?}");
        let toward = [-last, last].map(|more| counted_share(&runs, f64::NEG_INFINITY, a + more));
        prop_assert!(share.toward_lens > toward[0] - slack && share.toward_lens < toward[1] + slack, "{toward:?} {share:?}");
        let heights = region_heights(&shape.surface(), &region, CELLS).unwrap();
        let deviation = mean_square_from(&runs, heights.mean_z).sqrt();
        let range = heights.lowest_z - heights.highest_z;
        prop_assert!((heights.z_deviation - deviation).abs() < 1e-4 * range + 1e-15, "{heights:?} {deviation}");
    }

    /// More cells, less error: in the mean and the deviation 3/n² of the range at most, and half of it by
    /// quadrature of the shape's own formula.
    #[test]
    fn cells_converge(shape in curved(), region in region()) {
        let surface = shape.surface();
        let range = surface_extremes(&surface, &region).unwrap().range;
        let (mean, deviation) = by_quadrature(&surface, &region, 120);
        // Of the quadrature itself.
        let own = 0.5 / 120f64.powi(2);
        for cells in [4u32, 16, 64] {
            let heights = region_heights(&surface, &region, cells).unwrap();
            let allowed = (1.0 / f64::from(cells).powi(2) + own) * range;
            prop_assert!((heights.mean_z - mean).abs() < allowed, "{cells} cells: {} {mean}", heights.mean_z);
            prop_assert!((heights.z_deviation - deviation).abs() < allowed, "{cells} cells");
        }
    }
}

/// Share of a region between two heights of a dome whose crown is its middle, exactly: a ring cut by the
/// edges of the region.
fn dome_share(radius: f64, half_side: f64, z: f64) -> f64 {
    // The place at which the sag is z is r² = z·(2R − z) away from the crown.
    let r = (z * (2.0 * radius - z)).sqrt();
    let area = if r <= half_side {
        std::f64::consts::PI * r * r
    } else if r >= half_side * std::f64::consts::SQRT_2 {
        4.0 * half_side * half_side
    } else {
        // A disc less four segments.
        let angle = (half_side / r).acos();
        std::f64::consts::PI * r * r
            - 4.0 * (r * r * angle - half_side * (r * r - half_side * half_side).sqrt())
    };
    area / (4.0 * half_side * half_side)
}

/// The errors that the documentation of the mesh states, and that they are not less by half.
#[test]
fn errors_of_the_cells() {
    let mut found = [[0.0f64; 3]; 3];
    let half = 10e-3;
    let region = Region { x_least: -half, x_greatest: half, y_least: -half, y_greatest: half };
    for radius in [15e-3, 20e-3, 50e-3, 1.0] {
        for bulge in [Bulge::TowardLens, Bulge::AwayFromLens] {
            let sign = if bulge == Bulge::TowardLens { 1.0 } else { -1.0 };
            let dome =
                Surface::Sphere { radius, bulge, crown_x: 0.0, crown_y: 0.0, slope_x: 0.0, slope_y: 0.0 };
            let bar = Surface::Cylinder {
                radius,
                bulge,
                crown_x: 0.0,
                crown_y: 0.0,
                axis_angle: 0.0,
                slope_x: 0.0,
                slope_y: 0.0,
            };
            let dome_range = surface_extremes(&dome, &region).unwrap().range;
            let bar_range = surface_extremes(&bar, &region).unwrap().range;
            // The strip that lies above the sag z.
            let bar_share = |z: f64| ((z * (2.0 * radius - z)).sqrt() / half).min(1.0);
            for (at, cells) in [16u32, 64, 128].into_iter().enumerate() {
                for step in 1..200 {
                    let part = f64::from(step) / 200.0;
                    for (surface, z, exact) in [
                        (&dome, part * dome_range, dome_share(radius, half, part * dome_range)),
                        (&bar, part * bar_range, bar_share(part * bar_range)),
                    ] {
                        let (toward, away) = if sign > 0.0 { (-1.0, z) } else { (-z, 1.0) };
                        let share = share_in_focus(surface, &region, cells, toward, away).unwrap();
                        found[at][0] = found[at][0].max((share.in_focus - exact).abs());
                    }
                }
                // Mean height of the bar: sag less the circular segment over its chord.
                let angle = 2.0 * (half / radius).asin();
                let segment = 0.5 * radius * radius * (angle - angle.sin());
                let mean = sign * (bar_range - segment / (2.0 * half));
                let heights = region_heights(&bar, &region, cells).unwrap();
                found[at][1] = found[at][1].max((heights.mean_z - mean).abs() / bar_range);
                // Mean square of R − √(R² − y²): R² + (R² − half²/3) − 2R·(R − mean).
                let mean = mean.abs();
                let square = 2.0 * radius * mean - half * half / 3.0;
                let deviation = (square - mean * mean).sqrt();
                found[at][2] = found[at][2].max((heights.z_deviation - deviation).abs() / bar_range);
            }
        }
    }
    println!("{found:?}");
    for (cells, documented) in [(0, DOCUMENTED[0]), (1, DOCUMENTED[1]), (2, DOCUMENTED[2])] {
        for (found, documented) in found[cells].iter().zip(documented) {
            assert!(*found <= documented && 2.0 * found > documented, "{found} against {documented}");
        }
    }
}

/// For 16, 64 and 128 cells per side: errors of shares, and of mean and deviation over the range.
const DOCUMENTED: [[f64; 3]; 3] =
    [[3.1e-2, 3.1e-3, 8.1e-4], [1.6e-3, 2e-4, 5.2e-5], [4.4e-4, 4.8e-5, 1.4e-5]];

// --- Focus heights ----------------------------------------------------------------------------

const BEAM: Beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };

fn beam() -> impl Strategy<Value = Beam> {
    (spread(1e-6, 1.1e-5), 1.0f64..2.0, spread(4e-5, 2e-4))
        .prop_map(|(wavelength, m2, waist_diameter)| Beam { wavelength, m2, waist_diameter })
        .prop_filter("too wide a cone", |beam| beam_parameters(beam).is_ok())
}

fn criterion() -> impl Strategy<Value = DepthCriterion> {
    prop_oneof![
        (1.02f64..2.0).prop_map(|ratio| DepthCriterion::Growth { ratio }),
        Just(DepthCriterion::Rayleigh),
        (0.05f64..0.6).prop_map(|drop| DepthCriterion::IrradianceDrop { drop }),
        (0.05f64..0.4).prop_map(|drop| DepthCriterion::LineDoseDrop { drop }),
    ]
}

/// A surface that is up to this many depths high.
fn shape_for_focus() -> BoxedStrategy<Shape> {
    prop_oneof![1 => plane(), 2 => curved(), 2 => steps(), 3 => grid()].boxed()
}

/// By how much, in depths, a part lies off a whole number of them.
fn apart() -> BoxedStrategy<f64> {
    prop_oneof![
        1 => Just(0.0),
        1 => signed_spread(1e-12, 1e-8),
        2 => signed_spread(1e-5, 1e-2),
        1 => -0.3..0.3,
    ]
    .boxed()
}

/// A grid whose cells are saddles, some nearly level.
fn twisted() -> BoxedStrategy<Shape> {
    (2usize..5, 2usize..5)
        .prop_flat_map(|(columns, rows)| {
            let z = prop::collection::vec((spread(1e-6, 1e-3), -1e-4..1e-4), columns * rows);
            (ascending(0.0, columns - 1), ascending(0.0, rows - 1), z)
        })
        .prop_map(|(x, y, z)| {
            let columns = x.len();
            let turn = |k: usize| if (k % columns + k / columns).is_multiple_of(2) { 1.0 } else { -1.0 };
            let z = z.iter().enumerate().map(|(k, (size, off))| turn(k) * size + off).collect();
            Shape::Grid(x, y, z)
        })
        .boxed()
}

/// What the proof of the search leaves open: a share of the area, and by how much of itself the depth is shorter.
const LEFT_OPEN: f64 = 1.11e-5;
const SHORTER: f64 = 1e-6;

/// Asks for the share in focus at many heights, evenly and wherever a corner enters the depth or leaves it.
fn none_keeps_more(
    beam: &Beam,
    criterion: DepthCriterion,
    shape: &Shape,
    region: &Region,
    steps: u32,
) -> Result<(), TestCaseError> {
    let found = focus(beam, criterion, shape, region).most_in_focus.share_in_focus;
    let depth = depth_of_focus(beam, criterion).unwrap();
    let extremes = surface_extremes(&shape.surface(), region).unwrap();
    let start = extremes.highest_z - depth.away_from_lens_z;
    let mut places: Vec<f64> = (0..=steps)
        .map(|step| start + (extremes.range + depth.full) * (f64::from(step) / f64::from(steps)))
        .collect();
    let corners = match shape {
        Shape::Steps(_, z) | Shape::Grid(_, _, z) => z.clone(),
        Shape::Plane(..) => Vec::new(),
        _ => cells_over(&shape.surface(), region, CELLS).2,
    };
    for z in corners.into_iter().filter(|z| !z.is_nan()) {
        for end in [depth.toward_lens_z, depth.away_from_lens_z] {
            let aside = [0.0, 1e-9, 1e-7, 1e-5, 1e-3, 1e-2].map(|aside| aside * depth.full);
            places.extend(aside.into_iter().flat_map(|aside| [z - end - aside, z - end + aside]));
        }
    }
    let shorter = 0.5 * SHORTER * depth.full;
    for z in places {
        let (toward, away) = (z + depth.toward_lens_z + shorter, z + depth.away_from_lens_z - shorter);
        let share = shares(shape, region, CELLS, (toward, away)).in_focus;
        prop_assert!(share <= found + LEFT_OPEN, "{z}: {share}, {found}");
    }
    Ok(())
}

fn focus(beam: &Beam, criterion: DepthCriterion, shape: &Shape, region: &Region) -> SurfaceFocus {
    focus_for_surface(beam, criterion, &shape.surface(), region, CELLS).unwrap()
}

fn heights(focus: &SurfaceFocus) -> [FocusHeight; 3] {
    [focus.least_worst, focus.least_mean_area, focus.most_in_focus]
}

proptest! {
    #![proptest_config(few_cases())]

    /// Each height's numbers are what other functions say of it.
    #[test]
    fn numbers_of_the_heights(beam in beam(), criterion in criterion(), shape in shape_for_focus(), region in region()) {
        let surface = shape.surface();
        let extremes = surface_extremes(&surface, &region).unwrap();
        let spread = region_heights(&surface, &region, 6).unwrap();
        let depth = depth_of_focus(&beam, criterion).unwrap();
        let zr = beam_parameters(&beam).unwrap().rayleigh_range;
        for height in heights(&focus(&beam, criterion, &shape, &region)) {
            let growth = |z: f64| defocus(&beam, z - height.focus_z).unwrap().growth;
            let worst = growth(extremes.highest_z).max(growth(extremes.lowest_z));
            prop_assert!((height.worst_growth - worst).abs() < 1e-12 * worst);
            let offset = spread.mean_z - height.focus_z;
            let area = 1.0 + (offset * offset + spread.z_deviation.powi(2)) / (zr * zr);
            prop_assert!((height.mean_area_growth - area).abs() < 1e-12 * area);
            // A level part may lie just at an end, and the band found there by other roundings.
            let band = |more: f64| (height.focus_z + depth.toward_lens_z - more, height.focus_z + depth.away_from_lens_z + more);
            let (least, most) = (shares(&shape, &region, 6, band(-1e-15)), shares(&shape, &region, 6, band(1e-15)));
            prop_assert!(height.share_in_focus >= least.in_focus - 1e-9 && height.share_in_focus <= most.in_focus + 1e-9);
        }
    }

    /// Brute force: no height makes the worst spot less, or the mean spot, counted for all on the same strips.
    #[test]
    fn no_height_is_better(
        beam in beam(),
        criterion in criterion(),
        shape in prop_oneof![3 => shape_for_focus(), 1 => holed()],
        region in region(),
    ) {
        let found = focus(&beam, criterion, &shape, &region);
        let extremes = surface_extremes(&shape.surface(), &region).unwrap();
        let zr = beam_parameters(&beam).unwrap().rayleigh_range;
        let runs = counted(&shape, &region, 30);
        let mean_area = |z: f64| 1.0 + mean_square_from(&runs, z) / (zr * zr);
        let least_area = mean_area(found.least_mean_area.focus_z);
        for step in -20..=120 {
            let z = extremes.highest_z + extremes.range * (f64::from(step) / 100.0);
            let growth = |at: f64| defocus(&beam, at - z).unwrap().growth;
            let worst = growth(extremes.highest_z).max(growth(extremes.lowest_z));
            prop_assert!(worst >= found.least_worst.worst_growth * (1.0 - 1e-14));
            prop_assert!(mean_area(z) >= least_area * (1.0 - 1e-12), "{z}: {} {least_area}", mean_area(z));
        }
        // Nor do its neighbours, that differ by a thousandth of the range: their mean square is more by its square.
        for aside in [-1e-3, 1e-3] {
            let aside = aside * extremes.range;
            let more = mean_area(found.least_mean_area.focus_z + aside) - least_area;
            prop_assert!((more - (aside / zr).powi(2)).abs() < 1e-3 * (aside / zr).powi(2) + 1e-13 * least_area, "{more}");
        }
        prop_assert!(found.least_mean_area.mean_area_growth <= found.least_worst.mean_area_growth * (1.0 + 1e-14));
        prop_assert!(found.least_mean_area.mean_area_growth <= found.most_in_focus.mean_area_growth * (1.0 + 1e-14));
        prop_assert!(found.most_in_focus.share_in_focus >= found.least_worst.share_in_focus - 2e-6);
        prop_assert!(found.most_in_focus.share_in_focus >= found.least_mean_area.share_in_focus - 2e-6);
    }

    /// Brute force: no height keeps more, those among them at which a corner of a cell enters the depth or leaves it.
    #[test]
    fn no_height_keeps_more(
        beam in beam(),
        criterion in criterion(),
        shape in prop_oneof![3 => shape_for_focus(), 1 => holed(), 1 => twisted()],
        region in region(),
    ) {
        none_keeps_more(&beam, criterion, &shape, &region, 700)?;
    }

    /// The same where level and nearly level parts lie nearly one depth apart, so that only a narrow range of heights,
    /// or none, has both in focus.
    #[test]
    fn no_height_keeps_more_of_parts_one_depth_apart(
        beam in beam(),
        criterion in criterion(),
        parts in prop::collection::vec((0.05f64..1.0, -3i32..4, apart(), apart()), 2..7),
        is_steps: bool,
    ) {
        let full = depth_of_focus(&beam, criterion).unwrap().full;
        let mut x = vec![0.0];
        let (mut level, mut near, mut far) = (Vec::new(), Vec::new(), Vec::new());
        for (width, depths, off, tilt) in parts {
            // A ramp of its own width leads from one part of a grid to the next.
            for _ in 0..2 {
                x.push(x[x.len() - 1] + 1e-3 * width);
                near.push(full * (f64::from(depths) + off));
                far.push(full * (f64::from(depths) + off + tilt));
            }
            level.push(full * (f64::from(depths) + off));
        }
        let shape = if is_steps {
            Shape::Steps(x.into_iter().step_by(2).collect(), level)
        } else {
            x.pop();
            near.extend(far);
            Shape::Grid(x, vec![0.0, 0.01], near)
        };
        none_keeps_more(&beam, criterion, &shape, &whole(&shape), 100)?;
    }

    /// Level strips are no search at all: the best of all ranges of heights that begin at a strip and are one depth long.
    #[test]
    fn strips_one_depth_apart(
        beam in beam(),
        criterion in criterion(),
        strips in prop::collection::vec((0.05f64..1.0, -3i32..4, apart()), 2..9),
    ) {
        let full = depth_of_focus(&beam, criterion).unwrap().full;
        let mut edges = vec![0.0];
        edges.extend(strips.iter().scan(0.0, |at, (width, ..)| {
            *at += 1e-3 * width;
            Some(*at)
        }));
        let z: Vec<f64> = strips.iter().map(|(_, depths, off)| full * (f64::from(*depths) + off)).collect();
        let all: f64 = strips.iter().map(|(width, ..)| width).sum();
        let most = |depth: f64| {
            let from = |start: f64| {
                let held = |at: &f64| *at >= start && *at <= start + depth;
                z.iter().zip(&strips).filter(|(at, _)| held(at)).map(|(_, (width, ..))| width).sum::<f64>() / all
            };
            z.iter().map(|start| from(*start)).fold(0.0, f64::max)
        };
        let shape = Shape::Steps(edges, z.clone());
        let found = focus(&beam, criterion, &shape, &whole(&shape)).most_in_focus.share_in_focus;
        prop_assert!(found >= most(full * (1.0 - 4e-9)) - 1e-9, "{found} of {}", most(full));
        prop_assert!(found <= most(full * (1.0 + 1e-12)) + 1e-9, "{found} of {}", most(full));
    }

    /// Where the whole surface is in focus at once, all of it is, at half-way; focus may then err by what is left.
    #[test]
    fn all_in_focus(shape in shape_for_focus(), region in region(), room in 1.0f64..3.0) {
        let range = surface_extremes(&shape.surface(), &region).unwrap().range.max(1e-9);
        // A Rayleigh range of half the range, and more.
        let waist_diameter = (4.0 * 10.6e-6 * 0.5 * range * room * 1.000_001 / std::f64::consts::PI).sqrt();
        let beam = Beam { wavelength: 10.6e-6, m2: 1.0, waist_diameter };
        prop_assume!(depth_of_focus(&beam, DepthCriterion::Rayleigh).is_ok());
        let found = focus(&beam, DepthCriterion::Rayleigh, &shape, &region);
        prop_assert!((found.most_in_focus.share_in_focus - 1.0).abs() < LAST);
        prop_assert!((found.least_worst.share_in_focus - 1.0).abs() < LAST);
        let apart = (found.most_in_focus.focus_z - found.least_worst.focus_z).abs();
        prop_assert!(apart < 1e-13 * (range + found.least_worst.focus_z.abs()), "{apart}");
    }
}

/// Level strips: the strips that fit into one depth and have most area together; focus half-way between them.
#[test]
fn strips_by_hand() {
    let depth = depth_of_focus(&BEAM, DepthCriterion::Rayleigh).unwrap();
    let half = depth.away_from_lens_z;
    let focus = |edges: &[f64], z: &[f64]| {
        let region = Region { x_least: 0.0, x_greatest: 1.0, y_least: 0.0, y_greatest: 0.1 };
        let found =
            focus_for_surface(&BEAM, DepthCriterion::Rayleigh, &Surface::Steps { edges, z }, &region, 1);
        let most = found.unwrap().most_in_focus;
        ((most.focus_z / half * 1e8).round() / 1e8, (most.share_in_focus * 1e12).round() / 1e12)
    };
    // One strip of 60 %, alone.
    assert_eq!(focus(&[0.0, 0.6, 1.0], &[0.0, 9.0 * half]), (0.0, 0.6));
    assert_eq!(focus(&[0.0, 0.4, 1.0], &[0.0, 9.0 * half]), (9.0, 0.6));
    // Two that fit together against a larger one alone.
    assert_eq!(focus(&[0.0, 0.3, 0.6, 1.0], &[0.0, 1.5 * half, 9.0 * half]), (0.75, 0.6));
    // Nearly the whole depth apart.
    assert_eq!(focus(&[0.0, 0.3, 0.6, 1.0], &[0.0, 1.95 * half, 9.0 * half]), (0.975, 0.6));
    assert_eq!(focus(&[0.0, 0.3, 0.6, 1.0], &[0.0, 1.99 * half, 9.0 * half]), (0.995, 0.6));
    assert_eq!(focus(&[0.0, 0.3, 0.6, 1.0], &[0.0, 1.9999 * half, 9.0 * half]), (0.99995, 0.6));
    // One level of three, far apart for the depth: a step of the search is longer than that.
    assert_eq!(focus(&[0.0, 0.02, 0.98, 1.0], &[0.0, 3001.0 * half, 10_000.0 * half]), (3001.0, 0.96));
    // Alike: the one nearer the lens.
    assert_eq!(focus(&[0.0, 0.5, 1.0], &[9.0 * half, -9.0 * half]), (-9.0, 0.5));
    // A strip hundreds of depths away from the others.
    assert_eq!(focus(&[0.0, 0.3, 0.6, 1.0], &[0.0, 700.0 * half, 400.0 * half]), (400.0, 0.4));
    // What is unknown does not count.
    assert_eq!(focus(&[0.0, 0.1, 0.3], &[5.0 * half, 0.0]), (0.0, 0.666_666_666_667));
}

/// A single saddle, whose density of heights has a peak that is infinite: focus goes to the saddle.
#[test]
fn a_saddle() {
    let z = [1e-3, -1e-3, -1e-3, 1e-3];
    let surface = Surface::Grid { x: &[0.0, 1.0], y: &[0.0, 1.0], z: &z };
    let region = Region { x_least: 0.0, x_greatest: 1.0, y_least: 0.0, y_greatest: 1.0 };
    let found =
        focus_for_surface(&BEAM, DepthCriterion::IrradianceDrop { drop: 0.2 }, &surface, &region, 1).unwrap();
    assert!(found.most_in_focus.focus_z.abs() < 1e-12);
    let t =
        depth_of_focus(&BEAM, DepthCriterion::IrradianceDrop { drop: 0.2 }).unwrap().away_from_lens_z / 1e-3;
    // With z = s·t on the square from −1 to 1, the share with |s·t| < a is a·(1 − ln a).
    assert!((found.most_in_focus.share_in_focus - t * (1.0 - t.ln())).abs() < 1e-12);
}

/// Every argument is refused when it should be, the first that is wrong being named.
#[test]
fn refusals() {
    let plane = Surface::Plane { slope_x: 0.01, slope_y: 0.0 };
    let region = Region { x_least: 0.0, x_greatest: 0.1, y_least: 0.0, y_greatest: 0.1 };
    let param = |result: Result<ShareInFocus, spotwise::Error>| result.unwrap_err().param();
    let share = |surface: &Surface<'_>, region: &Region, cells, toward, away| {
        param(share_in_focus(surface, region, cells, toward, away))
    };
    let steep = Surface::Plane { slope_x: f64::NAN, slope_y: 0.0 };
    let empty = Region { x_greatest: 0.0, ..region };
    assert_eq!(share(&steep, &empty, 0, f64::NAN, 0.0), Param::SlopeX);
    assert_eq!(share(&plane, &empty, 0, f64::NAN, 0.0), Param::RegionWidthX);
    assert_eq!(share(&plane, &region, 0, f64::NAN, f64::NAN), Param::CellsPerSide);
    assert_eq!(share(&plane, &region, 1001, 0.0, 1.0), Param::CellsPerSide);
    for bad in [f64::NAN, f64::INFINITY, -1.1e7] {
        assert_eq!(share(&plane, &region, 1, bad, f64::NAN), Param::TowardLensZ);
    }
    for bad in [f64::NAN, f64::INFINITY, 1.1e7, -1e-300] {
        assert_eq!(share(&plane, &region, 1, 0.0, bad), Param::AwayFromLensZ);
    }
    assert!(share_in_focus(&plane, &region, 1, 0.0, 0.0).is_ok());
    assert_eq!(region_heights(&plane, &region, 0).unwrap_err().param(), Param::CellsPerSide);
    let beside = Region { x_least: 5.0, x_greatest: 6.0, ..region };
    let steps = Surface::Steps { edges: &[0.0, 1.0], z: &[0.0] };
    assert_eq!(region_heights(&steps, &beside, 1).unwrap_err().param(), Param::KnownParts);
    let focus = |beam: &Beam, criterion, surface: &Surface<'_>, cells| {
        focus_for_surface(beam, criterion, surface, &region, cells).unwrap_err().param()
    };
    let no_beam = Beam { m2: 0.5, ..BEAM };
    assert_eq!(focus(&no_beam, DepthCriterion::Growth { ratio: 0.5 }, &steep, 0), Param::M2);
    assert_eq!(focus(&BEAM, DepthCriterion::Growth { ratio: 0.5 }, &steep, 0), Param::GrowthRatio);
    let too_small = DepthCriterion::LargestDiameter { diameter: 50e-6 };
    assert_eq!(focus(&BEAM, too_small, &steep, 0), Param::LargestDiameter);
    assert_eq!(focus(&BEAM, DepthCriterion::Rayleigh, &steep, 0), Param::SlopeX);
    assert_eq!(focus(&BEAM, DepthCriterion::Rayleigh, &plane, 0), Param::CellsPerSide);
}
