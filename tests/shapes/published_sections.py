"""The published section figures: reading them, and what the package says for each."""

import csv
from pathlib import Path

from structcheck.shapes.angles import Angle
from structcheck.shapes.bars import Rectangle
from structcheck.shapes.channels import Channel
from structcheck.shapes.hollow import AmericanHollow, AmericanTube, Hollow, Tube
from structcheck.shapes.rolled import RolledI, WideFlange

FILE = Path(__file__).resolve().parent.parent / "reference" / "sections.csv"
INCH = 25.4
SCALE = {
    "mm": 1.0,
    "cm": 10.0,
    "cm2": 1e2,
    "cm3": 1e3,
    "cm4": 1e4,
    "cm6": 1e6,
    "kg/m": 1.0,
    "lb/ft": 0.45359237 / 0.3048,
}
SCALE |= {"in": INCH, "in2": INCH**2, "in3": INCH**3, "in4": INCH**4, "in6": INCH**6}
BOX = ("h", "b", "t", "ro", "ri")


def rows(provenance: str) -> list[dict[str, str]]:
    """The rows of one provenance."""
    with open(FILE, newline="", encoding="utf-8") as file:
        return [row for row in csv.DictReader(file) if row["provenance"] == provenance]


def name(row: dict[str, str]) -> str:
    """What to call a row in a test report."""
    return f"{row['designation']} {row['standard']} {row['quantity']}"


def shape(row: dict[str, str]):
    """The shape of the dimensions the source gives, radii included."""
    cells = dict(pair.split("=") for pair in row["dims"].split(";"))
    american = cells.pop("unit", "") == "in"
    place, slope = cells.pop("tf_at_u", "b/2"), float(cells.pop("slope", 0.0))
    d = {key: float(value) * (INCH if american else 1.0) for key, value in cells.items()}
    if "D" in d:
        return AmericanTube(d["D"], d["t"], d["t"] / 0.93) if american else Tube(d["D"], d["t"])
    if "ro" in d:
        box = [d[key] for key in BOX]
        return AmericanHollow(*box, d["t"] / 0.93) if american else Hollow(*box)
    if "r" in d:
        return (WideFlange if american else RolledI)(d["h"], d["b"], d["tw"], d["tf"], d["r"])
    if "tw" in d:
        u = d["b"] / 2 if place == "b/2" else (d["b"] - d["tw"]) / 2
        return Channel(d["h"], d["b"], d["tw"], d["tf"], d["r1"], d.get("r2", 0.0), slope, u)
    if "r1" in d:
        return Angle(d["h"], d["b"], d["t"], d["r1"], d["r2"])
    return Rectangle(d["b"], d["t"])


def computed(row: dict[str, str], own) -> float:
    """The package's value of a row's quantity, in the row's unit."""
    quantity = row["quantity"]
    if quantity == "Ct":
        value = own.C if isinstance(own, AmericanHollow) else own.Wt
    elif quantity == "Sy_half":
        value = own.Wpl_y / 2
    elif quantity == "zs" and isinstance(own, Channel):
        value = own.centroid[0]
    elif quantity in ("ys", "zs"):
        value = own.centroid["ys zs".split().index(quantity)]
    elif quantity == "ym":
        value = -own.y_s
    else:
        value = getattr(own, quantity)
    return float(value) / SCALE[row["unit"]]
