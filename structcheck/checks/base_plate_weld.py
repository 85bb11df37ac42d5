"""The fillets between a foot plate and the member on it: all that the foot carries goes through them."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from structcheck.checks.base_plate_part import BasePlate, BasePlateLoads
from structcheck.checks.basis import Basis
from structcheck.checks.weld_cautions import cold_corner, through_thickness
from structcheck.checks.weld_group import RunGroup, RunGroupLoads, check_run_group
from structcheck.checks.weld_outline import fillets_on
from structcheck.checks.weld_strength import weaker
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Outcome, not_checked

CHECKS = ("weld throat", "weld size", "fatigue")


def check_foot_fillets(part: BasePlate, loads: Sequence[BasePlateLoads], basis: Basis, *, lifted: bool) -> Outcome:
    """Fillets along every wall of the member, or, where none are stated, a condition.

    lifted  a side of the plate is pulled up, and a thick one with it through its thickness
    """
    if part.throat is None and part.leg is None:
        condition = f"the fillets between {part.name} and its member carry all that the foot carries"
        text = f"these fillets are not stated: `throat` or `leg`, laid along every wall ({condition})"
        return Outcome(assumptions=(Assumption(part.name, text, condition),))
    sizes = {"throat": part.throat, "leg": part.leg}
    try:
        runs = tuple(run for y in part.stand for run in fillets_on(part.section, (y, 0.0), **sizes))
    except NotCovered as why:
        return Outcome(tuple(not_checked(part.name, check, str(why)) for check in CHECKS))
    of_member = part.section_steel or part.steel
    group = RunGroup(
        name=part.name,
        runs=runs,
        steel=weaker(part.steel, of_member),
        inspected=part.inspected,
        weldable=part.weldable,
        thickest=part.thickness,
    )
    found = check_run_group(group, [each for load in loads for each in _through(part, load)], basis)
    findings = tuple(f for f in found.findings if f.check in CHECKS)
    texts = ["a push goes through these fillets too: a sawn end in full contact would spare them"]
    if part.section_steel is None:
        texts.append(f"the member's steel is not stated: that of the plate, {part.steel.name}")
    said = tuple(Assumption(part.name, text) for text in texts) + cold_corner(part.name, part.section, part.killed)
    pressed = () if lifted else through_thickness(part.name, part.thickness, True)
    said += tuple(one for one in found.assumptions if one not in pressed)
    never = tuple(n for n in found.does_not_apply if n.check in CHECKS)
    return replace(found, findings=findings, does_not_apply=never, assumptions=said)


def _through(part: BasePlate, load: BasePlateLoads) -> Iterator[RunGroupLoads]:
    """Shear any way along the plate: square to the rest, its direction counts only where it twists the runs as well.

    It twists them under a single channel, whose centre of area is not that of its outline: there it counts whole both
    along the depth and across it.
    """
    middle = sum(part.section.edges[:2]) / 2 if part.pieces == 1 else 0.0
    V = load.shear
    shears = ((V, V), (V, -V)) if middle and V else ((V, 0.0), (0.0, V)) if V else ((0.0, 0.0),)
    for way in (1.0, -1.0) if load.moment_across and middle else (1.0,):
        for V_y, V_z in shears:
            moment = (0.0, load.moment, way * load.moment_across)
            yield RunGroupLoads(load.case, (load.push, V_y, V_z), (0.0, -middle, 0.0), moment)
