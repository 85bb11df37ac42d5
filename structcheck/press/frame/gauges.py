"""Where dial gauges stand on a ring: each is a pair of loads whose work is what it reads."""

from collections.abc import Sequence

from structcheck.analysis.frame import NodeLoad, PointOnMember
from structcheck.analysis.frame_model import Load
from structcheck.press.frame.understood import Ring
from structcheck.press.frame_schema import Dial
from structcheck.record import record


@record
class Gauge:
    """A dial: what it reads, and the pair of loads that finds it."""

    name: str
    loads: tuple[Load, ...]


def gauges(ring: Ring, dials: Sequence[Dial]) -> tuple[Gauge, ...]:
    """The dials that are always read, then the user's."""
    L, h = ring.span, ring.height
    found = [_from_chord(beam, L / 2, L, f"{beam}, middle against its ends") for beam in ("head", "bed")]
    for side in ("left", "right"):
        apart = (NodeLoad(f"head/{side}", (0, 0, 1.0)), NodeLoad(f"bed/{side}", (0, 0, -1.0)))
        found.append(Gauge(f"gap at the {side} upright", apart))
    for side, inwards in (("left", 1.0), ("right", -1.0)):
        bow = (
            PointOnMember(f"{side} upright", h / 2, (inwards, 0, 0)),
            NodeLoad(f"head/{side}", (-inwards / 2, 0, 0)),
            NodeLoad(f"bed/{side}", (-inwards / 2, 0, 0)),
        )
        found.append(Gauge(f"{side} upright, middle inwards", bow))
    found += [_from_chord(d.on, d.at, L, f"{d.on}, {d.at:g} mm from the left, against its ends") for d in dials]
    return tuple(found)


def _from_chord(beam: str, x: float, span: float, name: str) -> Gauge:
    way = 1.0 if beam == "head" else -1.0
    ends = (NodeLoad(f"{beam}/left", (0, 0, -way * (1 - x / span))), NodeLoad(f"{beam}/right", (0, 0, -way * x / span)))
    return Gauge(name, (PointOnMember(beam, x, (0, 0, way)), *ends))
