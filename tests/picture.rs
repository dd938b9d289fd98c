//! The picture of a mark: its colours for every eye, and every pixel against the masks.

use proptest::prelude::*;
use spotwise::artwork::{
    Bitmap, PictureColour, PictureLayers, PictureView, PixelBox, draw_box, draw_picture, words_in_row,
};
use spotwise::{Error, Param};

type Matrix = [[f64; 3]; 3];

/// What remains of linear sRGB for an eye without one of its three kinds of cones. The first five columns of numbers are
/// from memory: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, IEEE Trans. Vis. Comput. Graph. 15, 1291 (2009),
/// severity 1; compared with those of the Python package colorspacious 1.1.2, digit by digit. The method of the last
/// two is that of F. Viénot, H. Brettel, J. D. Mollon, Color Res. Appl. 24, 243 (1999); the numbers, for the primaries
/// of sRGB, were computed by the Python package daltonlens 0.1.5.
const EYES: [(&str, Matrix); 6] = [
    ("normal", [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]),
    (
        "protanopia (Machado)",
        [
            [0.152_286, 1.052_583, -0.204_868],
            [0.114_503, 0.786_281, 0.099_216],
            [-0.003_882, -0.048_116, 1.051_998],
        ],
    ),
    (
        "deuteranopia (Machado)",
        [
            [0.367_322, 0.860_646, -0.227_968],
            [0.280_085, 0.672_501, 0.047_413],
            [-0.011_820, 0.042_940, 0.968_881],
        ],
    ),
    (
        "tritanopia (Machado)",
        [
            [1.255_528, -0.076_749, -0.178_779],
            [-0.078_411, 0.930_809, 0.147_602],
            [0.004_733, 0.691_367, 0.303_900],
        ],
    ),
    (
        "protanopia (Viénot)",
        [[0.108_889, 0.891_111, 0.0], [0.108_889, 0.891_111, 0.0], [0.004_471, -0.004_471, 1.0]],
    ),
    (
        "deuteranopia (Viénot)",
        [[0.290_305, 0.709_695, 0.0], [0.290_305, 0.709_695, 0.0], [-0.021_974, 0.021_974, 1.0]],
    ),
];

/// Linear light of an sRGB value (IEC 61966-2-1).
fn linear(value: u8) -> f64 {
    let v = f64::from(value) / 255.0;
    if v <= 0.040_45 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
}

fn times(matrix: &Matrix, v: [f64; 3]) -> [f64; 3] {
    matrix.map(|row| row.iter().zip(v).map(|(a, b)| a * b).sum())
}

/// CIE 1976 L*a*b* of linear sRGB, white D65.
fn lab(rgb: [f64; 3]) -> [f64; 3] {
    const TO_XYZ: Matrix = [
        [0.412_456_4, 0.357_576_1, 0.180_437_5],
        [0.212_672_9, 0.715_152_2, 0.072_175_0],
        [0.019_333_9, 0.119_192_0, 0.950_304_1],
    ];
    let [x, y, z] = times(&TO_XYZ, rgb.map(|v| v.clamp(0.0, 1.0)));
    let f = |t: f64| if t > 216.0 / 24_389.0 { t.cbrt() } else { (24_389.0 / 27.0 * t + 16.0) / 116.0 };
    let (x, y, z) = (f(x / 0.950_47), f(y), f(z / 1.088_83));
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

fn seen(colour: PictureColour, eye: &Matrix) -> [f64; 3] {
    let [r, g, b, opacity] = colour.rgba();
    assert_eq!(opacity, 255);
    lab(times(eye, [linear(r), linear(g), linear(b)]))
}

#[test]
fn colours_stay_apart_for_every_eye() {
    for (eye, matrix) in &EYES {
        let mut least = f64::INFINITY;
        for (i, &a) in PictureColour::ALL.iter().enumerate() {
            for &b in &PictureColour::ALL[..i] {
                let (p, q) = (seen(a, matrix), seen(b, matrix));
                let apart = p.iter().zip(q).map(|(p, q)| (p - q) * (p - q)).sum::<f64>().sqrt();
                assert!(apart >= 18.0, "{eye}: {} and {} are {apart:.1} apart", a.name(), b.name());
                least = least.min(apart);
            }
        }
        println!("{eye}: {least:.1} apart");
    }
}

/// In grey print only lightness is left. Dark is marked: all colours of marked places are darker than the others.
#[test]
fn colours_stay_apart_in_grey() {
    let lightness = |colour| seen(colour, &EYES[0].1)[0];
    let mut all = PictureColour::ALL;
    all.sort_by(|a, b| lightness(*a).total_cmp(&lightness(*b)));
    for pair in all.windows(2) {
        let step = lightness(pair[1]) - lightness(pair[0]);
        assert!(step >= 10.0, "{} and {}: {step:.1}", pair[0].name(), pair[1].name());
    }
    use PictureColour::{Bare, Box, Filled, GrownEdge, Kept, Lost, Unknown, WornEdge};
    assert_eq!(all, [Kept, GrownEdge, Filled, Box, Lost, Unknown, WornEdge, Bare]);
}

/// White, black and sRGB's red by the same formulas (values of the primaries: from memory, to the printed digit).
#[test]
fn the_formulas_know_the_primaries() {
    let near = |got: [f64; 3], want: [f64; 3]| {
        assert!(got.iter().zip(want).all(|(g, w)| (g - w).abs() < 0.1), "{got:?} for {want:?}");
    };
    near(lab([1.0; 3]), [100.0, 0.0, 0.0]);
    near(lab([0.0; 3]), [0.0, 0.0, 0.0]);
    near(lab([1.0, 0.0, 0.0]), [53.2, 80.1, 67.2]);
    near(lab([0.0, 0.0, 1.0]), [32.3, 79.2, -107.9]);
}

#[test]
fn codes_are_the_legend() {
    for (i, colour) in PictureColour::ALL.iter().enumerate() {
        assert_eq!(colour.code() as usize, i + 1);
        assert!(PictureColour::ALL[..i].iter().all(|other| other.name() != colour.name()));
    }
}

fn pixel_box([left, top]: [usize; 2], [right, bottom]: [usize; 2]) -> PixelBox {
    let [left, top, right, bottom] = [left, top, right, bottom].map(|v| v as u32);
    PixelBox { left, top, right, bottom }
}

/// A mask whose bits are the caller's, none beyond the width.
fn words(bits: &[bool], width: usize, height: usize) -> Vec<u64> {
    let mut words = vec![0; words_in_row(width) * height];
    for (i, _) in bits.iter().enumerate().filter(|(_, bit)| **bit) {
        words[i / width * words_in_row(width) + i % width / 64] |= 1 << (i % width % 64);
    }
    words
}

proptest! {
    /// Every pixel of the picture, at every zoom and view, says what the masks say.
    #[test]
    fn pixels_say_what_the_masks_say(
        width in 1_usize..140, height in 1_usize..6, left in 0_usize..80, top in 0_usize..4,
        (shown_width, shown_height) in (1_usize..150, 1_usize..7), zoom in 1_usize..4,
        seed in prop::collection::vec(any::<[bool; 5]>(), 140 * 6), with_unknown: bool,
    ) {
        let layer = |k: usize| -> Vec<bool> { seed.iter().take(width * height).map(|bits| bits[k]).collect() };
        let bits: Vec<Vec<bool>> = (0..5).map(layer).collect();
        let masks: Vec<Vec<u64>> = bits.iter().map(|bits| words(bits, width, height)).collect();
        let mask = |k: usize| Bitmap::new(&masks[k], width, height).unwrap();
        let layers = PictureLayers {
            ink: mask(0), mark: mask(1), lost: mask(2), filled: mask(3), unknown: with_unknown.then(|| mask(4)),
        };
        let view = PictureView { left, top, width: shown_width, height: shown_height, zoom };
        let mut rgba = vec![99; view.bytes().unwrap()];
        draw_picture(&layers, &view, &mut rgba).unwrap();
        for (i, pixel) in rgba.chunks(4).enumerate() {
            let (x, y) = (left + i % (shown_width * zoom) / zoom, top + i / (shown_width * zoom) / zoom);
            let bit = |k: usize| x < width && y < height && bits[k][y * width + x];
            let want = match (with_unknown && bit(4), bit(2), bit(3), bit(0), bit(1)) {
                (true, ..) => PictureColour::Unknown,
                (_, true, ..) => PictureColour::Lost,
                (_, _, true, ..) => PictureColour::Filled,
                (_, _, _, true, true) => PictureColour::Kept,
                (_, _, _, true, false) => PictureColour::WornEdge,
                (_, _, _, false, true) => PictureColour::GrownEdge,
                _ => PictureColour::Bare,
            };
            prop_assert_eq!(pixel, want.rgba());
        }
    }

    /// A box is a line one pixel away from what it frames, cut off at the view.
    #[test]
    fn boxes_stand_around(
        (x0, y0) in (0_usize..30, 0_usize..20), (w, h) in (1_usize..10, 1_usize..10),
        (left, top) in (0_usize..12, 0_usize..12), zoom in 1_usize..4,
    ) {
        let view = PictureView { left, top, width: 24, height: 18, zoom };
        let mut rgba = vec![7; view.bytes().unwrap()];
        draw_box(&pixel_box([x0, y0], [x0 + w - 1, y0 + h - 1]), &view, &mut rgba).unwrap();
        for (i, pixel) in rgba.chunks(4).enumerate() {
            let (x, y) = (left + i % (24 * zoom) / zoom, top + i / (24 * zoom) / zoom);
            // How far outside the box it lies, by the larger of both distances.
            let outside = |v: usize, from: usize, size: usize| {
                let v = v as i64;
                (from as i64 - v).max(v - (from + size - 1) as i64)
            };
            let on = outside(x, x0, w).max(outside(y, y0, h)) == 2;
            prop_assert_eq!(pixel, if on { PictureColour::Box.rgba() } else { [7; 4] }, "{} {}", x, y);
        }
    }
}

#[test]
fn what_does_not_fit_is_refused() {
    let mask = |words: &'static [u64], width, height| Bitmap::new(words, width, height).unwrap();
    let four = mask(&[0], 4, 1);
    let layers = PictureLayers { ink: four, mark: four, lost: four, filled: four, unknown: None };
    let draw = |layers: &PictureLayers<'_>, view: PictureView, length| {
        draw_picture(layers, &view, &mut vec![0; length]).unwrap_err()
    };
    let whole = PictureView::whole(4, 1, 1);
    for length in [0, 15, 17] {
        let error = draw(&layers, whole, length);
        assert_eq!(error, Error::LengthMismatch { param: Param::Output, value: length, expected: 16 });
        assert_eq!(draw_box(&pixel_box([0, 0], [1, 1]), &whole, &mut vec![0; length]).unwrap_err(), error);
    }
    let narrow = PictureLayers { lost: mask(&[0], 3, 1), ..layers };
    assert_eq!(draw(&narrow, whole, 16).param(), Param::DrawingWidth);
    let tall = PictureLayers { unknown: Some(mask(&[0, 0], 4, 2)), ..layers };
    assert_eq!(draw(&tall, whole, 16).param(), Param::DrawingHeight);
    for (view, param) in [
        (PictureView::whole(0, 1, 1), Param::DrawingWidth),
        (PictureView::whole(4, 0, 1), Param::DrawingHeight),
        (PictureView::whole(4, 1, 0), Param::DrawingPixels),
        (PictureView::whole(65_535, 65_535, 1), Param::DrawingPixels),
        (PictureView::whole(4, 1, usize::MAX), Param::DrawingPixels),
    ] {
        assert_eq!(draw(&layers, view, 16).param(), param);
    }
    // Far beyond the drawing all is bare, and no sum overflows.
    let far = PictureView { left: usize::MAX, top: usize::MAX, ..whole };
    let mut rgba = [0; 16];
    draw_picture(&layers, &far, &mut rgba).unwrap();
    assert_eq!(rgba, [255; 16]);
    draw_box(&pixel_box([u32::MAX as usize; 2], [u32::MAX as usize; 2]), &far, &mut rgba).unwrap();
    draw_box(&PixelBox::EMPTY, &whole, &mut rgba).unwrap();
    draw_box(&pixel_box([0, 0], [u32::MAX as usize; 2]), &whole, &mut rgba).unwrap();
    assert_eq!(rgba, [255; 16]);
}
