"""A beam of one span under the jack: its own statics, then the cross-section, the stiffness, and what else it needs."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from structcheck.analysis.beam import BeamSolution
from structcheck.checks.angle_lateral import angle_lateral_finding
from structcheck.checks.basis import Basis, Case
from structcheck.checks.beam_description import Beam, BeamLoad, eccentricity
from structcheck.checks.beam_lateral import critical_load_factor, lateral_finding, with_moments_across
from structcheck.checks.beam_pressed import check_pressed_beam
from structcheck.checks.beam_statics import solved, stations
from structcheck.checks.beam_torsion import WORDS
from structcheck.checks.fatigue import DETAILS
from structcheck.checks.member_brittle import QUALITIES, check_brittle
from structcheck.checks.member_corrosion import corroded
from structcheck.checks.member_fatigue import check_member_fatigue
from structcheck.checks.member_forms import closed, form
from structcheck.checks.member_holes import Holes, Net, flange_holes_count, said_across, undrilled, validate
from structcheck.checks.member_lateral import can_buckle
from structcheck.checks.member_stress import Elastic
from structcheck.checks.section_resistance import Station, check_member_section
from structcheck.checks.strips_lateral import covered, strips_lateral_finding
from structcheck.checks.upright_lateral import upright_lateral
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, NotNeeded, Outcome, complete, judged, not_checked, worst
from structcheck.shapes.pair import piece_of
from structcheck.showing import show

__all__ = ["NEEDED", "Beam", "BeamLoad", "check_beam", "needed"]

NEEDED = (
    "bending",
    "shear",
    "bending and shear",
    "torsion",
    "lateral torsional buckling",
    "web under load",
    "tube face",
    "spreader plate",
    "yield at greatest force",
    "deflection",
    "brittle fracture",
    "fatigue",
)
"""Every check a beam can need; `needed` picks those of one beam."""

UNBENT = "every load stands on a support: nothing bends"
ON_LEG = "loads and supports bear on the upright leg of the angle, in its plane and through the shear centre"
ADVISED = 500.0
"""Our advice where the user has no limit: L/500 for a coarse frame (common practice, no clause)."""


def needed(beam: Beam) -> tuple[str, ...]:
    """The checks this beam needs."""
    piece = piece_of(beam.section)
    if piece is not None and not closed(beam.section):
        each = needed(replace(beam, section=piece, pieces=2 * beam.pieces))
        return tuple(check for check in each if check != "torsion" or _may_twist(beam))
    kind = form(beam.section)
    left_out = set()
    if kind in ("hollow", "tube") or hasattr(beam.section.shape, "left"):
        left_out.add("web under load")
    if kind not in ("hollow", "tube"):
        left_out.add("tube face")
    if beam.pieces == 1:
        left_out.add("spreader plate")
    if not _may_twist(beam):
        left_out.add("torsion")
    return tuple(check for check in NEEDED if check not in left_out)


def _may_twist(beam: Beam) -> bool:
    """Whether the shear centre lies off the middle, or nobody knows where it lies."""
    if closed(beam.section) or form(beam.section) == "angle" or beam.turned:
        return False
    try:
        return abs(beam.section.y_s) > 1e-6 * beam.section.i_z
    except NotCovered:
        return True


def check_beam(
    beam: Beam,
    loads: Sequence[BeamLoad],
    basis: Basis,
    beside: Outcome | None = None,
    inside: Sequence[Station] = (),
) -> Outcome:
    """Every check a beam needs, from its loads at rated force. Raises InputError where the description cannot be.

    beside  what other checks found for this beam (web under load, tube face, spreader plate); where both judge the
            same thing the worse finding stays
    inside  internal forces of a frame analysis, which take the place of the beam's own statics; buckling sideways,
            deflection and the twist of channels stay those of a beam on two supports, the safe bound
    """
    _validate(beam, loads)
    stock, beam = beam.section, replace(beam, section=corroded(beam.section, beam.corrosion))
    solution = solved(beam, loads)
    leaning = _leaning(beam)
    k_cr = critical_load_factor(leaning, solution)
    own = _own_stations(beam, solution, basis, k_cr) if not inside or eccentricity(beam) else []
    places = [*inside, *own]
    bent, net = _sections_with_holes(beam, basis)
    panel = beam.span if beam.end_stiffeners else None
    elastic = Elastic(beam.section if net is None else net, places, beam.pieces)
    outcome = check_member_section(
        beam.name, beam.section, beam.steel, beam.pieces, places, basis, bent=bent, elastic=elastic, panel=panel
    )
    weaker = beam.section if leaning is not beam and leaning.pieces == beam.pieces else bent
    outcome += _lateral(leaning, solution, k_cr, basis, weaker, inside)
    outcome += _of_frame(beam) + check_pressed_beam(leaning, inside, basis) if inside else _deflection(beam, solution)
    outcome += _rated(beam, stock, elastic, basis)
    outcome += Outcome(does_not_apply=_does_not_apply(beam), assumptions=_assumptions(beam))
    if not inside and _unbent(beam, solution):
        checks = ("bending", "shear", "bending and shear", "yield at greatest force")
        found_already = {finding.check for finding in outcome.findings}
        outcome += Outcome(
            does_not_apply=tuple(NotNeeded(beam.name, c, UNBENT) for c in checks if c not in found_already)
        )
    if beside is not None:
        outcome = merged(outcome + beside)
    outcome = complete(outcome, beam.name, ("torsion",) if _may_twist(beam) else (), "the shear centre is not known")
    return complete(outcome, beam.name, needed(beam), "not judged here: it needs what stands on the beam")


def between_supports(
    beam: Beam, loads: Sequence[BeamLoad], basis: Basis, inside: Sequence[Station]
) -> tuple[list[Station], Outcome]:
    """What a member of a frame that is pressed between its ends does as a beam on two supports, the safe bound.

    (stations of its own twist, where its loads stand beside the shear centre; buckling sideways, the loads where they
    press). `inside` are the internal forces of the frame.
    """
    beam = replace(beam, section=corroded(beam.section, beam.corrosion))
    solution, leaning = solved(beam, loads), _leaning(beam)
    k_cr = critical_load_factor(leaning, solution)
    own = _own_stations(beam, solution, basis, k_cr) if eccentricity(beam) else []
    bent, _ = _sections_with_holes(beam, basis)
    weaker = beam.section if leaning is not beam and leaning.pieces == beam.pieces else bent
    said = tuple(Assumption(beam.name, text) for text in _twist_said(beam))
    return own, _lateral(leaning, solution, k_cr, basis, weaker, inside) + Outcome(assumptions=said)


def _own_stations(beam: Beam, solution: BeamSolution, basis: Basis, k_cr: float) -> list[Station]:
    """Those of the beam's own statics; where a frame's load may stand aside, with its twist too but at rated force."""
    own = stations(replace(beam, aside=0.0), solution, basis, k_cr)
    if not (beam.aside and eccentricity(beam)):
        return own
    return own + [
        s._replace(case=Case(f"{s.case.name}, off centre across", s.case.limit))
        for s in stations(beam, solution, basis, k_cr)
        if s.case.limit != "rated"
    ]


def merged(outcome: Outcome) -> Outcome:
    """One finding for each part and check: the worse where two were made."""
    found: dict[tuple[str, str], Finding] = {}
    for finding in outcome.findings:
        key = (finding.part, finding.check)
        found[key] = worst((found[key], finding)) if key in found else finding
    return replace(outcome, findings=tuple(found.values()))


def _sections_with_holes(beam: Beam, basis: Basis) -> tuple[Any, Any]:
    """(the section that bends, the one elastic stress is found on)."""
    holes = beam_holes(beam)
    if holes is None:
        return None, None
    net = Net(beam.section, holes)
    t = max(element.t for element in beam.section.elements)
    try:
        f_y, f_u = beam.steel.strengths(t)
    except NotCovered:
        return net, net
    counted = flange_holes_count(beam.section, f_y, f_u, holes, basis.gamma_M0, basis.gamma_M2)
    return (net if counted else None), net


def beam_holes(beam: Beam) -> Holes | None:
    """The holes of a beam where the stress is greatest, if it has any."""
    if beam.hole is None:
        return None
    offset = beam.hole_offset
    if offset is None:
        edge = beam.section.edges[3]
        walls = form(beam.section) in ("i", "channel", "hollow")
        t = getattr(beam.section.shape, "tf", getattr(beam.section.shape, "t", 0.0))
        offset = edge - t / 2 if walls else max(edge - 1.2 * beam.hole, 0.0)
    holes = Holes(beam.hole, beam.holes, offset)
    validate(f'beam "{beam.name}"', beam.section, holes)
    return holes


def _rated(beam: Beam, stock: Any, elastic: Elastic, basis: Basis) -> Outcome:
    """Brittle fracture of the thickness as bought, and fatigue, from the nominal stress at rated force."""
    try:
        rated = elastic.greatest("rated")
    except NotCovered as reason:
        return Outcome(tuple(not_checked(beam.name, check, str(reason)) for check in ("brittle fracture", "fatigue")))
    stress = rated.value if rated else 0.0
    brittle = check_brittle(beam.name, stock, beam.steel, beam.quality, stress, basis)
    drilled = beam.hole is not None
    return brittle + check_member_fatigue(beam.name, beam.section, beam.detail, stress, basis, drilled=drilled)


def _unbent(beam: Beam, solution: BeamSolution) -> bool:
    """Every load stands on a support: nothing bends."""
    return abs(float(solution.greatest_moment().value)) <= 1e-9 * beam.span


def _lateral(
    beam: Beam, solution: BeamSolution, k_cr: float, basis: Basis, bent: Any, inside: Sequence[Station]
) -> Outcome:
    check = "lateral torsional buckling"
    if beam.turned and inside:
        return upright_lateral(beam.name, beam.section, beam.steel, beam.pieces, beam.span, inside, basis, bent)
    if beam.turned:
        reason = "it lies on its side, bent about its weak axis"
        return Outcome(does_not_apply=(NotNeeded(beam.name, check, reason),))
    if _unbent(beam, solution):
        return Outcome(does_not_apply=(NotNeeded(beam.name, check, UNBENT),))
    if not can_buckle(beam.section):
        reason = "a closed, round or square section does not buckle sideways at press spans"
        return Outcome(does_not_apply=(NotNeeded(beam.name, check, reason),))
    try:
        if form(beam.section) == "angle":
            finding = angle_lateral_finding(beam, solution, basis)
        elif covered(beam.section):
            finding = strips_lateral_finding(beam, solution, basis)
        else:
            finding = lateral_finding(beam, solution, k_cr, basis, bent)
        finding = with_moments_across(finding, beam, inside, basis, bent)
    except NotCovered as reason:
        finding = not_checked(beam.name, check, str(reason))
    text = "lateral torsional buckling: held sideways and against twisting at the supports"
    return Outcome((finding,), assumptions=(Assumption(beam.name, text),))


def _leaning(beam: Beam) -> Beam:
    """The beam as it leans sideways: at a welded slot what the slot leaves, of a tied pair each piece by itself."""
    left = getattr(beam.section.shape, "left", None)
    if left is not None:
        return replace(beam, section=left)
    piece = piece_of(beam.section)
    if piece is None or closed(beam.section):
        return beam
    return replace(beam, section=piece, pieces=2 * beam.pieces)


def _of_frame(beam: Beam) -> Outcome:
    """In a frame the deflection is the frame's answer, its corners counted."""
    return Outcome(does_not_apply=(NotNeeded(beam.name, "deflection", "the frame answers it"),))


def _deflection(beam: Beam, solution: BeamSolution) -> Outcome:
    most = solution.greatest_deflection()
    w, x = abs(float(most.value)), float(most.x)
    bending, shear = (abs(float(part)) for part in (solution.w_bending(x), solution.w_shear(x)))
    share = f"; L/{beam.span / w:.0f}" if w > 0 else ""
    text = f"{show(w, 'mm')} at x = {show(x, 'mm')} (bending {show(bending, 'mm')}, shear {show(shear, 'mm')}{share})"
    answers = (f"{beam.name}: deflection at rated load {text}",)
    if beam.limit is not None:
        source = "beam theory with shear (Timoshenko); the user's limit"
        finding = judged(beam.name, "deflection", "rated", w, beam.limit, "mm", source, reason=text)
        return Outcome((finding,), answers=answers)
    never = NotNeeded(beam.name, "deflection", "no limit stated: the deflection is an answer")
    advice: tuple[str, ...] = ()
    if w > beam.span / ADVISED:
        advised = f"L/500, {show(beam.span / ADVISED, 'mm')}"
        advice = (f"{beam.name}: deflection at rated load is over {advised}, our advice for a coarse frame",)
    return Outcome((), (never,), answers=answers, advice=advice)


def _does_not_apply(beam: Beam) -> tuple[NotNeeded, ...]:
    if form(beam.section) == "channel" and beam.pieces > 1 and beam.tied:
        reason = "the pieces are tied at the load and at each support: they cannot twist"
        return (NotNeeded(beam.name, "torsion", reason),)
    return ()


def _assumptions(beam: Beam) -> tuple[Assumption, ...]:
    found = []
    if beam.pieces > 1:
        found.append(f"the {beam.pieces} pieces share the force equally")
    found += _twist_said(beam)
    if beam.turned and form(beam.section) in ("channel", "other"):
        found.append("it lies on its side, loaded and held in the plane through its shear centre")
    if beam.hole is not None:
        found.append("the holes stand where the stress is greatest")
        found += said_across(beam.section, beam_holes(beam))
    if beam.end_stiffeners:
        text = "the stiffeners at the supports keep the webs from buckling in shear; none between them is counted"
        found.append(f"{text}, and against the support's own force the web is judged as if it had none")
    if beam.corrosion:
        found.append(f"{beam.corrosion:g} mm lost from every face")
    assumed = tuple(Assumption(beam.name, text) for text in found)
    assumed += _ties_unseen(beam)
    return (*assumed, Assumption(beam.name, ON_LEG, ON_LEG)) if form(beam.section) == "angle" else assumed


def _ties_unseen(beam: Beam) -> tuple[Assumption, ...]:
    """Ties are held by welds or through holes, at the load too, where the beam is most stressed."""
    if not (beam.tied and beam.pieces > 1 and beam.detail in DETAILS):
        return ()
    if DETAILS[beam.detail].category <= DETAILS["plate with holes"].category:
        return ()
    condition = f'no hole and no weld of its ties stands where it bends: detail "{beam.detail}" knows of none'
    return (Assumption(beam.name, condition, condition),)


def _twist_said(beam: Beam) -> list[str]:
    """What was taken of ties, and for pieces whose loads stand beside their shear centre."""
    if beam.tied and beam.pieces > 1:
        return ["its pieces are tied together at the load and at each support (stated); the ties are not judged"]
    if not eccentricity(beam):
        return []
    stated = "the pieces are not tied" if beam.tied is False or beam.pieces == 1 else "ties not stated: none"
    off = show(eccentricity(replace(beam, aside=0.0)), "mm")
    return [f"{stated}; loads and supports act on the webs, {off} from the shear centre", WORDS[beam.supports]]


def _validate(beam: Beam, loads: Sequence[BeamLoad]) -> None:
    part = f'beam "{beam.name}"'
    problems = []

    def fault(key: str, given: str, what: str, wanted: str, remedy: str) -> None:
        problems.append(Problem(key, given, what, wanted, remedy, part))

    if not beam.span > 0:
        fault("span", f"{beam.span:g} mm", "is no span", "a length above zero", 'span = "900 mm"')
    if beam.pieces < 1:
        fault("pieces", str(beam.pieces), "is no count", "1 or more", "pieces = 2")
    if beam.limit is not None and not beam.limit > 0:
        fault("limit", f"{beam.limit:g} mm", "is no limit", "above zero", 'limit = "L/500"')
    if beam.quality is not None and beam.quality not in QUALITIES:
        fault("quality", f'"{beam.quality}"', "is no quality", ", ".join(QUALITIES), 'quality = "JR"')
    if beam.turned and beam.hole is not None:
        wanted = "a beam that stands, or the holes of a section of your own"
        fault("hole", f"{beam.hole:g} mm", "weakens a beam on its side in a way no method here knows", wanted, "")
    if beam.turned and form(beam.section) == "angle":
        fault("turned", "true", "means nothing for an angle, which bends about both axes", "turned = false", "")
    problems += undrilled(part, beam.hole, beam.holes, beam.hole_offset)
    for place in beam.held_at:
        if beam.span > 0 and not 0 <= place <= beam.span:
            fault("held_at", f"{place:g} mm", "is off the beam", f"between 0 and {beam.span:g} mm", "")
    for load in loads:
        low, high = load.at - load.over / 2, load.at + load.over / 2
        if beam.span > 0 and (low < -1e-9 * beam.span or high > (1 + 1e-9) * beam.span):
            given = f"{load.at:g} mm" + (f" over {load.over:g} mm" if load.over else "")
            wanted = f"a load that stands between 0 and {beam.span:g} mm"
            fault("at", given, "is off the beam", wanted, f'at = "{beam.span / 2:g} mm"')
    if not loads:
        fault("load", "", "is missing", "at least one load", 'load = "8 t"')
    if problems:
        raise InputError(problems)
