"""Off focus behind a real single-piece lens, and its depth of focus, by one measure.

The beam is taken for a hyperbola about the waist that `model_singlet` finds by second moments or by
86.5 % of the power: d(z) = d0 sqrt(1 + (z/zR)^2) with the zR of that waist. The handbook measure
has no such beam.
"""

from mpmath import ceil, isinf, mpf

from checks import (
    UNKNOWN_CHOICE,
    UNREACHABLE,
    Refused,
    TooClose,
    choice,
    exceeds,
    number,
)
from model_beam import Beam
from model_depth import (
    BLAMED,
    IRRADIANCE_DROP,
    LARGEST_DIAMETER,
    LINE_DOSE_DROP,
    criterion_number,
    defocus_outputs,
    depth_of_computed_beam,
    symmetric,
)
from model_singlet import HANDBOOK, SECOND_MOMENT, real_focus

# With r = largest diameter over waist, the offset goes as sqrt(r^2 - 1). Below this no row is drawn.
LEAST_ROOM = mpf(10) ** -6
RANGE_ULP = 4
# Irradiance and line dose off focus are those of a Gaussian beam, which they are not above this.
GAUSSIAN_OFF_FOCUS = 512
LEAST_OFF_FOCUS = 0.03
WIDEST_OFF_FOCUS = mpf(5) / 2


def off_focus_flag(real):
    """Both are asked, so that neither may be close to its limit."""
    aberrates = exceeds(real.t, mpf(LEAST_OFF_FOCUS))
    clips = not isinf(real.clipping) and not exceeds(real.clipping, WIDEST_OFF_FOCUS)
    return GAUSSIAN_OFF_FOCUS if aberrates or clips else 0


def refuse_handbook(measure):
    if measure == HANDBOOK:
        raise Refused(UNKNOWN_CHOICE, "spot measure")


def beam_by(measure, real):
    """The beam behind the lens by this measure."""
    waist = real.second
    if measure != SECOND_MOMENT:
        real.demand_power86()
        waist = real.power86
    return Beam(real.raw.wavelength, waist["m2"], waist["waist_diameter"])


def trust_of(real):
    """The flags of the lens, its aperture and its focus, and the numbers behind them."""
    return {
        "half_angle": real.half_angle,
        "validity": real.validity,
        "normalised_aberration": real.t,
        "clipping_ratio": real.clipping,
        "relative_focus_shift": real.relative_shift,
        "relative_rayleigh_range": real.relative_range,
    }


def singlet_defocus(row):
    shape = choice("lens shape", row["lens_shape"])
    measure = choice("spot measure", row["measure"])
    refuse_handbook(measure)
    real = real_focus(row, shape)
    beam = beam_by(measure, real)
    answer = defocus_outputs(beam, number("z offset", row["z_offset"])) | trust_of(real)
    answer["validity"] |= off_focus_flag(real)
    return answer


def singlet_depth_of_focus(row):
    shape = choice("lens shape", row["lens_shape"])
    measure = choice("spot measure", row["measure"])
    criterion = choice("depth criterion", row["criterion"])
    refuse_handbook(measure)
    real = real_focus(row, shape)
    beam = beam_by(measure, real)
    value = criterion_number(row, criterion)
    half = depth_of_computed_beam(beam, criterion, value)
    if half is None:
        raise Refused(UNREACHABLE, BLAMED[criterion])
    ulp = RANGE_ULP
    if criterion == LARGEST_DIAMETER:
        squared = (value / beam.waist_diameter) ** 2
        if not exceeds(squared, 1 + LEAST_ROOM):
            raise TooClose
        ulp = int(ceil(RANGE_ULP * squared / (squared - 1)))
    answer = symmetric(half)
    answer |= {f"{name}_ulp": ulp for name in answer} | trust_of(real)
    if criterion in (IRRADIANCE_DROP, LINE_DOSE_DROP):
        answer["validity"] |= off_focus_flag(real)
    return answer
