"""Rows for what the heights of a surface ask of the focus."""

import beams
from checks import OUTSIDE_MODEL
from model_height_budget import (
    MOST,
    cylinder_strip,
    focus_between,
    focus_between_astigmatic,
    height_bands,
    refocus_plan,
    spot_through,
)
from strata import Function, Slot
from strata_optics import ASTIGMATIC, CONE, ROUND, TWO_CONES

HEIGHTS = [Slot("highest_z", "z of the highest place"), Slot("lowest_z", "z of the lowest place")]
ENDS = [
    Slot("toward_lens_z", "limit toward the lens"),
    Slot("away_from_lens_z", "limit away from the lens"),
]
NO_DEPTH = (OUTSIDE_MODEL, "usable depth of focus")


def heights(draws, about, least, greatest):
    """Two heights so far apart, somewhere about a datum."""
    apart = beams.within(draws, "thickness", least, greatest)
    highest = draws.choice((0.0, -apart, -apart / 2.0, draws.evenly(-about, about)))
    return {"highest_z": highest, "lowest_z": highest + apart}


def over(draws, beam, zr):
    return beam | heights(draws, min(zr * 4.0, 100.0), zr * 0.01, zr * 30.0)


def flat(draws, beam):
    """No range, or hardly any."""
    at = draws.choice((0.0, -0.0, draws.nice(-2e-3, 2e-3), draws.octaves(1e-9, 1e3)))
    return beam | {"highest_z": at, "lowest_z": at + draws.choice((0.0, abs(at) * 2.0**-50, abs(draws.tiny())))}


def far_apart(draws, beam):
    ends = sorted(draws.sign() * draws.octaves(1e-6, 1e3) for _ in "ab")
    return beam | {"highest_z": ends[0], "lowest_z": ends[1]}


def round_over(draws, beam):
    return over(draws, beam, beams.rayleigh(beam))


def upside_down(draws, base):
    """The highest place below the lowest: refused."""
    rows = []
    for _ in range(6):
        row = base(draws)
        rows.append(("refused", row | {"highest_z": row["lowest_z"] + 1e-4}))
    return rows


# The astigmatic beam


def longer_range(beam):
    return max(beams.rayleigh(beam, "_x"), beams.rayleigh(beam, "_y"))


def astigmatic_over(draws, beam):
    return over(draws, beam, draws.choice((longer_range(beam), min(beams.rayleigh(beam, "_x"), beams.rayleigh(beam, "_y")))))


def alike(draws):
    """Both axes alike, with one waist or two."""
    beam = beams.focused(draws)
    zr = beams.rayleigh(beam)
    middle, apart = draws.choice(((0.0, 0.0), (0.0, zr), (draws.nice(-1e-3, 1e-3), zr * draws.octaves(0.01, 8.0))))
    return beams.two_axes(draws, beam, beam, middle - apart / 2.0, middle + apart / 2.0)


def one_axis_rules(draws):
    """One axis so much wider that the other never counts."""
    beam = beams.focused(draws)
    narrow = beam | {"waist_diameter": beam["waist_diameter"] * draws.nice(0.2, 0.5)}
    narrow["m2"] = max(1.0, beam["m2"] * 0.3)
    while beams.half_angle(narrow) > beams.WIDEST_HALF_ANGLE:
        narrow["waist_diameter"] *= 2.0
    zr = beams.rayleigh(beam)
    pair = (beam, narrow) if draws.one_in(2) else (narrow, beam)
    return beams.two_axes(draws, *pair, zr * draws.evenly(-0.5, 0.5), zr * draws.evenly(-0.5, 0.5))


# Depths


def depth(draws, size):
    """Ends of a depth: as far either way, or not; now and then both on one side."""
    kind = draws.randint(1, 8)
    if kind <= 4:
        return {"toward_lens_z": -size / 2.0, "away_from_lens_z": size / 2.0}
    if kind <= 7:
        share = draws.evenly(0.05, 0.95)
        return {"toward_lens_z": -size * share, "away_from_lens_z": size * (1.0 - share)}
    shift = size * draws.evenly(0.0, 4.0)
    return {"toward_lens_z": shift, "away_from_lens_z": shift + size}


def nice_depth(draws):
    return depth(draws, draws.nice(0.05e-3, 5e-3))


def bands(draws, count, ends=nice_depth):
    """Heights that need about so many bands."""
    row = ends(draws) | {"margin": draws.choice((0.0, 0.1, 0.2, draws.nice(0.0, 0.9)))}
    band = (row["away_from_lens_z"] - row["toward_lens_z"]) * (1.0 - row["margin"])
    apart = band * count
    top = draws.choice((0.0, -apart, -apart / 2.0, draws.nice(-5e-3, 5e-3)))
    return row | {"highest_z": top, "lowest_z": top + apart}


def some_bands(draws):
    return bands(draws, draws.evenly(0.0, MOST - 0.01))


def whole_bands(draws):
    """As near to a whole number of bands as doubles come."""
    row = bands(draws, draws.randint(1, MOST))
    return row | {"lowest_z": draws.nudge(row["lowest_z"])}


def decimal_bands(draws):
    """Whole numbers of bands as people write them, such as 0.9 in bands of 0.3."""
    tenths, count = draws.randint(1, 30), draws.randint(1, MOST)
    unit = draws.choice((1e-3, 1e-4, 1.0))
    return {
        "highest_z": 0.0,
        "lowest_z": tenths * count / 10 * unit,
        "toward_lens_z": 0.0,
        "away_from_lens_z": tenths / 10 * unit,
        "margin": 0.0,
    }


def wide_bands(draws):
    return bands(draws, draws.evenly(0.0, MOST - 0.01), lambda d: depth(d, d.octaves(1e-8, 100.0)))


def level(draws):
    row = bands(draws, 1.0)
    return row | {"lowest_z": row["highest_z"] + draws.choice((0.0, 1e-12, 5e-324))}


def bands_free(draws):
    ends = sorted(draws.sign() * draws.octaves(1e-9, 1e3) for _ in "ab")
    apart = {"highest_z": ends[0], "lowest_z": ends[1]}
    return apart | depth(draws, draws.choice((draws.octaves(1e-12, 1e-8), draws.octaves(1e-9, 1e-2)))) | {"margin": 0.5}


def bands_of_no_depth(draws):
    """The ends of the depth the wrong way round."""
    rows = upside_down(draws, some_bands)
    for _ in range(6):
        row = some_bands(draws)
        rows.append(("refused", row | {"away_from_lens_z": row["toward_lens_z"] - draws.choice((0.0, 1e-3))}))
    return rows


# The strip


def strip(draws, share, ends=None):
    """A part whose sag is this share of its radius."""
    radius = draws.nice(2e-3, 0.2) if draws.one_in(2) else draws.octaves(1e-5, 1e3)
    row = depth(draws, max(radius * share, 2e-9)) | {"part_radius": radius, "aim": draws.randint(1, 2)}
    if row["toward_lens_z"] > 0.0:
        row["aim"] = 2
    return row


def thin_strip(draws):
    return strip(draws, draws.octaves(1e-12, 1e-6))


def near_half_round(draws):
    """Next to the whole upper half: the depth just less than the radius, the same, or more."""
    radius = draws.nice(2e-3, 0.2)
    size = draws.choice((radius, radius * (1.0 - draws.octaves(2.0**-26, 0.01)), radius * draws.evenly(1.0, 4.0)))
    if draws.one_in(2):
        return {"part_radius": radius, "toward_lens_z": -size, "away_from_lens_z": size, "aim": 1}
    return {"part_radius": radius, "toward_lens_z": 0.0, "away_from_lens_z": size, "aim": 2}


def strip_free(draws):
    return {
        "part_radius": draws.octaves(1e-6, 1e3),
        "toward_lens_z": draws.sign() * draws.octaves(1e-12, 1e7),
        "away_from_lens_z": draws.sign() * draws.octaves(1e-12, 1e7),
        "aim": draws.randint(1, 2),
    }


def crown_out_of_focus(draws):
    """Focus on the crown with a depth that does not hold it, or that ends there."""
    rows = []
    for _ in range(6):
        row = strip(draws, 0.05) | {"aim": 1}
        size = row["part_radius"] * 0.05
        rows.append(("refused", row | {"toward_lens_z": size * 0.1, "away_from_lens_z": size}))
        rows.append(("refused", row | {"toward_lens_z": -size, "away_from_lens_z": draws.choice((0.0, -0.5 * size))}))
        rows.append(("special", row | {"toward_lens_z": draws.choice((0.0, -0.0)), "away_from_lens_z": size}))
    return rows


# The engraving


def engraving(draws, passes_per_stage, stages):
    aim = draws.randint(1, 2)
    row = nice_depth(draws) | {"aim": aim}
    if row["toward_lens_z"] > 0.0:
        row["aim"] = aim = 2
    usable = row["away_from_lens_z"] - (row["toward_lens_z"] if aim == 2 else 0.0)
    row["depth_per_pass"] = usable / passes_per_stage(draws)
    whole = max(1, int(usable / row["depth_per_pass"]))
    row["total_depth"] = row["depth_per_pass"] * whole * stages(draws)
    return row


def some_stages(draws):
    return draws.evenly(0.02, MOST - 0.01)


def ordinary_engraving(draws):
    return engraving(draws, lambda d: d.evenly(1.0, 40.0), some_stages)


def whole_passes(draws):
    """Stages of a whole number of passes, as near as doubles come."""
    row = engraving(draws, lambda d: float(d.randint(1, 12)), lambda d: float(d.randint(1, MOST)))
    return row | {"total_depth": draws.nudge(row["total_depth"])}


def coarse_pass(draws):
    """One pass that removes more than the depth of focus."""
    return engraving(draws, lambda d: d.evenly(0.1, 0.99), lambda d: d.evenly(0.02, MOST - 0.01))


def fine_pass(draws):
    return engraving(draws, lambda d: d.octaves(40.0, 1e5), some_stages)


def decimal_engraving(draws):
    """As people write it: 0.9 mm in passes of 0.3 mm."""
    tenths, per_stage = draws.randint(1, 9), draws.randint(1, 9)
    unit = 1e-4
    return {
        "total_depth": tenths * per_stage * draws.randint(1, MOST) / 10 * unit,
        "depth_per_pass": tenths / 10 * unit,
        "toward_lens_z": -tenths * per_stage / 10 * unit,
        "away_from_lens_z": tenths * per_stage / 10 * unit,
        "aim": 1,
    }


def engraving_free(draws):
    return depth(draws, draws.octaves(1e-10, 1e3)) | {
        "total_depth": draws.octaves(1e-9, 1e3),
        "depth_per_pass": draws.octaves(1e-9, 1e3),
        "aim": draws.randint(1, 2),
    }


def surface_out_of_focus(draws):
    rows = []
    for _ in range(6):
        row = ordinary_engraving(draws) | {"aim": 1}
        rows.append(("refused", row | {"toward_lens_z": 1e-5, "away_from_lens_z": 1e-3}))
        rows.append(("refused", row | {"toward_lens_z": -1e-3, "away_from_lens_z": draws.choice((0.0, -1e-4))}))
    return rows


# The cut


def cut(draws, beam, share):
    zr = beams.rayleigh(beam)
    thickness = beams.within(draws, "thickness", zr * 0.01, zr * 30.0)
    focus = thickness * share(draws)
    return beam | {"focus_z": max(-1e3, min(1e3, focus)), "thickness": thickness}


def inside(draws):
    return draws.choice((0.0, 0.5, 1.0, draws.evenly(0.0, 1.0)))


def outside(draws):
    return draws.choice((draws.evenly(-4.0, 0.0), draws.evenly(1.0, 4.0)))


def near_middle(draws):
    """Where the taper is next to nothing."""
    return 0.5 * (1.0 + draws.sign() * draws.octaves(2.0**-52, 1e-3))


def thin(draws):
    row = cut(draws, beams.any_round(draws), outside)
    return row | {"thickness": draws.choice((0.0, -0.0, 5e-324, 1e-300, row["thickness"] * 2.0**-60))}


FUNCTIONS = [
    Function(
        focus_between,
        [*ROUND, *HEIGHTS],
        [
            ("ordinary", 3, lambda d: round_over(d, beams.focused(d))),
            ("wide", 2, lambda d: round_over(d, beams.wide(d))),
            ("flat", 1, lambda d: flat(d, beams.any_round(d))),
            ("far-field", 1, lambda d: far_apart(d, beams.any_round(d))),
        ],
        computed_refusals=[CONE],
        free=lambda d: far_apart(d, beams.free(d)),
        extra=lambda d: upside_down(d, lambda d: round_over(d, beams.focused(d))),
        wanted_rows=300,
    ),
    Function(
        focus_between_astigmatic,
        [*ASTIGMATIC, *HEIGHTS],
        [
            ("ordinary", 4, lambda d: astigmatic_over(d, beams.astigmatic(d))),
            ("wide", 3, lambda d: astigmatic_over(d, beams.astigmatic_wide(d))),
            ("alike", 2, lambda d: astigmatic_over(d, alike(d))),
            ("one-axis-rules", 2, lambda d: astigmatic_over(d, one_axis_rules(d))),
            ("flat", 2, lambda d: flat(d, beams.astigmatic(d))),
            ("far-field", 1, lambda d: far_apart(d, beams.astigmatic(d))),
        ],
        computed_refusals=TWO_CONES,
        free=lambda d: far_apart(d, beams.astigmatic_free(d)),
        extra=lambda d: upside_down(d, lambda d: astigmatic_over(d, beams.astigmatic(d))),
        wanted_rows=520,
    ),
    Function(
        height_bands,
        [*HEIGHTS, *ENDS, Slot("margin", "band margin")],
        [
            ("ordinary", 3, some_bands),
            ("whole-bands", 2, whole_bands),
            ("decimal-bands", 2, decimal_bands),
            ("wide", 2, wide_bands),
            ("flat", 1, level),
        ],
        computed_refusals=[NO_DEPTH, (OUTSIDE_MODEL, "number of height bands")],
        free=bands_free,
        extra=bands_of_no_depth,
        wanted_rows=360,
    ),
    Function(
        cylinder_strip,
        [Slot("part_radius", "radius of the part"), *ENDS],
        [
            ("ordinary", 3, lambda d: strip(d, d.octaves(1e-4, 0.5))),
            ("thin", 2, thin_strip),
            ("half-round", 2, near_half_round),
        ],
        choices={"aim": "focus aim"},
        computed_refusals=[NO_DEPTH],
        free=strip_free,
        extra=crown_out_of_focus,
        wanted_rows=300,
    ),
    Function(
        refocus_plan,
        [Slot("total_depth", "total depth"), Slot("depth_per_pass", "depth per pass"), *ENDS],
        [
            ("ordinary", 3, ordinary_engraving),
            ("whole-passes", 2, whole_passes),
            ("decimal-passes", 1, decimal_engraving),
            ("coarse-pass", 1, coarse_pass),
            ("fine-pass", 1, fine_pass),
        ],
        choices={"aim": "focus aim"},
        computed_refusals=[NO_DEPTH, (OUTSIDE_MODEL, "number of passes")],
        free=engraving_free,
        extra=surface_out_of_focus,
        wanted_rows=340,
    ),
    Function(
        spot_through,
        [*ROUND, Slot("focus_z", "focus z"), Slot("thickness", "thickness")],
        [
            ("ordinary", 3, lambda d: cut(d, beams.focused(d), inside)),
            ("focus-outside", 2, lambda d: cut(d, beams.focused(d), outside)),
            ("wide", 2, lambda d: cut(d, beams.wide(d), inside)),
            ("hardly-tapered", 1, lambda d: cut(d, beams.any_round(d), near_middle)),
            ("thin", 1, thin),
        ],
        computed_refusals=[CONE],
        free=lambda d: beams.free(d) | {"focus_z": d.sign() * d.octaves(1e-9, 1e3), "thickness": d.octaves(1e-9, 10.0)},
        wanted_rows=340,
    ),
]
