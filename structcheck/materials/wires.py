"""Spring wire: least tensile strength by class and diameter, shear and elastic modulus."""

import math
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from structcheck.errors import NotCovered, Problem, UnknownName

GRADES = ("SL", "SM", "DM", "SH", "DH")

BAND = 1.06
"""Width of a band of diameters in which EN 10270-1 gives one strength, about (memory)."""


@dataclass(frozen=True)
class Wire:
    """A class of patented wire to EN 10270-1.

    G, E     moduli in MPa
    assumed  nobody stated the class: the weakest, SL, is taken
    """

    grade: str
    G: float
    E: float
    source: str
    assumed: bool = False

    def R_m(self, d: float) -> float:
        """Least tensile strength in MPa of wire of diameter d in mm. Raises NotCovered outside 1 to 10 mm.

        The standard steps by bands of diameter that are not all here: between the listed ones the strength is read a
        band further up, at the smaller of 1.06 d and the next listed diameter, so that it is never too high.
        """
        table = _table()
        diameters = table["diameters"]
        strengths = table["R_m"]["S" + self.grade[1]]
        if not diameters[0] <= d <= diameters[-1]:
            raise NotCovered(f"no strength of wire {d:g} mm: the table here runs from 1 to 10 mm ({self.source})")
        if d in diameters:
            return float(strengths[diameters.index(d)])
        k = next(i for i, listed in enumerate(diameters) if listed > d)
        read_at = min(BAND * d, diameters[k])
        share = math.log(read_at / diameters[k - 1]) / math.log(diameters[k] / diameters[k - 1])
        return 10.0 * math.floor((strengths[k - 1] + share * (strengths[k] - strengths[k - 1])) / 10)

    @property
    def condition(self) -> str:
        """What must be confirmed where the class is assumed, else empty."""
        return "the wire is at least class SL of EN 10270-1" if self.assumed else ""


@cache
def _table() -> dict[str, Any]:
    return tomllib.loads((Path(__file__).parent / "en_10270_1_2011.toml").read_text(encoding="utf-8"))


def find_wire(text: str, key: str = "grade") -> Wire:
    """The wire class written "SM"; "unknown" takes SL, the weakest. Raises UnknownName."""
    table = _table()
    name = text.strip().upper() if isinstance(text, str) else ""
    if name in GRADES:
        return Wire(name, table["G"], table["E"], table["source"])
    if name in ("UNKNOWN", "?"):
        return Wire("SL", table["G"], table["E"], table["source"], assumed=True)
    says = f"{key} " if key.startswith("--") else f"{key} = "
    raise UnknownName(
        Problem(
            key=key,
            given=f'"{str(text)[:60]}"',
            fault="is not a wire class known here",
            wanted=f'one of {", ".join(GRADES)} (EN 10270-1), or "unknown"',
            remedy=f'{says}"SM"',
        )
    )
