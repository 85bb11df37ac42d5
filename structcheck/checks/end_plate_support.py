"""The flange and web of an I or H that an end plate is bolted to: EN 1993-1-8 6.2.6.1 to 6.2.6.4.

Stiffeners bear what is pressed, part the rows into groups and hold the flange beside them (Table 6.5); what they take
of the web's pull and of the panel's shear is not counted.
"""

import math

from structcheck.checks.basis import ULTIMATE, Basis
from structcheck.checks.bolts_prying import Flange, beside_stiffener, lengths
from structcheck.checks.end_plate_part import EndPlate, Support
from structcheck.checks.end_plate_rows import AtLimit, Bearing, Force, bent_rows, one_side, steps_between
from structcheck.checks.member_forms import E
from structcheck.checks.web_resistance import LocalLoad, Web, bare_web, stiffened_web
from structcheck.errors import NotCovered
from structcheck.formula import remembered
from structcheck.standards.en1993_1_1 import classification
from structcheck.standards.en1993_1_8 import column

STOCKY = 0.72
"""(6.13a): slenderness up to which a pressed web does not buckle."""
SLENDEREST_PANEL = 69.0
"""6.2.6.1(1): d / t_w of the web over epsilon up to which the panel's shear is known."""


def on_flange(part: EndPlate, state: AtLimit, basis: Basis) -> Bearing:
    """The flange bolted to, in bending. Raises NotCovered where it is not described."""
    keys = ("behind", "behind_lever", "behind_edge")
    missing = [f"`{key}`" for key in keys if getattr(part, key) is None]
    if missing:
        what = "the plate is bolted to no flange of one I or H and to no tube, or it is not described"
        raise NotCovered(f"{', '.join(missing)} not stated: {what}")
    return Bearing((lambda first, last: _flange_group(part, first, last, basis),))


def on_web(part: EndPlate, state: AtLimit, basis: Basis) -> Bearing:
    """The web behind, pulled by rows, pressed by the beam's flange, and sheared as a panel."""
    behind = _of(part)
    _refuse(behind)
    panel = _panel(behind, basis), "panel of the web behind in shear"
    return Bearing(
        (lambda first, last: _web_group(part, first, last, basis),),
        ((_pressed(part, state, basis), "web behind, pressed"), panel),
        (panel,),
    )


def _of(part: EndPlate) -> Support:
    if part.support is None:
        raise NotCovered("`behind_section` is not stated: the web behind the flange is not known")
    return part.support


def _refuse(behind: Support) -> None:
    if behind.steel.imperial:
        raise NotCovered(f"no buckling rule of EN 1993 is known for {behind.steel.name}")
    shape = behind.section.shape
    f_y = behind.steel.f_y(float(shape.tw))
    limit = SLENDEREST_PANEL * classification.epsilon(f_y)
    if _clear(behind) / shape.tw > limit:
        raise NotCovered(
            f"web of {behind.section.designation} more slender than {limit:.0f}: 6.2.6.1 ends at d / t_w = 69 epsilon"
        )


def _clear(behind: Support) -> float:
    """d_wc, clear between the roots."""
    shape = behind.section.shape
    return float(shape.h - 2 * (shape.tf + shape.r))


def _f_yw(behind: Support) -> float:
    return behind.steel.f_y(float(behind.section.shape.tw))


def _size(part: EndPlate, first: int, last: int) -> tuple[Flange, tuple[float, float]]:
    """The flange as T-stub of these rows and its effective lengths; rows beside the member's end see that end."""
    steel = part.behind_steel or part.steel
    flange = Flange(part.behind, steel.f_y(part.behind), part.behind_lever, part.edge)
    above, below = part.ends
    free = above if first == 0 else None, below if last == len(part.rows) - 1 else None
    circular, other = lengths(flange, free, steps_between(part, first, last))
    above, below = _to_stiffener(part, first, up=True), _to_stiffener(part, last, up=False)
    gained = [beside_stiffener(flange, m_2) if m_2 is not None else 0.0 for m_2 in (above, below)]
    return flange, (circular, other + (max(gained) if first == last else sum(gained)))


def _to_stiffener(part: EndPlate, row: int, *, up: bool) -> float | None:
    """m_2 of the stiffener next to a row, its weld left out; None where there is none or another row is nearer."""
    if part.support is None or part.support.stiffeners is None:
        return None
    heights, half = part.heights, part.support.stiffeners.thickness / 2
    way, next_row = (1.0, row - 1) if up else (-1.0, row + 1)
    for flange in (part.centre, part.depth - part.centre):
        m_2 = way * (flange - heights[row]) - half
        hidden = 0 <= next_row < len(heights) and way * (flange - heights[next_row]) > 0
        if m_2 > 0 and not hidden:
            return m_2
    return None


def _parted(part: EndPlate, first: int, last: int) -> bool:
    """Whether a stiffener stands between these rows."""
    stiffened = part.support is not None and part.support.stiffeners is not None
    return stiffened and not one_side(part, first, last)


@remembered
def _flange_group(part: EndPlate, first: int, last: int, basis: Basis) -> Force | None:
    if _parted(part, first, last):
        return None
    flange, size = _size(part, first, last)
    force, mode = bent_rows(part, flange, size, last - first + 1, basis)
    return force, mode.replace("plate", "flange behind")


@remembered
def _web_group(part: EndPlate, first: int, last: int, basis: Basis) -> Force | None:
    if _parted(part, first, last):
        return None
    behind = _of(part)
    shape = behind.section.shape
    _, size = _size(part, first, last)
    omega = column.reduction_for_shear(min(size), float(shape.tw), _shear_area(behind, basis))
    force = column.web_tension_resistance(omega, min(size), float(shape.tw), _f_yw(behind), basis.gamma_M0)
    return force, "web behind, pulled"


def _shear_area(behind: Support, basis: Basis) -> float:
    return float(behind.section.shape.shear_area("z", basis.eta))


def _panel(behind: Support, basis: Basis) -> float:
    return column.panel_shear_resistance(_f_yw(behind), _shear_area(behind, basis), basis.gamma_M0)


@remembered
def _pressed(part: EndPlate, state: AtLimit, basis: Basis) -> float:
    """The web under the beam's flange in compression: bare, or with its stiffeners; cut off at the member's end."""
    behind = _of(part)
    shape = behind.section.shape
    t_w, f_y = float(shape.tw), _f_yw(behind)
    b_eff = _pressed_width(part, behind)
    omega = column.reduction_for_shear(b_eff, t_w, _shear_area(behind, basis))
    k_wc = column.reduction_for_axial_stress(state.pressed)
    lambda_p = column.web_slenderness(b_eff, _clear(behind), f_y, E, t_w)
    rho = 1.0 if lambda_p <= STOCKY else min(column.plate_reduction(lambda_p), 1.0)
    resistance = column.web_compression_resistance
    bare = min(
        resistance(omega, k_wc, 1.0, b_eff, t_w, f_y, basis.gamma_M0),
        resistance(omega, k_wc, rho, b_eff, t_w, f_y, basis.gamma_M1),
    )
    web = Web(part.name, behind.section, behind.steel)
    load = _local(part, behind)
    if behind.past is not None and _near_end(load, behind):
        bare = min(bare, bare_web(web, load, basis))
    return bare if behind.stiffeners is None else max(bare, stiffened_web(web, load, basis))


def _beyond(part: EndPlate, behind: Support) -> float:
    """From the outer face of the pressed flange to the end of the member behind."""
    return math.inf if behind.past is None else (part.past or 0.0) + behind.past


def _pressed_width(part: EndPlate, behind: Support) -> float:
    """b_eff,c,wc (6.11); on the outer side no wider than plate and member reach."""
    shape = behind.section.shape
    leg, past = part.flange_throat * math.sqrt(2), part.past or 0.0
    s_p = part.plate + min(max(past - leg, 0.0), part.plate)
    whole = column.pressed_width(part.flange, part.flange_throat, float(shape.tf), float(shape.r), s_p)
    whole -= max(leg - past, 0.0)
    reach = min(past, leg + part.plate) + 2.5 * float(shape.tf + shape.r)
    return whole - max(reach - _beyond(part, behind), 0.0)


def _local(part: EndPlate, behind: Support) -> LocalLoad:
    """The same force as EN 1993-1-5 section 6 sees it, on the outside of the flange behind."""
    leg = part.flange_throat * math.sqrt(2)
    beyond = _beyond(part, behind)
    return LocalLoad(
        ULTIMATE,
        1.0,
        pad=part.flange + 2 * leg,
        plate=part.plate if (part.past or 0.0) >= leg else 0.0,
        to_end=None if math.isinf(beyond) else max(beyond - leg, 0.0),
        stiffeners=behind.stiffeners,
    )


def _near_end(load: LocalLoad, behind: Support) -> bool:
    """Whether the web beyond the force is shorter than EN 1993-1-5 figure 6.1 c counts as far: k_F below 6."""
    h_w = float(behind.section.shape.hw)
    return load.to_end is not None and load.pad + load.to_end < 2 / 3 * h_w
