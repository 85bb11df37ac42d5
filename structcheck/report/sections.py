"""Stock sizes as a table and as JSON."""

from collections.abc import Mapping, Sequence
from typing import Any

from tabulate import tabulate

from structcheck.findings import CAUTION
from structcheck.report.as_json import dumps
from structcheck.shapes.section import Section
from structcheck.showing import in_unit

PROPERTIES: Mapping[str, str] = {
    "A": "cm2",
    "Avy": "cm2",
    "Avz": "cm2",
    "Asy": "cm2",
    "Asz": "cm2",
    "Iy": "cm4",
    "Iz": "cm4",
    "Wel_y": "cm3",
    "Wel_z": "cm3",
    "Wpl_y": "cm3",
    "Wpl_z": "cm3",
    "i_y": "mm",
    "i_z": "mm",
    "It": "cm4",
    "Wt": "cm3",
    "Iw": "cm6",
    "mass": "kg/m",
}
"""Unit of each property; y is the strong axis."""

SKEW: Mapping[str, str] = {"Iyz": "cm4", "Iu": "cm4", "Iv": "cm4", "i_v": "mm", "alpha": "deg"}
"""Principal axes, where they are not y and z."""

CENTRE: Mapping[str, str] = {"y_s": "mm", "z_s": "mm"}
"""Shear centre from the centroid, where the two differ."""

_COLUMNS = ("mass", "A", "Iy", "Iz", "Wel_y", "Wel_z", "Wpl_y", "Wpl_z", "It", "Avz", "Asz")


def as_text(sections: Sequence[Section]) -> str:
    """A row for each size."""
    rows = [
        (s.designation, s.standard, *(_figure(_property(s, name, PROPERTIES[name])) for name in _COLUMNS))
        for s in sections
    ]
    headers = ("designation", "standard", *(f"{name}\n{PROPERTIES[name]}" for name in _COLUMNS))
    table = tabulate(
        rows, headers=headers, tablefmt="simple", disable_numparse=True, colalign=("left", "left", *["right"] * 11)
    )
    notes = "y is the strong axis. Avz: shear area of EN 1993-1-1 6.2.6 (eta 1.0); Asz: shear area for deflection."
    return f"{table}\n\n{notes}\nComputed from nominal dimensions; measure what you buy.\n\n{CAUTION}"


def as_json(sections: Sequence[Section]) -> str:
    """The JSON contract of the listing."""
    return dumps({"schema": 1, "sections": [_as_dict(section) for section in sections], "caution": CAUTION})


def _as_dict(section: Section) -> dict[str, Any]:
    return {
        "designation": section.designation,
        "family": section.family,
        "standard": section.standard,
        "dimensions": {name: {"value": value, "unit": "mm"} for name, value in section.dimensions.items()},
        "properties": {
            name: {"value": _property(section, name, unit), "unit": unit} for name, unit in _listed(section).items()
        },
    }


def _listed(section: Section) -> Mapping[str, str]:
    """The properties worth telling of this section, with their units."""
    skew = SKEW if abs(section.Iyz) > 1e-9 * section.Iy else {}
    apart = CENTRE if max(abs(section.y_s), abs(section.z_s)) > 1e-9 else {}
    return {**PROPERTIES, **skew, **apart}


def _property(section: Section, name: str, unit: str) -> float:
    value = float(getattr(section, name))
    return value if name == "mass" else in_unit(value, unit)


def _figure(value: float) -> str:
    return f"{value:.4g}" if value < 1e4 else f"{value:.0f}"
