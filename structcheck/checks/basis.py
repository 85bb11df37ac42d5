"""What every check rests on: factors, use, and the load cases by which a part is judged."""

from collections.abc import Callable, Iterable
from typing import Literal, TypeVar

from structcheck.record import record

Limit = Literal["rated", "greatest force", "ultimate"]


@record
class Basis:
    """Factors and use, each settable and printed. Defaults are those of the press file.

    greatest  F_max / R: the greatest force the drive can give over the rated force
    ultimate  ultimate force / R: max(load_factor, 1.2 greatest) where a jack is described
    eta       EN 1993-1-5 5.1; 1.0 is always safe
    presses   presses in the life of the frame, for fatigue
    """

    load_factor: float = 1.5
    proof_factor: float = 1.25
    gamma_M0: float = 1.0
    gamma_M1: float = 1.0
    gamma_M2: float = 1.25
    gamma_Mf: float = 1.35
    eta: float = 1.0
    strengths: str = "product standard"
    greatest: float = 1.25
    ultimate: float = 1.5
    presses: float = 50_000.0
    static: bool = False
    lowest_temperature: float = 0.0


@record
class Case:
    """A load case: its name in the findings, and what it is judged by.

    limit "ultimate": strength checks of EN 1993; "greatest force": yield; "rated": deflection, fatigue, times on yield.
    """

    name: str
    limit: Limit


RATED = Case("rated", "rated")
GREATEST = Case("greatest force", "greatest force")
ULTIMATE = Case("ultimate", "ultimate")
OPEN = Case("open", "rated")
CLOSED = Case("closed", "rated")

Loads = TypeVar("Loads")


def greatest(loads: Iterable[Loads], size: Callable[[Loads], float]) -> dict[Limit, list[Loads]]:
    """By limit the loads of the greatest size, but for rounding: they govern what grows with it; of no size none."""
    found: dict[Limit, list[Loads]] = {"ultimate": [], "greatest force": [], "rated": []}
    for load in loads:
        if size(load):
            found[load.case.limit].append(load)
    least = {limit: max(map(size, ones), default=0.0) * (1 - 1e-12) for limit, ones in found.items()}
    return {limit: [load for load in ones if size(load) >= least[limit]] for limit, ones in found.items()}


def from_rated(basis: Basis, make: Callable[[Case, float], Loads]) -> tuple[Loads, ...]:
    """The loads of the three central cases from a load at rated force: `make(case, factor)` builds each."""
    return make(RATED, 1.0), make(GREATEST, basis.greatest), make(ULTIMATE, basis.ultimate)
