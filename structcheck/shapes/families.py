"""The families of stock sizes: which dimensions a row gives, and the shape they make."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from structcheck.shapes.angles import Angle
from structcheck.shapes.bars import Rectangle, Round
from structcheck.shapes.channels import Channel
from structcheck.shapes.hollow import (
    AmericanHollow,
    AmericanTube,
    Hollow,
    Tube,
    cold_radii,
    hot_radii,
)
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
    shape     from the row's dimensions (mm) and route to the shape; may add derived dimensions' values
    """

    name: str
    words: tuple[str, ...]
    files: tuple[str, ...]
    required: tuple[str, ...]
    optional: tuple[str, ...]
    routes: tuple[str, ...]
    shape: Callable[[Dimensions, str], Shape]

    @property
    def labelled(self) -> bool:
        """Whether the name alone leaves open how it was made."""
        return len(self.routes) > 1


def _hollow(d: Dimensions, route: str) -> Shape:
    ro, ri = cold_radii(d["t"]) if route == COLD else hot_radii(d["t"])
    return Hollow(d["h"], d["b"], d["t"], d.get("ro", ro), d.get("ri", ri))


def _american_hollow(d: Dimensions, route: str) -> Shape:
    t = DESIGN_WALL * d["t"]
    if "D" in d:
        return AmericanTube(d["D"], t, d["t"])
    return AmericanHollow(d["h"], d["b"], t, 2 * t, t, d["t"])


def _rolled(d: Dimensions, route: str) -> Shape:
    return RolledI(d["h"], d["b"], d["tw"], d["tf"], d["r"])


def _channel(d: Dimensions, route: str) -> Shape:
    return Channel(d["h"], d["b"], d["tw"], d["tf"], d["r1"], d["r2"], d["slope"] / 100, d["u"])


def _rectangle(d: Dimensions, route: str) -> Shape:
    """On edge: the depth is the wider of width b and thickness t."""
    return Rectangle(d["b"], d["t"])


HOLLOW = (COLD, HOT)
I_COLUMNS = ("h", "b", "tw", "tf", "r")
CHANNEL_COLUMNS = ("h", "b", "tw", "tf", "r1", "r2", "slope", "u")

FAMILIES: dict[str, Family] = {
    family.name: family
    for family in (
        Family("SHS", ("shs",), ("shs_cold.csv", "shs_hot.csv"), ("h", "b", "t"), ("ro", "ri"), HOLLOW, _hollow),
        Family("RHS", ("rhs",), ("rhs_cold.csv", "rhs_hot.csv"), ("h", "b", "t"), ("ro", "ri"), HOLLOW, _hollow),
        Family(
            "CHS",
            ("chs",),
            ("chs_cold.csv", "chs_hot.csv"),
            ("D", "t"),
            (),
            HOLLOW,
            lambda d, route: Tube(d["D"], d["t"]),
        ),
        Family("IPE", ("ipe",), ("ipe.csv",), I_COLUMNS, (), (ROLLED,), _rolled),
        Family("HEA", ("hea",), ("hea.csv",), I_COLUMNS, (), (ROLLED,), _rolled),
        Family("HEB", ("heb",), ("heb.csv",), I_COLUMNS, (), (ROLLED,), _rolled),
        Family("UPN", ("upn", "unp"), ("upn.csv",), CHANNEL_COLUMNS, (), (ROLLED,), _channel),
        Family("UPE", ("upe",), ("upe.csv",), CHANNEL_COLUMNS, (), (ROLLED,), _channel),
        Family(
            "L",
            ("l", "angle", "ea"),
            ("angles.csv",),
            ("h", "b", "t", "r1", "r2"),
            (),
            (ROLLED,),
            lambda d, route: Angle(d["h"], d["b"], d["t"], d["r1"], d["r2"]),
        ),
        Family("FL", ("fl", "flat", "flatbar"), ("flats.csv",), ("b", "t"), (), (BAR,), _rectangle),
        Family(
            "RD",
            ("rd", "round", "roundbar"),
            ("round_bars.csv",),
            ("D",),
            (),
            (BAR,),
            lambda d, route: Round(d["D"]),
        ),
        Family(
            "SQ",
            ("sq", "square", "squarebar"),
            ("square_bars.csv",),
            ("a",),
            (),
            (BAR,),
            lambda d, route: Rectangle(d["a"], d["a"]),
        ),
        Family("PL", ("pl", "plate"), ("plates.csv",), ("b", "t"), (), (PLATE,), _rectangle),
        Family("HSS", ("hss",), ("hss.csv",), ("h", "b", "t"), ("D",), (COLD,), _american_hollow),
        Family(
            "W",
            ("w",),
            ("w.csv",),
            I_COLUMNS,
            (),
            (ROLLED,),
            lambda d, route: WideFlange(*(d[name] for name in I_COLUMNS)),
        ),
        Family("C", ("c",), ("c.csv",), CHANNEL_COLUMNS, (), (ROLLED,), _channel),
    )
}
