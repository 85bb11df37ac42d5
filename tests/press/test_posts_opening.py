"""Plates on four posts give both ways: against plate elements of another library, and whichever way they are told."""

import copy
import re
import tomllib
from pathlib import Path

import numpy as np
import pytest
from skfem import Basis, BilinearForm, ElementTriMorley, LinearForm, MeshTri, condense, solve
from skfem.helpers import dd, ddot, eye, trace

from structcheck.questions import check_press

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
POSTS = tomllib.loads((EXAMPLES / "veneer_press_on_posts.toml").read_text(encoding="utf-8"))
RATED = 5 * 9806.65
OVER, PAD, E, NU = 50.0, 120.0, 210_000.0, 0.3


def press(span, spacing, limit):
    told = copy.deepcopy(POSTS)
    told["frame"] |= {"span": f"{span} mm", "spacing": f"{spacing} mm"}
    for beam in ("head", "bed"):
        told[beam]["width"] = f"{spacing + 2 * OVER:g} mm"
    told["limits"] = {"opening": limit}
    del told["platen"], told["guide"], told["guides"]
    return check_press(told)


def opening(span, spacing):
    return next(f for f in press(span, spacing, "1 mm").findings if f.check == "opening")


def plate_under_pad(span, spacing, t):
    """How far the middle of a plate on four points gives under the rated force on its pad (Kirchhoff, Morley), mm."""
    length, width = span + 2 * OVER, spacing + 2 * OVER
    mesh = MeshTri.init_tensor(np.linspace(0, length, int(length / 10) + 1), np.linspace(0, width, int(width / 10) + 1))
    basis = Basis(mesh, ElementTriMorley(), intorder=4)
    D = E * t**3 / 12 / (1 - NU**2)

    @BilinearForm
    def bending(u, v, w):
        return ddot(D * ((1 - NU) * dd(u) + NU * eye(trace(dd(u)), 2)), dd(v))

    @LinearForm
    def pressed(v, w):
        inside = (abs(w.x[0] - length / 2) < PAD / 2) & (abs(w.x[1] - width / 2) < PAD / 2)
        return RATED / PAD**2 * inside * v

    def node(x, y):
        return int(basis.nodal_dofs[0, np.argmin(np.hypot(mesh.p[0] - x, mesh.p[1] - y))])

    held = np.array([node(x, y) for x in (OVER, length - OVER) for y in (OVER, width - OVER)])
    return solve(*condense(bending.assemble(basis), pressed.assemble(basis), D=held))[node(length / 2, width / 2)]


@pytest.mark.parametrize(("span", "spacing"), [(400, 400), (260, 420), (420, 260)])
def test_the_opening_is_no_less_than_plates_on_four_points_give(span, spacing):
    """derived: plate elements of scikit-fem for head and bed, both 50 mm, and the stretch of four posts of M36."""
    stretch = RATED / 4 * 550 / (E * 817)
    found = opening(span, spacing).demand.value
    plates = 2 * plate_under_pad(span, spacing, 50.0)
    assert plates + stretch < found < 1.8 * plates + stretch


def test_plates_told_the_other_way_round_give_nearly_as_much():
    """The same press, span and spacing changed over; it gave a third of the other once."""
    assert opening(260, 420).demand.value == pytest.approx(opening(420, 260).demand.value, rel=0.25)


def test_energy_and_split_tell_of_the_plates_across():
    answers = press(260, 420, "1 mm").as_dict()["answers"]
    most = next(a for a in answers if "at the most" in a)
    least = next(a for a in answers if "at the least" in a)
    given = [float(x) for x in re.findall(r" ([\d.]+)[,;]", most)]
    total = float(re.search(r": ([\d.]+) mm", most)[1])
    assert sum(given) == pytest.approx(total, abs=3e-3)
    assert "plates across" not in least
    energy = float(next(re.search(r": (\d+) J", a)[1] for a in answers if a.startswith("energy")))
    assert energy == pytest.approx(1.1**2 * RATED * total / 2e3, abs=0.6)
