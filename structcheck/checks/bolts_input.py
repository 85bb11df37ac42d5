"""What is wrong with a described group of bolts, and what is taken for the user."""

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from structcheck.checks.bolts_group import BoltGroup, BoltLoads, normal_clearance
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption


def _problem(part: BoltGroup, key: str, given: str, fault: str, wanted: str, remedy: str = "") -> Problem:
    return Problem(key=key, given=given, fault=fault, wanted=wanted, remedy=remedy, part=f'bolts "{part.name}"')


def validate(part: BoltGroup, loads: Sequence[BoltLoads]) -> None:
    """Raise InputError with everything that cannot be built."""
    problems = list(_unbuildable(part))
    beside = next((load.eccentricity for load in loads if load.shear and load.eccentricity), 0.0)
    if not problems and beside and part.count == 1:
        fault = "turns the plates about the only bolt"
        wanted = "two bolts or more where the force acts beside the group's centre"
        problems.append(_problem(part, "eccentricity", f"{beside:g} mm", fault, wanted, "rows = 2"))
    if problems:
        raise InputError(problems)


@lru_cache(maxsize=128)
def _unbuildable(part: BoltGroup) -> tuple[Problem, ...]:
    """What is wrong with the group itself, whatever its loads."""
    return tuple([*_missing_steps(part), *_impossible_sizes(part)] or _overlaps(part))


def _missing_steps(part: BoltGroup) -> list[Problem]:
    problems = []
    for count_key, step_key, example in (("rows", "pitch", "60 mm"), ("columns", "gauge", "80 mm")):
        count, step = getattr(part, count_key), getattr(part, step_key)
        if count < 1:
            problems.append(_problem(part, count_key, f"{count}", "is no group", "1 or more", f"{count_key} = 2"))
        elif count > 1 and step is None:
            fault = f"is missing: {count} {count_key} stand some distance apart"
            problems.append(_problem(part, step_key, "", fault, "a length in mm", f'{step_key} = "{example}"'))
    if part.layout is not None and (part.rows, part.columns) != (1, 1):
        fault = "stands beside rows or columns"
        problems.append(_problem(part, "layout", f"{len(part.layout)} positions", fault, "one of the two"))
    if part.layout is not None and not part.layout:
        problems.append(_problem(part, "layout", "[]", "is no group", "one position or more, x and y of each"))
    if part.planes < 1:
        problems.append(_problem(part, "planes", f"{part.planes}", "is no shear plane", "1, 2 or more", "planes = 1"))
    return problems


def _impossible_sizes(part: BoltGroup) -> list[Problem]:
    problems = []
    for key in (
        "plate",
        "pitch",
        "gauge",
        "end",
        "edge",
        "far_end",
        "far_edge",
        "ply",
        "lever",
        "grip",
        "length",
        "inner",
        "hollow",
    ):
        value = getattr(part, key)
        if value is not None and not (math.isfinite(value) and value > 0):
            problems.append(_problem(part, key, f"{value:g} mm", "is not a length", "a length above nothing"))
    if part.hole is not None and not part.size.d <= part.hole < math.inf:
        wanted = f"at least the bolt's {part.size.d:g} mm"
        remedy = f'hole = "{part.size.d + normal_clearance(part.size.d):g} mm"'
        problems.append(
            _problem(part, "hole", f"{part.hole:g} mm", f"is smaller than {part.size.name}", wanted, remedy)
        )
    if part.length is not None:
        # Nut of 0.9 d and one turn of thread beyond it; what is pushed one way is clamped whatever else is.
        grip = part.plate if part.grip is None else part.grip
        least = grip + 0.9 * part.size.d + part.size.pitch
        if part.length < least:
            fault = f"is too short for a grip of {grip:g} mm"
            problems.append(_problem(part, "length", f"{part.length:g} mm", fault, f"{least:.0f} mm or more"))
    if part.lever is not None and 0 < part.lever < part.size.e_min / 2:
        fault = f"puts the head of {part.size.name} on the web's weld or root"
        problems.append(_problem(part, "lever", f"{part.lever:g} mm", fault, f"{part.size.e_min / 2:.0f} mm or more"))
    problems += _impossible_slots(part) + _contradictions(part)
    for key in ("end", "edge", "far_end", "far_edge"):
        value, hole = getattr(part, key), part.hole_size(key.endswith("end"))
        if value is not None and 0 < value <= hole / 2:
            fault = f"lets the hole of {hole:g} mm break out of the plate"
            least = 1.2 * hole if part.slot is None else (hole - part.d_0) / 2 + 1.5 * part.d_0
            wanted = f"more than half the hole; Table 3.3 asks for {least:g} mm"
            problems.append(_problem(part, key, f"{value:g} mm", fault, wanted))
    return problems


def _contradictions(part: BoltGroup) -> list[Problem]:
    """Keys of which one makes nothing of the other, so that one would be dropped without a word."""
    plate, head = f"the plate of {part.plate:g} mm", f"{0.6 * part.size.d:.0f} mm for {part.size.name}"
    ply, grip, apart = part.ply or 0.0, part.grip or math.inf, 'the open gap beside it, gap = "0 mm" where they touch'
    alone = part.inner is not None and part.gap is None and part.hollow is None
    wrong = [
        ("ply", ply > part.plate, f"is more than {plate}", "the thinnest of what `plate` sums up"),
        ("grip", grip < part.plate, f"is less than {plate}", "all plates and washers between head and nut"),
        (
            "sink",
            part.sink > 0 and not part.countersunk,
            "stands without `countersunk`",
            "countersunk = true beside it",
        ),
        ("sink", part.sink > part.plate, f"is deeper than {plate}", f"the depth of the head, some {head}"),
        ("inner", alone, "stands without `gap`", apart),
    ]
    problems = [
        _problem(part, key, f"{getattr(part, key):g} mm", fault, wanted) for key, is_so, fault, wanted in wrong if is_so
    ]
    if part.mu is not None and part.category not in ("B", "C"):
        wants = "category B or C beside it: in the others nothing is counted on friction"
        fault = f"means nothing in category {part.category}"
        problems.append(_problem(part, "mu", f"{part.mu:g}", fault, wants, 'category = "B"'))
    if part.single_lap and part.planes > 1:
        fault = f"stands beside {part.planes} shear planes"
        problems.append(_problem(part, "single_lap", "true", fault, "one of the two", "planes = 1"))
    if part.layout is not None:
        problems += [
            _problem(part, key, f"{value:g} mm", "stands beside layout, which says it", "one of the two")
            for key, value in (("pitch", part.pitch), ("gauge", part.gauge))
            if value is not None
        ]
    return problems


def _impossible_slots(part: BoltGroup) -> list[Problem]:
    if part.slot_length is None:
        return []
    given = f"{part.slot_length:g} mm"
    if part.slot is None:
        wanted, remedy = "its direction to the force beside it", 'slot = "long along"'
        return [_problem(part, "slot_length", given, "stands without `slot`", wanted, remedy)]
    if not part.d_0 < part.slot_length < math.inf:
        return [_problem(part, "slot_length", given, "is no longer than the slot is wide", f"over {part.d_0:g} mm")]
    return []


def _overlaps(part: BoltGroup) -> list[Problem]:
    spots = part.positions
    for i in range(len(spots)):
        apart = np.abs(spots[i + 1 :] - spots[i])
        gaps = np.hypot(*apart.T)
        run_in = (
            np.all(apart < (part.hole_size(False), part.hole_size(True)), axis=1) if part.slot else gaps <= part.d_0
        )
        if np.any(run_in):
            key = "pitch" if part.rows > 1 and (part.pitch or 0) <= part.hole_size(True) else "gauge"
            key = "layout" if part.layout is not None else key
            hole = max(part.hole_size(True), part.hole_size(False))
            fault = f"lets holes of {hole:g} mm run into each other"
            wanted = f"more than {hole:g} mm; Table 3.3 asks for {2.2 * part.d_0:g} mm and more"
            return [_problem(part, key, f"{np.min(gaps):g} mm", fault, wanted)]
    return []


def assumptions(part: BoltGroup, loads: Sequence[BoltLoads]) -> tuple[Assumption, ...]:
    """What is taken for the user, in the order it matters."""
    made = []
    if part.bolt_class.assumed:
        text = f"bolts without a mark: f_ub {part.bolt_class.f_ub:g} MPa, the worse of classes 4.6 and 4.8"
        made.append((text, part.bolt_class.condition))
    if part.steel.assumed:
        made.append((f"steel of the plate unknown: taken as {part.steel.name}", part.steel.condition))
    if part.hole is None:
        made.append((f"holes of {part.d_0:g} mm for {part.size.name} (EN 1090-2 normal clearance)", ""))
    if part.slot and part.slot_length is None:
        length = max(part.hole_size(True), part.hole_size(False))
        made.append((f"slots of {length:g} mm over all, the longest of their kind (EN 1090-2)", ""))
    if part.countersunk and not part.sink:
        made.append((f"depth of the countersink not stated: taken as the whole {part.plate:g} mm of the plate", ""))
    sheared = any(load.sheared for load in loads)
    if sheared and part.thread == "in":
        made.append(("the thread lies in the shear plane", ""))
    if sheared:
        made.append((f"the other plates of the joint are no weaker than the {part.plate:g} mm taken", ""))
    if part.plate_runs is None and sheared and not any(load.turn or load.across for load in loads):
        made.append(('the plate goes on along the force, else plate_runs = "across"', ""))
    if sheared and part.far_end is None and part.end is not None and any(load.turn or load.across for load in loads):
        made.append((f"the end behind the group is no nearer than the loaded end ({part.end:g} mm)", ""))
    if part.ply is None and any(load.pulled for load in loads):
        made.append((f"every plate under a head or nut is at least {part.plate:g} mm thick", ""))
    return tuple(Assumption(part.name, text, condition) for text, condition in made)
