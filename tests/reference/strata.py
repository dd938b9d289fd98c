"""How rows are drawn: what every function shares.

A function's own strata draw inputs that it accepts. From those, the strata below are made:

  limits    one input at an end of its range, or at the next double on either side
  special   one input at +0, -0, NaN, an infinity or a subnormal
  refused   every error that the function can give, for every parameter it can name
  order     several faults in one row: the first check that fails decides
"""

import math
from dataclasses import dataclass, field

from checks import PARAMETERS, Refused, TooClose

ATTEMPTS = 40_000
ROWS_PER_REFUSAL = 5
ORDER_ROWS = 24
SPECIAL = (0.0, -0.0, math.nan, math.inf, -math.inf, 5e-324, -5e-324, 2.0**-1030)


@dataclass
class Slot:
    """An input, the parameter that its check names, and the choices under which it is read."""

    name: str
    parameter: str
    when: dict = field(default_factory=dict)
    either_sign: bool = False

    def read_in(self, row):
        return all(row.get(name) == code for name, code in self.when.items())


@dataclass
class Function:
    """One function of the list: its reference, its inputs and how they are drawn."""

    reference: callable
    slots: list
    strata: list  # (name, share of the drawn rows, function from Draws to a row)
    choices: dict = field(default_factory=dict)  # input: parameter
    computed_refusals: list = field(default_factory=list)  # (code, parameter)
    free: callable = None  # draws from the whole ranges; most rows are refused
    refusals_from_free: bool = False  # `free` alone shows every computed refusal
    wanted_rows: int = 425
    extra: callable = None  # from Draws to rows of any answer, as (stratum, row)
    tries: int = 60  # to find a row in which the end of a range is accepted
    per_slot: int = None  # so many rows at limits and specials for each input, not all of them
    base: callable = None  # draws the rows of which one input is replaced, where others take long
    finish: callable = None  # fills in what this function's rows do not read
    answers: dict = field(default_factory=dict)  # by row: many a row is asked for more than once

    @property
    def name(self):
        return self.reference.__name__

    def rows(self, draws):
        """All rows as (stratum, inputs)."""
        return rows_of(self, draws, self.wanted_rows)

    def answer(self, row):
        """(code, parameter code, outputs); raises TooClose."""
        key = repr(row)
        if key not in self.answers:
            self.answers[key] = self.worked_out(row)
        if isinstance(self.answers[key], TooClose):
            raise self.answers[key]
        return self.answers[key]

    def worked_out(self, row):
        try:
            return 0, 0, self.reference(row)
        except Refused as refused:
            return refused.code, refused.parameter_code, {}
        except TooClose as close:
            return close.with_traceback(None)

    def accepted(self, draws, draw):
        """A drawn row that the function accepts; None if there is no such row."""
        return self.drawn(draws, [draw], lambda row, code, parameter: code == 0)

    def drawn(self, draws, sources, wanted):
        """The first row from these sources, in turn, that `wanted` takes; None if none does."""
        for attempt in range(ATTEMPTS):
            row = sources[attempt % len(sources)](draws)
            try:
                code, parameter, _ = self.answer(row)
            except TooClose:
                continue
            if wanted(row, code, parameter):
                return row
        return None


def rows_of(function, draws, total):
    """All rows of a function as (stratum, inputs), `total` of them or a few more."""
    rows = limit_rows(function, draws) + special_rows(function, draws)
    rows += refused_rows(function, draws) + order_rows(function, draws)
    if function.extra:
        rows += [pair for pair in function.extra(draws) if not too_close(function, pair[1])]
    left = total - len(rows)
    shares = sum(share for _, share, _ in function.strata)
    drawn = []
    for name, share, draw in function.strata:
        for _ in range(math.ceil(left * share / shares)):
            row = function.accepted(draws, draw)
            if row is None:
                raise RuntimeError(f"{function.name}: stratum {name} draws nothing that is accepted")
            drawn.append((name, row))
    if function.finish:
        return [(stratum, function.finish(draws, row)) for stratum, row in drawn + rows]
    return drawn + rows


def too_close(function, row):
    try:
        function.answer(row)
    except TooClose:
        return True
    return False


def some(function, draws, values):
    """All of these, or the few that `per_slot` allows. NaN always stays."""
    if function.per_slot is None:
        return values
    kept = [value for value in values if value != value]
    return kept + draws.sample([value for value in values if value == value], function.per_slot)


def ends(parameter, both_signs):
    """Ends of a range and the doubles next to them, each with whether it is allowed."""
    _, least, greatest = PARAMETERS[parameter]
    up, down = math.inf, -math.inf
    inside = [least, greatest, math.nextafter(least, up), math.nextafter(greatest, down)]
    outside = [math.nextafter(least, down), math.nextafter(greatest, up)]
    if both_signs:
        inside += [-value for value in inside]
        outside += [-value for value in outside]
    return [(value, True) for value in inside] + [(value, False) for value in outside]


def base_row(function, draws, slot):
    """An accepted row in which this input is read."""
    sources = [function.base] if function.base else [draw for _, _, draw in function.strata]
    start = draws.randrange(len(sources))
    return function.drawn(
        draws, sources[start:] + sources[:start], lambda row, code, _: code == 0 and slot.read_in(row)
    )


def replaced(function, draws, slot, value, tries):
    """An accepted row with one input replaced; one that is still accepted if `tries` find it."""
    kept = None
    for _ in range(tries):
        row = base_row(function, draws, slot) | {slot.name: value}
        try:
            code, _, _ = function.answer(row)
        except TooClose:
            continue
        kept = row
        if code == 0:
            break
    return kept


def limit_rows(function, draws):
    rows = []
    for slot in function.slots:
        for value, allowed in some(function, draws, ends(slot.parameter, slot.either_sign)):
            row = replaced(function, draws, slot, value, function.tries if allowed else 1)
            if row is not None:
                rows.append(("limits", row))
    return rows


def special_rows(function, draws):
    rows = []
    for slot in function.slots:
        for value in some(function, draws, SPECIAL):
            row = replaced(function, draws, slot, value, 10)
            if row is not None:
                rows.append(("special", row))
    return rows


def refused_rows(function, draws):
    rows = []
    for slot in function.slots:
        for value in some(function, draws, beyond(slot.parameter, draws)):
            rows.append(("refused", base_row(function, draws, slot) | {slot.name: value}))
    for name, parameter in function.choices.items():
        _, _, greatest = PARAMETERS[parameter]
        for code in (0, greatest + 1, 2**32 - 1):
            base = function.accepted(draws, function.base or function.strata[0][2])
            rows.append(("refused", base | {name: code}))
    sources = [draw for _, _, draw in function.strata] + ([function.free] if function.free else [])
    if function.refusals_from_free:
        sources = [function.free]
    for code, parameter in function.computed_refusals:
        wanted = (code, PARAMETERS[parameter][0])
        for _ in range(ROWS_PER_REFUSAL):
            row = function.drawn(draws, sources, lambda _, *found: found == wanted)
            if row is None:
                raise RuntimeError(f"{function.name}: no row found for error {code} of {parameter}")
            rows.append(("refused", row))
    return rows


def beyond(parameter, draws):
    """Well outside the range, on either side."""
    _, least, greatest = PARAMETERS[parameter]
    below = least * 2 if least < 0 else -least if least > 0 else -1e-3
    return below, greatest * draws.octaves(1.5, 1e6), 1e308


def order_rows(function, draws):
    rows = []
    inputs = {slot.name: slot.parameter for slot in function.slots}
    while len(rows) < ORDER_ROWS and len(inputs) + len(function.choices) > 1:
        row = function.accepted(draws, function.base or draws.choice(function.strata)[2])
        row = dict(row)
        names = sorted(inputs)
        for name in draws.sample(names, min(len(names), draws.randint(2, 4))):
            row[name] = draws.choice((math.nan, math.inf, *beyond(inputs[name], draws)))
        if function.choices and draws.one_in(3):
            row[draws.choice(sorted(function.choices))] = 77
        try:
            function.answer(row)
        except TooClose:
            continue
        rows.append(("order", row))
    return rows
