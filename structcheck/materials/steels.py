"""Structural steels: yield and tensile strength by thickness, correlation factor of fillet welds, and what may be said.

The figures stand in one TOML file per edition beside this module, each with its source and provenance.
"""

import difflib
import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from structcheck.errors import NotCovered, Problem, UnknownName

PRODUCT_STANDARD = "product standard"
EN_1993 = "EN 1993-1-1"
STRENGTHS = (PRODUCT_STANDARD, EN_1993)

_DATA = Path(__file__).parent
_PLATE_FILES = {PRODUCT_STANDARD: "en_10025_2_2019.toml", EN_1993: "en_1993_1_1_2005.toml"}
_TUBE_FILES = {
    ("hot finished", PRODUCT_STANDARD): "en_10210_1_2006.toml",
    ("cold formed", PRODUCT_STANDARD): "en_10219_1_2006.toml",
    ("hot finished", EN_1993): "en_1993_1_1_2005.toml",
    ("cold formed", EN_1993): "en_1993_1_1_2005.toml",
}


@dataclass(frozen=True)
class Steel:
    """A steel as it is relied on.

    name       "S275"
    source     standard and edition of the strengths
    steps      (thickness up to and including, f_y, f_u) in mm, MPa, MPa, thinnest first
    beta_w     correlation factor of EN 1993-1-8 Table 4.1; None where that table has no row (US steels)
    in_en1993  strength checks of EN 1993 cover it (not S185)
    weldable   known to be weldable without further measures
    assumed    nobody stated it: taken as S235, and not welded until the user says weldable
    imperial   a US grade: no EN weld or buckling row is assumed
    """

    name: str
    source: str
    steps: tuple[tuple[float, float, float], ...]
    beta_w: float | None
    in_en1993: bool = True
    weldable: bool = True
    assumed: bool = False
    imperial: bool = False

    def strengths(self, t: float) -> tuple[float, float]:
        """(f_y, f_u) in MPa at thickness t in mm. Raises NotCovered beyond the thickness the standard lists."""
        for limit, f_y, f_u in self.steps:
            if t <= limit:
                return f_y, f_u
        raise NotCovered(
            f"{self.name} has no strength at {t:g} mm in {self.source} (listed to {self.steps[-1][0]:g} mm)"
        )

    def f_y(self, t: float) -> float:
        """Yield strength in MPa at thickness t in mm."""
        return self.strengths(t)[0]

    def f_u(self, t: float) -> float:
        """Tensile strength in MPa at thickness t in mm."""
        return self.strengths(t)[1]

    @property
    def condition(self) -> str:
        """What must be confirmed where the steel is assumed, else empty."""
        return f"f_y >= {self.steps[0][1]:g} MPa" if self.assumed else ""


@cache
def _table(file: str) -> Mapping[str, Any]:
    return tomllib.loads((_DATA / file).read_text(encoding="utf-8"))


def grades() -> tuple[str, ...]:
    """Every grade that can be asked for."""
    return tuple(sorted({*_table("en_10025_2_2019.toml")["grade"], *_table("astm.toml")["grade"]}))


def find_steel(text: str, *, route: str = "plate", strengths: str = PRODUCT_STANDARD, key: str = "steel") -> Steel:
    """The steel of a grade as a product of the given route.

    text       "S275", "S355J2H", "A36", or "unknown": then S235, assumed
    route      "plate" for plate and rolled sections, "hot finished" or "cold formed" for hollow sections
    strengths  "product standard" (the lower) or "EN 1993-1-1" (its Table 3.1)

    Raises UnknownName with the nearest grades.
    """
    name = "".join(text.upper().split()) if isinstance(text, str) and len(text) <= 60 else ""
    if name in ("UNKNOWN", "?"):
        return _make("S235", _file(route, strengths), route, assumed=True)
    american = _american(name)
    if american:
        return _make(american, "astm.toml", route)
    for grade in _table("en_10025_2_2019.toml")["grade"]:
        if name == grade or (name.startswith(grade) and name[len(grade) :] in _SUFFIXES):
            return _make(grade, _file(route, strengths), route)
    raise _unknown(str(text), key)


_SUFFIXES = ("JR", "J0", "J2", "K2", "JO", "J0H", "J2H", "JRH", "K2H", "JOH", "H", "+AR", "+N", "JR+AR", "J2+N")


def _american(name: str) -> str:
    squeezed = name.replace("ASTM", "").replace("GR.", "").replace("GRADE", "").replace("-", "").replace("GR", "")
    return next((g for g in _table("astm.toml")["grade"] if g.replace(" ", "") == squeezed), "")


def _file(route: str, strengths: str) -> str:
    return _TUBE_FILES.get((route, strengths), _PLATE_FILES[strengths])


@cache
def _make(grade: str, file: str, route: str, *, assumed: bool = False) -> Steel:
    table = _table(file)
    rows: Sequence[Mapping[str, Any]] = table["grade"].get(grade, ())
    fitting = [row for row in rows if route in row.get("routes", (route,))]
    if not fitting:  # a grade that this product is not made in, or that EN 1993-1-1 leaves out: its plate standard
        table = _table("astm.toml" if file == "astm.toml" else _PLATE_FILES[PRODUCT_STANDARD])
        fitting = table["grade"][grade]
    row = fitting[0]
    return Steel(
        name=grade,
        source=table["source"],
        steps=tuple((float(t), float(f_y), float(f_u)) for t, f_y, f_u in row["steps"]),
        beta_w=row.get("beta_w", table.get("beta_w", {}).get(grade))
        or _table("en_1993_1_8_2005.toml")["beta_w"].get(grade),
        in_en1993=row.get("in_en1993", True),
        weldable=row.get("weldable", True) and not assumed,
        assumed=assumed,
        imperial=file == "astm.toml",
    )


_CLASS = re.compile(r"\d{1,2}\.\d", re.ASCII)


def _fault(text: str) -> str:
    """Why a text is no steel; the class of a bolt is often written for one."""
    return "is the class of a bolt, not a steel" if _CLASS.fullmatch(text.strip()) else "is a steel nobody here knows"


def _unknown(text: str, key: str) -> UnknownName:
    known = grades()
    near = difflib.get_close_matches(text.upper(), known, n=3, cutoff=0.4)
    says = f"{key} " if key.startswith("--") else f"{key} = "
    return UnknownName(
        Problem(
            key=key,
            given=f'"{text[:60]}"',
            fault=_fault(text),
            wanted=f'one of {", ".join(known)}, or "unknown"',
            remedy=" or ".join(f'{says}"{name}"' for name in near) or f'{says}"unknown"',
        )
    )
