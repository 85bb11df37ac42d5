"""How a force enters a beam: through a pad, a spreader plate, a flange or a tube's face, past stiffeners or none.

Every place where something presses on the beam is judged by the checks its section needs: webs, tube faces, and the
spreader plate where pieces side by side carry one jack.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Literal, NamedTuple

from structcheck.checks.basis import Basis, Case
from structcheck.checks.edge import Edge, EdgeLoad, check_edge, edge_of
from structcheck.checks.member_forms import form
from structcheck.checks.spreader import Spreader, SpreaderLoads, check_spreader
from structcheck.checks.tube_face import TubeFace, TubeFaceLoad, check_tube_face
from structcheck.checks.web import Web, check_web
from structcheck.checks.web_resistance import LocalLoad, Stiffeners
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, NotNeeded, Outcome, not_checked
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.pair import piece_of
from structcheck.shapes.section import Section

ROUND = math.pi / 4
"""Side of a pad that presses a thin edge no harder than a round one, over its diameter."""

FAR = 2.0
"""A pad further than this many depths from the end of the beam feels nothing of it."""


@record
class SpreaderPlate:
    """A loose plate between the pad and the beam: along the beam, across it, thick; mm."""

    along: float
    across: float
    thickness: float
    steel: Steel


@record
class Introduction:
    """What stands between the forces and a beam.

    pad, pad_across  what presses on it: length along the beam and across it, or (across None) a round one's diameter
    apart            clear distance between pieces side by side
    facing           channels "back to back" or "toe to toe"
    spreader         plate under the pad
    stiffeners       pair of flats on each web under the pad
    bearing          length of the contact at each support; None: not stated, taken as a line; 0: a round pin
    beyond           beam left beyond the contact at a support; None: nothing
    held_by          at the supports the beam sits on its "flange", or is bolted or welded by its "web" or its ends
    """

    pad: float | None = None
    pad_across: float | None = None
    apart: float | None = None
    facing: Literal["back to back", "toe to toe"] = "back to back"
    spreader: SpreaderPlate | None = None
    stiffeners: Stiffeners | None = None
    bearing: float | None = None
    beyond: float | None = None
    held_by: Literal["flange", "web"] = "flange"


class Pressing(NamedTuple):
    """One force pressed into a beam in one case, on all pieces together.

    at        "load" or "support"
    place     for the finding: "under the jack, x = 350 mm"
    M, V      alongside, of all pieces
    to_end    from the middle of the contact to the nearer end of the beam; None: far
    flange    the pressed flange is in compression or tension by M
    offset    of the force from the middle between the pieces
    pad       length of this contact along the beam where it is stated with the load
    """

    case: Case
    at: Literal["load", "support"]
    place: str
    force: float
    M: float = 0.0
    V: float = 0.0
    to_end: float | None = None
    flange: Literal["compression", "tension"] = "compression"
    offset: float = 0.0
    pad: float | None = None


def check_introduction(
    part: str,
    section: Section,
    steel: Steel,
    pieces: int,
    how: Introduction,
    pressings: Sequence[Pressing],
    basis: Basis,
    turned: bool = False,
) -> Outcome:
    """What every force does where it enters; findings carry the beam's name. Raises InputError.

    turned  the beam lies on its side: what is pressed is a tube's other face, or the edges of flanges
    """
    section, pieces, how = apart(section, pieces, how)
    if turned and form(section) == "rectangle":
        edge = edge_of(part, section, steel, pieces, turned=True)
        return _on_edge(edge, section, how, _used(how, pressings), basis) + _on_its_side(part, section, pieces, how)
    if turned and form(section) != "hollow":
        return _on_its_side(part, section, pieces, how)
    section = on_side(section) if turned else section
    kind = form(section)
    used = _used(how, pressings)
    outcome = Outcome()
    if how.held_by != "flange":
        text = "at its supports the beam is held by its web or ends, not pressed on a flange; the joint carries that"
        outcome += Outcome(assumptions=(Assumption(part, text),))
    if has_webs(section):
        web = Web(part, section, steel, pieces)
        outcome += check_web(web, local_loads(section, pieces, how, pressings), basis)
        if web_plates(section) > 1 and any(p.at == "support" for p in used):
            outcome += Outcome(assumptions=(Assumption(part, "what it rests on reaches over both webs"),))
    elif kind == "hollow":
        outcome += _faces(part, section, steel, pieces, how, used, basis)
    elif kind in ("rectangle", "angle"):
        outcome += _on_edge(edge_of(part, section, steel, pieces), section, how, used, basis)
    elif kind == "round" and used:
        reason = "a round bar is touched along a line: no method here; ask `contact`, or weld a saddle to it"
        outcome += Outcome((not_checked(part, "web under load", reason),))
    elif kind in ("box", "other") and used and not hasattr(section.shape, "left"):
        reason = "a force on the webs of this shape: no method here"
        outcome += Outcome((not_checked(part, "web under load", reason),))
    elif kind == "tube":
        reason = "the wall of a round tube under a pad: no method here; weld a saddle to it or use another section"
        outcome += Outcome((not_checked(part, "tube face", reason),))
    pressed = [p for p in used if p.at == "load"]
    return outcome + _round_pad(part, how, pressed) + _spreader(part, section, pieces, how, pressed, basis)


def _round_pad(part: str, how: Introduction, pressed: Sequence[Pressing]) -> Outcome:
    """Across a plate, a tube or a spreader it matters how wide the pad is, and nobody said."""
    if how.pad is None or how.pad_across is not None or all(p.pad for p in pressed):
        return Outcome()
    text = f"what presses on it is round, {how.pad:g} mm in diameter: pad_across is not stated"
    return Outcome(assumptions=(Assumption(part, text),))


def apart(section: Section, pieces: int, how: Introduction) -> tuple[Section, int, Introduction]:
    """A pair tied together as its pieces: each takes its own share of what is pressed in."""
    piece = piece_of(section)
    if piece is None or section.shape.cell is not None:
        return section, pieces, how
    facing = "toe to toe" if section.shape.mirror else "back to back"
    return piece, 2 * pieces, replace(how, apart=float(section.shape.gap), facing=facing)


def on_side(section: Section) -> Section:
    """A hollow section as it lies on its side."""
    dimensions = {**section.dimensions, "h": section.dimensions["b"], "b": section.dimensions["h"]}
    return replace(section, designation=f"{section.designation} on its side", dimensions=dimensions)


def _on_its_side(part: str, section: Section, pieces: int, how: Introduction) -> Outcome:
    """No clause here is for a force on the edges of flanges, nor for a plate across pieces that lie."""
    reason = "the beam lies on its side: what presses the edges of its flanges is not covered here"
    checks = ["web under load"] if form(section) not in ("rectangle", "round", "tube") else []
    checks += ["tube face"] if form(section) == "tube" else []
    if pieces > 1 or how.spreader is not None:
        checks.append("spreader plate")
    return Outcome(tuple(not_checked(part, check, reason) for check in checks))


def has_webs(section: Section) -> bool:
    """Whether a force on a flange goes into webs that are judged as plates."""
    return form(section) in ("i", "channel") or bool(web_plates(section))


def web_plates(section: Section) -> int:
    """Webs of an I of unlike flanges or a box welded from plates; 0 of other shapes, and where they have holes."""
    plates = getattr(section.shape, "web_and_flange", None)
    return plates[5] if plates and not getattr(section.shape, "cuts", ()) else 0


def local_loads(section: Section, pieces: int, how: Introduction, pressings: Sequence[Pressing]) -> list[LocalLoad]:
    """The forces on the webs of a section that has them."""
    return [_on_web(section, how, pieces, p) for p in _used(how, pressings)]


def _used(how: Introduction, pressings: Sequence[Pressing]) -> list[Pressing]:
    """What presses a flange: at a support only where the beam sits on it."""
    return [p for p in pressings if p.force > 0 and (p.at == "load" or how.held_by == "flange")]


def _over_webs(section: Section, how: Introduction) -> bool:
    """Whether the pad, or the plate under it, reaches over the outer faces of both webs; a round pad does not."""
    if web_plates(section) < 2:
        return False
    reach = how.spreader.across if how.spreader else how.pad_across
    return reach is not None and reach >= float(section.dimensions["b"]) - 1e-9


def _on_web(section: Section, how: Introduction, pieces: int, p: Pressing) -> LocalLoad:
    depth = section.edges[3] - section.edges[2]
    if p.at == "support":
        to_end = how.beyond or 0.0
        return LocalLoad(
            p.case, p.force, pad=how.bearing, round_pin=how.bearing == 0, kind="end", to_end=to_end,
            M=p.M, V=p.V, flange=p.flange, place=p.place, over_webs=True,
        )  # fmt: skip
    pad = p.pad or how.pad
    near = None if p.to_end is None or p.to_end > FAR * depth else max(p.to_end - (pad or 0.0) / 2, 0.0)
    plate = how.spreader
    return LocalLoad(
        p.case,
        p.force,
        pad=pad,
        plate=plate.thickness if plate else 0.0,
        plate_length=plate.along if plate else None,
        kind="interior" if near is None else "end",
        to_end=near,
        M=p.M,
        V=p.V,
        flange=p.flange,
        share=_share(section, how, pieces, p.offset),
        stiffeners=how.stiffeners,
        over_webs=_over_webs(section, how),
        place=p.place,
    )


def _share(section: Section, how: Introduction, pieces: int, offset: float) -> float | None:
    """Share of the hardest pressed of two pieces when the force stands off their middle."""
    if pieces != 2 or offset == 0 or how.apart is None:
        return None
    between = _webs(section, how)
    return min(1.0, 0.5 + abs(offset) / between)


def _webs(section: Section, how: Introduction) -> float:
    """Distance between the lines on which the pieces carry a plate, mm; `apart` must be stated."""
    apart, dimensions = how.apart or 0.0, section.dimensions
    kind = form(section)
    if kind == "hollow":
        return apart + float(dimensions["t"])
    if kind == "channel":
        web, width = float(dimensions["tw"]), float(dimensions["b"])
        return apart + (web if how.facing == "back to back" else 2 * width - web)
    if kind == "rectangle":
        return apart + float(section.shape.b)
    if web_plates(section) > 1:
        return apart + float(section.dimensions["tw"])
    return apart + float(dimensions.get("b", 0.0))


def _faces(
    part: str, section: Section, steel: Steel, pieces: int, how: Introduction, used: Sequence[Pressing], basis: Basis
) -> Outcome:
    """A hollow section's face and side walls under every pad; a pad of unknown size cannot be judged."""
    loads, missing = [], []
    plate = how.spreader
    for p in used:
        along = (p.pad or how.pad) if p.at == "load" else how.bearing
        if not along:
            what = (
                "`pad`, what presses on it," if p.at == "load" else "`bearing`, the length of contact at the supports,"
            )
            missing.append(f"{what} is not stated" if along is None else "a round pin on a tube's face: no method here")
            continue
        across = how.pad_across if p.at == "load" else float(section.dimensions["b"])
        under = plate if p.at == "load" else None
        loads.append(
            TubeFaceLoad(
                p.case,
                p.force,
                along,
                across,
                plate=under.thickness if under else 0.0,
                plate_along=under.along if under else None,
                plate_across=under.across if under else None,
                plate_steel=under.steel if under else None,
                to_end=p.to_end if p.at == "load" else how.beyond or 0.0,
                M=p.M,
                flange=p.flange,
                place=p.place,
            )
        )
    if missing:
        return Outcome((not_checked(part, "tube face", "; ".join(dict.fromkeys(missing))),))
    return check_tube_face(TubeFace(part, section, steel, pieces, how.apart), loads, basis) if loads else Outcome()


def _on_edge(edge: Edge, section: Section, how: Introduction, used: Sequence[Pressing], basis: Basis) -> Outcome:
    """Every force on the edges of a solid beam."""
    loads = []
    for p in used:
        along, across, plate = how.bearing, None, None
        if p.at == "load":
            along, across, plate = p.pad or how.pad, how.pad_across, how.spreader
            if along and not p.pad and across is None:
                along *= ROUND  # a round pad; its edge is touched along less than its diameter
        if plate and along:
            along, across = min(along + 2 * plate.thickness, plate.along), plate.across
        beyond = (how.beyond or 0.0) if p.at == "support" else math.inf if p.to_end is None else p.to_end
        beyond -= (along or 0.0) / 2 if p.at == "load" else 0.0
        spread = edge.depth / 2 + min(edge.depth / 2, max(beyond, 0.0))
        pulled = p.M if p.at == "load" and p.flange == "tension" else 0.0
        share = _share(section, how, edge.pieces, p.offset)
        key = "bearing" if p.at == "support" else "pad"
        loads.append(EdgeLoad(p.case, p.force, along, across, spread, pulled, share, p.place, key))
    return check_edge(edge, loads, basis)


def _spreader(
    part: str, section: Section, pieces: int, how: Introduction, used: Sequence[Pressing], basis: Basis
) -> Outcome:
    """The plate that brings one jack onto several pieces, or past the tip of a flange."""
    plate = how.spreader
    if pieces == 1 and plate is None:
        return Outcome()
    missing = [
        f"`{key}` is not stated"
        for key, value in (("spreader", plate), ("apart", how.apart if pieces > 1 else 0.0), ("pad", _pad(how, used)))
        if value is None
    ]
    if missing:
        needed = (not_checked(part, "spreader plate", "; ".join(missing)),) if pieces > 1 else ()
        never = () if pieces > 1 else (NotNeeded(part, "spreader plate", "one piece; its plate spreads no gap"),)
        return Outcome(needed, never)
    assert plate is not None
    webs = _webs(section, how) if pieces > 1 else _own_webs(section)
    if pieces > 1 and plate.across < webs:
        fault = f"does not reach from web to web ({webs:.4g} mm)"
        wanted = "a plate that bears on every piece"
        raise InputError(Problem("spreader", f"{plate.across:g} mm across", fault, wanted, part=part))
    described = Spreader(part, pieces, webs, plate.steel, plate.along, plate.across, plate.thickness, web=_web(section))
    # In the middle it bends the plate most, off it it loads one piece most: one hides the other where rows are reduced.
    loads = [
        SpreaderLoads(p.case, p.force, p.pad or how.pad or 0.0, how.pad_across, offset)
        for p in used
        for offset in dict.fromkeys((0.0, p.offset))
    ]
    return check_spreader(described, loads, basis) if loads else Outcome()


def _pad(how: Introduction, used: Sequence[Pressing]) -> float | None:
    """The size of the pads, None where one is not known."""
    return None if any(not (p.pad or how.pad) for p in used) else how.pad or 0.0


def _web(section: Section) -> float:
    """Thickness on which a plate rests over one web, mm; a bar bears over all its width."""
    kind, dimensions = form(section), section.dimensions
    if kind == "rectangle":
        return float(section.shape.b)
    return float(dimensions.get("tw", dimensions.get("t", 0.0))) if kind in ("channel", "i", "hollow") else 0.0


def _own_webs(section: Section) -> float:
    """Distance between the webs of one piece: the walls of a box, nothing for one web."""
    if form(section) == "hollow":
        return float(section.dimensions["b"]) - float(section.dimensions["t"])
    if web_plates(section) > 1:
        return float(section.dimensions["b"]) - float(section.dimensions["tw"])
    return 0.0
