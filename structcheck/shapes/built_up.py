"""Sections welded from plates: I, box, channel, T, a rib with part of its plate, any list of rectangles."""

from collections.abc import Sequence
from dataclasses import dataclass

from structcheck.errors import InputError, Problem
from structcheck.shapes.channels import Channel
from structcheck.shapes.families import WELDED
from structcheck.shapes.net import first_moment
from structcheck.shapes.rolled import RolledI
from structcheck.shapes.section import Section
from structcheck.shapes.shape import Shape, check_axis
from structcheck.shapes.strips import Cell, Strip, Strips, refuse_flat


@dataclass(frozen=True, eq=False)
class WeldedI(RolledI):
    """Doubly symmetric I welded from three plates; the welds are not counted (r = 0)."""

    def shear_area(self, axis: str, eta: float = 1.0) -> float:
        """EN 1993-1-1 6.2.6(3) d, e: the web along it, else what is left."""
        check_axis(axis)
        web = self.hw * self.tw
        return eta * web if axis == "z" else self.A - web


@dataclass(frozen=True, eq=False)
class WeldedChannel(Channel):
    """Channel welded from three plates, or bent sharp; the welds are not counted."""

    def shear_area(self, axis: str, eta: float = 1.0) -> float:
        """EN 1993-1-1 6.2.6(3) d, e: the web along it, else what is left."""
        check_axis(axis)
        web = self.hw * self.tw
        return eta * web if axis == "z" else self.A - web


def _section(designation: str, shape: Shape, **dimensions: float) -> Section:
    return Section(designation, "", "plates of the user", WELDED, dimensions, geometry=shape)


def welded_i(
    h: float, b: float, tw: float, tf: float, b_bottom: float | None = None, tf_bottom: float | None = None
) -> Section:
    """I of depth h from a web tw and flanges b x tf; the lower one may differ. mm."""
    b_2, t_2 = b if b_bottom is None else b_bottom, tf if tf_bottom is None else tf_bottom
    refuse_flat("welded I", h=h, b=b, tw=tw, tf=tf, b_bottom=b_2, tf_bottom=t_2, hw=h - tf - t_2)
    name = f"welded I {h:g}x{b:g}x{tw:g}x{tf:g}"
    if (b_2, t_2) == (b, tf):
        return _section(name, WeldedI(h, b, tw, tf, 0.0), h=h, b=b, tw=tw, tf=tf, r=0.0)
    strips = (
        Strip(-b / 2, b / 2, h - tf, h, "both sides"),
        Strip(-b_2 / 2, b_2 / 2, 0.0, t_2, "both sides"),
        Strip(-tw / 2, tw / 2, t_2, h - tf),
    )
    I_1, I_2, lever = tf * b**3 / 12, t_2 * b_2**3 / 12, h - tf / 2 - t_2 / 2
    shape = Strips(
        strips,
        centre=(0.0, t_2 / 2 + lever * I_1 / (I_1 + I_2)),
        Iw=I_1 * I_2 / (I_1 + I_2) * lever**2,
        web_and_flange=(h, min(b, b_2), tw, min(tf, t_2), 0.0, 1),
    )
    return _section(f"{name}, {b_2:g}x{t_2:g}", shape, h=h, b=b, tw=tw, tf=tf, b_bottom=b_2, tf_bottom=t_2)


def welded_box(h: float, b: float, tw: float, tf: float, overhang: float = 0.0, closed: bool = True) -> Section:
    """Box of depth h and width b over the webs' outer faces; the flanges may stand out beyond them. mm.

    closed  all four seams are welded along their whole length; one missing seam leaves the torsion of a slit tube
    """
    refuse_flat("welded box", h=h, b=b, tw=tw, tf=tf, hw=h - 2 * tf, inside=b - 2 * tw)
    if not overhang >= 0:
        raise InputError(Problem("overhang", f"{overhang:g} mm", "is no overhang", "0 or more", part="welded box"))
    out, inner = b / 2 + overhang, b / 2 - tw
    webs = [Strip(*sorted((p * b / 2, p * inner)), tf, h - tf, "internal", "web") for p in (-1, 1)]
    flanges = [
        strip
        for z in (0.0, h - tf)
        for strip in (
            Strip(-inner, inner, z, z + tf, "internal", "flange"),
            *(Strip(*sorted((p * inner, p * out)), z, z + tf, "outstand", "flange") for p in (-1, 1)),
        )
    ]
    wide, deep = b - tw, h - tf
    cell = Cell(wide * deep, 2 * (wide / tf + deep / tw), min(tw, tf)) if closed else None
    centre = (0.0, h / 2) if closed else None
    shape = Strips(
        (*webs, *flanges),
        cell=cell,
        centre=centre,
        web_and_flange=(h, tw + 2 * overhang, tw, tf, 0.0, 2),
        slit=not closed,
    )
    name = f"welded box {h:g}x{b:g}x{tw:g}x{tf:g}" + ("" if closed else ", one seam open")
    return _section(name, shape, h=h, b=b, tw=tw, tf=tf, overhang=overhang)


def welded_channel(h: float, b: float, tw: float, tf: float) -> Section:
    """Channel of depth h and width b from three plates. mm."""
    refuse_flat("welded channel", h=h, b=b - tw, tw=tw, tf=tf, hw=h - 2 * tf)
    shape = WeldedChannel(h, b, tw, tf, 0.0, 0.0, 0.0, b / 2)
    return _section(f"welded channel {h:g}x{b:g}x{tw:g}x{tf:g}", shape, h=h, b=b, tw=tw, tf=tf)


def welded_t(h: float, b: float, tw: float, tf: float) -> Section:
    """T of depth h: a flange b x tf on top of a stem tw. mm."""
    refuse_flat("welded T", h=h, b=b, tw=tw, tf=tf, stem=h - tf)
    return _section(f"welded T {h:g}x{b:g}x{tw:g}x{tf:g}", _tee(h, b, tw, tf), h=h, b=b, tw=tw, tf=tf)


def rib_with_plate(rib: float, t: float, plate: float, width: float) -> Section:
    """A rib of depth `rib` and thickness t under `width` of a plate of thickness `plate` that works with it. mm."""
    refuse_flat("rib", rib=rib, t=t, plate=plate, width=width)
    shape = _tee(rib + plate, width, t, plate)
    return _section(f"rib {rib:g}x{t:g} under {width:g}x{plate:g}", shape, rib=rib, t=t, plate=plate, width=width)


def _tee(h: float, b: float, tw: float, tf: float) -> "Tee":
    strips = (Strip(-b / 2, b / 2, h - tf, h, "both sides"), Strip(-tw / 2, tw / 2, 0.0, h - tf, "outstand"))
    return Tee(strips, centre=(0.0, h - tf / 2), h=h, tw=tw, tf=tf)


@dataclass(frozen=True, eq=False)
class Tee(Strips):
    """A T: 6.2.6(3) has its own shear area; the shear centre lies in the flange and nothing warps."""

    h: float = 0.0
    tw: float = 0.0
    tf: float = 0.0

    def shear_area(self, axis: str, eta: float = 1.0) -> float:
        """EN 1993-1-1 6.2.6(3) c for a welded T: t_w (h - t_f / 2) along the stem, else what is left."""
        check_axis(axis)
        stem = self.tw * (self.h - self.tf / 2)
        return stem if axis == "z" else self.A - self.tw * (self.h - self.tf)


def from_rectangles(
    designation: str, rectangles: Sequence[tuple[float, float, float, float]], cell: Cell | None = None
) -> Section:
    """A section from any rectangles (y_1, y_2, z_1, z_2), mm, welded so that they act as one.

    Every plate is taken as an outstand over its whole length, the hardest row of Table 5.2, unless it is a solid
    block (thicker than a fifth of its length). A closed cell is counted only where it is stated.
    """
    strips = []
    for number, (y_1, y_2, z_1, z_2) in enumerate(rectangles, 1):
        refuse_flat(f"{designation}, rectangle {number}", width=y_2 - y_1, depth=z_2 - z_1)
        strip = Strip(y_1, y_2, z_1, z_2)
        strips.append(Strip(y_1, y_2, z_1, z_2, "solid" if strip.t > strip.long / 5 else "outstand"))
    if not strips:
        raise InputError(Problem("rectangles", "", "are none", "one or more rectangles", part=designation))
    return _section(designation, Strips(tuple(strips), cell=cell))


def shear_flow(section: Section, level: float, axis: str = "y") -> float:
    """Shear flow in the seams at a level from the centroid, per unit shear force, 1/mm: S / I; all runs together."""
    return first_moment(section, axis, level) / (section.Iy if axis == "y" else section.Iz)
