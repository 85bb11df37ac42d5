"""What a web bears under a local force: EN 1993-1-5 section 6 bare, section 9.4 with a pair of stiffeners."""

import math
from collections.abc import Callable
from typing import Literal, NamedTuple

from structcheck.checks.basis import Basis, Case
from structcheck.errors import NotCovered
from structcheck.formula import remembered
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.channels import Channel
from structcheck.shapes.rolled import RolledI
from structcheck.shapes.section import Section
from structcheck.standards.en1993_1_5 import patch
from structcheck.standards.en1993_1_5 import stiffeners as strut

E = 210_000.0
THINNEST = 3.0  # mm, EN 1993-1-1 1.1.2


@record
class Stiffeners:
    """A pair of flats across the web, from flange to flange, in the line of the force.

    width      of each flat, square to the web, mm
    thickness  mm
    steel      None: as the beam
    clip       cut from each flat's inner corner, mm; None: the root radius, or nothing beside a weld
    ends_held  both flanges are held sideways there: buckling length 0.75 h_w instead of h_w
    one_side   a flat on one side of the web only; it is not counted
    """

    width: float
    thickness: float
    steel: Steel | None = None
    clip: float | None = None
    ends_held: bool = False
    one_side: bool = False


@record
class Web:
    """A beam's webs where a local force enters.

    pieces   beams side by side
    spacing  between transverse stiffeners along the beam, mm; None: there are none
    edition  of the reduction chi_F: "2006", or "2006+A2"
    """

    name: str
    section: Section
    steel: Steel
    pieces: int = 1
    spacing: float | None = None
    edition: Literal["2006", "2006+A2"] = "2006"


@record
class LocalLoad:
    """A force pressed into a flange, on all pieces together.

    force       N
    pad         length of the contact along the beam, mm; None: not stated, taken as a line
    plate       thickness of the plates between contact and flange, spread at 1:1, mm
    plate_length  of the thinnest spread plate along the beam, which ends the spread, mm; None: long enough
    round_pin   the contact is a round pin or roller: nothing but the plates spreads it
    kind        "interior" (one flange), "opposite" (through to the other flange), "end" (beside a free end)
    to_end      from the end of the contact (the pad) to the end of the beam, mm; None: far from it, 0 for "end"
    M, V        bending moment and shear force in the beam alongside, all pieces, N mm and N
    flange      the flange that is loaded is in "compression" or "tension" by M
    share       of the force on the hardest pressed piece; None: equal shares
    stiffeners  under this force
    over_webs   on a box: the contact, or a plate under it, reaches over both webs
    place       for the finding: "under the jack"
    """

    case: Case
    force: float
    pad: float | None = None
    plate: float = 0.0
    plate_length: float | None = None
    round_pin: bool = False
    kind: Literal["interior", "opposite", "end"] = "interior"
    to_end: float | None = None
    M: float = 0.0
    V: float = 0.0
    flange: Literal["compression", "tension"] = "compression"
    share: float | None = None
    stiffeners: Stiffeners | None = None
    over_webs: bool = False
    place: str = ""


class WebPlate(NamedTuple):
    """What section 6 needs of one beam: clear depth, web, flange, root radius (mm), webs, half-depth and strength."""

    h_w: float
    t_w: float
    t_f: float
    b_f: float
    root: float
    webs: int
    half: float
    f_yw: float
    f_yf: float


@remembered
def web_plate(section: Section, steel: Steel) -> WebPlate:
    """The web and flange of a rolled or welded I, channel or box.

    Only the part of a flange that is balanced about the web counts in bending along the beam: a flange on one side
    of its web, as a channel's, would turn instead. Raises NotCovered for other shapes.
    """
    shape = section.shape
    if isinstance(shape, RolledI):
        h, b, t_w, t_f, root, webs = shape.h, shape.b, shape.tw, shape.tf, shape.r, 1
    elif isinstance(shape, Channel):
        h, b, t_w, t_f, root, webs = shape.h, shape.tw, shape.tw, shape.tf, shape.r1, 1
    elif plates := getattr(shape, "web_and_flange", None):
        h, b, t_w, t_f, root, webs = plates
    else:
        raise NotCovered(f"EN 1993-1-5 section 6 is for I, channel and box webs, not for {section.designation}")
    if min(t_w, t_f) < THINNEST:
        raise NotCovered(f"{section.designation}: EN 1993-1-1 begins at {THINNEST:g} mm")
    h, b, t_w, t_f, root = map(float, (h, b, t_w, t_f, root))
    f_yw, f_yf = steel.f_y(t_w), steel.f_y(t_f)
    b_f = patch.flange_width(b, t_w, f_yf, t_f)
    return WebPlate(h - 2 * t_f, t_w, t_f, b_f, root, webs, h / 2, f_yw, f_yf)


def one_sided(shape: object) -> bool:
    """Whether the flanges stand out on one side of the web only."""
    return isinstance(shape, Channel) or getattr(shape, "one_sided", False)


def bearing_length(load: LocalLoad, h_w: float) -> tuple[float, float | None]:
    """s_s of 6.3 and c: the contact spread at 1:1 through the plates, not beyond them nor beyond the beam's end.

    c is what is left from there to the end of the beam; None where the end is far.
    """
    pad = 0.0 if load.round_pin or load.pad is None else load.pad
    to_end = 0.0 if load.kind == "end" and load.to_end is None else load.to_end
    lost = 0.0 if to_end is None else max(load.plate - to_end, 0.0)
    whole = patch.stiff_bearing_length(pad, load.plate, math.inf) - lost
    if load.plate_length is not None:
        whole = min(whole, max(load.plate_length, pad))
    s_s = min(whole, h_w)
    if to_end is None:
        return s_s, None
    # A length cut to h_w is cut at both ends, so the web beyond it grows by half of what is cut.
    return s_s, max(to_end - load.plate, 0.0) + (whole - s_s) / 2


def refuse_between_webs(plate: WebPlate, load: LocalLoad) -> None:
    """Raise NotCovered where the force may enter a box between its webs."""
    if plate.webs > 1 and not load.over_webs:
        raise NotCovered("a force between the webs of a box bends its flange: a plate must reach over both webs")


def bare_web(part: Web, load: LocalLoad, basis: Basis) -> float:
    """Resistance in N of one web without stiffeners. Raises NotCovered."""
    plate = web_plate(part.section, part.steel)
    refuse_between_webs(plate, load)
    s_s, c = bearing_length(load, plate.h_w)
    return _bare(plate, load.kind, s_s, c, math.inf if part.spacing is None else part.spacing, part.edition, basis)


@remembered
def _bare(plate: WebPlate, kind: str, s_s: float, c: float | None, spacing: float, edition: str, basis: Basis) -> float:
    if kind == "end":
        return _end(plate, s_s, c, edition, basis)
    if kind == "opposite" and c is not None and patch.k_F_end(s_s, c, plate.h_w) < 6:
        raise NotCovered("forces on both flanges beside a free end are in no figure of EN 1993-1-5 section 6")
    k = patch.k_F_both_flanges if kind == "opposite" else patch.k_F_one_flange
    inner = _resistance(plate, k(plate.h_w, spacing), edition, basis, lambda m_2: min(_inner(plate, s_s, m_2), spacing))
    return inner if c is None else min(inner, _end(plate, s_s, c, edition, basis))


def _inner(plate: WebPlate, s_s: float, m_2: float) -> float:
    m_1 = patch.flange_part_m_1(plate.f_yf, plate.b_f, plate.f_yw, plate.t_w)
    return patch.loaded_length(s_s, plate.t_f, m_1, m_2)


def _end(plate: WebPlate, s_s: float, c: float, edition: str, basis: Basis) -> float:
    k_F = patch.k_F_end(s_s, c, plate.h_w)
    l_e = patch.end_length(k_F, E, plate.t_w, plate.f_yw, plate.h_w, s_s, c)
    m_1 = patch.flange_part_m_1(plate.f_yf, plate.b_f, plate.f_yw, plate.t_w)

    def length(m_2: float) -> float:
        return min(
            _inner(plate, s_s, m_2),
            patch.loaded_length_end_one_hinge(l_e, plate.t_f, m_1, m_2),
            patch.loaded_length_end_two_hinges(l_e, plate.t_f, m_1, m_2),
        )

    return _resistance(plate, k_F, edition, basis, length)


def _resistance(plate: WebPlate, k_F: float, edition: str, basis: Basis, length: Callable[[float], float]) -> float:
    """6.2 and 6.4. m_2 counts where the web is slender without it, and never beyond what a stocky web would bear.

    Taken by the letter the clause jumps up by up to a fifth where lambda_F passes 0.5, so that less plate held more.
    """
    F_cr = patch.critical_force(k_F, E, plate.t_w, plate.h_w)
    l_y = length(0.0)
    lambda_F = patch.slenderness(l_y, plate.t_w, plate.f_yw, F_cr)
    if edition == "2006+A2" and lambda_F > 0.5:
        chi_F = patch.reduction_amended(lambda_F)
        return patch.resistance(plate.f_yw, chi_F, l_y, plate.t_w, basis.gamma_M1)
    stocky = patch.resistance(plate.f_yw, 1.0, l_y, plate.t_w, basis.gamma_M1)
    if lambda_F <= 0.5:
        return stocky
    l_y = length(patch.web_part_m_2(plate.h_w, plate.t_f))
    lambda_F = patch.slenderness(l_y, plate.t_w, plate.f_yw, F_cr)
    return min(stocky, patch.resistance(plate.f_yw, patch.reduction(lambda_F), l_y, plate.t_w, basis.gamma_M1))


def stiffened_web(part: Web, load: LocalLoad, basis: Basis) -> float:
    """Resistance in N of one web with its pair of stiffeners, as a strut and at its loaded end. Raises NotCovered."""
    plate, pair = web_plate(part.section, part.steel), load.stiffeners
    if not on_both_sides(part, pair):
        raise NotCovered("a stiffener on one side of the web only is not counted (EN 1993-1-5 9.4(3))")
    if part.steel.imperial or (pair.steel and pair.steel.imperial):
        raise NotCovered("no buckling curve of EN 1993 is known for stiffeners of a US grade")
    f_y = min(plate.f_yw, (pair.steel or part.steel).f_y(pair.thickness))
    most = min(strut.flat_ratio_against_torsion(E, f_y), strut.flat_ratio_class_3(f_y))
    if pair.width / pair.thickness > most:
        raise NotCovered(f"stiffener flats wider than {most:.1f} of their thickness buckle (EN 1993-1-5 9.2.1(8))")
    A_st, I_st, web_end = strut_size(plate, pair, load)
    L_cr = (0.75 if pair.ends_held else 1.0) * plate.h_w
    chi = strut.strut_reduction(strut.strut_slenderness(L_cr, A_st, I_st, f_y, E))
    clip = plate.root if pair.clip is None else pair.clip
    return min(
        strut.strut_resistance(chi, A_st, f_y, basis.gamma_M1),
        strut.end_resistance(pair.width, clip, pair.thickness, plate.t_w, web_end, f_y, basis.gamma_M0),
    )


def on_both_sides(part: Web, pair: Stiffeners | None) -> bool:
    single_web = web_plate(part.section, part.steel).webs == 1
    return pair is not None and not pair.one_side and single_web and not one_sided(part.section.shape)


def strut_size(plate: WebPlate, pair: Stiffeners, load: LocalLoad) -> tuple[float, float, float]:
    """Area and second moment of the strut, and the web's length under the load at its end."""
    side = strut.web_each_side(plate.f_yw, plate.t_w)
    s_s, reach = bearing_length(load, plate.h_w)
    # The stiffener stands under the middle of the contact; beyond the beam's end there is no web.
    left = side if reach is None else min(side, max(reach + s_s / 2 - pair.thickness / 2, 0.0))
    size = (pair.width, pair.thickness, plate.t_w, left, side)
    web_end = min(left + side + pair.thickness, max(s_s, pair.thickness) + 2 * plate.t_f)
    return strut.strut_area(*size), strut.strut_second_moment(*size), web_end
