"""One beam question for every size of the library: time per 1,000, and beside the bare numpy expressions.

    python -m tests.benchmark.bench_beam_sweep

The bare expressions are those of bending, shear, elastic stress and deflection on arrays of ready properties; the
sweep finds the properties too, classifies, and judges buckling sideways and the twist of channels.
"""

import time

import numpy as np

from structcheck.checks.basis import Basis
from structcheck.checks.beam import Beam, BeamLoad
from structcheck.checks.beam_sweep import sweep_beam
from structcheck.materials.steels import find_steel
from structcheck.shapes.rows import library


def best(run, count=9):
    """The shortest of a few runs, in seconds."""
    times = []
    for _ in range(count):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return min(times)


def bare(A_v, W_pl, W_el, Iy, As, F, L):
    """Utilisations by hand for a central load."""
    M, V = F * L / 4, F / 2
    bending = 1.5 * M / (W_pl * 235.0)
    shear = 1.5 * V / (A_v * 235.0 / 3**0.5)
    stress = 1.25 * M / W_el / 235.0
    deflection = F * L**3 / (48 * 210e3 * Iy) + F * L / (4 * 80769.0 * As)
    return np.maximum(np.maximum(bending, shear), stress), deflection


def main() -> None:
    """Print both times and their ratio."""
    sizes = library()
    names = ("Avz", "Wpl_y", "Wel_y", "Iy", "Asz")
    ready = [np.array([getattr(section, name) for section in sizes]) for name in names]
    steels = {route: find_steel("S235", route=route) for route in {s.route for s in sizes}}
    part = Beam("head", sizes[0], steels[sizes[0].route], 2, 700.0, limit=1.4)
    loads = [BeamLoad(78.5e3, 350.0)]
    swept = best(lambda: sweep_beam(part, loads, Basis(), sizes, steels))
    by_hand = best(lambda: bare(*ready, 78.5e3, 700.0))
    per_thousand = 1e6 / len(sizes)
    print(f"{len(sizes)} sizes: {swept * per_thousand:.1f} ms per 1,000; bare numpy {by_hand * per_thousand:.3f} ms")
    print(f"ratio {swept / by_hand:.0f}")


if __name__ == "__main__":
    main()
