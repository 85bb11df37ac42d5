"""Many sizes at once give what each size gives, and starting up stays light."""

import subprocess
import sys

import numpy as np
import pytest

from structcheck.shapes.library import library
from structcheck.shapes.section import QUANTITIES
from structcheck.shapes.sweep import gathered

GROUPS = gathered(library())


@pytest.mark.parametrize(("places", "shape"), GROUPS, ids=[type(shape).__name__ for _, shape in GROUPS])
def test_a_sweep_gives_what_each_size_gives(places, shape):
    """Every property, shear areas, fibres and plates, to the last digit but rounding."""
    sections = [library()[place] for place in places]
    for name in QUANTITIES:
        many = shape.shear_area(name[-1]) if name.startswith("Av") else getattr(shape, name)
        # An outline's plastic axis is found to a tolerance.
        np.testing.assert_allclose(np.broadcast_to(many, len(places)), [getattr(s, name) for s in sections], rtol=1e-9)
    for axis in "yz":
        for k, fibre in enumerate(shape.fibres(axis)):
            own = [section.fibres(axis)[k] for section in sections]
            np.testing.assert_allclose(
                np.broadcast_to(fibre.lever, len(own)), [f.lever for f in own], rtol=1e-12, atol=1e-9
            )
            np.testing.assert_allclose(
                np.broadcast_to(fibre.tau, len(own)), [f.tau for f in own], rtol=1e-6, atol=1e-15
            )
    for k, element in enumerate(shape.elements):
        np.testing.assert_allclose(element.c, [section.elements[k].c for section in sections])


def test_every_size_is_in_one_group():
    """The places of the groups are those of the sequence."""
    assert sorted(np.concatenate([places for places, _ in GROUPS])) == list(range(len(library())))


def test_a_look_up_imports_nothing_heavy():
    """No sympy, scipy, matplotlib, pandas or pint for one section's properties."""
    script = (
        "import sys; from structcheck.shapes.library import look_up; look_up('IPE 160').section.properties(); "
        "print([name for name in ('sympy', 'scipy', 'matplotlib', 'pandas', 'pint') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
