"""A published value beside ours: compared to half a unit of its last printed digit, and noted for the proof page."""

import math
from decimal import Decimal
from functools import cache

import pytest

THREE = "three standard deviations of the estimate"
CHORDS = {"lift_q": 1, "pitch_0": 1, "pitch_alpha": 1, "pitch_elevator": 1, "pitch_q": 2, "pitch_alpha_dot": 2}
"""How many times the reference chord divides a derivative."""
EXTRA_DIGITS = 3  # ours is shown with so many more than printed: enough to see, too few for machines to differ


@pytest.fixture
def printed(request):
    """Compare with a printed value and note the row; `proof.py` makes the page of all rows (see `compare`)."""

    def check(ours, value, unit="", **how):
        note, fault = compare(ours, value, unit, **how)
        request.node.user_properties.append(("printed", note))
        assert not fault, fault

    return check


@pytest.fixture(scope="session")
def estimated():
    """Return what estimates the derivatives of a scenario as if it gave none; see `estimates`."""
    return cache(estimates)


def estimates(path, chord, powerplant, *changes):
    """Return the derivatives of a scenario from its geometry, by name: value and one standard deviation.

    Parameters
    ----------
    path : Path
        Of the scenario; its table of given derivatives is left out.
    chord : float
        Reference chord of the source over that of the scenario.
    powerplant : str
        Whose propeller turns.
    *changes : str
        Settings, ``table.key=value`` each.
    """
    import sim
    from sim.scenario.derivatives import DerivativesTable

    scenario = sim.load(path, set=changes).model_copy(update={"derivatives": DerivativesTable()})
    found = sim.derivatives(scenario, powerplant=powerplant).derivatives
    scales = {name: chord ** CHORDS.get(name, 0) for name in found}
    return {name: (one.value / scales[name], one.band / scales[name]) for name, one in found.items()}


def compare(
    ours, value, unit="", *, row, within=None, share=None, exact=False, band=None, why="", misprint="", mark="", kind=""
):
    """Return the row of the proof page, and what is wrong with it, or nothing.

    Parameters
    ----------
    ours : float or str
        What whirlgate says, in the unit printed. A word is compared letter by letter.
    value : str
        As printed, trailing noughts included ("2.00"): the last digit sets the tolerance.
    unit : str
        As printed; nothing for a ratio.
    row : str
        What is checked: one name for each row of a source.
    within, share, exact :
        Another tolerance than half a unit of the last digit: in the unit printed, as a share of the printed value, or
        none at all. The first two say `why`.
    band : float
        One standard deviation of ours, in the unit printed: an estimate, which may be three of them away.
    why, misprint, mark : str
        Why the difference is what it is; what the source prints in place of `value`, by mistake; marks of the row, P,
        M, R, X or several with spaces between, where they are not its file's.
    kind : str
        What the error counts as in the summary of the page, such as "propeller: CT".
    """
    if band is not None and within is None:
        within, why = 3.0 * band, why or THREE
    if isinstance(ours, str):
        cells, fine, allowed = (value, ours, "none" if ours == value else "other words", ""), ours == value, "word"
    else:
        assert why or (within is None and share is None), f"{row}: a tolerance of its own says why"
        cells, fine, allowed = _numbers(float(ours), value, within=within, share=share, exact=exact)
    names = ("printed", "ours", "difference", "digits")
    note = dict(zip(names, cells, strict=True), row=row, unit=unit, allowed=allowed)
    note |= {"why": why, "misprint": misprint, "mark": mark, "kind": kind, "band": band}
    fault = "{row}: printed {printed} {unit}, ours {ours}: {difference} apart, allowed {allowed}".format(**note)
    return note, "" if fine else fault


def _numbers(ours, value, *, within, share, exact):
    source = Decimal(value)
    unit = Decimal(1).scaleb(source.as_tuple().exponent)
    if not math.isfinite(ours):
        return (value, str(ours), str(ours), ""), False, "a number"
    steady = Decimal(f"{ours:.11e}")  # twelve digits: what lies beyond is the machine's
    shown = steady.quantize(unit.scaleb(-EXTRA_DIGITS))
    apart, allowed = abs(steady - source), unit / 2
    words = "half a digit"
    if exact:
        allowed, words = Decimal(0), "exact"
    elif within is not None:
        allowed, words = Decimal(repr(within)), f"± {within:g}"
    elif share is not None:
        allowed, words = Decimal(repr(share)) * abs(source), f"{100.0 * share:g} %"
    cells = (value, _signed(shown, plus=False), _signed(shown - source), _signed((shown - source) / unit))
    return cells, apart <= allowed, words


def _signed(number, *, plus=True):
    """Write a number out in full, with a proper minus; nought has no sign."""
    if not number:
        return "0"
    text = f"{number:+f}" if plus else f"{number:f}"
    return (text.rstrip("0").rstrip(".") if plus and "." in text else text).replace("-", "−")
