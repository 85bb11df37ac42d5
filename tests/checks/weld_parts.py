"""Simple welds the tests of welds start from."""

from structcheck.checks.basis import Basis, from_rated
from structcheck.checks.weld import Weld, WeldLoads, check_weld
from structcheck.materials.steels import find_steel

S235, S275, S355 = (find_steel(name) for name in ("S235", "S275", "S355"))
BASIS = Basis()
PLAIN = Weld(name="foot", throat=4.0, length=120.0, runs=2, steel=S275, inspected=True)


def ask_weld(part, along=0.0, across=0.0, basis=BASIS):
    """The outcome under forces at rated load."""
    return check_weld(part, from_rated(basis, lambda c, f: WeldLoads(c, along * f, across * f)), basis)


def found_in(outcome, check):
    return next(f for f in outcome.findings if f.check == check)
