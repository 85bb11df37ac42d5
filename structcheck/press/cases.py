"""The forces of a press (rated, the greatest the drive can give, ultimate) and the basis they make."""

import math
from dataclasses import field
from typing import Any

from structcheck.checks.basis import Basis
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, Outcome, not_checked
from structcheck.press.schema import BasisTable, Jack, Use
from structcheck.record import record
from structcheck.showing import show

VALVE_UNKNOWN = 1.25
"""F_max / R where no relief setting is stated: a shop-press standard lets a limiter act at 100-125 %."""
OVER_GREATEST = 1.2
"""The ultimate force is never below 1.2 times the greatest."""


@record
class Forces:
    """Forces of all jacks together, in N, and what had to be assumed about them."""

    rated: float
    greatest: float
    ultimate: float
    outcome: Outcome = field(default_factory=Outcome)

    def as_basis(self, table: BasisTable, use: Use) -> Basis:
        """The basis every check rests on."""
        return Basis(
            load_factor=table.load_factor,
            proof_factor=table.proof_factor,
            gamma_M0=table.gamma_M0,
            gamma_M1=table.gamma_M1,
            gamma_M2=table.gamma_M2,
            gamma_Mf=table.gamma_Mf,
            eta=table.eta,
            strengths=table.strengths,
            greatest=self.greatest / self.rated,
            ultimate=self.ultimate / self.rated,
            presses=use.presses_per_day * use.days * use.years,
            static=use.static,
            lowest_temperature=use.lowest_temperature,
        )


def jack_forces(jack: Jack, basis: BasisTable) -> Forces:
    """R, F_max and the ultimate force of a jack. Raises InputError where a pressure has no bore."""
    rated = jack.rating * jack.count
    notes: list[str] = []
    assumed: list[Assumption] = []
    missing = ()
    if jack.relief is not None:
        greatest = _relief_force(jack) * jack.count
        if greatest < rated:
            notes.append(
                f"the valve opens at {show(greatest, 'kN')}, below the rated {show(rated, 'kN')}: "
                "the rated force cannot be reached; rate the press from what the valve gives, never touch the valve; "
                "yield is judged at the rated force all the same"
            )
            greatest = rated
    else:
        greatest = VALVE_UNKNOWN * rated
        taken = show(greatest, "kN")
        text = f"relief setting not stated: greatest force taken as 1.25 x rated = {taken}; verify the valve"
        assumed.append(Assumption("jack", text))
        if jack.drive != "hand":
            reason = f"a drive by {jack.drive} with no relief setting stated: what it can give is not known"
            missing = (not_checked("jack", "greatest force", reason),)
    ultimate = max(basis.load_factor * rated, OVER_GREATEST * greatest)
    return Forces(rated, greatest, ultimate, Outcome(missing, assumptions=tuple(assumed), advice=tuple(notes)))


def _relief_force(jack: Jack) -> float:
    kind, value = jack.relief or ("force", 0.0)
    if value <= 0:
        raise InputError(
            Problem("relief", f"{value:g}", "must be above zero", "a force or a pressure", 'relief = "11 t"', "jack")
        )
    if kind == "force":
        return value
    if jack.bore is None:
        remedy = 'bore = "40 mm", or relief as a force: relief = "11 t"'
        raise InputError(
            Problem("relief", "", "is a pressure and the bore is not stated", "bore beside it", remedy, "jack")
        )
    return value * math.pi * jack.bore**2 / 4


def basis_shown(forces: Forces, basis: Basis) -> dict[str, Any]:
    """The basis as every output prints it; the load factor first."""
    return {
        "load_factor": basis.load_factor,
        "rated": {"value": forces.rated / 1e3, "unit": "kN"},
        "greatest force": {"value": forces.greatest / 1e3, "unit": "kN"},
        "ultimate": {"value": forces.ultimate / 1e3, "unit": "kN"},
        **factors_shown(basis),
    }


def factors_shown(basis: Basis) -> dict[str, Any]:
    """Partial factors, strengths, use and edition."""
    return {
        "proof_factor": basis.proof_factor,
        "gamma_M0": basis.gamma_M0,
        "gamma_M1": basis.gamma_M1,
        "gamma_M2": basis.gamma_M2,
        "gamma_Mf": basis.gamma_Mf,
        "eta": basis.eta,
        "strengths": basis.strengths,
        "presses": basis.presses,
        "static": basis.static,
        "lowest_temperature": basis.lowest_temperature,
        "edition": "EN 1993-1-1:2005 with corrigenda, EN 1993-1-5:2006, EN 1993-1-8:2005, EN 1993-1-9:2005",
    }
