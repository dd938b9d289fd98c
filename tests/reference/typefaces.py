"""Shares of the em of the kinds of typeface, as the documentation of the library states them.

Measured, not derived: `measure_fonts.py` says how. This is the only place of the reference that holds
them; the vectors are made anew when they change.
"""

SANS, BOLD_SANS, LIGHT_SANS, SERIF, MONOSPACED, MEASURED = 1, 2, 3, 4, 5, 6

SHARES = (
    "cap_height",
    "x_height",
    "digit_height",
    "stem",
    "thinnest_stroke",
    "smallest_counter",
    "effective_stroke",
    "effective_counter",
    "effective_gap",
)

# code: shares in the order above
KINDS = {
    SANS: (0.712, 0.528, 0.714, 0.087, 0.043, 0.154, 0.0428, 0.1415, 0.0967),
    BOLD_SANS: (0.714, 0.528, 0.714, 0.147, 0.065, 0.111, 0.067, 0.094, 0.0777),
    LIGHT_SANS: (0.709, 0.513, 0.712, 0.048, 0.028, 0.175, 0.0261, 0.1774, 0.1166),
    SERIF: (0.655, 0.459, 0.654, 0.081, 0.027, 0.141, 0.0289, 0.1296, 0.075),
    MONOSPACED: (0.718, 0.543, 0.718, 0.089, 0.043, 0.158, 0.0454, 0.1484, 0.1243),
}
