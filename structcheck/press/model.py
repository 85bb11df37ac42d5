"""A whole press: its description checked part by part on one basis."""

from structcheck.errors import InputError, Problem
from structcheck.findings import Result
from structcheck.formula import cut
from structcheck.press.cases import basis_shown, jack_forces
from structcheck.press.parts import KINDS, Setting
from structcheck.press.schema import PressFile
from structcheck.shapes.section import Section


def check_description(press: PressFile, *, file: str = "", sections: tuple[Section, ...] = ()) -> Result:
    """Check every part of a press. Raises InputError with the problems of all parts at once."""
    try:
        forces = jack_forces(press.jack, press.basis)
    except InputError as error:
        raise error.within(file=file, part="jack") from None
    basis = forces.as_basis(press.basis, press.use)
    setting = Setting(basis=basis, rated=forces.rated, sections=sections, limit=press.limits.deflection)
    outcome, problems = forces.outcome, []
    for kind, part_kind in KINDS.items():
        for table in getattr(press, kind):
            cut()  # what was computed for the part before is none of this one's working
            try:
                outcome += part_kind.run(table, setting)
            except InputError as error:
                problems += [p.within(file=file, part=f'{kind} "{table.name}"') for p in error.problems]
    if problems:
        raise InputError(problems)
    if not any(getattr(press, kind) for kind in KINDS):
        fault, remedy = "has no part to check", "[[beam]] with name, section, steel, span, load"
        raise InputError(Problem("", "", fault, "at least one part", remedy, file=file))
    return Result(press.title, basis_shown(forces, basis), outcome)
