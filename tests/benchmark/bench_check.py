"""A whole press checked: warm in one process, and cold against a process that imports numpy and pint.

Ratios for the record; nothing here is asserted. Run: python tests/benchmark/bench_check.py
"""

import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"
BARE = "import numpy, pint; pint.UnitRegistry()"


def warm(path: Path, *, new: bool = False, runs: int = 20) -> float:
    """Median seconds of a check in a warm process, of a frame and a platen seen before or of new ones."""
    from structcheck.checks import platen_plate
    from structcheck.press.frame import members_solved, solving
    from structcheck.questions import check_press

    check_press(path)
    times = []
    for _ in range(runs):
        if new:
            platen_plate._under_unit_force.cache_clear()
            solving._for_one_newton.cache_clear()
            members_solved._for_one_newton.cache_clear()
        start = time.perf_counter()
        check_press(path)
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def cold(path: Path, runs: int = 9) -> tuple[float, float]:
    """Median seconds of a whole process that checks, and of one that only imports, in turn."""
    ours, bare = [], []
    for _ in range(runs):
        for command, times in (
            ([sys.executable, "-m", "structcheck", "check", str(path)], ours),
            ([sys.executable, "-c", BARE], bare),
        ):
            start = time.perf_counter()
            subprocess.run(command, capture_output=True, check=False, cwd=ROOT)
            times.append(time.perf_counter() - start)
    return statistics.median(ours), statistics.median(bare)


if __name__ == "__main__":
    examples = sorted(EXAMPLES.glob("*press*.toml"))
    # The machine's other work comes and goes: each example is timed in three rounds, and the quietest counts.
    rounds = [[[warm(example, new=new) * 1e3 for new in (False, True)] for example in examples] for _ in range(3)]
    for example, *times in zip(examples, *rounds, strict=True):
        seen, new = (min(each) for each in zip(*times, strict=True))
        print(f"{example.stem:28s} warm {seen:7.1f} ms (wanted: under 20), frame and platen new {new:7.1f} ms")
    ours, bare = cold(EXAMPLES / "orchard_press.toml")
    print(f"cold process {ours * 1e3:.0f} ms, imports only {bare * 1e3:.0f} ms, ratio {ours / bare:.2f} (wanted: 1.1)")
