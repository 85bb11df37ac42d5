"""A C-frame's measures, whether its plate is thrown sideways, and where it stands."""

from collections.abc import Sequence

from structcheck.analysis.frame import SelfWeight
from structcheck.checks.basis import Basis
from structcheck.checks.member_forms import require_en1993, yield_strength
from structcheck.checks.member_lateral import Segment, critical_moment, lateral_reduction
from structcheck.errors import NotCovered
from structcheck.findings import Assumption, Outcome, judged, not_checked
from structcheck.materials.steels import find_steel
from structcheck.press.frame import order
from structcheck.press.frame.envelope import Combination, Level, case_of
from structcheck.press.frame.plates import section_of
from structcheck.press.frame.stability import Lump, Stand
from structcheck.press.frame_schema import FrameTables, PlateFrame
from structcheck.record import record

LATERAL = "lateral torsional buckling"


@record
class Throat:
    """A C-frame's measures, mm; lever from the back's centre-line to the force."""

    plate: PlateFrame
    opening: float

    @property
    def lever(self) -> float:
        """From the back's centre-line to the line of the force."""
        return self.plate.reach + self.plate.back / 2

    @property
    def height(self) -> float:
        """Between the arms' centre-lines."""
        return self.opening + (self.plate.upper + self.plate.lower) / 2

    @property
    def developed(self) -> float:
        """Length of the strip from tip to tip along its centre-lines."""
        return 2 * self.lever + self.height


def sideways(throat: Throat, level: Level, combined: Sequence[Combination], basis: Basis) -> Outcome:
    """The plate as a strip from tip to tip: each half held at the middle of the back, its tip free, bent evenly.

    An evenly bent cantilever of half the length has the M_cr of a strip of the whole on two forks; the arms' moment
    falls off towards the tip, which is easier, and outweighs that the force stands on the inner edge.
    """
    plate, part = throat.plate, "frame"
    straight = (order.FLAT,)
    text = f"{order.ENOUGH}: nothing is pressed, the back is pulled (EN 1993-1-1 5.2.1(3))"
    beside = Outcome(answers=(text,), assumptions=straight)
    steel = find_steel(plate.steel, route="plate", strengths=basis.strengths)
    least = section_of(plate, min(plate.back, plate.upper, plate.lower))
    try:
        require_en1993(least, steel)
        f_y = yield_strength(least, steel)
        M_cr = critical_moment(least, Segment(throat.developed))
        reduced = lateral_reduction(least, steel, f_y, least.Wel_y, M_cr, "general")
    except NotCovered as reason:
        return beside + Outcome((not_checked(part, LATERAL, str(reason)),))
    worst = max(combined, key=lambda c: c.position.head[0].x)
    M = level.force * (throat.lever + worst.position.head[0].x)
    able = reduced.chi * least.Wel_y * f_y / basis.gamma_M1 * plate.pieces
    reason = f"{reduced.text}; a strip of {throat.developed:.0f} mm from tip to tip"
    case = case_of(level, worst).name
    return beside + Outcome((judged(part, LATERAL, case, M, able, "kN m", reduced.source, reason=reason),))


def c_stand(throat: Throat, tables: FrameTables) -> Stand:
    """Masses and feet from the back's outer edge; the arms end as far past the line of the force as is stated."""
    p, feet = throat.plate, tables.feet
    stated = feet.below if feet else None
    below = p.lower / 2 if stated is None else stated
    density = p.thickness * p.pieces * SelfWeight().density
    tall = throat.opening + p.upper + p.lower
    beyond = {name: edge and edge.beyond for name, edge in (("upper", tables.upper), ("lower", tables.lower))}
    upper, lower = (p.reach + (beyond[name] or 0.0) for name in ("upper", "lower"))
    lumps = [
        Lump(density * p.back * tall, p.back / 2, 0.0, below + (tall - p.lower) / 2),
        Lump(density * lower * p.lower, p.back + lower / 2, 0.0, below),
        Lump(density * upper * p.upper, p.back + upper / 2, 0.0, below + throat.height),
        *(Lump(row.mass, row.out or 0.0, 0.0, row.height or 0.0) for row in tables.mass),
    ]
    edges: tuple[float, float, float, float] | tuple[()] = ()
    if feet and feet.width and feet.depth and feet.behind is not None:
        edges = (-feet.behind, feet.width - feet.behind, -feet.depth / 2, feet.depth / 2)
    short = [name for name, past in beyond.items() if past is None]
    texts = [f"the {name} arm is weighed to the line of the force: [{name}] beyond is not stated" for name in short]
    texts.append("what else stands out is a [[mass]], the jack too")
    if stated is None:
        texts.append("height of the frame above the floor not stated ([feet] below): its lower edge lies on the floor")
    wanted = "[feet] width, depth and behind (how far they reach behind the back's outer edge)"
    said = tuple(Assumption("frame", text) for text in texts)
    return Stand(tuple(lumps), edges, below + throat.height + p.upper / 2, wanted, said)
