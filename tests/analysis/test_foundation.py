"""Beams on an elastic support."""

import tomllib
from math import pi
from pathlib import Path

import numpy as np
import pytest

from structcheck.analysis.foundation import bedded_beam, endless_deflection
from structcheck.errors import InputError
from tests.printed import printed

FILE = Path(__file__).parents[1] / "reference" / "plates.toml"
CASES = {case["id"]: case for case in tomllib.loads(FILE.read_text())["case"]}


def test_endless_beam():
    """WF-01 (derived, Hetenyi): deflection, moment, and where it first lifts."""
    b, expected = CASES["WF-01"]["beam"], CASES["WF-01"]["expected"]
    found = bedded_beam(b["P"], b["EI"], b["k"])
    assert found.beta == printed(expected["beta"]) and found.w == printed(expected["w"])
    assert printed(expected["M"]) == found.M / 1e6
    assert 3 * pi / (4 * found.beta) == printed(expected["first_zero"])
    assert endless_deflection(found, 3 * pi / (4 * found.beta)) == pytest.approx(0.0, abs=1e-12)


def test_free_beam_of_finite_length():
    """WF-03 (derived, Hetenyi): middle, ends, moment."""
    b, expected = CASES["WF-03"]["beam"], CASES["WF-03"]["expected"]
    found = bedded_beam(b["P"], b["EI"], b["k"], b["L"])
    assert found.w == printed(expected["w_centre"]) and found.w_end == printed(expected["w_end"])
    assert printed(expected["M"]) == found.M / 1e6


def test_finite_differences_agree():
    """EI w'''' + k w = p on 600 points with free ends, solved apart from the package."""
    P, EI, k, L, n = 50e3, 1680e9, 20.0, 1500.0, 601
    h = L / (n - 1)
    second = np.zeros((n, n))
    for i in range(1, n - 1):
        second[i, i - 1 : i + 2] = np.array([1, -2, 1]) / h**2
    # Energy: no curvature at the free ends, half a cell of support there.
    weights = np.full(n, h)
    weights[[0, -1]] = h / 2
    K = EI * h * second.T @ second + np.diag(k * weights)
    force = np.zeros(n)
    force[n // 2] = P
    w = np.linalg.solve(K, force)
    found = bedded_beam(P, EI, k, L)
    assert w[n // 2] == pytest.approx(found.w, rel=2e-3) and w[0] == pytest.approx(found.w_end, rel=5e-3)


def test_a_short_beam_sinks_evenly_and_a_long_one_is_endless():
    """Limits of the length."""
    short = bedded_beam(1e4, 1e12, 10.0, 10.0)
    assert short.w == pytest.approx(1e4 / 100, rel=1e-6) and short.w_end == pytest.approx(short.w, rel=1e-6)
    assert bedded_beam(1e4, 1e9, 10.0, 20000.0).w == pytest.approx(bedded_beam(1e4, 1e9, 10.0).w)
    with pytest.raises(InputError, match="is no stiffness"):
        bedded_beam(1e4, 0.0, 10.0)
