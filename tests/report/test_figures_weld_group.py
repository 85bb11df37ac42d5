"""The drawing of weld runs: labels beside them, none on another, sizes written down."""

from itertools import combinations

import numpy as np
import pytest

from structcheck.analysis.weld_group import Line
from structcheck.report.figures_weld_group import COLUMN, LINE, Bar, _labels, _sizes


def _upright_bars(many: int) -> list[Bar]:
    return [
        Bar(np.array([(x, -1.1), (x, 1.1)]), np.array([(0, -0.3), (0, -0.3)]), (160 + k, 150 + k))
        for k, x in enumerate(np.linspace(-0.5, 0.5, many))
    ]


@pytest.mark.parametrize("many", [1, 2, 4, 8, 13])
def test_no_label_lies_on_another_or_on_a_run(many):
    """However many runs stand side by side."""
    labels = _labels(_upright_bars(many), -0.7, 0.7)
    assert len(labels) == 2 * many
    assert all(abs(label.at[0]) == 0.7 for label in labels)
    for one, two in combinations(labels, 2):
        assert abs(one.at[0] - two.at[0]) > COLUMN or abs(one.at[1] - two.at[1]) >= LINE - 1e-9


def test_ends_that_meet_with_the_same_stress_have_one_label():
    """As where two runs share a corner."""
    corner = Bar(np.array([(0.5, -1.1), (-0.5, -1.1)]), np.zeros((2, 2)), (161, 160))
    bars = [*_upright_bars(2), corner]
    assert len(_labels(bars, -0.7, 0.7)) == 4


def test_length_and_throat_are_written_down():
    """Runs alike stand together."""
    run = Line((0, 0, 0), (0, 0, 114), 3.0)
    assert _sizes([run, run, Line((0, 0, 0), (60, 0, 0), 3.5)]) == "2 runs of 114, throat 3\n1 run of 60, throat 3.5"
