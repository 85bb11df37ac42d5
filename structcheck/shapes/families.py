"""The families of stock sizes: which dimensions a row gives, and the shape they make."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from structcheck.shapes.angles import Angle
from structcheck.shapes.bars import Rectangle, Round
from structcheck.shapes.channels import Channel
from structcheck.shapes.hollow import AmericanHollow, AmericanTube, Hollow, Tube, cold_radii, hot_radii
from structcheck.shapes.rolled import RolledI, WideFlange
from structcheck.shapes.shape import Shape

COLD, HOT, ROLLED, BAR, PLATE, WELDED = "cold formed", "hot finished", "rolled", "bar", "plate", "welded"
DESIGN_WALL = 0.93  # of the nominal wall, for ASTM A500 tubes
Dimensions = Mapping[str, float]


@dataclass(frozen=True)
class Family:
    """One family of sizes.

    name      as the designation starts, "SHS"
    words     other spellings, in small letters
    files     its data files
    required  columns of dimensions a row must have, in the order of the designation
    optional  columns a row may have
    routes    production routes a row may name; the first is taken where it names none
    shape     from the dimensions (mm) to the shape
    complete  fills in the dimensions the family's standard fixes, such as corner radii
    """

    name: str
    words: tuple[str, ...]
    files: tuple[str, ...]
    required: tuple[str, ...]
    optional: tuple[str, ...]
    routes: tuple[str, ...]
    shape: Callable[[Dimensions], Shape]
    complete: Callable[[Dimensions, str], Dimensions] = lambda d, route: d

    @property
    def labelled(self) -> bool:
        """Whether the name alone leaves open how it was made."""
        return len(self.routes) > 1


def _radii(d: Dimensions, route: str) -> Dimensions:
    ro, ri = cold_radii(d["t"]) if route == COLD else hot_radii(d["t"])
    return {"ro": float(ro), "ri": float(ri), **d}


def _design_wall(d: Dimensions, route: str) -> Dimensions:
    """From here on t is the design wall: nothing may be checked with the wall the tube is sold by."""
    t = DESIGN_WALL * d["t"]
    radii = {} if "D" in d else {"ro": 2 * t, "ri": t}
    return {**d, "t": t, "t_nominal": d["t"], **radii}


def _hollow(d: Dimensions) -> Shape:
    return Hollow(*(d[name] for name in ("h", "b", "t", "ro", "ri")))


def _tube(d: Dimensions) -> Shape:
    return Tube(d["D"], d["t"])


def _american_hollow(d: Dimensions) -> Shape:
    if "D" in d:
        return AmericanTube(d["D"], d["t"], d["t_nominal"])
    return AmericanHollow(*(d[name] for name in ("h", "b", "t", "ro", "ri", "t_nominal")))


def _rolled(d: Dimensions) -> Shape:
    return RolledI(*(d[name] for name in I_COLUMNS))


def _wide_flange(d: Dimensions) -> Shape:
    return WideFlange(*(d[name] for name in I_COLUMNS))


def _channel(d: Dimensions) -> Shape:
    return Channel(d["h"], d["b"], d["tw"], d["tf"], d["r1"], d["r2"], d["slope"] / 100, d["u"])


def _angle(d: Dimensions) -> Shape:
    return Angle(*(d[name] for name in ANGLE_COLUMNS))


def _rectangle(d: Dimensions) -> Shape:
    """On edge: the depth is the greater of width b and thickness t."""
    return Rectangle(max(d["b"], d["t"]), min(d["b"], d["t"]))


def _square(d: Dimensions) -> Shape:
    return Rectangle(d["a"], d["a"])


def _round(d: Dimensions) -> Shape:
    return Round(d["D"])


HOLLOW = (COLD, HOT)
RECTANGULAR = ("h", "b", "t")
I_COLUMNS = ("h", "b", "tw", "tf", "r")
CHANNEL_COLUMNS = ("h", "b", "tw", "tf", "r1", "r2", "slope", "u")
ANGLE_COLUMNS = ("h", "b", "t", "r1", "r2")

_ALL = (
    Family("SHS", ("shs",), ("shs_cold.csv", "shs_hot.csv"), RECTANGULAR, ("ro", "ri"), HOLLOW, _hollow, _radii),
    Family("RHS", ("rhs",), ("rhs_cold.csv", "rhs_hot.csv"), RECTANGULAR, ("ro", "ri"), HOLLOW, _hollow, _radii),
    Family("CHS", ("chs",), ("chs_cold.csv", "chs_hot.csv"), ("D", "t"), (), HOLLOW, _tube),
    Family("IPE", ("ipe",), ("ipe.csv",), I_COLUMNS, (), (ROLLED,), _rolled),
    Family("HEA", ("hea",), ("hea.csv",), I_COLUMNS, (), (ROLLED,), _rolled),
    Family("HEB", ("heb",), ("heb.csv",), I_COLUMNS, (), (ROLLED,), _rolled),
    Family("UPN", ("upn", "unp"), ("upn.csv",), CHANNEL_COLUMNS, (), (ROLLED,), _channel),
    Family("UPE", ("upe",), ("upe.csv",), CHANNEL_COLUMNS, (), (ROLLED,), _channel),
    Family("L", ("l", "angle", "ea"), ("angles.csv",), ANGLE_COLUMNS, (), (ROLLED,), _angle),
    Family("FL", ("fl", "flat", "flatbar"), ("flats.csv",), ("b", "t"), (), (BAR,), _rectangle),
    Family("RD", ("rd", "round", "roundbar"), ("round_bars.csv",), ("D",), (), (BAR,), _round),
    Family("SQ", ("sq", "square", "squarebar"), ("square_bars.csv",), ("a",), (), (BAR,), _square),
    Family("PL", ("pl", "plate"), ("plates.csv",), ("b", "t"), (), (PLATE,), _rectangle),
    Family("HSS", ("hss",), ("hss.csv",), RECTANGULAR, ("D",), (COLD,), _american_hollow, _design_wall),
    Family("W", ("w",), ("w.csv",), I_COLUMNS, (), (ROLLED,), _wide_flange),
    Family("C", ("c",), ("c.csv",), CHANNEL_COLUMNS, (), (ROLLED,), _channel),
)
FAMILIES: dict[str, Family] = {family.name: family for family in _ALL}
