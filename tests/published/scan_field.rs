//! The field of a scan head.

use super::*;
use spotwise::model::surface::{ScanFieldSpot, ScanLens, scan_field_at};

/// Third-order focal surfaces of a thin lens in air with the stop at the lens, whatever its shape: W. J. Smith,
/// *Modern Optical Engineering*, chapter on aberrations, from memory. The Petzval surface lies r²/(2·n·f) toward the
/// lens; the sagittal one (r²/2f)·(1 + 1/n) and the tangential one (r²/2f)·(3 + 1/n), three times as far from
/// Petzval's as the sagittal. A simple lens of 100 mm and n = 1.5 behind mirrors, measured 20 mm from the axis.
#[test]
fn focal_surfaces_of_a_thin_lens() {
    let (f, n): (f64, f64) = (0.1, 1.5);
    let surface = |r: f64, of: f64| -r * r / (2.0 * f) * of;
    let lens = ScanLens {
        focal_length: f,
        field_radius: 20e-3,
        edge_tangential_z: surface(20e-3, 3.0 + 1.0 / n),
        edge_sagittal_z: surface(20e-3, 1.0 + 1.0 / n),
        edge_incidence: 0.2, // the chief ray goes straight through the middle of the lens
        edge_spot_ratio: 1.0,
    };
    let spot = |x, y, z| scan_field_at(&beam(1.064e-6, 1.0, 25e-6), &lens, x, y, z).unwrap();
    let here: ScanFieldSpot = spot(6e-3, 8e-3, 0.0);
    // By hand, 10 mm out: 10²/200 = 0.5 mm, times 3.66667 and 1.66667; Petzval's 10²/(2·1.5·100) = 0.33333 mm.
    rounds_to(here.tangential_focus_z * 1e3, "-1.8333333");
    rounds_to(here.sagittal_focus_z * 1e3, "-0.8333333");
    let petzval = surface(10e-3, 1.0 / n);
    close((here.tangential_focus_z - petzval) / (here.sagittal_focus_z - petzval), "3.0000000000", 1.0);
    // tan(θ) = 0.1 through the middle of a lens against the θ = 0.1 of the law: 10 mm out is 0.1 rad by both here.
    rounds_to(here.field_angle, "0.1");
    rounds_to(here.incidence, "0.1");
    // At the tangential focus the spot is a line across the radius: 1 mm from the sagittal focus, which is
    // 1.005021 along the light; z_R = π·(25 µm)²/1.064 µm = 1.845390 mm.
    let line = spot(6e-3, 8e-3, here.tangential_focus_z);
    rounds_to(line.growth_across_radius, "1.138684");
    rounds_to(line.growth_along_radius, "1.005021"); // 1/cos 0.1
}
