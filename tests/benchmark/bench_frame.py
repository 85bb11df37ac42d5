"""Ratios of the frame solver to numpy's own solution of the same matrix, measured side by side. Nothing is asserted.

Run: python tests/benchmark/bench_frame.py
"""

import os
import sys
from pathlib import Path
from time import perf_counter

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # threads measure the other programs running

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from structcheck.analysis.frame import Frame, Member, PointOnMember, SpreadOnMember, Support, loads_of, prepare, solve
from structcheck.analysis.frame_system import answer, assemble, fixed_forces, solve_system
from structcheck.analysis.stability import critical, second_order

ROUNDS = 60


def best(*tasks):
    """Shortest time of each task, seconds; tasks take turns, so that a busy machine slows all of them alike."""
    times = [[] for _ in tasks]
    for _ in range(ROUNDS):
        for task, found in zip(tasks, times, strict=True):
            start = perf_counter()
            task()
            found.append(perf_counter() - start)
    return [min(found) for found in times]


def steel(name, start, end, inertia=2e7):
    """A member of some I-section."""
    return Member(name, start, end, 210000.0, 81000.0, 5e3, inertia, 1e7, 2e5, 3e3, 2e3)


def tower(bays, floors):
    """A built-in rack in space, one load on its top beam."""
    nodes = {f"{i},{j}": (1000.0 * i, 0.0, 1500.0 * j) for i in range(bays + 1) for j in range(floors + 1)}
    members = [steel(f"c{i},{j}", f"{i},{j}", f"{i},{j + 1}") for i in range(bays + 1) for j in range(floors)]
    members += [steel(f"b{i},{j}", f"{i},{j}", f"{i + 1},{j}") for i in range(bays) for j in range(1, floors + 1)]
    return Frame(nodes, members, [Support(f"{i},0", "x y z rx ry rz") for i in range(bays + 1)])


def press(frames):
    """So many plane rings side by side, joined by cross members; ten positions of the jack."""
    nodes, members = {}, []
    for k in range(frames):
        places = {"bl": (0, 0), "br": (800, 0), "hl": (0, 1200), "hr": (800, 1200), "bm": (400, 0), "hm": (400, 1200)}
        nodes |= {f"{name}{k}": (float(x), 620.0 * k, float(z)) for name, (x, z) in places.items()}
        links = (("bl", "bm"), ("bm", "br"), ("hl", "hm"), ("hm", "hr"), ("bl", "hl"), ("br", "hr"))
        members += [steel(f"{a}{b}{k}", f"{a}{k}", f"{b}{k}") for a, b in links]
        if k:
            members += [steel(f"x{name}{k}", f"{name}{k - 1}", f"{name}{k}") for name in places]
    held = [Support("bl0", "x y z rx ry rz")]
    cases = {}
    for at in range(40, 400, 36):
        cases[f"at {at}"] = [
            load
            for k in range(frames)
            for load in (
                PointOnMember(f"hlhm{k}", float(at), (0, 0, 5e4)),
                PointOnMember(f"blbm{k}", float(at), (0, 0, -5e4)),
                SpreadOnMember(f"bmbr{k}", (0, 0, -10.0), 20.0, 160.0),
            )
        ]
    return Frame(nodes, members, held), cases


def ratios():
    """Parts of a solution against numpy.linalg.solve of the same matrix."""
    print("unknowns  numpy us   solve and check   with assembly   with all checks   description to arrays, us")
    for bays, floors in ((2, 6), (3, 8), (4, 14), (6, 20)):
        frame = tower(bays, floors)
        structure = prepare(frame)
        cases = {"one": [PointOnMember(frame.members[-1].name, 400.0, (0, 0, -1e4))]}
        loads = loads_of(structure, cases)
        matrices = assemble(structure)
        right = np.random.default_rng(1).normal(size=(len(matrices.whole), 1))

        def assembled(structure=structure, loads=loads, right=right):
            built = assemble(structure)
            fixed_forces(structure, built, loads)
            solve_system(structure, built, right)

        def checked(structure=structure, loads=loads):
            built = assemble(structure)
            answer(structure, built, fixed_forces(structure, built, loads), loads)

        plain, solved, whole, all_checks, described = best(
            lambda m=matrices, right=right: np.linalg.solve(m.whole, right),
            lambda s=structure, m=matrices, right=right: solve_system(s, m, right),
            assembled,
            checked,
            lambda frame=frame: prepare(frame),
        )
        print(
            f"{len(right):8d} {plain * 1e6:9.0f} {solved / plain:17.2f} {whole / plain:15.2f}"
            f" {all_checks / plain:17.2f} {described * 1e6:27.0f}"
        )


def presses():
    """Whole questions: ten cases, every diagram, every deflection; one critical factor; one second-order case."""
    for frames in (1, 2, 3):
        frame, cases = press(frames)
        one = {"one": next(iter(cases.values()))}

        def everything(frame=frame, cases=cases):
            found = solve(frame, cases)
            return found.diagram_tables, found.deflection_tables(relative=True)

        plain, full, factor, second = best(
            lambda frame=frame, cases=cases: solve(frame, cases),
            everything,
            lambda frame=frame, one=one: critical(frame, one),
            lambda frame=frame, one=one: second_order(frame, one),
        )
        print(
            f"press of {len(frame.members)} members, {len(cases)} cases: solved {plain * 1e3:.2f} ms, "
            f"with all diagrams and deflections {full * 1e3:.2f} ms; "
            f"one critical factor {factor * 1e3:.1f} ms, one second-order case {second * 1e3:.1f} ms"
        )


if __name__ == "__main__":
    ratios()
    presses()
