"""The end plates the tests ask about: an invented corner of an IPE 160 on an HEA 140, and on a square tube."""

from dataclasses import replace

from structcheck.checks.basis import Basis, from_rated
from structcheck.checks.bolts_end_plate import EndPlate, EndPlateLoads, Support, check_end_plate
from structcheck.checks.end_plate_rows import AtLimit, fill
from structcheck.materials.bolts import find_class, find_size
from structcheck.materials.steels import find_steel
from structcheck.shapes.library import look_up

BASIS = Basis()
S235 = find_steel("S235")
HEA = look_up("HEA 140").section
IPE = look_up("IPE 160").section
SHS = look_up("SHS 120x120x6 cold").section

# Plate 15 x 140 x 210, M16 8.8 at gauge 76, rows 45 inside the flanges; HEA 140: m = 38 - 2.75 - 9.6.
CORNER = EndPlate(
    name="corner",
    size=find_size("M16"),
    bolt_class=find_class("8.8"),
    steel=S235,
    plate=15.0,
    width=140.0,
    depth=160.0,
    flange=7.4,
    flange_width=82.0,
    web=5.0,
    gauge=76.0,
    rows=(115.0, 45.0),
    top=185.0,
    past=25.0,
    web_throat=4.0,
    flange_throat=4.0,
    beam=IPE,
    beam_steel=S235,
    behind=8.5,
    behind_lever=25.65,
    behind_edge=32.0,
    behind_steel=S235,
    support=Support(HEA, S235),
)
EXTENDED = replace(CORNER, rows=(205.0, 115.0, 45.0), top=240.0, past=80.0)
ON_TUBE = replace(
    CORNER,
    width=120.0,
    gauge=60.0,
    rows=(115.0, 80.0),
    behind=None,
    behind_lever=None,
    behind_edge=None,
    behind_steel=None,
    support=Support(SHS, find_steel("S235", route="cold formed")),
)


def supported(part, **keys):
    """The same plate on a member that differs in this."""
    return replace(part, support=replace(part.support, **keys))


def loads(moment=0.0, pull=0.0, shear=0.0, pressed=0.0):
    """Rated, greatest and ultimate loads from those at rated force."""

    def make(case, f):
        return EndPlateLoads(case, moment * f, pull * f, shear * f, None if pressed is None else pressed * f)

    return from_rated(BASIS, make)


def answer(part, moment=0.0, pull=0.0, shear=0.0, pressed=0.0, basis=BASIS):
    """Findings by check."""
    return {f.check: f for f in check_end_plate(part, loads(moment, pull, shear, pressed), basis).findings}


def rows(part, judge, **state):
    """Rows borne by one part of the joint."""
    return fill(part, judge(part, AtLimit(**state), BASIS), BASIS)
