"""Writes rows as CSV: exact inputs, and outputs to 25 significant digits."""

from mpmath import isnan, mp, mpf, nstr

DIGITS = 25
# From here on a number rounds to infinity in double precision.
OVERFLOW = mpf(2) ** 1024 - mpf(2) ** 970
# Outputs that may be infinite, as documented.
ENDLESS = {
    ("beam_at", "wavefront_radius"),
    ("contrast_at_pitch", "dose_window"),
    ("focus_singlet", "clipping_ratio"),
    ("focus_clipped", "clipping_ratio"),
    ("clipped_depth_of_focus", "clipping_ratio"),
    ("singlet_defocus", "clipping_ratio"),
    ("singlet_depth_of_focus", "clipping_ratio"),
    ("focus_check", "real_clipping_ratio"),
    ("surface_check", "real_clipping_ratio"),
    ("text_quality", "greatest_dose_ratio"),
    ("text_quality", "greatest_dose_ratio_for_counters"),
}


def header(entry):
    columns = ["id", "stratum"]
    for name in entry["inputs"]:
        columns += [name, f"{name}_decimal"]
    columns += ["code", "param", *entry["outputs"]]
    columns += [f"{name}_ulp" for name in entry.get("conditioned", [])]
    return ",".join(columns)


def input_fields(value, whole):
    if whole:
        return [str(value), str(value)]
    return [hexadecimal(value), repr(value)]


def hexadecimal(value):
    """C99 form with no trailing zeros, such as 0x1.8p-3; nan, inf and -inf as they are."""
    text = value.hex()
    if "p" not in text:
        return text
    digits, exponent = text.split("p")
    if "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    return f"{digits}p{exponent}"


def output_field(function, name, value):
    if isinstance(value, int):
        return str(value)
    if isnan(value):
        return "nan"
    if abs(value) >= OVERFLOW:
        if (function, name) not in ENDLESS:
            raise OverflowError(f"{function}: {name} is too large")
        return "inf" if value > 0 else "-inf"
    if value == 0:
        return "0"
    # Equal bounds turn the fixed form off.
    return nstr(value, DIGITS, strip_zeros=False, min_fixed=mp.inf, max_fixed=-mp.inf)


def line(entry, whole, identity, stratum, row, answer):
    """One row; `whole` names the inputs that are codes of choices."""
    code, parameter, outputs = answer
    fields = [identity, stratum]
    for name in entry["inputs"]:
        fields += input_fields(row[name], name in whole)
    fields += [str(code), str(parameter)]
    for name in entry["outputs"]:
        fields.append(output_field(entry["name"], name, outputs[name]) if code == 0 else "nan")
    for name in entry.get("conditioned", []):
        # Zero where there is no number to compare.
        fields.append(str(outputs.get(f"{name}_ulp", 0)))
    return ",".join(fields)
