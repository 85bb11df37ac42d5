"""Which of two equal cases a finding names must not hang on how a machine rounds."""

from pathlib import Path

import numpy as np
import pytest

from structcheck.maths import first_of_greatest
from structcheck.press.frame import members_solved, solving
from structcheck.questions import check_press

EXAMPLES = Path(__file__).parents[2] / "examples"


def named(name):
    """Part, check, case and reason of every finding, of a frame that was never seen."""
    solving._for_one_newton.cache_clear()
    members_solved._for_one_newton.cache_clear()
    return [(f.part, f.check, f.case, f.reason) for f in check_press(EXAMPLES / f"{name}.toml").findings]


@pytest.mark.parametrize("name", ["orchard_press", "bookbinders_press", "seal_press_o_frame", "gluing_press_as_found"])
def test_a_solver_that_rounds_otherwise_names_the_same_cases(monkeypatch, name):
    """Its answers shaken in the fourteenth digit (derived): mirrored cases were told apart by less."""
    before = named(name)
    solve, noise = np.linalg.solve, np.random.default_rng(5)

    def shaken(a, b):
        answer = solve(a, b)
        return answer * (1 + 1e-14 * noise.standard_normal(answer.shape))

    monkeypatch.setattr(np.linalg, "solve", shaken)
    try:
        assert named(name) == before
    finally:
        solving._for_one_newton.cache_clear()
        members_solved._for_one_newton.cache_clear()


def test_the_first_of_those_that_rounding_tells_apart():
    """Not the greatest to the last bit; a real difference counts, and so does the sign."""
    assert first_of_greatest([1.0, 2.0, 2.0 * (1 + 1e-12)]) == 1
    assert first_of_greatest([1.0, 2.0, 2.0 * (1 + 1e-6)]) == 2
    assert first_of_greatest([-3.0, -2.0, -2.0 * (1 - 1e-12)]) == 1
    assert first_of_greatest([1.0, np.inf, np.inf]) == 1
    assert first_of_greatest([-np.inf, -np.inf]) == 0
