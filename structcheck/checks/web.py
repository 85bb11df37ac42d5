"""The web under a local force: where the jack stands, where the beam rests, where the work pushes.

EN 1993-1-5 section 6 for the bare web, section 9.4 for a pair of stiffeners under the force, 7.2 with bending.
"""

import math
from collections.abc import Iterable, Sequence

from structcheck.checks.basis import Basis
from structcheck.checks.web_resistance import (
    LocalLoad,
    Web,
    WebPlate,
    bare_web,
    bearing_length,
    on_both_sides,
    refuse_between_webs,
    stiffened_web,
    strut_size,
    web_plate,
)
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import (
    Assumption,
    Finding,
    NotNeeded,
    Outcome,
    TimesOnYield,
    complete,
    interaction,
    judged,
    not_checked,
    worst,
)
from structcheck.formula import remark
from structcheck.showing import show
from structcheck.standards.en1993_1_5 import patch
from structcheck.standards.en1993_1_5 import stiffeners as strut

NEEDED = ("web under load", "web under load with bending", "yield at greatest force")


def check_web(part: Web, loads: Sequence[LocalLoad], basis: Basis) -> Outcome:
    """Every local force on a beam's webs; each check's finding comes from the place and case that governs."""
    _refuse_contradictions(part, loads)
    findings: list[Finding] = []
    times: list[TimesOnYield] = []
    dropped: list[NotNeeded] = []
    for load in loads:
        if load.case.limit == "ultimate":
            findings += _strength(part, load, basis)
        else:
            findings += _elastic(part, load, times)
    chosen = tuple(worst(f for f in findings if f.check == check) for check in NEEDED if _any(findings, check))
    if _any(findings, NEEDED[0]) and not _any(findings, NEEDED[1]):
        dropped.append(NotNeeded(part.name, NEEDED[1], "stiffeners carry the force past the web (EN 1993-1-5 9.4)"))
    least = min(times, key=lambda t: t.value, default=None)
    assumed, answers = tuple(_assumptions(part, loads)), tuple(_weld_forces(part, loads))
    outcome = Outcome(chosen, tuple(dropped), assumed, (least,) if least else (), answers)
    return complete(outcome, part.name, NEEDED, "no force was given for it")


def _any(findings: Iterable[Finding], check: str) -> bool:
    return any(f.check == check for f in findings)


def _strength(part: Web, load: LocalLoad, basis: Basis) -> list[Finding]:
    if not part.steel.in_en1993:
        reason = f"{part.steel.name} is outside EN 1993"
        return [not_checked(part.name, check, reason, case=load.case.name) for check in NEEDED[:2]]
    try:
        one, stiffened = _best(part, load, basis)
    except NotCovered as reason:
        return [not_checked(part.name, check, str(reason), case=load.case.name) for check in NEEDED[:2]]
    capacity = one * _webs(part, load)
    source = strut.CLAUSE if stiffened else patch.CLAUSE
    found = [judged(part.name, NEEDED[0], load.case.name, load.force, capacity, "kN", source, reason=load.place)]
    if not stiffened:
        found.append(_with_bending(part, load, basis, load.force / capacity))
    return found


def _best(part: Web, load: LocalLoad, basis: Basis) -> tuple[float, bool]:
    """Resistance of one web, and whether stiffeners give it: the stronger of the two that can be shown."""
    shown: list[tuple[float, bool]] = []
    refused: list[NotCovered] = []
    for stiffened, of in ((False, bare_web), (True, stiffened_web)):
        if stiffened and load.stiffeners is None:
            continue
        try:
            shown.append((of(part, load, basis), stiffened))
        except NotCovered as reason:
            refused.append(reason)
            remark(str(reason), strut.CLAUSE if stiffened else patch.CLAUSE)
    if not shown:
        raise refused[0]
    return max(shown)


def _webs(part: Web, load: LocalLoad) -> float:
    """How many times one web's resistance carries the whole force."""
    webs = web_plate(part.section, part.steel).webs
    return webs * part.pieces if load.share is None else webs / load.share


def _with_bending(part: Web, load: LocalLoad, basis: Basis, eta_2: float) -> Finding:
    plate = web_plate(part.section, part.steel)
    f_y = min(plate.f_yw, plate.f_yf)
    if load.flange == "tension":
        # 7.2(2): local yielding by 6.2.1(5); tension along the beam and compression across it add up.
        stress = _von_mises(part, load, plate)
        return interaction(
            part.name, NEEDED[1], load.case.name, f_y / basis.gamma_M0 / stress if stress else math.inf,
            "EN 1993-1-5:2006 7.2(2), EN 1993-1-1:2005 6.2.1(5)", clause_ratio=(stress * basis.gamma_M0 / f_y) ** 2,
            reason=load.place,
        )  # fmt: skip
    section = part.section
    eta_1 = patch.bending_ratio(
        0.0, section.A * part.pieces, abs(load.M), section.Wel_y * part.pieces, f_y, basis.gamma_M0
    )
    used = patch.with_bending(eta_2, eta_1)
    return interaction(
        part.name, NEEDED[1], load.case.name, 1 / used if used else math.inf,
        "EN 1993-1-5:2006 7.2(1)", clause_ratio=used, reason=load.place,
    )  # fmt: skip


def _von_mises(part: Web, load: LocalLoad, plate: WebPlate) -> float:
    """Elastic stress in MPa at the end of the web's straight part, the force spread at 1:1 through flange and root."""
    share = 1 / part.pieces if load.share is None else load.share
    s_s, c = bearing_length(load, plate.h_w)
    deep = plate.t_f + plate.root
    area = (s_s + deep + (deep if c is None else min(deep, c))) * plate.t_w * plate.webs
    if on_both_sides(part, load.stiffeners):
        area = max(area, strut_size(plate, load.stiffeners, load)[0])
    across = -load.force * share / area
    along = abs(load.M) / part.pieces / part.section.Iy * (plate.half - deep)
    along = along if load.flange == "tension" else -along
    tau = abs(load.V) / part.pieces / (plate.h_w * plate.t_w * plate.webs)
    return math.sqrt(along**2 + across**2 - along * across + 3 * tau**2)


def _elastic(part: Web, load: LocalLoad, times: list[TimesOnYield]) -> list[Finding]:
    check = NEEDED[2]
    try:
        plate = web_plate(part.section, part.steel)
        refuse_between_webs(plate, load)
    except NotCovered as reason:
        return [not_checked(part.name, check, str(reason), case=load.case.name)]
    stress = _von_mises(part, load, plate)
    if load.case.limit == "rated":
        if stress:
            times.append(TimesOnYield(part.name, plate.f_yw / stress))
        return []
    source = "elastic, the force spread at 1:1 through flange and root"
    reason = " ".join(("in the web", load.place)).strip()
    return [judged(part.name, check, load.case.name, stress, plate.f_yw, "MPa", source, reason=reason)]


def _weld_forces(part: Web, loads: Sequence[LocalLoad]) -> Iterable[str]:
    """What the welds of each stiffener flat must hand over: its share of the strut's area."""
    for load in loads:
        if load.case.limit != "ultimate" or load.stiffeners is None:
            continue
        try:
            if not on_both_sides(part, load.stiffeners):
                continue
            area = strut_size(web_plate(part.section, part.steel), load.stiffeners, load)[0]
        except NotCovered:
            continue
        one = load.force * (1 / part.pieces if load.share is None else load.share)
        flat = one * load.stiffeners.width * load.stiffeners.thickness / area
        where = " ".join(word for word in ("each stiffener flat", load.place) if word)
        yield f"{part.name}: {where} carries {show(flat, 'kN')} at {load.case.name}, through its welds into the web"


def _assumptions(part: Web, loads: Sequence[LocalLoad]) -> Iterable[Assumption]:
    yield Assumption(part.name, "the pressed flange cannot move sideways where the force enters (EN 1993-1-5 6.1)")
    if part.steel.assumed:
        yield Assumption(part.name, f"steel unknown, taken as {part.steel.name}", part.steel.condition)
    if any(load.pad is None and not load.round_pin for load in loads):
        yield Assumption(part.name, "length of the contact not stated: taken as a line across the flange")
    if any(load.kind == "end" and load.to_end is None for load in loads):
        yield Assumption(part.name, "the beam ends where the contact ends")
    if part.pieces > 1 and any(load.share is None for load in loads):
        yield Assumption(part.name, f"the {part.pieces} pieces share the force equally")
    if any(load.stiffeners for load in loads):
        line = "stiffeners run from flange to flange in the line of the force; their welds are not judged here"
        yield Assumption(part.name, line)


def _refuse_contradictions(part: Web, loads: Sequence[LocalLoad]) -> None:
    problems = []
    for load in loads:
        for key in ("pad", "plate", "plate_length", "to_end"):
            value = getattr(load, key)
            if value is not None and not value >= 0:
                problems.append(Problem(key, f"{value:g} mm", "is no length", "0 or more", part=part.name))
        least = 1 / part.pieces
        if load.share is not None and not least - 1e-9 <= load.share <= 1:
            fault = "is no share of the hardest pressed piece"
            problems.append(Problem("share", f"{load.share:g}", fault, f"{least:.3g} to 1", part=part.name))
        pair = load.stiffeners
        if pair is not None and not (pair.width > 0 and pair.thickness > 0):
            problems.append(Problem("stiffeners", "", "have no width or thickness", "both positive", part=part.name))
    if problems:
        raise InputError(problems)
