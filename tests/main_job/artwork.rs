//! The main job on a drawing: small ones of our own, so that each run takes but a moment.

use super::{JOB, focus_check, one_line, scratch, without_artwork};
use png::{BitDepth, ColorType};
use serde_json::{Value, json};
use spotwise::artwork::{Demand, DrawingUse, PictureColour, SampleKind, Watch};
use spotwise::text::parse_length;
use spotwise::units::{mm, um};
use spotwise::{Artwork, Job, JobMarking, PixelPitch, Surface, SurfaceSlope, TablePlace};
use std::fs;
use std::process::Output;

const WIDTH: usize = 160;
const HEIGHT: usize = 100;

/// Two bars of 0.1 mm with a gap of 0.06 mm, and a ring of 0.1 mm around a counter of 0.2 mm, at 10 um a pixel.
fn covered(x: usize, y: usize) -> bool {
    let bars = (20..80).contains(&y) && ((20..30).contains(&x) || (36..46).contains(&x));
    let ring = (80..120).contains(&x) && (30..70).contains(&y);
    let counter = (90..110).contains(&x) && (40..60).contains(&y);
    bars || ring && !counter
}

/// Each pixel by `of`, which is told whether it is inked.
fn pixels(of: impl Fn(bool) -> Vec<u8>) -> Vec<u8> {
    (0..HEIGHT).flat_map(|y| (0..WIDTH).map(move |x| covered(x, y))).flat_map(of).collect()
}

struct Png {
    colour: ColorType,
    depth: BitDepth,
    data: Vec<u8>,
    palette: Option<Vec<u8>>,
}

impl Png {
    fn of(colour: ColorType, depth: BitDepth, data: Vec<u8>) -> Self {
        Self { colour, depth, data, palette: None }
    }

    fn dark() -> Self {
        Self::of(ColorType::Grayscale, BitDepth::Eight, pixels(|ink| vec![if ink { 0 } else { 255 }]))
    }

    fn write(&self, name: &str) {
        let file = fs::File::create(scratch(name)).unwrap();
        let mut png = png::Encoder::new(file, WIDTH as u32, HEIGHT as u32);
        png.set_color(self.colour);
        png.set_depth(self.depth);
        if let Some(palette) = &self.palette {
            png.set_palette(palette.clone());
        }
        png.write_header().unwrap().write_image_data(&self.data).unwrap();
    }
}

/// A job on a level plate, focused on it, with this drawing. The lenses are left out.
fn job(picture: &str) -> Value {
    let mut job: Value = serde_json::from_str(&without_artwork(JOB)).unwrap();
    job["focus"] = json!({ "from_datum": { "away_from_lens": "0 mm" } });
    job["part"]["shape"] =
        json!({ "plane": { "away_from_lens_along_x": 0.0, "away_from_lens_along_y": 0.0 } });
    job.as_object_mut().unwrap().remove("lens_choice");
    job["artwork"] = json!({
        "picture": picture, "size": { "pitch": "10 um" }, "samples": "coverage", "ink": "dark",
        "is": "shapes", "corner": { "x": "1 mm", "y": "2 mm" },
    });
    job
}

fn run(name: &str, job: &Value) -> Output {
    let file = scratch(&format!("{name}.json"));
    fs::write(&file, job.to_string()).unwrap();
    focus_check().arg(&file).arg(scratch(&format!("{name}.svg"))).output().unwrap()
}

/// Text and document of a job that is well.
fn answer(name: &str, job: &Value) -> (String, Value) {
    let output = run(name, job);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let document = fs::read_to_string(scratch(&format!("{name}_mark.json"))).unwrap();
    (String::from_utf8(output.stdout).unwrap(), serde_json::from_str(&document).unwrap())
}

fn metres(length: &Value) -> f64 {
    parse_length(length.as_str().expect("a length is text")).unwrap()
}

/// The library asked by itself, with samples that went through no file.
#[test]
fn the_document_says_what_the_library_finds() {
    Png::dark().write("two_bars.png");
    let mut file = job("two_bars.png");
    file["artwork"]["demand"] = json!("apart");
    let (text, document) = answer("two_bars", &file);

    let mut plain = file.clone();
    for section in ["artwork", "part"] {
        plain.as_object_mut().unwrap().remove(section);
    }
    let job: Job = serde_json::from_value(plain).unwrap();
    let samples = pixels(|ink| vec![if ink { 255 } else { 0 }]);
    let artwork = Artwork {
        samples: &samples,
        width: WIDTH,
        height: HEIGHT,
        row_stride: WIDTH,
        pitch: PixelPitch { x: um(10.0), y: um(10.0) },
        corner: TablePlace { x: mm(1.0), y: mm(2.0) },
        kind: SampleKind::Coverage,
        drawing_use: DrawingUse::Shapes,
    };
    let level = Surface::Plane(SurfaceSlope::LEVEL);
    let preflight = job.preflight(artwork, level, &JobMarking::default()).unwrap();
    let quiet = &mut Watch::quiet();
    let verdict = preflight.run(quiet).unwrap();
    let (set, report) = (&document["as_set"], &verdict.report);
    assert_eq!(set["grade"], verdict.judgement.grade.name());
    assert_eq!(set["reasons"], json!(verdict.judgement.reasons.texts().collect::<Vec<_>>()));
    assert_eq!(set["dose_window"]["least"], verdict.window.least_dose_ratio);
    assert_eq!(set["pixels"]["mark"], report.mark_pixels);
    assert_eq!(set["lost"]["pixels"], report.lost.pixels);
    assert_eq!(set["filled"]["pixels"], report.filled.pixels);
    assert_eq!(set["filled"]["listed"].as_array().unwrap().len(), verdict.filled_areas.len());
    let smallest = report.smallest_stroke_kept.unwrap().value;
    assert!((metres(&set["strokes"]["smallest_kept"]) - smallest).abs() <= 1e-12 * smallest);
    assert_eq!(document["smallest_scale"], json!(preflight.smallest_scale(Demand::Apart, quiet).unwrap()));
    let mut best = preflight;
    best.drawn_on.focus = preflight.best_focus(quiet).unwrap();
    let reach = best.focus_reach(Demand::Apart, quiet).unwrap().unwrap();
    let toward_lens = reach.toward_lens.value;
    assert!((metres(&document["focus_reach"]["toward_lens"]) - toward_lens).abs() <= 1e-12 * toward_lens);

    // Counted by hand: two bars of 10 x 60, and 40 x 40 less 20 x 20; three pieces, one counter.
    assert_eq!(set["pixels"]["ink"], 2 * 10 * 60 + 40 * 40 - 20 * 20);
    assert_eq!((&set["pieces"]["drawn"], &set["counters"]["drawn"]), (&json!(3), &json!(1)));
    assert!(text.contains("pieces            3 drawn, all whole"), "{text}");
    assert!(text.contains("counters          1 drawn, all whole"), "{text}");
    // From the corner to 1.6 mm and 1 mm farther on.
    assert!((metres(&document["drawing"]["x"][1]) - 2.6e-3).abs() < 1e-15);
    assert!((metres(&document["drawing"]["y"][1]) - 3e-3).abs() < 1e-15);
    // On a level plate, focused on it, there is nothing to win.
    assert_eq!(set, &document["at_best_focus"]);
}

/// Dust and a bare pixel are ignored where the file says from which size on pieces and holes count.
#[test]
fn specks_are_ignored_and_told() {
    let mut dusty = Png::dark();
    // A bare pixel in the ring, and a grain of 2 x 1 beside it.
    for (x, y, shade) in [(85, 50, 255), (140, 50, 0), (141, 50, 0)] {
        dusty.data[y * WIDTH + x] = shade;
    }
    dusty.write("dusty.png");
    let mut file = job("dusty.png");
    let (text, document) = answer("dusty", &file);
    assert_eq!(document["as_set"]["grade"], "lost", "{text}");
    assert!(!text.contains("ignored"), "{text}");
    // 10 um a pixel: a square of 17 um has the area of 2.9.
    for (name, specks) in [("by_pixels", json!({ "pixels": 3 })), ("by_square", json!({ "square": "17 um" }))]
    {
        file["artwork"]["specks_below"] = specks;
        let (text, document) = answer(name, &file);
        let set = &document["as_set"];
        assert_ne!(set["grade"], "lost", "{text}");
        assert_eq!((&set["pieces"]["drawn"], &set["pieces"]["ignored"]["drawn"]), (&json!(3), &json!(1)));
        assert_eq!((&set["counters"]["drawn"], &set["counters"]["ignored"]["drawn"]), (&json!(1), &json!(1)));
        assert!(
            text.contains("pieces            3 drawn and 1 speck, which is ignored, all whole"),
            "{text}"
        );
        assert!(document["smallest_scale"].is_number(), "{text}");
    }
    file["artwork"]["specks_below"] = json!({ "square": "11 mm" });
    let output = run("too_large_a_speck", &file);
    assert!(!output.status.success());
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(told.contains("speck area = ") && told.contains("from 0 to 1e-4 m^2"), "{told}");
}

/// A detail answers as the part of the drawing that it is, drawn alone.
#[test]
fn a_detail_has_a_verdict_of_its_own() {
    Png::dark().write("details.png");
    let mut file = job("details.png");
    // Out of focus, where the bars touch and the ring is whole; each with 0.1 mm around it, ends on pixels or within.
    file["focus"] = json!({ "from_datum": { "toward_lens": "0.5 mm" } });
    file["artwork"]["details"] = json!([
        { "name": "bars", "x": ["1.1 mm", "1.56 mm"], "y": ["2.1 mm", "2.9 mm"] },
        { "name": "ring", "x": ["1.705 mm", "2.299 mm"], "y": ["2.2 mm", "2.8 mm"] },
    ]);
    let (text, document) = answer("details", &file);
    let [bars, ring] = [0, 1].map(|number| &document["details"][number]["as_set"]);
    // Counted by hand.
    assert_eq!((&bars["pieces"]["drawn"], &bars["counters"]["drawn"]), (&json!(2), &json!(0)));
    assert_eq!((&ring["pieces"]["drawn"], &ring["counters"]["drawn"]), (&json!(1), &json!(1)));
    assert_eq!((&bars["pixels"]["ink"], &ring["pixels"]["ink"]), (&json!(1200), &json!(1200)));
    assert_eq!((&bars["pieces"]["merged"], &bars["grade"]), (&json!(1), &json!("degraded")));
    assert_eq!((&ring["pieces"]["merged"], &document["as_set"]["grade"]), (&json!(0), &json!("degraded")));
    assert!(text.contains("  bars              DEGRADED, "), "{text}");
    // The ring by the same lines of the scan: its window is that of a drawing with nothing but the ring.
    let alone = pixels(|ink| vec![if ink { 0_u8 } else { 255 }]);
    let alone = alone
        .chunks_exact(WIDTH)
        .flat_map(|row| row.iter().enumerate().map(|(x, grey)| if x < 60 { 255 } else { *grey }));
    Png::of(ColorType::Grayscale, BitDepth::Eight, alone.collect()).write("alone.png");
    file["artwork"]["picture"] = json!("alone.png");
    file["artwork"]["details"] = json!([]);
    let (_, alone) = answer("alone", &file);
    let least = |found: &Value| found["dose_window"]["least"].as_f64().unwrap();
    assert!((least(ring) / least(&alone["as_set"]) - 1.0).abs() < 2e-3, "{ring}, {}", alone["as_set"]);
}

/// However the same drawing is saved, and however its size is told, the answer is the same.
#[test]
fn the_form_of_the_picture_does_not_matter() {
    let grey = |ink: bool| if ink { 0_u8 } else { 255 };
    Png::dark().write("form.png");
    let (_, wanted) = answer("form", &job("form.png"));
    let mut palette = Png::of(ColorType::Indexed, BitDepth::Eight, pixels(|ink| vec![u8::from(ink)]));
    palette.palette = Some(vec![255, 255, 255, 0, 0, 0]);
    let bits: Vec<u8> = pixels(|ink| vec![u8::from(!ink)])
        .chunks_exact(8)
        .map(|bits| bits.iter().fold(0, |byte, bit| byte << 1 | bit))
        .collect();
    let colours = pixels(|ink| vec![grey(ink); 3]);
    // Red that is not seen is no ink.
    let glass = pixels(|ink| if ink { vec![0, 0, 0, 255] } else { vec![255, 0, 0, 0] });
    let light = pixels(|ink| vec![255 - grey(ink)]);
    let forms = [
        ("palette", "dark", palette),
        ("one_bit", "dark", Png::of(ColorType::Grayscale, BitDepth::One, bits)),
        ("colours", "dark", Png::of(ColorType::Rgb, BitDepth::Eight, colours)),
        ("glass", "dark", Png::of(ColorType::Rgba, BitDepth::Eight, glass)),
        ("light", "light", Png::of(ColorType::Grayscale, BitDepth::Eight, light)),
    ];
    for (name, ink, png) in forms {
        let picture = format!("form_{name}.png");
        png.write(&picture);
        let mut job = job(&picture);
        job["artwork"]["ink"] = json!(ink);
        let (_, found) = answer(&format!("form_{name}"), &job);
        assert_eq!(found["as_set"], wanted["as_set"], "{name}");
    }
    for (name, size) in [("width", json!({ "width": "1.6 mm" })), ("dots", json!({ "dots_per_inch": 2540 }))]
    {
        let mut job = job("form.png");
        job["artwork"]["size"] = size;
        let (_, found) = answer(&format!("form_{name}"), &job);
        let (found, wanted) = (&found["as_set"], &wanted["as_set"]);
        for field in ["pieces", "counters", "grade"] {
            assert_eq!(found[field], wanted[field], "{name}: {field}");
        }
        for count in ["ink", "mark", "missing", "extra"] {
            assert_eq!(found["pixels"][count], wanted["pixels"][count], "{name}: {count}");
        }
    }
    let mut bilevel = job("form.png");
    bilevel["artwork"]["samples"] = json!("bilevel");
    let (text, found) = answer("form_bilevel", &bilevel);
    assert_eq!(found["as_set"]["pieces"], wanted["as_set"]["pieces"]);
    // By hand: a spot of 36.75 um radius has 3.7 pixels of 10 um, where a bilevel drawing needs 8.
    assert!(text.contains("pixels            3.7 to a spot radius"), "{text}");
    assert_eq!(
        (&found["as_set"]["pixels"]["too_few"], &wanted["as_set"]["pixels"]["too_few"]),
        (&json!(true), &json!(false))
    );
}

/// Common practice, no source: out of focus a drawing gets worse and never better, until it is lost; what is drawn
/// larger stands more.
#[test]
fn it_gets_worse_out_of_focus() {
    Png::dark().write("focus.png");
    let order = ["crisp", "good", "degraded", "lost"];
    let place =
        |found: &Value| order.iter().position(|grade| found["as_set"]["grade"] == *grade).expect("a grade");
    let mut last = 0;
    for (number, offset) in ["0 mm", "0.25 mm", "0.5 mm", "3 mm"].into_iter().enumerate() {
        let mut job = job("focus.png");
        job["focus"] = json!({ "from_datum": { "toward_lens": offset } });
        let (text, found) = answer(&format!("focus_{number}"), &job);
        assert!(place(&found) >= last, "{offset}: {text}");
        last = place(&found);
        // Whatever was set, the best focus is on the level plate.
        assert!(text.contains("  focus             on the datum: "), "{text}");
        if number == 3 {
            // By hand: 3 mm off the spot is 739 um wide, nearly twice as wide as the ring, which becomes one blob whose
            // middle is brightest: no dose keeps its counter.
            assert!(text.contains("No dose can save this; the focus is the cause."), "{text}");
            assert!(text.contains("as set            LOST"), "{text}");
        }
    }
    let mut larger = job("focus.png");
    larger["focus"] = json!({ "from_datum": { "toward_lens": "0.5 mm" } });
    larger["artwork"]["size"] = json!({ "pitch": "40 um" });
    let (text, found) = answer("focus_larger", &larger);
    assert!(place(&found) < last, "{text}");
}

#[test]
fn the_picture_shows_the_mark() {
    Png::dark().write("shown.png");
    let (text, _) = answer("shown", &job("shown.png"));
    let file = scratch("shown_mark.png");
    assert!(text.contains(&format!("Picture of the mark: {}", file.display())), "{text}");
    let mut reader =
        png::Decoder::new(std::io::BufReader::new(fs::File::open(file).unwrap())).read_info().unwrap();
    let mut picture = vec![0; reader.output_buffer_size().unwrap()];
    reader.next_frame(&mut picture).unwrap();
    // Every colour of the legend is there.
    for colour in PictureColour::ALL {
        let rgba = colour.rgba();
        assert!(picture.chunks_exact(3).any(|pixel| *pixel == rgba[..3]), "{}", colour.name());
    }
    // 2000 inked pixels, most of them marked, are shown 12 times as large along each side.
    let kept = PictureColour::Kept.rgba();
    let black = picture.chunks_exact(3).filter(|pixel| **pixel == kept[..3]).count();
    assert!(black > 2000 * 144, "{black}");
}

#[test]
fn a_bad_drawing_is_refused_in_one_line() {
    Png::dark().write("bad.png");
    let deep = pixels(|ink| vec![if ink { 0 } else { 255 }; 2]);
    Png::of(ColorType::Grayscale, BitDepth::Sixteen, deep).write("bad_deep.png");
    let red = pixels(|ink| if ink { vec![255, 0, 0] } else { vec![255; 3] });
    Png::of(ColorType::Rgb, BitDepth::Eight, red).write("bad_red.png");
    fs::write(scratch("bad_text.png"), "no picture").unwrap();
    let whole = fs::read(scratch("bad.png")).unwrap();
    fs::write(scratch("bad_torn.png"), &whole[..whole.len() / 2]).unwrap();
    let cases: &[(&str, &str, Value, &[&str])] = &[
        ("file", "picture", json!("no_such.png"), &["artwork: picture", "no_such.png"]),
        ("text", "picture", json!("bad_text.png"), &["artwork: picture: bad_text.png", "no PNG"]),
        ("torn", "picture", json!("bad_torn.png"), &["artwork: picture: bad_torn.png", "no PNG"]),
        ("deep", "picture", json!("bad_deep.png"), &["bad_deep.png", "16 bits"]),
        // The first inked pixel.
        (
            "red",
            "picture",
            json!("bad_red.png"),
            &["bad_red.png", "column 20 and row 20 is coloured", "grey"],
        ),
        ("pitch", "size", json!({ "pitch": "0 mm" }), &["artwork: size.pitch", "from 1e-9 to 1 m"]),
        ("dots", "size", json!({ "dots_per_inch": -300 }), &["artwork: size.dots_per_inch", "from 1e-9"]),
        ("unit", "size", json!({ "width": "20" }), &["artwork.size.width", "the unit is missing"]),
        ("bare", "size", json!({ "width": 20 }), &["artwork.size.width", "20"]),
        ("both", "size", json!({ "width": "1 mm", "pitch": "1 um" }), &["artwork.size"]),
        ("samples", "samples", json!("grey"), &["artwork.samples", "`grey`", "`coverage`"]),
        ("ink", "ink", json!("black"), &["artwork.ink", "`black`", "`dark`"]),
        ("is", "is", json!("photo"), &["artwork.is", "`photo`", "`burnt raster`"]),
        ("demand", "demand", json!("all"), &["artwork.demand", "`all`", "`legible`"]),
        ("field", "zoom", json!(2), &["artwork", "`zoom`"]),
        (
            "beside",
            "corner",
            json!({ "x": "59 mm", "y": "2 mm" }),
            &["artwork", "x = 59.000 mm to 60.600 mm", "part.region.x from -60.000 mm to 60.000 mm"],
        ),
        (
            "detail",
            "details",
            json!([{ "name": "all", "x": ["1 mm", "2.61 mm"], "y": ["2 mm", "3 mm"] }]),
            &["artwork: details[0].x: from 1.000 mm to 2.610 mm", "from 1.000 mm to 2.600 mm"],
        ),
        (
            "turned",
            "details",
            json!([{ "name": "all", "x": ["1 mm", "2 mm"], "y": ["3 mm", "2 mm"] }]),
            &["artwork: details[0].y"],
        ),
        ("depth", "visible_depth", json!("-1 um"), &["artwork"]),
    ];
    for (name, field, value, expected) in cases {
        let mut job = job("bad.png");
        job["artwork"][field] = value.clone();
        // A depth is asked of a bulk only.
        job["dose"]["scan"]["response"] = json!({ "linear_ablation": { "removal_energy": "3 J/mm3" } });
        one_line(name, &run(&format!("bad_{name}"), &job), expected);
    }
    let mut job = job("bad.png");
    job.as_object_mut().unwrap().remove("part");
    one_line("part", &run("bad_part", &job), &["artwork: a drawing needs a `part`"]);
}
