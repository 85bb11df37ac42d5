"""An upright of the frame: pulled by the jack, bent by what joins it."""

from collections.abc import Sequence
from dataclasses import dataclass

from structcheck.checks.basis import Basis, Case
from structcheck.checks.section_resistance import Station, check_member_section
from structcheck.findings import NotNeeded, Outcome, complete
from structcheck.materials.steels import Steel
from structcheck.shapes.section import Section

NEEDED = (
    "axial",
    "axial and bending",
    "net section",
    "flexural buckling",
    "yield at greatest force",
    "brittle fracture",
    "fatigue",
)


@dataclass(frozen=True)
class Upright:
    """An upright as the press file describes it, mm; the pieces share the forces equally."""

    name: str
    section: Section
    steel: Steel
    pieces: int = 1
    length: float = 0.0


@dataclass(frozen=True)
class UprightLoads:
    """Forces in one case, all pieces together: pull in N (tension positive), moment about the strong axis in N mm."""

    case: Case
    pull: float
    moment: float = 0.0


def check_upright(upright: Upright, loads: Sequence[UprightLoads], basis: Basis) -> Outcome:
    """Every check an upright needs."""
    name = upright.name
    stations = [Station(load.case, "over its length", N=load.pull, M_y=load.moment) for load in loads]
    outcome = check_member_section(name, upright.section, upright.steel, upright.pieces, stations, basis)
    outcome += Outcome(does_not_apply=does_not_apply(upright, loads, basis))
    return complete(outcome, name, NEEDED, "this check is not made here yet")


def does_not_apply(upright: Upright, loads: Sequence[UprightLoads], basis: Basis) -> tuple[NotNeeded, ...]:
    """Checks of this upright that cannot occur, and why."""
    found = [("net section", "no holes stated")]
    if all(load.pull >= 0 for load in loads):
        found.append(("flexural buckling", "a member in tension does not buckle"))
    if not any(load.pull for load in loads):
        found.append(("axial", "no axial force"))
    if not any(load.moment and load.pull for load in loads):
        found.append(("axial and bending", "no axial force and moment together"))
    if basis.static:
        found.append(("fatigue", "the user states static use"))
    return tuple(NotNeeded(upright.name, check, reason) for check, reason in found)
