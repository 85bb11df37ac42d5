"""A group of weld runs of any shape in space, under force and moment in all directions (EN 1993-1-8 2.5, 4.9).

The distribution is elastic: the joined part turns as a rigid body. Every run is then judged at its worst point by the
simplified or the directional method; butt welds by the strength of the plate.
"""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from structcheck.analysis.weld_group import Station, Vector, WeldGroup, weld_group
from structcheck.checks.basis import Basis
from structcheck.checks.fatigue import DETAILS, fatigue, worse_of
from structcheck.checks.weld import NO_FORCE, NO_YIELD, TOE
from structcheck.checks.weld_cautions import size_advice, through_thickness
from structcheck.checks.weld_group_description import GroupRun, RunGroup, RunGroupLoads, refuse
from structcheck.checks.weld_ic import second_opinion
from structcheck.checks.weld_intermittent import Intermittent, Stretches, intermittent_size
from structcheck.checks.weld_sizes import length_size, throat_size, worst_size
from structcheck.checks.weld_strength import Strength, fillet_strength, inspection, quality, steel_reason
from structcheck.errors import Mechanism, NotCovered
from structcheck.findings import (
    Assumption,
    Finding,
    NotNeeded,
    Outcome,
    complete,
    interaction,
    judged,
    not_checked,
)
from structcheck.formula import unrecorded
from structcheck.maths import first_of_greatest
from structcheck.record import record
from structcheck.standards.en1993_1_8 import welds

NEEDED = ("weld throat", "weld size", "yield at greatest force", "fatigue")


@record
class _Felt:
    """Stresses along one run: normal to the throat, shear across, shear along; and of an opening root, in MPa.

    Arrays (loads, points), or (points,) under one load.
    """

    run: GroupRun
    sigma: np.ndarray
    tau: np.ndarray
    along: np.ndarray
    root: np.ndarray

    @property
    def across(self) -> np.ndarray:
        return np.hypot(self.sigma, self.tau)

    def under(self, loads: Any) -> "_Felt":
        """Under one of the loads, or some."""
        return _Felt(self.run, self.sigma[loads], self.tau[loads], self.along[loads], self.root[loads])


def check_run_group(part: RunGroup, loads: Sequence[RunGroupLoads], basis: Basis) -> Outcome:
    """Throat, sizes and fatigue of a weld group."""
    refuse(part)
    outcome = Outcome(
        (worst_size(_sizes(part)),),
        does_not_apply=(NotNeeded(part.name, "yield at greatest force", NO_YIELD),),
        assumptions=_assumptions(part),
        advice=_advice(part),
    )
    ultimate, rated = ([load for load in loads if load.case.limit == way] for way in ("ultimate", "rated"))
    try:
        group, strength = _made(part), _strength(part, basis)
        felt = _feel(part, group, [*ultimate, *rated])
    except (NotCovered, Mechanism) as why:
        return outcome + Outcome(tuple(not_checked(part.name, c, str(why)) for c in ("weld throat", "fatigue")))
    if ultimate:
        grown = slice(len(ultimate))
        used = np.max([_shares(part, one.under(grown), strength, basis).max(axis=1) for one in felt], axis=0)
        decides = first_of_greatest(used)
        throat = _throat(part, ultimate[decides], [one.under(decides) for one in felt], strength, basis)
        outcome += Outcome((throat,), answers=_opinion(part, group, ultimate[0], strength))
    if rated:
        cycled = slice(len(ultimate), None)
        outcome += _fatigue(part, rated[0].case.name, [one.under(cycled) for one in felt], basis)
    return complete(outcome, part.name, NEEDED, "no load is given for this check")


def _opinion(part: RunGroup, group: WeldGroup, load: RunGroupLoads, strength: Strength) -> tuple[str, ...]:
    """The other method's answer for an ultimate case, where it has one."""
    if any(run.kind != "fillet" for run in part.runs):
        return ()
    return second_opinion(part.name, group, strength.simplified, load.force, load.at, load.moment)


def _made(part: RunGroup) -> WeldGroup:
    runs = [run.effective if run.a > 0 else None for run in part.pieces]
    if any(run is None for run in runs):
        raise NotCovered("a run is no longer than its own two ends, or has no throat left")
    return weld_group(runs)


def _strength(part: RunGroup, basis: Basis) -> Strength:
    reason = steel_reason(part.steel, part.weldable)
    if reason:
        raise NotCovered(reason)
    for run in part.runs:
        t, least = run.plate or part.thickness, 2.5 if part.hollow or run.sides == "around" else 4.0
        if t is not None and t < least:
            raise NotCovered(f"a part {t:g} mm thick is thinner than EN 1993-1-8 4.1 covers ({least:g} mm)")
    return fillet_strength(part.steel, part.thickest, basis, part.inspected)


def _feel(part: RunGroup, group: WeldGroup, loads: Sequence[RunGroupLoads]) -> list[_Felt]:
    """What each run feels under all the loads."""
    acting = (np.array([getattr(load, name) for load in loads], float) for name in ("force", "moment", "at"))
    stations = group.tractions(*acting)
    return [_resolve(run, station) for run, station in zip(part.pieces, stations, strict=True)]


def _resolve(run: GroupRun, station: Station) -> _Felt:
    """Tractions on the throat's own axes; where its legs are not given, all that acts across shears the throat."""
    along = np.einsum("lij,ij->li", station.tractions, station.tangents)
    square = station.tractions - along[..., None] * station.tangents
    across = np.sqrt(np.einsum("lij,lij->li", square, square))
    if not run.faced:
        sigma, tau = np.zeros_like(along), across
    else:
        sigma = np.einsum("lij,ij->li", square, _normals(run, station.tangents))
        tau = np.sqrt(np.maximum(across**2 - sigma**2, 0.0))
    return _Felt(run, sigma, tau, along, _root(run, across * run.a))


SLANTED = 0.5 + 1e-9
"""Cosine of 60 degrees."""


def _normals(run: GroupRun, tangents: np.ndarray) -> np.ndarray:
    """Unit normals of the throat: along the fillet's flat surface, or the plate's own direction for a full butt."""
    first = _carried(run, run.face, tangents)
    if run.kind == "full butt":
        return first
    z_1, z_2 = (run.leg, run.leg_2) if run.leg_2 is not None else (1.0, 1.0)
    second = _carried(run, run.face_2, tangents)
    if abs(float(first[0] @ second[0])) > SLANTED:
        raise NotCovered("the legs of a fillet stand at 60 to 120 degrees to each other (EN 1993-1-8 4.3.2.1)")
    surface = z_1 * first - z_2 * second
    return surface / np.linalg.norm(surface, axis=1)[:, None]


def _carried(run: GroupRun, direction: Vector, tangents: np.ndarray) -> np.ndarray:
    """A direction given at the start of the run, turned with it, square to it, of unit length."""
    vector = np.asarray(direction, float)
    if run.centre is None:
        vectors = np.tile(vector, (len(tangents), 1))
    else:
        axis = np.asarray(run.whole.axis)
        spokes = np.cross(tangents, axis)
        vectors = (vector @ spokes[0]) * spokes + (vector @ axis) * axis
    vectors = vectors - np.einsum("ij,ij->i", vectors, tangents)[:, None] * tangents
    length = np.linalg.norm(vectors, axis=1)
    if np.any(length <= 1e-6 * np.linalg.norm(vector)):
        raise NotCovered("the direction given for a leg runs along the weld")
    return vectors / length[:, None]


def _root(run: GroupRun, pull: np.ndarray) -> np.ndarray:
    """Bending stress of a throat whose root opens: the part's pull, N/mm, stands beside the throat's middle (4.12)."""
    if (
        run.kind == "full butt"
        or run.sides in ("both", "lap", "around")
        or not np.any(pull > 1e-9 * (1 + np.max(pull)))
    ):
        return np.zeros_like(pull)
    if run.sides is None:
        raise NotCovered(
            "say how a run pulled across is held (`sides`): both (a run on each face of the part), lap (the part lies "
            "flat on the other), around (round a whole hollow section) or one"
        )
    if run.plate is None:
        raise NotCovered(
            "a run on one side, pulled across, opens at its root (EN 1993-1-8 4.12); state `plate`, the thickness of "
            "the part whose edge it holds, a web's or a wall's"
        )
    # A fillet's throat stands beside the plate, a part-penetration weld's within it.
    beside = run.a / (2 * math.sqrt(2)) if run.kind == "fillet" else -run.a / 2
    return welds.root_bending_stress(pull * (run.plate / 2 + beside), run.a)


def _throat(part: RunGroup, load: RunGroupLoads, felt: list[_Felt], strength: Strength, basis: Basis) -> Finding:
    ratio, reason = max(_ratio(part, one, strength, basis) for one in felt)
    method = "4.5.3.2 (directional)" if part.method == "directional" else "4.5.3.3"
    source = f"EN 1993-1-8:2005 {method}, elastic (2.5)"
    demand = float(np.linalg.norm(load.force))
    if any(load.moment) or demand < NO_FORCE:
        factor = 1 / ratio if ratio > 0 else math.inf
        return interaction(part.name, "weld throat", load.case.name, factor, source, clause_ratio=None, reason=reason)
    return judged(part.name, "weld throat", load.case.name, demand, demand / ratio, "kN", source, reason=reason)


def _shares(part: RunGroup, felt: _Felt, strength: Strength, basis: Basis) -> np.ndarray:
    """Share of the run's strength used at each of its points, under each of its loads; leaves no trace."""
    sigma, tau, along = np.abs(felt.sigma) + felt.root, felt.tau, felt.along
    if felt.run.kind == "full butt":
        # A butt weld is as strong as the plate (4.7.1); without a direction the whole traction is taken as shear.
        f_y = part.steel.f_y(part.thickest or felt.run.a)
        stress = np.sqrt(sigma**2 + 3 * (tau**2 + along**2))
        return stress * basis.gamma_M0 / (quality(part.inspected) * f_y)
    with unrecorded():
        factor = _long_lap(felt.run)
    if factor <= 0:
        return np.full_like(tau, math.inf)
    if part.method == "simplified":
        return np.sqrt(sigma**2 + tau**2 + along**2) / (factor * strength.simplified)
    return strength.share(sigma, tau, along) / factor


def _long_lap(run: GroupRun) -> float:
    length = run.whole.length
    return welds.long_lap_factor(length, run.a) if length > 150 * run.a else 1.0


def _ratio(part: RunGroup, felt: _Felt, strength: Strength, basis: Basis) -> tuple[float, str]:
    """Share of the run's strength used at its worst point under one load, and what decides."""
    called, shares = felt.run.called, _shares(part, felt, strength, basis)
    point = first_of_greatest(shares)
    if felt.run.kind == "full butt":
        return float(shares[point]), f"{called}, butt weld as the plate (4.7.1)"
    factor = _long_lap(felt.run)
    if factor <= 0:
        return math.inf, f"{called}, too long to count (4.11)"
    if part.method == "simplified":
        return float(shares[point]), called
    sigma = abs(felt.sigma[point]) + felt.root[point]
    ratio, condition = strength.directional(float(sigma), float(felt.tau[point]), float(felt.along[point]))
    return ratio / factor, f"{called}, {condition}"


def _sizes(part: RunGroup) -> list[Finding]:
    findings = []
    for run in part.pieces:
        findings.append(throat_size(part.name, run.a, f"{run.called}: "))
        if run.kind == "fillet" and not run.continued:
            whole = run.whole.length
            length = whole if run.returned or run.closed else welds.effective_length(whole, run.a)
            findings.append(length_size(part.name, run.a, length, f"{run.called}: "))
    return findings + [_gaps(part, run.laid) for run in part.runs if run.laid]


def _gaps(part: RunGroup, laid: Stretches) -> Finding:
    """How far apart the stretches of an intermittent run stand."""
    joined = {"thickness": part.thickness, "other": part.thickest, "width": part.width, "other_width": part.other_width}
    ways = {"pulled": part.pulled, "dry": part.dry}
    return intermittent_size(Intermittent(name=part.name, gap=laid.gap, end_run=laid.pieces[0], **joined, **ways))


def _fatigue(part: RunGroup, name: str, every: list[_Felt], basis: Basis) -> Outcome:
    """Greatest ranges across and along any run in the rated cases, taken at one spot, which is safe."""
    ranges = []
    for detail, chosen in (
        ("weld root", [f for f in every if f.run.kind != "full butt"]),
        (_butt(part), [f for f in every if f.run.kind == "full butt"]),
    ):
        across = max((float(np.max(f.across + f.root)) for f in chosen), default=0.0)
        if across > 0:
            ranges.append((DETAILS[detail], across))
    along = max(float(np.max(np.abs(f.along))) for f in every)
    if along > 0 or not ranges:
        ranges.append((DETAILS["fillet weld in shear"], along))
    outcome = fatigue(part.name, ranges, basis, case=name, together=True)
    toes = [toe for one in every if (toe := _toe(part, one)) > 0]
    return worse_of(outcome, fatigue(part.name, [(DETAILS[TOE], max(toes))], basis, case=name)) if toes else outcome


def _toe(part: RunGroup, felt: _Felt) -> float:
    """Range in the part beside a fillet pulled across, where its thickness is stated; else, and in a lap, nothing."""
    run, t = felt.run, felt.run.plate or part.thickness
    if run.kind != "fillet" or t is None or run.sides not in ("both", "around"):
        return 0.0
    return float(np.max(felt.across)) * run.a * (2 if run.sides == "both" else 1) / t


def _advice(part: RunGroup) -> tuple[str, ...]:
    """Of the thickest and the thinnest fillet, what the plates do not take well."""
    throats = sorted(run.a for run in part.runs if run.kind == "fillet")
    ends = dict.fromkeys(throats[:1] + throats[-1:])
    return tuple(dict.fromkeys(text for a in ends for text in size_advice(part.name, a, part.thickness, part.thickest)))


def _unfaced(part: RunGroup) -> list[str]:
    """Where the legs are not known the directional method is no finer than the simplified one, and says so."""
    blind = [
        run.called or f"run {n}" for n, run in enumerate(part.runs, 1) if run.kind != "full butt" and not run.faced
    ]
    if not blind:
        return []
    which = "every run" if len(blind) == len(part.runs) else ", ".join(blind)
    return [
        f"directional method: where the legs of {which} lie is not stated (`face`, `face_2`), so all that acts across "
        "is taken as shear on the throat, the worst there is; that equals the simplified method"
    ]


def _butt(part: RunGroup) -> str:
    return "butt weld" if part.inspected else "butt weld from one side, root not inspected"


def _assumptions(part: RunGroup) -> tuple[Assumption, ...]:
    texts = [
        "filler metal at least as strong as the plates (EN 1993-1-8 4.2); the steel given is that of the weaker part",
        "the part joined is stiff: the runs share force and moment by their distance from the group's centre",
    ]
    if part.method == "directional":
        texts += _unfaced(part)
    if not part.inspected:
        texts.append(inspection())
    fillets = [run for run in part.runs if run.kind == "fillet" and run.sides in ("both", "around") and not run.plate]
    if fillets and part.thickness is None:
        ratio = DETAILS["weld root"].category / DETAILS[TOE].category
        least = max((2 if run.sides == "both" else 1) * run.a for run in fillets) * ratio
        texts.append(f"parts pulled across are at least {least:.1f} mm thick, so that no crack starts at a toe first")
    if any(run.laid for run in part.runs):
        texts.append("in the fatigue of the parts themselves the ends of stretches count as an intermittent weld")
        if not part.pulled:
            texts.append("gaps as between parts that are pressed along the run or sheared, the stricter rule")
    if any(run.leg is not None and run.leg_2 is None for run in part.runs):
        texts.append("throats taken as 0.7 x the smaller leg")
    if any(run.kind == "partial butt" and not run.proven for run in part.runs):
        texts.append("2 mm of the penetration of a partial butt weld do not count, as no trial proves it (ours)")
    made = [Assumption(part.name, text) for text in texts]
    if part.steel.assumed and part.weldable:
        text = f"steel unknown, taken as {part.steel.name}; weldable as stated"
        made.append(Assumption(part.name, text, part.steel.condition))
    return (*made, *through_thickness(part.name, part.thickest, True))
