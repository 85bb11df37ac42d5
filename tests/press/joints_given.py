"""Joints of every kind as a press file gives them, and how the tests ask about them."""

import tomllib
from pathlib import Path

from structcheck.press.cases import jack_forces
from structcheck.press.load_path import frame_answer
from structcheck.press.model import setting_of
from structcheck.press.reading import press_of
from structcheck.questions import check_press

ROOT = Path(__file__).resolve().parents[2]
GLUING = tomllib.loads((ROOT / "examples" / "gluing_press_as_drawn.toml").read_text(encoding="utf-8"))
JACK = {"rating": "40 kN", "relief": "50 kN"}

PLATE = {
    "name": "corner plate",
    "size": "M16",
    "class": "8.8",
    "plate": "15 mm",
    "width": "120 mm",
    "steel": "S235",
    "gauge": "70 mm",
    "rows": ["40 mm", "120 mm"],
    "top": "165 mm",
    "web_throat": "3 mm",
    "flange_throat": "4 mm",
}
ROD = {"name": "rods", "size": "M20", "class": "4.6", "length": "900 mm", "count": 4}
TUBE = {
    "name": "tube corner",
    "chord": "SHS 100x100x5 cold",
    "chord_steel": "S235",
    "brace": "SHS 80x80x4 cold",
    "throat": "6 mm",
    "cross": False,
    "beyond": "120 mm",
    "inspected": True,
}
BUTT = {"name": "butt", "length": "100 mm", "thickness": "10 mm", "steel": "S235", "run_off": True, "inspected": True}
FLANGE = {
    "name": "hanger",
    "base": "IPE 160",
    "base_steel": "S235",
    "width": "80 mm",
    "thickness": "10 mm",
    "steel": "S235",
    "throat": "6 mm",
}
CROSS = {
    "name": "jack plate",
    "gap": "80 mm",
    "along": "140 mm",
    "thickness": "25 mm",
    "steel": "S235",
    "throat": "5 mm",
    "wall": "8 mm",
    "wall_depth": "120 mm",
    "both": True,
    "inspected": True,
}
FOOT = {
    "name": "foot",
    "section": "HEA 140",
    "length": "240 mm",
    "width": "240 mm",
    "thickness": "20 mm",
    "steel": "S235",
    "concrete": "20 MPa",
}
CONTACT = {"name": "pin on seat", "diameter": "30 mm", "length": "20 mm", "steel": "S355"}


def runs(*ys, half=60.0, throat="3 mm"):
    """Upright runs side by side across the frame."""
    return [
        {"start": ["0 mm", f"{y} mm", f"{-half} mm"], "end": ["0 mm", f"{y} mm", f"{half} mm"], "throat": throat}
        | {"sides": "both"}
        for y in ys
    ]


GROUP = {"name": "fillets", "steel": "S235", "inspected": True, "runs": runs(-2.5, 2.5)}

ALL = [
    ("end_plate", PLATE | {"section": "IPE 160", "moment": "3 kN m"}),
    ("rod", ROD | {"pull": 1.0}),
    ("tube_joint", TUBE | {"pull": 1.0, "chord_stress": "0 MPa"}),
    ("butt", BUTT | {"across": 1.0}),
    ("plate_on_flange", FLANGE | {"pull": 1.0}),
    ("weld_group", GROUP | {"force": 1.0}),
    ("cross_plate", CROSS | {"load": 1.0}),
    ("contact", CONTACT | {"force": 1.0}),
    ("base_plate", FOOT | {"push": 1.0}),
]


def press(**parts):
    return check_press({"schema": 1, "jack": JACK} | parts)


def found(result, part):
    return {f.check: f for f in result.findings if f.part == part}


def gluing(**changes):
    """The gluing press without its bolts and welds, with other joints in their place."""
    kept = {key: value for key, value in GLUING.items() if key not in ("bolts", "weld")}
    return {key: value for key, value in (kept | changes).items() if value is not None}


def ends(data, place):
    """What the frame puts on a place."""
    described = press_of(data)
    forces = jack_forces(described.jack, described.basis)
    answer = frame_answer(described, forces, setting_of(described, forces))
    return list(answer.ends[place])
