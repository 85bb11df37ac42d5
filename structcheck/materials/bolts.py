"""Bolts: property classes of EN 1993-1-8 and coarse threads of ISO 898-1."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from structcheck.errors import Problem, UnknownName

_DATA = Path(__file__).parent


@cache
def _table(file: str) -> dict[str, Any]:
    return tomllib.loads((_DATA / file).read_text(encoding="utf-8"))


@dataclass(frozen=True)
class BoltClass:
    """A property class.

    f_yb, f_ub  nominal strengths in MPa (EN 1993-1-8 Table 3.1)
    covered     Table 3.1 has it; 12.9 is outside and strength checks on it are not done
    assumed     no mark on the head: f_ub 400 MPa and the lower shear factor, the worse of 4.6 and 4.8
    """

    name: str
    f_yb: float
    f_ub: float
    source: str
    covered: bool = True
    assumed: bool = False

    @property
    def alpha_v(self) -> float:
        """Shear factor with the thread in the plane (Table 3.4): 0.6 for 4.6, 5.6 and 8.8, else 0.5."""
        return 0.6 if self.name in ("4.6", "5.6", "8.8") else 0.5

    @property
    def condition(self) -> str:
        """What must be confirmed where the class is assumed, else empty."""
        return f"f_ub >= {self.f_ub:g} MPa" if self.assumed else ""


@dataclass(frozen=True)
class BoltSize:
    """A coarse-thread size: shank d, pitch, stress area A_s (rounded as in the standard), head sizes; mm and mm2."""

    name: str
    d: float
    pitch: float
    A_s: float
    s_min: float
    e_min: float
    source: str

    @property
    def d_m(self) -> float:
        """Mean of the distances across points and flats of head or nut (EN 1993-1-8 1.5), from the least sizes."""
        return (self.s_min + self.e_min) / 2


def find_class(text: str, key: str = "class") -> BoltClass:
    """The property class written "8.8"; "unknown" takes the worse of 4.6 and 4.8. Raises UnknownName."""
    table = _table("en_1993_1_8_2005.toml")
    name = text.strip().lower() if isinstance(text, str) else ""
    if name in table["bolt_class"]:
        f_yb, f_ub = table["bolt_class"][name]
        return BoltClass(name, float(f_yb), float(f_ub), "EN 1993-1-8:2005 Table 3.1")
    if name == "12.9":
        return BoltClass(name, 1080.0, 1200.0, "ISO 898-1:2013", covered=False)
    if name in ("unknown", "?", "unmarked"):
        return BoltClass("unmarked", 240.0, 400.0, "EN 1993-1-8:2005 Table 3.1", assumed=True)
    known = (*table["bolt_class"], "12.9")
    raise _unknown(text, key, "a property class", f'{", ".join(known)}, or "unknown"', "8.8")


def find_size(text: str, key: str = "size") -> BoltSize:
    """The size written "M16". Raises UnknownName with the nearest."""
    table = _table("iso_898_1_2013.toml")
    name = "".join(text.upper().split()) if isinstance(text, str) else ""
    if name in table["bolt"]:
        return BoltSize(name, source=table["source"], **{k: float(v) for k, v in table["bolt"][name].items()})
    digits = name.lstrip("M")
    wanted = float(digits) if digits.replace(".", "", 1).isdigit() and len(digits) < 6 else 16.0
    near = min(table["bolt"], key=lambda known: abs(table["bolt"][known]["d"] - wanted))
    raise _unknown(text, key, "a bolt size", ", ".join(table["bolt"]), near)


def sizes() -> tuple[str, ...]:
    """The sizes there are, smallest first."""
    return tuple(_table("iso_898_1_2013.toml")["bolt"])


def _unknown(text: Any, key: str, what: str, wanted: str, near: str) -> UnknownName:
    says = f"{key} " if key.startswith("--") else f"{key} = "
    return UnknownName(
        Problem(
            key=key,
            given=f'"{str(text)[:60]}"',
            fault=f"is not {what} known here",
            wanted=f"one of {wanted}",
            remedy=f'{says}"{near}"',
        )
    )
