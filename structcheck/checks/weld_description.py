"""Fillet welds as a question describes them: equal parallel runs, whole or in stretches, and what they carry."""

import math
from typing import Literal

from structcheck.checks.basis import Case
from structcheck.checks.weld_intermittent import Stretches
from structcheck.checks.weld_room import legs_apart, thinner_above, throat_above
from structcheck.errors import InputError, Problem
from structcheck.materials.steels import Steel
from structcheck.record import record
from structcheck.showing import show
from structcheck.standards.en1993_1_8 import welds


@record(kw_only=True)
class Weld:
    """Equal parallel fillet runs that share a force; lengths in mm.

    throat, leg   one of the two; a leg is the smaller one, or one of two with leg_2
    leg_2         the other leg of a flat fillet, where they are unequal
    length        of one run, from start to end
    stretches     an intermittent run: how many stretches it is laid in, one at each end; 1: it is whole
    stretch       length of each of them; of the first and last: `end_stretch`, if they differ
    staggered     those of one side stand midway between those of the other
    dry           stated to stand neither in the weather nor in the wet
    pulled        the parts are pulled along an intermittent run; else pressed, or it carries shear
    width, other_width  of the two parts an intermittent run joins
    runs          equal parallel runs
    returned      the ends run on round the corner, full size, for at least twice the leg
    inspected     looked at and tested by somebody who can judge a weld
    steel         of the weaker part joined
    eccentricity  lever of the force along, from the middle of the runs
    method        "simplified" (4.5.3.3) or "directional" (4.5.3.2)
    plane         "out": the lever stands off the face the runs lie on (a bracket); "in": it lies in that face (a lap)
    spacing       between neighbouring runs; only counts for a lever in the plane
    around        one run all round a hollow section; `length` is its whole length
    one_sided     the runs are all on one side of the part, so a force across bends each about its root
    weldable      the user says the steel can be welded
    killed        the hollow section is hot finished, or of aluminium-killed steel fit for welding at its corners
    thickness     of the thinner part joined
    thickest      thickness of the thicker part joined, on which its tensile strength may depend
    """

    name: str
    length: float
    steel: Steel
    throat: float | None = None
    leg: float | None = None
    leg_2: float | None = None
    runs: int = 1
    returned: bool = False
    inspected: bool = False
    eccentricity: float = 0.0
    method: Literal["simplified", "directional"] = "simplified"
    plane: Literal["out", "in"] | None = None
    spacing: float | None = None
    around: bool = False
    one_sided: bool = False
    weldable: bool = False
    killed: bool = False
    thickness: float | None = None
    thickest: float | None = None
    stretches: int = 1
    stretch: float | None = None
    end_stretch: float | None = None
    staggered: bool = False
    dry: bool = False
    pulled: bool = False
    width: float | None = None
    other_width: float | None = None

    @property
    def a(self) -> float:
        """Throat in mm, given or from the leg."""
        if self.throat is not None:
            return self.throat
        if self.leg_2 is not None:
            return welds.throat_of_unequal_legs(self.leg, self.leg_2)
        return welds.throat_of_leg(self.leg)

    @property
    def laid(self) -> Stretches | None:
        """The stretches of an intermittent run; None where it is whole."""
        if self.stretch is None:
            return None
        return Stretches(self.length, self.stretches, self.stretch, self.end_stretch)

    @property
    def spread(self) -> float:
        """From the first point of one run that counts to the last, mm (4.5.1)."""
        whole = self.returned or self.around
        return self.length if whole else welds.effective_length(self.length, self.a)

    @property
    def effective(self) -> float:
        """Effective length of one run in mm, that of its stretches together where it is intermittent."""
        return self.laid.effective(self.a) if self.laid else self.spread


@record
class WeldLoads:
    """Forces on all runs together in N: parallel to them and square to them."""

    case: Case
    along: float
    across: float


def refuse(part: Weld) -> None:
    """Raise InputError with everything about the weld that cannot be, at once."""
    lengths = {
        key: getattr(part, key) for key in ("throat", "leg", "leg_2", "length", "spacing", "width", "other_width")
    }
    lengths |= {"thickness": part.thickness, "thickest": part.thickest}
    bad = [
        (key, show(value, "mm"), "must be more than nothing", "a length above 0 mm", f'{key} = "5 mm"')
        for key, value in lengths.items()
        if value is not None and not (math.isfinite(value) and value > 0)
    ]
    if (part.throat is None) == (part.leg is None):
        fault = "neither throat nor leg is given" if part.throat is None else "throat and leg are both given"
        bad.append(("throat", "", fault, "one of the two", 'throat = "4 mm"'))
    if part.leg_2 is not None and part.leg is None:
        bad.append(("leg_2", show(part.leg_2, "mm"), "stands without the other leg", "both legs", 'leg = "6 mm"'))
    bad += _sizes_at_odds(part)
    if part.runs < 1:
        bad.append(("runs", str(part.runs), "is no weld", "a whole number of runs, 1 or more", "runs = 2"))
    bad += _no_stretches(part)
    if part.around and part.one_sided:
        fault = "stands beside around: a run all round a section has no other side"
        bad.append(("one_sided", "true", fault, "one of the two", "around = true"))
    if part.plane is not None and not part.eccentricity:
        fault = "says where a lever lies, and there is none"
        bad.append(
            ("plane", f'"{part.plane}"', fault, "an eccentricity beside it, or neither", 'eccentricity = "50 mm"')
        )
    if part.around and part.runs != 1:
        bad.append(("around", str(part.runs), "runs cannot each go all round one section", "one run", "runs = 1"))
    if not math.isfinite(part.eccentricity):
        bad.append(("eccentricity", str(part.eccentricity), "is not finite", "a length", 'eccentricity = "50 mm"'))
    if bad:
        raise InputError(
            Problem(key, given, fault, wanted, remedy, part=f'weld "{part.name}"')
            for key, given, fault, wanted, remedy in bad
        )


def _sizes_at_odds(part: Weld) -> list[tuple[str, str, str, str, str]]:
    """Thicknesses told the wrong way round, and a throat above what the part takes."""
    t, thickest = part.thickness, part.thickest
    at_odds = (*thinner_above(t, thickest), *legs_apart(part.leg, part.leg_2))
    bad = [(p.key, p.given, p.fault, p.wanted, p.remedy) for p in at_odds]
    if (part.throat is None) != (part.leg is None):
        key = "leg" if part.throat is None else "throat"
        side = "alone" if part.around or part.one_sided or part.runs == 1 else "both"
        bad += [
            (p.key, p.given, p.fault, p.wanted, p.remedy)
            for p in throat_above(key, part.a, t, part.steel, part.inspected, side)
        ]
    return bad


def _no_stretches(part: Weld) -> list[tuple[str, str, str, str, str]]:
    """What is wrong with an intermittent run."""
    if part.stretch is None and part.stretches == 1 and part.end_stretch is None and not part.staggered:
        return []
    if part.laid is None:
        return [("stretch", "", "is missing: an intermittent run has stretches", "a length", 'stretch = "60 mm"')]
    if part.returned or part.around:
        key = "returned" if part.returned else "around"
        return [(key, "true", "stands beside stretches: their ends are not returned", "one of the two", "")]
    if part.staggered and (part.one_sided or part.runs % 2):
        fault, wanted = "needs runs on both sides of the part", "an even number of runs, not one_sided"
        return [("staggered", "true", fault, wanted, "runs = 2")]
    return [(p.key, p.given, p.fault, p.wanted, p.remedy) for p in part.laid.problems()]
