"""What can be wrong with the description of a compression spring: the impossible, and what contradicts itself."""

from structcheck.checks import spring_warm
from structcheck.checks.coil import Coil, Spring
from structcheck.errors import InputError, Problem
from structcheck.standards import en13906_1 as en

RATES_AGREE = 0.10
"""How far a stated rate may lie from that of the wire before the two contradict each other; ours."""

KNOWN = {
    "strength": (300.0, 4000.0),
    "modulus": (20_000.0, 100_000.0),
    "permissible": (0.0, 2500.0),
    "permissible_range": (0.0, 2500.0),
}
"""MPa between which every spring wire lies, from soft bronze to the thinnest music wire (textbooks, memory; wide)."""

LEAST_DEAD = 1.0
"""Coils that do not work in a spring with ground ends: half a coil at each end at the very least."""


def describe(spring: Spring) -> Coil:
    """The spring worked out. Raises InputError naming everything impossible or contradictory."""
    problems = _impossible(spring)
    if problems:
        raise InputError(problems)
    coil = Coil(spring)
    problems = _contradictions(coil)
    if problems:
        raise InputError(problems)
    return coil


def _impossible(spring: Spring) -> list[Problem]:
    part = f'spring "{spring.name}"'
    problems = []

    def refuse(key: str, given: str, fault: str, wanted: str, remedy: str = "") -> None:
        problems.append(Problem(key, given, fault, wanted, remedy, part=part))

    for key in (
        "wire",
        "mean",
        "outside",
        "rate",
        "free",
        "fitted",
        "pressed",
        "strength",
        "modulus",
        "permissible",
        "permissible_range",
        "wire_max",
        "rod",
        "tube",
    ):
        value = getattr(spring, key)
        if value is not None and not value > 0:
            refuse(key, f"{value:g}", "is not positive", f"a {key} above zero")
    for key in ("active", "turns"):
        value = getattr(spring, key)
        dead = 0.0 if key == "active" else Coil(spring).dead
        if value is not None and not value > dead:
            needs = "a coil that works" if key == "active" else f"more than the {dead:g} that close the ends"
            refuse(key, f"{value:g}", "leaves no coil to work", needs, f"{key} = {8 + dead:g}")
    for key, (low, high) in KNOWN.items():
        value = getattr(spring, key)
        if value is not None and value > 0 and not low <= value <= high:
            refuse(key, f"{value:g} MPa", "is that of no spring wire", f"{low:g} to {high:g} MPa")
    problems += spring.duty.problems(part)
    if spring.rate_margin < 0 or (spring.rate is not None and spring.rate_margin >= spring.rate):
        refuse("rate_margin", f"{spring.rate_margin:g} N/mm", "leaves no rate", "zero or more, less than the rate")
    problems += spring_warm.problems(part, spring.relaxation)
    if spring.wire is None and spring.rate is None:
        refuse("wire", "", "is missing", "the wire and coil, or the rate of the spring", 'wire = "6 mm"')
    if spring.wire is not None and spring.rate is None:
        if spring.mean is None and spring.outside is None:
            refuse("mean", "", "is missing", "the mean or the outside coil diameter", 'mean = "42 mm"')
        if spring.active is None and spring.turns is None:
            refuse("active", "", "is missing", "the coils that work, or all turns", "active = 8")
    if spring.fitted > spring.free:
        refuse("fitted", f"{spring.fitted:g} mm", "is longer than the free spring", f"at most {spring.free:g} mm",
               f'fitted = "{spring.free:g} mm"')  # fmt: skip
    if spring.pressed > spring.fitted:
        refuse("pressed", f"{spring.pressed:g} mm", "is longer than fitted", f"at most {spring.fitted:g} mm",
               f'pressed = "{spring.fitted:g} mm"')  # fmt: skip
    return problems


def _contradictions(coil: Coil) -> list[Problem]:
    spring, part = coil.spring, f'spring "{coil.spring.name}"'
    problems = []

    def refuse(key: str, given: str, fault: str, wanted: str, remedy: str = "") -> None:
        problems.append(Problem(key, given, fault, wanted, remedy, part=part))

    if spring.wire is None or (spring.mean is None and spring.outside is None):
        return problems
    if coil.w <= 1:
        key = "mean" if spring.mean is not None else "outside"
        least = coil.d * (4 if key == "mean" else 5)
        refuse(key, f"{getattr(spring, key):g} mm", f"leaves no coil round wire of {coil.d:g} mm",
               f"the {key} diameter of the coil, usually {least:g} mm and more", f'{key} = "{least:g} mm"')  # fmt: skip
        return problems
    if spring.mean is not None and spring.outside is not None and abs(spring.outside - spring.mean - coil.d) > 0.01:
        refuse("outside", f"{spring.outside:g} mm", f"is not mean + wire = {spring.mean + coil.d:g} mm",
               "the mean or the outside diameter, not both", f'mean = "{spring.mean:g} mm"')  # fmt: skip
    if spring.wire_max is not None and spring.wire_max < coil.d:
        refuse("wire_max", f"{spring.wire_max:g} mm", "is less than the wire", f"at least {coil.d:g} mm")
    if spring.active is None and spring.turns is None:
        return problems
    if spring.active is not None and spring.turns is not None and spring.turns < spring.active:
        refuse("turns", f"{spring.turns:g}", "is fewer than the coils that work", f"{coil.n + coil.dead:g}")
        return problems
    if spring.turns is not None and spring.ends == "ground" and coil.n > 0 and spring.turns - coil.n < LEAST_DEAD:
        refuse("turns", f"{spring.turns:g}", "leave no coil to close and grind at the ends", f"{coil.n + coil.dead:g}")
        return problems
    for key in ("free", "pressed"):
        length = getattr(spring, key)
        if length < coil.L_c - 1e-9:
            refuse(key, f"{length:g} mm", f"is below the solid length: {coil.n_t:g} coils of {coil.d:g} mm wire, "
                   f"{spring.ends} ends, stand {coil.L_c:.4g} mm high with all touching",
                   f"more than {coil.L_c:.4g} mm", f'{key} = "{_above(coil.L_c)} mm"')  # fmt: skip
    if spring.rate is not None and abs(_wire_rate(coil) / spring.rate - 1) > RATES_AGREE:
        refuse("rate", f"{spring.rate:.4g} N/mm", f"contradicts the wire, which gives {_wire_rate(coil):.4g} N/mm",
               "a rate within a tenth of the wire's, or the rate alone, or the wire alone",
               f'rate = "{_wire_rate(coil):.4g} N/mm"')  # fmt: skip
    return problems


def _wire_rate(coil: Coil) -> float:
    return en.spring_rate(coil.G, coil.d, coil.D, coil.n)


def _above(length: float) -> str:
    return f"{int(length) + 10:d}"
