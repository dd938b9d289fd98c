"""Rows for the wave functions.

They cost so much that few are drawn, and none that needs very many nodes: strong aberration goes
with clipping or partial coherence. Every row drawn serves again as the base of rows at limits,
with special values and with faults.
"""

import math
from dataclasses import dataclass, field

from checks import OUTSIDE_MODEL, PARAMETERS, UNREACHABLE, TooClose
from model_depth import GROWTH, IRRADIANCE_DROP, LARGEST_DIAMETER, RAYLEIGH
from model_wave import (
    PEAK,
    POWER86,
    SECOND_MOMENT,
    wave_depth_of_focus,
    wave_focus,
    wave_irradiance,
    wave_map,
    wave_power,
    wave_widths,
)
from strata import SPECIAL, Function, Slot, beyond, ends

WAVELENGTHS = (10.6e-6, 10.2e-6, 9.3e-6, 1.064e-6, 1.07e-6, 532e-9, 355e-9)
# M2 at which coherence is all but full.
NEARLY_COHERENT = (1.001, 1.005, 1.01, 1.02)
MARGIN = 0.28  # of the half angle
LEAST_RANGE = 15.0  # ZL/L
ATTEMPTS = 400


@dataclass
class WaveFunction(Function):
    """A function whose rows take so long that few are drawn."""

    refused: list = field(default_factory=list)  # functions from Draws and an accepted row to a row
    faults: int = 8
    thorough: bool = True  # also rows at limits and with special values

    def rows(self, draws):
        drawn = []
        for name, count, draw in self.strata:
            drawn += [(name, self.accepted_of(draws, draw)) for _ in range(count)]
        bases = [row for _, row in drawn]
        rows = drawn + self.replacements(draws, bases)
        for name, parameter in self.choices.items():
            _, _, greatest = PARAMETERS[parameter]
            rows += [("refused", draws.choice(bases) | {name: code}) for code in (0, greatest + 1, 2**32 - 1)]
        for make in self.refused:
            rows += [("refused", make(draws, dict(draws.choice(bases)))) for _ in range(2)]
        rows += [("order", self.faulty(draws, draws.choice(bases))) for _ in range(self.faults)]
        return [(stratum, row) for stratum, row in rows if self.answered(row)]

    def accepted_of(self, draws, draw):
        for _ in range(ATTEMPTS):
            row = draw(draws)
            if self.answered(row) and self.answer(row)[0] == 0:
                return row
        raise RuntimeError(f"{self.name}: a stratum draws nothing that is accepted")

    def answered(self, row):
        try:
            self.answer(row)
        except TooClose:
            return False
        return True

    def replacements(self, draws, bases):
        """Each input not a number, out of range, at an end of its range, and special."""
        rows = []
        for slot in self.slots:
            fitting = [row for row in bases if slot.read_in(row)]

            def put(stratum, value):
                rows.append((stratum, draws.choice(fitting) | {slot.name: value}))

            put("special", math.nan)
            put("refused", draws.choice(beyond(slot.parameter, draws)))
            if not self.thorough:
                continue
            put("special", draws.choice([value for value in SPECIAL if value == value]))
            put("limits", draws.choice(ends(slot.parameter, False))[0])
        return rows

    def faulty(self, draws, row):
        inputs = {slot.name: slot.parameter for slot in self.slots}
        row = dict(row)
        for name in draws.sample(sorted(inputs), draws.randint(2, 4)):
            row[name] = draws.choice((math.nan, -math.inf, *beyond(inputs[name], draws)))
        if self.choices and draws.one_in(3):
            row[draws.choice(sorted(self.choices))] = 77
        return row


# Waves


def rounded(value, digits=6):
    return float(format(value, f".{digits}g"))


def wave(draws, m2, ratio, alpha):
    """A wave as behind the lens of an engraver or marker, with these three numbers."""
    while True:
        row = {
            "wavelength": draws.choice(WAVELENGTHS),
            "m2": m2,
            "diameter_at_lens": draws.nice(4e-3, 15e-3),
            "clear_aperture": math.inf,
            "lens_to_focus": draws.nice(0.03, 0.25),
            "aberration_phase": rounded(alpha),
        }
        if ratio < math.inf:
            row["clear_aperture"] = rounded(row["diameter_at_lens"] * ratio, 4)
        narrower = min(row["diameter_at_lens"], row["clear_aperture"])
        if narrower < 2.0 * MARGIN * row["lens_to_focus"] and lens_range(row) > LEAST_RANGE * row["lens_to_focus"]:
            return row


def lens_range(row):
    return math.pi * row["diameter_at_lens"] ** 2 / (4.0 * row["wavelength"])


def sign_mostly_plus(draws):
    return -1.0 if draws.one_in(4) else 1.0


def ordinary(draws):
    m2 = draws.choice((1.0, draws.nice(1.05, 1.8)))
    return wave(draws, m2, draws.evenly(1.5, 2.2), draws.choice((0.0, draws.evenly(0.02, 0.5))))


def unclipped(draws):
    ratio = draws.choice((math.inf, draws.evenly(6.5, 30.0)))
    return wave(draws, draws.nice(1.1, 2.0), ratio, draws.choice((0.0, draws.evenly(-0.3, 0.7))))


def clipped(draws):
    return wave(draws, draws.nice(1.0, 1.8), draws.evenly(0.5, 1.4), draws.evenly(-0.5, 0.5))


def strongly_clipped(draws):
    return wave(draws, draws.nice(1.0, 1.8), draws.evenly(0.21, 0.6), 0.0)


def aberrated(draws):
    alpha = sign_mostly_plus(draws) * draws.evenly(0.6, 2.0)
    if draws.one_in(3):
        return wave(draws, draws.nice(1.6, 2.5), math.inf, alpha)
    return wave(draws, draws.nice(1.2, 2.0), draws.evenly(1.0, 1.8), alpha)


def mildly_aberrated(draws):
    alpha = sign_mostly_plus(draws) * draws.evenly(0.4, 1.0)
    if draws.one_in(3):
        return wave(draws, draws.nice(1.5, 2.0), math.inf, alpha)
    return wave(draws, draws.nice(1.1, 1.8), draws.evenly(1.2, 1.8), alpha)


def partly_coherent(draws):
    ratio = draws.choice((math.inf, draws.evenly(0.8, 2.0)))
    return wave(draws, draws.nice(2.0, 5.0), ratio, draws.evenly(-1.0, 2.0))


def nearly_coherent(draws):
    ratio = math.inf if draws.one_in(4) else draws.evenly(1.0, 2.0)
    return wave(draws, draws.choice(NEARLY_COHERENT), ratio, draws.evenly(-0.3, 0.6))


def coherent(draws):
    return wave(draws, 1.0, draws.choice((math.inf, draws.evenly(0.8, 2.0))), draws.evenly(0.0, 0.6))


def at_the_ends(draws):
    """Greatest M2 and aberration."""
    m2 = draws.choice((1.0, 5.0))
    alpha = draws.choice((6.0, -6.0))
    return wave(draws, m2, draws.evenly(0.5, 0.8) if m2 == 1.0 else draws.evenly(0.8, 1.2), alpha)


# Places


def z_at(row, beta):
    focus = row["lens_to_focus"]
    return rounded(-beta * focus**2 / (lens_range(row) + beta * focus))


def radius_at(row, z, v):
    return rounded(v * row["wavelength"] * (row["lens_to_focus"] + z) / (math.pi * row["diameter_at_lens"]))


def ordinary_beta(draws, row):
    """On either side of focus, more often where an aberration puts the light."""
    beta = draws.evenly(-1.5, 3.0) * row["m2"]
    return -beta if row["aberration_phase"] < 0.0 else beta


def far_beta(draws, row):
    return draws.sign() * draws.evenly(4.0, 20.0)


def rather_far_beta(draws, row):
    return draws.sign() * draws.evenly(2.5, 5.0) * row["m2"]


def in_plane(draws, row, beta=ordinary_beta):
    return row | {"z": 0.0 if draws.one_in(10) else z_at(row, beta(draws, row))}


def at_place(draws, row, beta=ordinary_beta, most_v=6.0):
    row = in_plane(draws, row, beta)
    v = draws.evenly(0.0, most_v) * min(row["m2"], 2.0)
    row = {name: row[name] for name in row if name != "z"} | {"radius": radius_at(row, row["z"], v), "z": row["z"]}
    return row


def on_axis(draws, row):
    return at_place(draws, row) | {"radius": 0.0}


def at_many(draws, row):
    planes = [in_plane(draws, row)["z"] for _ in range(2)]
    radii = [radius_at(row, planes[0], draws.evenly(0.0, 2.0) * min(row["m2"], 2.0)) for _ in range(3)]
    if draws.one_in(3):
        radii[0] = 0.0
    return row | dict(zip(("radius1", "radius2", "radius3", "z1", "z2"), (*radii, *planes)))


def far_out(draws, row):
    """Near the greatest normalised radius, or the greatest defocus, that is allowed."""
    if draws.one_in(2):
        return at_place(draws, row) | {"radius": radius_at(row, 0.0, draws.evenly(100.0, 119.0)), "z": 0.0}
    return at_place(draws, row, lambda draws, row: draws.sign() * draws.evenly(27.0, 29.9))


def measured(draws, row, measure):
    return row | {"focus_measure": measure}


def either_measure(draws, row):
    return measured(draws, row, draws.choice((PEAK, POWER86)))


def any_measure(draws, row):
    return measured(draws, row, draws.choice((PEAK, POWER86, SECOND_MOMENT)))


def by_criterion(draws, row, criterion):
    """What the criterion does not read is left as junk."""
    ideal = 4.0 * row["m2"] * row["wavelength"] * row["lens_to_focus"] / (math.pi * row["diameter_at_lens"])
    ideal /= min(1.0, 1.1 * row["clear_aperture"] / row["diameter_at_lens"])
    row = row | {"criterion": criterion, "growth_ratio": draws.anything(), "drop": draws.anything()}
    row["largest_diameter"] = draws.anything()
    if criterion == GROWTH:
        row["growth_ratio"] = draws.choice((1.05, 1.1, draws.nice(1.02, 1.8)))
    elif criterion == IRRADIANCE_DROP:
        row["drop"] = draws.choice((0.2, draws.nice(0.03, 0.6)))
    elif criterion == LARGEST_DIAMETER:
        row["largest_diameter"] = rounded(ideal * draws.evenly(1.3, 2.2), 4)
    return row


def any_criterion(draws, row):
    return by_criterion(draws, row, draws.choice((GROWTH, RAYLEIGH, IRRADIANCE_DROP, LARGEST_DIAMETER)))


# Refusals that follow from the numbers


def clipped_too_much(draws, row):
    return row | {"clear_aperture": row["diameter_at_lens"] * draws.evenly(0.02, 0.19)}


def cone_too_wide(draws, row):
    narrower = min(row["diameter_at_lens"], row["clear_aperture"])
    return row | {"lens_to_focus": narrower / (2.0 * draws.evenly(0.31, 0.9))}


def too_far_off(name):
    """Too much defocus, or a plane at the lens or before it."""

    def make(draws, row):
        if draws.one_in(3):
            return row | {name: -row["lens_to_focus"] * draws.choice((1.0, draws.evenly(1.01, 9.0)))}
        return row | {name: z_at(row, draws.evenly(31.0, 300.0))}

    return make


def too_far_out(name, place):
    def make(draws, row):
        return row | {name: radius_at(row, row[place], draws.evenly(121.0, 500.0))}

    return make


def no_second_moment(draws, row):
    row = row | {"focus_measure": SECOND_MOMENT}
    return row | {"clear_aperture": row["diameter_at_lens"] * draws.evenly(0.3, 4.9)}


def never_so_small(draws, row):
    row = by_criterion(draws, row, LARGEST_DIAMETER)
    return row | {"largest_diameter": row["largest_diameter"] * 0.2}


def never_so_large(draws, row):
    # Clipped, so that the far planes cost little.
    row = by_criterion(draws, row, GROWTH) | {"growth_ratio": draws.nice(100.0, 900.0)}
    return row | {"clear_aperture": 0.8 * row["diameter_at_lens"], "aberration_phase": 0.0}


def line_dose(draws, row):
    return row | {"criterion": 5, "drop": 0.2}


WAVE = [
    Slot("wavelength", "wavelength"),
    Slot("m2", "M squared"),
    Slot("diameter_at_lens", "diameter at lens"),
    Slot("clear_aperture", "clear aperture"),
    Slot("lens_to_focus", "lens to focus"),
    Slot("aberration_phase", "aberration phase"),
]
PLACE = [Slot("radius", "radius"), Slot("z", "z")]
TOO_FAR_OFF = (OUTSIDE_MODEL, "normalised defocus")
TOO_FAR_OUT = (OUTSIDE_MODEL, "normalised radius")
OF_WAVE = [(OUTSIDE_MODEL, "clipping ratio"), (OUTSIDE_MODEL, "divergence half angle")]
REFUSED_WAVES = [clipped_too_much, cone_too_wide]
PLACED = [*REFUSED_WAVES, too_far_off("z"), too_far_out("radius", "z")]


def strata(place, counts):
    """The kinds of wave, so many of each, with what `place` adds to them."""
    kinds = (
        ("ordinary", ordinary),
        ("unclipped", unclipped),
        ("clipped", clipped),
        ("strongly-clipped", strongly_clipped),
        ("mildly-aberrated", mildly_aberrated),
        ("aberrated", aberrated),
        ("partly-coherent", partly_coherent),
        ("nearly-coherent", nearly_coherent),
        ("coherent", coherent),
    )
    return [
        (name, count, lambda draws, kind=kind: place(draws, kind(draws)))
        for (name, kind), count in zip(kinds, counts, strict=True)
        if count
    ]


FUNCTIONS = [
    WaveFunction(
        wave_irradiance,
        [*WAVE, *PLACE],
        [
            *strata(at_place, (14, 8, 8, 4, 6, 10, 7, 8, 6)),
            ("far-from-focus", 8, lambda d: at_place(d, clipped(d), far_beta)),
            ("on-axis", 6, lambda d: on_axis(d, d.choice((ordinary, clipped, coherent, aberrated))(d))),
            ("limits", 4, lambda d: far_out(d, clipped(d))),
            ("limits", 4, lambda d: at_place(d, at_the_ends(d))),
        ],
        computed_refusals=[*OF_WAVE, TOO_FAR_OFF, TOO_FAR_OUT],
        refused=PLACED,
    ),
    WaveFunction(
        wave_power,
        [*WAVE, *PLACE],
        [
            *strata(at_place, (8, 5, 5, 3, 4, 5, 4, 5, 4)),
            ("far-from-focus", 4, lambda d: at_place(d, clipped(d), far_beta, 30.0)),
            ("limits", 2, lambda d: far_out(d, clipped(d))),
            ("limits", 2, lambda d: at_place(d, at_the_ends(d))),
        ],
        computed_refusals=[*OF_WAVE, TOO_FAR_OFF, TOO_FAR_OUT],
        refused=PLACED,
        faults=4,
    ),
    WaveFunction(
        wave_widths,
        [*WAVE, Slot("z", "z")],
        [
            *strata(in_plane, (8, 5, 5, 3, 4, 5, 4, 5, 4)),
            ("far-from-focus", 4, lambda d: in_plane(d, clipped(d), rather_far_beta)),
        ],
        computed_refusals=[*OF_WAVE, TOO_FAR_OFF],
        refused=[*REFUSED_WAVES, too_far_off("z")],
        faults=4,
    ),
    WaveFunction(
        wave_focus,
        [*WAVE],
        [
            *strata(either_measure, (5, 0, 3, 1, 3, 2, 2, 2, 2)),
            ("unclipped", 6, lambda d: any_measure(d, unclipped(d))),
        ],
        choices={"focus_measure": "focus measure"},
        computed_refusals=OF_WAVE,
        refused=[*REFUSED_WAVES, no_second_moment],
        faults=3,
        thorough=False,
    ),
    WaveFunction(
        wave_map,
        [*WAVE, *(Slot(f"radius{i}", "radius") for i in (1, 2, 3)), *(Slot(f"z{i}", "z") for i in (1, 2))],
        strata(at_many, (7, 5, 5, 2, 4, 4, 4, 4, 3)),
        computed_refusals=[*OF_WAVE, TOO_FAR_OFF, TOO_FAR_OUT],
        refused=[*REFUSED_WAVES, too_far_off("z2"), too_far_out("radius3", "z2")],
        faults=3,
        thorough=False,
    ),
    WaveFunction(
        wave_depth_of_focus,
        [
            *WAVE,
            Slot("growth_ratio", "growth ratio", {"criterion": GROWTH}),
            Slot("drop", "irradiance drop", {"criterion": IRRADIANCE_DROP}),
            Slot("largest_diameter", "largest diameter", {"criterion": LARGEST_DIAMETER}),
        ],
        strata(any_criterion, (8, 5, 5, 1, 5, 2, 3, 3, 3)),
        choices={"criterion": "depth criterion"},
        computed_refusals=[*OF_WAVE, TOO_FAR_OFF, (UNREACHABLE, "largest diameter")],
        refused=[*REFUSED_WAVES, never_so_small, never_so_large, line_dose],
        faults=3,
        thorough=False,
    ),
]
