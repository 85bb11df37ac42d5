"""Guides of the platen: do they slide or jam, how far do they lean, what do they push on, do they lock when warm."""

import math
from typing import Literal

from structcheck.analysis.guides import edge_lift, moment_of_springs, slide, tilt
from structcheck.checks.basis import RATED, ULTIMATE, Basis
from structcheck.checks.member_forms import require_en1993, yield_strength
from structcheck.errors import InputError, NotCovered, Problem
from structcheck.findings import Assumption, Finding, Outcome, complete, judged, not_checked
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.shapes.section import Section
from structcheck.standards import handbook_guides as handbook
from structcheck.standards.en1993_1_1.cross_section import elastic_bending_resistance, plastic_bending_resistance
from structcheck.standards.en1993_1_2 import thermal_elongation

NEEDED = ("guide binding",)

WHERE_STATED = ("guide tilt", "guide post bending", "guide wall bending", "guide heat growth")
"""Judged where the press file says enough to ask for them."""

DRY = 0.35
GREASED = 0.15
"""Friction of steel on steel, as taken for checking (common practice)."""

SLIPPERY = 0.04
"""Least friction of greased steel on steel, sliding (textbooks, read)."""

BINDING_LIMIT = 0.5
"""Half of the jam itself; ours, the same as a bearing maker's 2:1 rule at a friction of 0.25 with a factor 2."""

STICKS = 0.25
"""Share of the drive that dry friction holds back above which stick-slip is spoken of: half of the limit; ours."""

MOST_LEAN = 0.02
"""mm per mm above which nobody can say unasked that the platen presses square: 1 in 50; ours."""

ALUMINIUM = 23e-6
"""Growth of aluminium per kelvin."""


@record(kw_only=True)
class Guide:
    """The guides of a platen in the words of the press file; mm, N, degC.

    length       between the outer edges of contact on the column: one bush, or two short ones far apart
    offset       of the force from the axis of the guide, or from the centre of several
    friction     between guide and column
    columns      1, 2 or 4, alike and even about the centre
    spacing      of the columns, along the offset
    play         difference of the diameters, or of the clear widths of tube in tube
    seam         height of a weld seam left standing inside the outer tube; it takes up play
    half_width   from the centre to the edge of the platen
    level        how far that edge may stand off level, the user's limit
    force        at rated load that stands off the centre
    post, steel  section and steel of one column
    wall, wall_t flat width between the side walls, and thickness, of the tube wall the bush or pad pushes on
    pad          side of the square it pushes with
    warm         temperature of the platen; frame: of the columns
    metal        of the platen, "steel" or "aluminium"
    posts_judged the columns are judged where they are described, as uprights of a frame
    springs      (place along the offset from the centre, rate) of each return spring
    """

    name: str
    length: float
    offset: float
    friction: float = DRY
    columns: Literal[1, 2, 4] = 1
    spacing: float | None = None
    play: float | None = None
    seam: float = 0.0
    half_width: float | None = None
    level: float | None = None
    force: float | None = None
    post: Section | None = None
    steel: Steel | None = None
    wall: float | None = None
    wall_t: float | None = None
    pad: float | None = None
    warm: float | None = None
    frame: float = 20.0
    metal: Literal["steel", "aluminium"] = "steel"
    posts_judged: bool = False
    springs: tuple[tuple[float, float], ...] = ()

    @property
    def room(self) -> float | None:
        """Play that is left beside the seam."""
        return None if self.play is None else self.play - self.seam


def check_guide(guide: Guide, basis: Basis) -> Outcome:
    """Whether the guides slide, and what else was asked. Raises InputError where the description cannot be."""
    problems = _impossible(guide)
    if problems:
        raise InputError(problems)
    found = [_binding(guide)]
    if guide.level is not None:
        found.append(_tilt(guide))
    elif guide.room is not None and (lean := tilt(guide.room, guide.length)) > MOST_LEAN:
        reason = f"leans {math.degrees(lean):.1f} deg in its play: state level, how far its edge may stand off level"
        found.append(not_checked(guide.name, "guide tilt", f"{reason}, and half_width"))
    if guide.force is not None:
        if guide.post is not None or not guide.posts_judged:
            found.append(_post_bending(guide, basis))
        if guide.wall is not None or guide.wall_t is not None:
            found.append(_wall_bending(guide, basis))
    else:
        said = {"guide post bending": (guide.post,), "guide wall bending": (guide.wall, guide.wall_t, guide.pad)}
        found += [
            not_checked(guide.name, check, "the force off the centre is not stated: force")
            for check, sizes in said.items()
            if any(size is not None for size in sizes)
        ]
    if guide.warm is not None:
        found.append(_heat_growth(guide))
    outcome = Outcome(tuple(found), assumptions=_assumptions(guide), answers=_answers(guide), advice=_advice(guide))
    return complete(outcome, guide.name, NEEDED, "not done")


def _binding(guide: Guide) -> Finding:
    ratio = handbook.binding_ratio(guide.friction, guide.offset, guide.length)
    return judged(
        guide.name,
        "guide binding",
        RATED.name,
        ratio,
        BINDING_LIMIT,
        "",
        f"{handbook.BRACKET}; limit {BINDING_LIMIT:g} ours, 1 is the jam itself",
        reason="jams, whatever the force" if ratio >= 1 else "",
    )


def _tilt(guide: Guide) -> Finding:
    if guide.room is None or guide.half_width is None:
        missing = "play" if guide.room is None else "half_width"
        return not_checked(guide.name, "guide tilt", f"{missing} is not stated")
    lift = edge_lift(guide.room, guide.length, guide.half_width)
    return judged(guide.name, "guide tilt", RATED.name, lift, guide.level or 0.0, "mm", "geometry; limit the user's")


def _post_bending(guide: Guide, basis: Basis) -> Finding:
    """The pair of side forces on one column as a moment: no hold of its ends can make it more than the whole."""
    check = "guide post bending"
    if guide.post is None or guide.steel is None:
        return not_checked(guide.name, check, "the section and steel of the column are not stated")
    try:
        require_en1993(guide.post, guide.steel)
        f_y = yield_strength(guide.post, guide.steel)
    except NotCovered as reason:
        return not_checked(guide.name, check, str(reason))
    moment = guide.force * basis.ultimate * guide.offset / guide.columns
    resistance = elastic_bending_resistance(min(guide.post.Wel_y, guide.post.Wel_z), f_y, basis.gamma_M0)
    source = "EN 1993-1-1:2005 (6.14), weak axis; moment F e over the columns"
    return judged(guide.name, check, ULTIMATE.name, moment, resistance, "kN m", source)


def _wall_bending(guide: Guide, basis: Basis) -> Finding:
    """The wall as a strip as wide as the pad, on the side walls; what spreads along the tube is not counted."""
    check = "guide wall bending"
    if guide.wall is None or guide.wall_t is None or guide.pad is None or guide.steel is None:
        missing = " and ".join(key for key in ("wall", "wall_t", "pad", "steel") if getattr(guide, key) is None)
        return not_checked(guide.name, check, f"of the wall the guide pushes on is not stated: {missing}")
    if not guide.steel.in_en1993:
        return not_checked(guide.name, check, f"{guide.steel.name} is outside EN 1993-1-1")
    across = handbook.side_force(guide.force * basis.ultimate, guide.offset, guide.length) / guide.columns
    moment = across * (guide.wall - min(guide.pad, guide.wall) / 2) / 4
    try:
        f_y = guide.steel.f_y(guide.wall_t)
    except NotCovered as reason:
        return not_checked(guide.name, check, str(reason))
    resistance = plastic_bending_resistance(guide.pad * guide.wall_t**2 / 4, f_y, basis.gamma_M0)
    source = "EN 1993-1-1:2005 (6.13) on a strip as wide as the pad; side force F e / L"
    return judged(guide.name, check, ULTIMATE.name, moment, resistance, "kN m", source)


def growth(guide: Guide) -> float:
    """How much further apart the bushes move than the columns, mm. Raises NotCovered without the spacing."""
    if guide.spacing is None or guide.warm is None:
        raise NotCovered("the spacing of the columns is not stated")
    warmed = ALUMINIUM * (guide.warm - 20.0) if guide.metal == "aluminium" else thermal_elongation(guide.warm)
    return guide.spacing * abs(warmed - thermal_elongation(guide.frame))


def _heat_growth(guide: Guide) -> Finding:
    check = "guide heat growth"
    try:
        grown = growth(guide)
    except NotCovered as reason:
        return not_checked(guide.name, check, str(reason))
    if guide.room is None:
        return not_checked(guide.name, check, "play is not stated")
    source = "EN 1993-1-2:2005 3.4.1.1 (memory) against the play"
    return judged(guide.name, check, "warm", grown, guide.room, "mm", source, reason="beyond the play the guides lock")


def _assumptions(guide: Guide) -> tuple[Assumption, ...]:
    taken = []
    if guide.friction == DRY:
        taken.append(Assumption(guide.name, f"friction of the guide {DRY:g}: steel on steel, dry"))
    if guide.friction < SLIPPERY:
        condition = f"the friction of {guide.name} is no more than {guide.friction:g}: rollers or a bearing"
        text = f"{condition}; greased steel has {SLIPPERY:g} to 0.25"
        taken.append(Assumption(guide.name, text, condition))
    if guide.friction < DRY and _dry(guide) >= 1:
        condition = f"{guide.name} is kept greased: dry it jams"
        taken.append(Assumption(guide.name, f"{condition} (2 mu e / L = {_dry(guide):.2f})", condition))
    if guide.columns > 1:
        taken.append(Assumption(guide.name, f"the {guide.columns} bushes are alike and bear evenly"))
    if guide.force is not None and guide.steel is not None and guide.steel.assumed:
        taken.append(Assumption(guide.name, f"column of unknown steel: {guide.steel.name}", guide.steel.condition))
    return tuple(taken)


def _answers(guide: Guide) -> tuple[str, ...]:
    dry, greased = (handbook.binding_ratio(mu, guide.offset, guide.length) for mu in (DRY, GREASED))
    said = [
        f"2 mu e / L is {dry:.2f} dry (friction {DRY:g}), {greased:.2f} greased ({GREASED:g}); 1 is the jam",
    ]
    if guide.columns > 1 and guide.spacing is not None:
        said.append(_one_bush(guide))
    if guide.room is not None:
        lean = tilt(guide.room, guide.length)
        text = f"leans {math.degrees(lean):.3f} deg in its play"
        if guide.half_width is not None:
            text += f", {edge_lift(guide.room, guide.length, guide.half_width):.2f} mm at the edge"
        said.append(text)
        if guide.springs:
            places, rates = zip(*guide.springs, strict=True)
            carried = moment_of_springs(places, rates, lean) / 1e3
            said.append(f"the springs carry {carried:.3g} N m of tilt before the bushes bear")
    if guide.force is not None:
        across = handbook.side_force(guide.force, guide.offset, guide.length) / guide.columns
        said.append(f"each column is pushed across with {across / 1e3:.3g} kN at each end of its bush, at rated load")
    return tuple(f"{guide.name}: {text}" for text in said)


def _one_bush(guide: Guide) -> str:
    """What becomes of the ratio where play differs and the bush furthest from the force bears alone."""
    half = (guide.spacing or 0.0) / 2
    alone = slide(1.0, 0.0, guide.offset, guide.length, guide.friction, (-half, half), (1.0, 0.0))
    if math.isinf(alone.drive):
        return "if the far bush alone bears (the others looser) the guides jam: ream the bushes alike"
    return f"if the far bush alone bears (the others looser) friction takes {alone.ratio:.0%} of the drive"


def _dry(guide: Guide) -> float:
    return handbook.binding_ratio(DRY, guide.offset, guide.length)


def _advice(guide: Guide) -> tuple[str, ...]:
    said = []
    if _dry(guide) > STICKS:
        said.append(
            f"{guide.name}: dry it holds back {_dry(guide):.0%} of the drive, and less once it slides: it sticks part "
            "way, then bangs; keep it greased, bushes longer, and nothing loose near it"
        )
    if guide.seam > 0:
        said.append(f"{guide.name}: dress the weld seam inside the outer tube, it takes {guide.seam:g} mm of the play")
    if guide.warm is not None and guide.warm > 60:
        said.append(
            f"{guide.name}: fix a warm platen in the middle and slot its ends; keep heat from the jack's seals "
            "(60 to 70 degC, common practice)"
        )
    return tuple(said)


def _impossible(guide: Guide) -> list[Problem]:
    part = f'guide "{guide.name}"'
    problems = []

    def refuse(key: str, given: str, fault: str, wanted: str, remedy: str = "") -> None:
        problems.append(Problem(key, given, fault, wanted, remedy, part))

    if not guide.length > 0:
        wanted = "the length between the outer edges of contact"
        refuse("length", f"{guide.length:g} mm", "is not a length", wanted, 'length = "120 mm"')
    for key in ("wall", "wall_t", "pad"):
        value = getattr(guide, key)
        if value is not None and not value > 0:
            refuse(key, f"{value:g} mm", "is not a length", f"a {key} above zero")
    for key in ("offset", "play", "seam", "half_width", "force"):
        value = getattr(guide, key)
        if value is not None and value < 0:
            refuse(key, f"{value:g}", "is negative", "zero or more")
    if not guide.friction >= 0:
        refuse("friction", f"{guide.friction:g}", "is negative", "a friction from 0 up", "friction = 0.35")
    if guide.columns not in (1, 2, 4):
        refuse("columns", f"{guide.columns}", "is not a number of columns known here", "1, 2 or 4", "columns = 2")
    if guide.columns > 1 and guide.spacing is not None and not guide.spacing > 0:
        refuse("spacing", f"{guide.spacing:g} mm", "leaves the columns on one spot", "the distance between them")
    if guide.room is not None and guide.room <= 0:
        wanted = f"more play than the seam of {guide.seam:g} mm, or a dressed seam"
        refuse("play", f"{guide.play:g} mm", "leaves nothing to slide in", wanted, f'play = "{guide.seam + 0.2:g} mm"')
    return problems
