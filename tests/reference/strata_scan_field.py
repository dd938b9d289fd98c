"""Rows for the field of a scan head."""

import math

import beams
from checks import PARAMETERS
from model_scan_field import scan_field_at, scan_field_extent, scan_field_focus
from strata import Function, Slot
from strata_optics import CONE, OUTSIDE_MODEL, ROUND

UNREACHABLE = 5
LENS = [
    Slot("focal_length", "focal length"),
    Slot("field_radius", "field radius"),
    Slot("edge_tangential_z", "edge tangential z"),
    Slot("edge_sagittal_z", "edge sagittal z"),
    Slot("edge_incidence", "edge incidence"),
    Slot("edge_spot_ratio", "edge spot ratio"),
]
FIELD_ANGLE = (OUTSIDE_MODEL, "field angle")


def scanned(draws):
    """A beam and a lens such as scan heads have; sizes are common practice, no source."""
    focal_length = draws.choice((0.1, 0.163, 0.21, 0.254, 0.33, 0.42))
    return beams.focused(draws) | {
        "focal_length": focal_length,
        "field_radius": draws.nice(0.2 * focal_length, 0.5 * focal_length),
        "edge_tangential_z": draws.nice(-4e-3, 1e-3, 2),
        "edge_sagittal_z": draws.nice(-2e-3, 1e-3, 2),
        "edge_incidence": draws.choice((0.0, draws.nice(0.01, 0.45, 2))),
        "edge_spot_ratio": draws.choice((1.0, draws.nice(1.0, 1.3))),
    }


def wide(draws):
    """A lens from the whole of its ranges, its curvature from a hundredth to thousands of Rayleigh ranges."""
    beam = beams.any_round(draws)
    zr = beams.rayleigh(beam)
    radius = draws.octaves(1e-6, 10.0)
    curved = [
        draws.choice((0.0, draws.sign() * beams.within(draws, "edge tangential z", zr / 99, zr * 4e3)))
        for _ in range(2)
    ]
    if draws.one_in(4):
        curved[1] = curved[0]
    return beam | {
        "focal_length": min(radius * draws.octaves(0.9, 1e3), 1e4),
        "field_radius": radius,
        "edge_tangential_z": curved[0],
        "edge_sagittal_z": curved[1],
        "edge_incidence": draws.choice((0.0, draws.octaves(1e-6, 1.0))),
        "edge_spot_ratio": draws.choice((1.0, 1.0 + draws.octaves(1e-6, 9.0))),
    }


def telecentric(draws):
    return scanned(draws) | {"edge_incidence": 0.0, "edge_spot_ratio": 1.0}


def any_lens(draws):
    return draws.choice((scanned, telecentric, wide))(draws)


def table(draws, row):
    """A height of the table between the focal surfaces, or some Rayleigh ranges off them."""
    zr = beams.rayleigh(row)
    edge = draws.choice((row["edge_tangential_z"], row["edge_sagittal_z"]))
    off = draws.sign() * zr * draws.octaves(0.01, 9.0)
    return draws.choice((0.0, edge * draws.evenly(0.0, 1.0), edge, off))


def at_a_place(draws, row, share):
    """A place at this part of the way to the edge, in any direction."""
    any_way = (draws.evenly(-1.0, 1.0), draws.evenly(-1.0, 1.0))
    x, y = draws.choice(((3, 4), (4, -3), (-5, 12), (12, 5), (1, 0), (0, -1), any_way))
    scale = share * row["field_radius"] / math.hypot(x, y)
    return row | {"field_x": x * scale, "field_y": y * scale, "z_offset": table(draws, row)}


def inside(draws):
    return draws.evenly(0.0, 0.999) if draws.one_in(2) else draws.octaves(1e-3, 0.999)


def near_centre(draws):
    return draws.choice((0.0, draws.octaves(2.0**-330, 1e-6), 2.0**-500))


def at_a_focus(draws):
    """A table that lies in one of the focal surfaces at this place, or nearly so, strongly curved or not."""
    row = at_a_place(draws, any_lens(draws), draws.evenly(0.1, 0.99))
    share_squared = (row["field_x"] ** 2 + row["field_y"] ** 2) / row["field_radius"] ** 2
    edge = draws.choice((row["edge_tangential_z"], row["edge_sagittal_z"]))
    return row | {"z_offset": draws.nudge(edge * share_squared)}


def outside(draws):
    return at_a_place(draws, any_lens(draws), draws.octaves(1.001, 30.0))


def at_free(draws):
    row = draws.choice((outside, lambda d: at_a_place(d, too_wide(d), 0.5)))(draws)
    return row | beams.free(draws) if draws.one_in(3) else row


def too_wide(draws):
    """A field that the mirrors would have to turn the light to by more than 1.2 rad."""
    row = wide(draws)
    return row | {"focal_length": max(1e-5, row["field_radius"] / draws.octaves(1.3, 8.0))}


def growth_at(row, share):
    """The larger growth at this part of the way to the edge, to some digits."""
    q, slant = share * share, math.cos(row["edge_incidence"] * share)
    s = 1.0 + (row["edge_spot_ratio"] - 1.0) * q
    reach = beams.rayleigh(row) * s * slant
    along, across = (
        math.hypot(s, (row["z_offset"] - row[name] * q) / reach)
        for name in ("edge_tangential_z", "edge_sagittal_z")
    )
    return max(along / slant, across)


def asked(draws, row):
    """A growth that the field has somewhere, mostly, or that it has nowhere."""
    most = PARAMETERS["growth ratio"][2]
    if not draws.one_in(3):
        there = growth_at(row, draws.choice((draws.evenly(0.05, 1.0), draws.octaves(1e-4, 1.0))))
        if growth_at(row, 0.0) < there < most:
            return row | {"growth_ratio": there}
    at_centre = 1.0 + (row["z_offset"] / beams.rayleigh(row)) ** 2
    hardly = 1.0 + draws.octaves(2.0**-40, 1e-3)
    more = draws.choice((1.0 + draws.octaves(1e-3, 30.0), draws.nice(1.02, 2.0), hardly))
    return row | {"growth_ratio": min(math.sqrt(at_centre) * more, most)}


def extent(draws, lens):
    row = lens(draws)
    return asked(draws, row | {"z_offset": table(draws, row)})


def below_centre(draws):
    """Less growth than the middle has already."""
    row = extent(draws, any_lens)
    zr = beams.rayleigh(row)
    z = draws.sign() * zr * draws.evenly(0.5, 3.0)
    in_middle = math.hypot(1.0, z / zr)
    return row | {"z_offset": z, "growth_ratio": 1.0 + draws.evenly(0.0, 0.9) * (in_middle - 1.0)}


def extent_free(draws):
    row = draws.choice((below_centre, lambda d: extent(d, too_wide)))(draws)
    return row | beams.free(draws) if draws.one_in(3) else row


def no_growth(draws):
    """A growth of exactly 1: nowhere, or everywhere over a lens without fault."""
    flawless = dict.fromkeys(("edge_tangential_z", "edge_sagittal_z", "edge_incidence"), 0.0)
    flawless["edge_spot_ratio"] = 1.0
    rows = []
    for _ in range(4):
        row = any_lens(draws) | {"z_offset": 0.0, "growth_ratio": 1.0}
        rows.append(("limits", row))
        rows.append(("limits", row | flawless))
        rows.append(("ordinary", row | flawless | {"growth_ratio": 1.1}))
    return rows


def used(draws, row):
    part = draws.choice((1.0, draws.evenly(0.01, 1.0), draws.octaves(1e-6, 1.0)))
    return row | {"radius": row["field_radius"] * part}


def focus_free(draws):
    row = used(draws, too_wide(draws))
    return row | beams.free(draws) if draws.one_in(3) else row


FUNCTIONS = [
    Function(
        scan_field_at,
        [*ROUND, *LENS, Slot("field_x", "field x"), Slot("field_y", "field y"), Slot("z_offset", "z offset")],
        [
            ("ordinary", 4, lambda d: at_a_place(d, scanned(d), inside(d))),
            ("wide", 3, lambda d: at_a_place(d, wide(d), inside(d))),
            ("near-middle", 1, lambda d: at_a_place(d, any_lens(d), near_centre(d))),
            ("at-a-focus", 2, at_a_focus),
        ],
        computed_refusals=[CONE, FIELD_ANGLE, (OUTSIDE_MODEL, "radius")],
        free=at_free,
        wanted_rows=600,
    ),
    Function(
        scan_field_extent,
        [*ROUND, *LENS, Slot("z_offset", "z offset"), Slot("growth_ratio", "growth ratio")],
        [
            ("ordinary", 4, lambda d: extent(d, scanned)),
            ("telecentric", 2, lambda d: extent(d, telecentric)),
            ("wide", 3, lambda d: extent(d, wide)),
        ],
        computed_refusals=[CONE, FIELD_ANGLE, (UNREACHABLE, "growth ratio")],
        free=extent_free,
        extra=no_growth,
        per_slot=3,
        wanted_rows=450,
    ),
    Function(
        scan_field_focus,
        [*ROUND, *LENS, Slot("radius", "radius")],
        [
            ("ordinary", 3, lambda d: used(d, scanned(d))),
            ("telecentric", 1, lambda d: used(d, telecentric(d))),
            ("wide", 3, lambda d: used(d, wide(d))),
        ],
        computed_refusals=[CONE, FIELD_ANGLE],
        free=focus_free,
    ),
]
