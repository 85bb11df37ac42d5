"""Fatigue of bolts and their plate where part of it is not known."""

from dataclasses import replace

import pytest

from structcheck.checks.bolts import check_bolts
from tests.checks.bolt_parts import BASIS, answer, full, group, loads


@pytest.mark.parametrize("thread", ["in", "out"])
def test_fatigue_of_a_thread_in_the_plane_is_no_pass(thread):
    """EN 1993-1-9 Table 8.1 speaks of a plane through the shank."""
    found = answer(full(thread=thread), loads(shear=20e3))["fatigue"]
    assert found.verdict == ("holds" if thread == "out" else "not checked")


def test_a_known_fatigue_failure_is_not_hidden_by_what_is_unknown():
    """The thread stands in the plane; the plate fails whichever way it runs, and the note of the thread stays."""
    found = answer(full(), loads(60e3, 100.0))["fatigue"]
    assert found.verdict == "fails" and found.utilisation > 1
    assert 'still unknown beside it: the detail "bolt in shear" wants the thread out' in found.reason


def test_fatigue_that_fails_one_way_only_tells_both():
    """Over with the plate across the force; along it what is known holds, and the thread is not judged."""
    part = group(rows=2, columns=2, pitch=60.0, gauge=80.0, end=35.0, edge=30.0)
    found = answer(part, loads(40e3, 50.0))["fatigue"]
    assert found.verdict == "not checked"
    assert found.reason.startswith("over (1.37) if the plate runs across the force; if along, holds (0.96) so far")
    shank = answer(replace(part, thread="out"), loads(40e3, 50.0))["fatigue"]
    assert shank.reason == "over (1.37) if the plate runs across the force, holds (0.96) if along: state plate_runs"


def test_lives_of_the_plate_say_which_way_it_runs():
    """Two lives of one detail are no riddle."""
    part = group(rows=2, columns=2, pitch=60.0, gauge=80.0, end=35.0, edge=30.0)
    lives = [a for a in check_bolts(part, loads(40e3, 50.0), BASIS).answers if "plate with ordinary bolts" in a]
    assert [life.rsplit(", ", 1)[1] for life in lives] == [
        "if the plate runs along the force",
        "if the plate runs across the force",
    ]
