"""A platen: a plate on bearers, or on a frame along its four edges, pressed by a patch or all over.

Deflection and stress by plate elements (analysis.plate); strength by fields of moment that the plate can carry.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from structcheck.analysis.plate import Patch
from structcheck.checks.basis import Basis
from structcheck.checks.platen_plate import Platen, PlatenLoads, alike, bent, patch_of
from structcheck.errors import InputError, Mechanism, NotCovered, Problem
from structcheck.findings import (
    Assumption,
    Finding,
    NotNeeded,
    Outcome,
    TimesOnYield,
    complete,
    judged,
    not_checked,
    worst,
)
from structcheck.showing import show
from structcheck.standards import handbook_plates as plates

NEEDED = ("bending", "shear", "punching", "yield at greatest force")
FLATNESS = "platen flatness"
PSI = 6.894757e-3
"""MPa in a pound-force per square inch."""
THICK, LARGE = 5.0, 0.5
"""Span over thickness below which bending alone understates the deflection; deflection over thickness that is large."""


def check_platen(part: Platen, loads: Sequence[PlatenLoads], basis: Basis) -> Outcome:
    """Flatness at rated force, bending, shear and punching at ultimate, yield at greatest, times on yield."""
    _refuse_contradictions(part, loads)
    found = Outcome()
    for load in _unlike(part, loads):
        try:
            found += _JUDGES[load.case.limit](part, load, basis)
        except (NotCovered, Mechanism) as reason:
            checks = {"ultimate": NEEDED[:3], "greatest force": NEEDED[3:], "rated": _flatness_of(part)}
            refused = (
                not_checked(part.name, check, str(reason), case=load.case.name) for check in checks[load.case.limit]
            )
            found += Outcome(tuple(refused))
    named = dict.fromkeys(f.check for f in found.findings)
    chosen = tuple(worst(f for f in found.findings if f.check == check) for check in named)
    least = min(found.times_on_yield, key=lambda t: t.value, default=None)
    found = replace(
        found,
        findings=chosen,
        does_not_apply=tuple(dict.fromkeys(found.does_not_apply)),
        assumptions=tuple(_assumptions(part, loads)),
        times_on_yield=(least,) if least else (),
        answers=_last(found.answers),
        advice=tuple(dict.fromkeys(found.advice)),
    )
    return complete(found, part.name, NEEDED + _flatness_of(part), "no force was given for it")


def _unlike(part: Platen, loads: Sequence[PlatenLoads]) -> list[PlatenLoads]:
    """Without loads that press as an earlier one does on the other side of a plate that is alike on both.

    Every rated load is kept: what the work feels is told of each.
    """
    both = alike(part.length, part.places)
    kept: dict[tuple[object, ...], PlatenLoads] = {}
    for load in loads:
        off = 0.0 if load.at is None else load.at - part.length / 2
        even = len(load.saddles) == 1 or _even(load.saddles)
        off, aside = (abs(off) if both and even else off), (abs(load.aside) if even else load.aside)
        spot = round(off, 9), round(aside, 9)
        told = load.case.name if load.case.limit == "rated" else ""
        seen = load.case.limit, told, load.force, load.along, load.across, load.shape, load.saddles, spot
        kept.setdefault(seen, load)
    return list(kept.values())


def _even(saddles: Sequence[tuple[float, float]]) -> bool:
    """Whether saddles stand as their mirror images do, along and across."""
    return set(saddles) == {(-x, y) for x, y in saddles} == {(x, -y) for x, y in saddles}


def _flatness_of(part: Platen) -> tuple[str, ...]:
    return () if part.flatness is None else (FLATNESS,)


def _last(answers: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(answers))


def _spans(part: Platen) -> float:
    """The shortest distance the plate spans, mm."""
    if part.bearers is None:
        return min(part.length, part.width)
    return min(right - left for left, right in pairwise(part.places))


# ---- the checks -----------------------------------------------------------------------------


def _rated(part: Platen, load: PlatenLoads, basis: Basis) -> Outcome:
    f_y = part.steel.f_y(part.thickness)
    stress = plates.bending_stress(bent(part, load, for_stress=True).moment, part.thickness)
    yielding = (TimesOnYield(part.name, f_y / stress),) if stress else ()
    found = Outcome(times_on_yield=yielding, answers=_pressure(part, load))
    flat = bent(part, load, for_stress=False).out_of_flat
    if flat > LARGE * part.thickness:
        found += Outcome(advice=(f"{part.name}: bends by more than half its thickness, far beyond a flat platen",))
    if _spans(part) < THICK * part.thickness:
        reason = f"spans less than {THICK:g} times its thickness: bending alone understates the deflection"
        if part.flatness is None:
            return found + Outcome(answers=(f"{part.name}: flatness not computed, it {reason}",))
        return found + Outcome((not_checked(part.name, FLATNESS, f"it {reason}", case=load.case.name),))
    if part.flatness is None:
        text = f"{part.name}: {show(flat, 'mm')} out of flat at {load.case.name}"
        return found + Outcome(answers=(text,))
    source = "thin plate elements, bearers rigid"
    return found + Outcome((judged(part.name, FLATNESS, load.case.name, flat, part.flatness, "mm", source),))


def _pressure(part: Platen, load: PlatenLoads) -> tuple[str, ...]:
    """What the work feels: the force over the patch it presses on; nothing is told of a point."""
    patch = patch_of(part, load, for_stress=False)
    if not patch.along * patch.across:
        return ()
    p = load.force / (patch.along * patch.across)
    return (f"{part.name}: presses the work with {p * 1e3:.4g} kPa ({p / PSI:.3g} psi) at {load.case.name}",)


def _greatest(part: Platen, load: PlatenLoads, basis: Basis) -> Outcome:
    stress = plates.bending_stress(bent(part, load, for_stress=True).moment, part.thickness)
    f_y = part.steel.f_y(part.thickness)
    source = "elastic plate elements, von Mises stress at the face"
    return Outcome((judged(part.name, NEEDED[3], load.case.name, stress, f_y, "MPa", source),))


def _ultimate(part: Platen, load: PlatenLoads, basis: Basis) -> Outcome:
    if not part.steel.in_en1993:
        raise NotCovered(f"{part.steel.name} is outside EN 1993")
    f_y = part.steel.f_y(part.thickness)
    findings = [_bending(part, load, f_y, basis), _punching(part, load, f_y, basis)]
    dropped = ()
    if part.bearers is None:
        dropped = (NotNeeded(part.name, "shear", "on four edges the perimeter of the patch is the shortest cut"),)
    else:
        findings.append(_shear(part, load, f_y, basis))
    return Outcome(tuple(findings), dropped)


def _bending(part: Platen, load: PlatenLoads, f_y: float, basis: Basis) -> Finding:
    """The better of two safe fields of moment: elastic, or on two bearers the strip under a full-width load."""
    m_Rd = plates.plastic_moment(part.thickness, f_y, basis.gamma_M0)
    m = bent(part, load, for_stress=True).moment
    patch = patch_of(part, load, for_stress=False)
    if len(part.places) == 2 and patch.across >= part.width and not load.aside:
        m = min(m, strip_moment(part, patch) / part.width)
    wide = part.width
    return judged(part.name, "bending", load.case.name, m * wide, m_Rd * wide, "kN m", plates.PLASTIC)


def strip_moment(part: Platen, patch: Patch) -> float:
    """Greatest moment of the platen as a beam on its two bearers, N mm."""
    left, right = part.places
    start, end = patch.x - patch.along / 2, patch.x + patch.along / 2
    near = patch.force * (right - patch.x) / (right - left)

    def moment(x: float) -> float:
        covered = min(max(x - start, 0.0), patch.along)
        # Force beyond the bearers presses down before the first reaction acts.
        down = patch.force * covered / patch.along * (x - start - covered / 2) if patch.along else 0.0
        if not patch.along:
            down = patch.force * max(x - patch.x, 0.0)
        up = near * max(x - left, 0.0) + (patch.force - near) * max(x - right, 0.0)
        return up - down

    turn = start + near / patch.force * patch.along if patch.force else left
    return max(abs(moment(min(max(x, 0.0), part.length))) for x in (left, right, start, end, turn, patch.x))


def _shear(part: Platen, load: PlatenLoads, f_y: float, basis: Basis) -> Finding:
    """Shear at the hardest pressed bearer; only the width that a 1:1 spread from the patch reaches counts."""
    patch = patch_of(part, load, for_stress=False)
    forces = bent(part, load, for_stress=False).bearer_forces
    demand = max(forces)
    place = part.places[forces.index(demand)]
    lever = max(abs(place - patch.x) - patch.along / 2, 0.0)
    side = part.width / 2 - abs(load.aside)
    width = min(part.width, 2 * min(patch.across / 2 + lever, side))
    capacity = plates.punching_resistance(width, part.thickness, f_y, basis.gamma_M0)
    return judged(part.name, "shear", load.case.name, demand, capacity, "kN", "EN 1993-1-1:2005 6.2.6")


def _punching(part: Platen, load: PlatenLoads, f_y: float, basis: Basis) -> Finding:
    along = part.length if load.along is None else load.along
    across = part.width if load.across is None else load.across
    perimeter = math.pi * along if load.shape == "round" else 2 * (along + across)
    if part.pushed is not None:
        perimeter = min(perimeter, len(load.saddles) * math.pi * part.pushed)
    capacity = plates.punching_resistance(perimeter, part.thickness, f_y, basis.gamma_M0)
    source = "EN 1993-1-1:2005 6.2.6 round the patch or the saddle"
    return judged(part.name, "punching", load.case.name, load.force, capacity, "kN", source)


_JUDGES = {"rated": _rated, "greatest force": _greatest, "ultimate": _ultimate}


def _assumptions(part: Platen, loads: Sequence[PlatenLoads]) -> Iterable[Assumption]:
    held = "bearers are rigid, straight and as wide as the platen; the force presses evenly"
    if part.pushed is not None:
        held = f"it stands free between a saddle of {part.pushed:g} mm and the work, which presses back evenly; "
        held += "pressed off the middle it is kept level at its corners"
    yield Assumption(part.name, held)
    whole = any(load.along is None or (load.across is None and load.shape != "round") for load in loads)
    if whole and part.pushed is None:  # between saddle and work a smaller patch is the kinder one
        condition = f"the force presses {part.name} from side to side"
        text = f"{condition}: along and across state a smaller patch, which bends it more, or its own size"
        yield Assumption(part.name, text, condition)
    if part.steel.assumed:
        yield Assumption(part.name, f"steel unknown, taken as {part.steel.name}", part.steel.condition)


def _refuse_contradictions(part: Platen, loads: Sequence[PlatenLoads]) -> None:
    problems = [
        Problem(key, f"{value:g} mm", "is no size of a platen", "a positive length", part=part.name)
        for key, value in (("length", part.length), ("width", part.width), ("thickness", part.thickness))
        if not value > 0
    ]
    places = part.places
    if part.bearers is not None and part.pushed is not None:
        wanted = "one of the two: what it lies on, or the saddle it stands free on"
        problems.append(Problem("pushed", f"{part.pushed:g} mm", "stands beside bearers", wanted, part=part.name))
    if part.bearers is not None and (len(places) < 2 or len(set(places)) < len(places)):
        problems.append(Problem("bearers", "", "are not two places", "two or more places apart", part=part.name))
    if places and (places[0] < -1e-9 or places[-1] > part.length + 1e-9):
        problems.append(Problem("bearers", "", "stand beyond the platen", f"within {part.length:g} mm", part=part.name))
    for load in loads:
        patch = patch_of(part, load, for_stress=False)
        outside = (
            abs(patch.x - part.length / 2) + patch.along / 2 > part.length / 2 + 1e-6
            or abs(patch.y - part.width / 2) + patch.across / 2 > part.width / 2 + 1e-6
        )
        if outside or min(patch.along, patch.across) < 0:
            size = f"{patch.along:g} x {patch.across:g} mm"
            problems.append(Problem("patch", size, "is not on the platen", "a patch within it", part=part.name))
    if problems:
        raise InputError(problems)
