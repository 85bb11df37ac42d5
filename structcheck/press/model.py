"""A whole press: its frame analysed, its members and joints judged by what it found, its other parts beside them."""

from dataclasses import replace

from structcheck.errors import InputError, Problem
from structcheck.findings import Outcome, Result, TimesOnYield
from structcheck.press.cases import Forces, basis_shown, jack_forces
from structcheck.press.frame_fit import fit_in_frame
from structcheck.press.jack_place import check_jack_place
from structcheck.press.load_path import check_frame, check_parts, frame_answer
from structcheck.press.moving import brought_back
from structcheck.press.own_sections import own_sections
from structcheck.press.parts import KINDS, Setting
from structcheck.press.schema import PressFile
from structcheck.press.taken import taken_for_press
from structcheck.shapes.section import Section


def check_description(press: PressFile, *, file: str = "", sections: tuple[Section, ...] = ()) -> Result:
    """Check every part of a press. Raises InputError with the problems of all parts at once."""
    try:
        forces = jack_forces(press.jack, press.basis)
    except InputError as error:
        raise error.within(file=file, part="jack") from None
    setting = setting_of(press, forces, sections)
    basis = setting.basis
    if press.frame is None and not any(getattr(press, kind) for kind in KINDS):
        fault, remedy = "has no part to check", "[frame], or [[beam]] with name, section, steel, span, load"
        raise InputError(Problem("", "", fault, "a frame, or at least one part", remedy, file=file))
    try:
        answer = frame_answer(press, forces, setting)
    except InputError as error:
        raise error.within(file=file) from None
    if answer:
        setting = replace(setting, opening=answer.opening)
    of_frame = Outcome()
    of_parts, problems = check_parts(press, answer, setting)
    try:
        of_frame = check_frame(press, answer, setting) if answer else of_frame
    except InputError as error:
        problems += error.problems
    try:
        of_frame += fit_in_frame(press, answer) + brought_back(press) if answer else Outcome()
    except InputError as error:
        problems += error.problems
    try:
        of_jack = check_jack_place(press, answer, basis)
    except InputError as error:
        problems += error.problems
    if problems:
        raise InputError(problem.within(file=file) for problem in problems)
    if answer:
        of_frame += _on_yield_off_centre(of_frame + of_parts, forces)
    outcome = forces.outcome + of_frame + of_parts + of_jack + taken_for_press(press)
    return Result(press.title, basis_shown(forces, basis), outcome, drawing=answer.drawing if answer else "")


def _on_yield_off_centre(outcome: Outcome, forces: Forces) -> Outcome:
    """Times on yield at rated load where off centre the load stresses a part more than in the middle.

    Elastic stress grows with the force, so it follows from `yield at greatest force`, judged at every position.
    """
    return Outcome(
        times_on_yield=tuple(
            TimesOnYield(f.part, f.capacity.value / f.demand.value * forces.greatest / forces.rated)
            for f in outcome.findings
            if f.check == "yield at greatest force" and f.demand and f.capacity and not f.user_force
            if f.capacity.unit == "MPa" and f.demand.value > 0
        )
    )


def setting_of(press: PressFile, forces: Forces, sections: tuple[Section, ...] = ()) -> Setting:
    """What surrounds every part of this press."""
    limits = press.limits
    return Setting(
        basis=forces.as_basis(press.basis, press.use),
        rated=forces.rated,
        sections=(*own_sections(press.section, sections), *sections),
        limit=limits.deflection,
        flatness=limits.flatness,
        press=press,
    )
