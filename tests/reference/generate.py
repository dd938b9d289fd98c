#!/usr/bin/env python3
"""Writes tests/vectors/<function>.csv for every function of tests/vectors/functions.toml.

    python3 tests/reference/generate.py [--out tests/vectors]

Needs Python 3.11 or later, mpmath and NumPy as pinned in requirements.txt, and gmpy2, which only makes mpmath
quicker. The files are the same bytes on every run. Nothing here is taken from the library under test: the
formulas are written from the sources that each module names.
"""

import argparse
import sys
import tomllib
from collections import Counter, defaultdict
from concurrent.futures import ProcessPoolExecutor
from itertools import repeat
from pathlib import Path

import gmpy2
import mpmath
import numpy

import agreement
import check_wave
import strata_calibration
import strata_by_eye
import strata_beam_fit
import strata_check
import strata_check_marking
import strata_crisp
import strata_crossing
import strata_diagnosis
import strata_dose
import strata_focus
import strata_gantry
import strata_height_map
import strata_height_budget
import strata_in_focus
import strata_lens
import strata_lens_choice
import strata_mark
import strata_mark_fit
import strata_marks
import strata_optics
import strata_path
import strata_plan
import strata_pulsed
import strata_shape
import strata_scan_field
import strata_singlet_focus
import strata_statistics
import strata_surface_check
import strata_text
import strata_threshold_fit
import strata_tilt
import strata_tolerance
import strata_wave
import table
from checks import PARAMETERS
from deferred import complete
from draws import Draws
from model_astigmatic_depth import SECOND_RANGE

LEAST_ROWS = 10_000
LIST = Path(__file__).parent.parent / "vectors" / "functions.toml"
# Each module lists its functions as FUNCTIONS.
MODULES = (
    strata_optics,
    strata_lens,
    strata_path,
    strata_gantry,
    strata_wave,
    strata_focus,
    strata_singlet_focus,
    strata_tilt,
    strata_mark,
    strata_dose,
    strata_marks,
    strata_crisp,
    strata_pulsed,
    strata_text,
    strata_tolerance,
    strata_height_budget,
    strata_check,
    strata_check_marking,
    strata_height_map,
    strata_shape,
    strata_crossing,
    strata_lens_choice,
    strata_in_focus,
    strata_scan_field,
    strata_surface_check,
    strata_statistics,
    strata_beam_fit,
    strata_threshold_fit,
    strata_diagnosis,
    strata_calibration,
    strata_by_eye,
    strata_plan,
    strata_mark_fit,
)
# Every outcome and reason of the check must come up at least this often.
LEAST_OF_EACH = 5
# What takes longest is begun first, so that no process is left to finish alone.
LONGEST = (
    "fit_mark_widths",
    "focus_check",
    "offset_for_taste",
    "focus_for_surface",
    "clipped_depth_of_focus",
    "scan_field_extent",
    "wave_depth_of_focus",
    "choose_lens",
    "surface_check",
    "share_in_focus",
    "offset_for_text",
)
REASONS = 17


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--out", type=Path, default=LIST.parent, help="folder for the CSV files")
    parser.add_argument("--only", nargs="+", metavar="FUNCTION", help="write the files of these only")
    arguments = parser.parse_args()
    out = arguments.out
    pinned = (Path(__file__).parent / "requirements.txt").read_text().split()
    here = [f"gmpy2=={gmpy2.version()}", f"mpmath=={mpmath.__version__}", f"numpy=={numpy.__version__}"]
    if pinned != here:
        sys.exit(f"this needs {pinned}, not {here}")
    functions = functions_by_name()
    entries = tomllib.loads(LIST.read_text())["function"]
    if {entry["name"] for entry in entries} != set(functions) and not arguments.only:
        sys.exit("the functions here are not those of functions.toml")
    if arguments.only:
        entries = [entry for entry in entries if entry["name"] in arguments.only]
    out.mkdir(parents=True, exist_ok=True)
    agreement.demand_agreement()
    check_wave.demand_laws()
    # Each function is drawn by itself, so that the order in which they are made does not matter.
    entries.sort(key=lambda entry: entry["name"] not in LONGEST)
    with ProcessPoolExecutor() as workers:
        total = sum(workers.map(write, entries, repeat(out)))
    if total < LEAST_ROWS and not arguments.only:
        sys.exit(f"only {total} rows")
    print(f"{total} rows")


def functions_by_name():
    """What each function of the list is drawn from; some are drawn in several parts."""
    functions = defaultdict(list)
    for module in MODULES:
        for function in module.FUNCTIONS:
            functions[function.name].append(function)
    return functions


def write(entry, out):
    """One file; returns its number of rows."""
    name = entry["name"]
    parts = functions_by_name()[name]
    rows, answers = [], []
    for i, function in enumerate(parts):
        drawn = function.rows(Draws(f"{name} {i}" if i else name))
        found = [function.answer(row) for _, row in drawn]
        demand_every_refusal(function, found)
        rows += drawn
        answers += [(code, parameter, complete(outputs)) for code, parameter, outputs in found]
    choices = {key for function in parts for key in function.choices}
    if name == "focus_check":
        demand_every_verdict(answers)
    if name == "astigmatic_depth_of_focus":
        demand_second_ranges(answers)
    lines = [table.header(entry)]
    for i, ((stratum, row), answer) in enumerate(zip(rows, answers), start=1):
        lines.append(table.line(entry, choices, f"{name}-{i:04}", stratum, row, answer))
    (out / f"{name}.csv").write_text("\n".join(lines) + "\n", newline="\n")
    return len(rows)


def demand_every_refusal(function, answers):
    """Stops if an error that the function can give has no row."""
    found = {(code, parameter) for code, parameter, _ in answers}
    wanted = [(code, slot.parameter) for slot in function.slots for code in (1, 2)]
    wanted += [(3, parameter) for parameter in function.choices.values()]
    wanted += function.computed_refusals
    missing = [pair for pair in wanted if (pair[0], PARAMETERS[pair[1]][0]) not in found]
    if missing:
        sys.exit(f"{function.name}: no row for {missing}")


def demand_every_verdict(answers):
    """Stops if an outcome or a reason of the check hardly comes up."""
    seen = Counter()
    for code, _, outputs in answers:
        if code == 0:
            seen[f"outcome {outputs['outcome']}"] += 1
            seen.update(f"reason {1 << bit}" for bit in range(REASONS) if outputs["reasons"] >> bit & 1)
    wanted = [f"outcome {i}" for i in (1, 2, 3, 4)] + [f"reason {1 << bit}" for bit in range(REASONS)]
    rare = [verdict for verdict in wanted if seen[verdict] < LEAST_OF_EACH]
    if rare:
        sys.exit(f"focus_check: too few rows with {rare}")


def demand_second_ranges(answers):
    """Stops if the flag of a second bright range hardly comes up."""
    if sum(outputs.get("validity", 0) & SECOND_RANGE > 0 for _, _, outputs in answers) < LEAST_OF_EACH:
        sys.exit("astigmatic_depth_of_focus: too few rows with a second range")


if __name__ == "__main__":
    main()
