"""A flat with a half-lap slot, from its `[[section]]`: the section left or restored, and the weld that restores it."""

from collections.abc import Sequence

from structcheck.checks.basis import Basis
from structcheck.checks.section_resistance import Station
from structcheck.checks.slot_weld import SlotJoint, check_slot_weld
from structcheck.errors import InputError, Problem
from structcheck.findings import Assumption, NotNeeded, Outcome
from structcheck.materials.steels import Steel
from structcheck.press.section_schema import SectionTable, SlotTable
from structcheck.shapes.section import Section
from structcheck.shapes.slots import ClosedSlot, Slot, SlotWeld


def slotted(table: SectionTable) -> Section:
    """The section at the slot. Raises InputError for a weld that is not described."""
    slot, weld = _slot(table), _weld(table.slot)
    return slot.left if weld is None else slot.welded(weld)


def check_slot(
    name: str, table: SectionTable, steel: Steel, pieces: int, places: Sequence[Station], basis: Basis
) -> Outcome:
    """What was taken of the slot, and its weld where one counts."""
    slot, weld = _slot(table), _weld(table.slot)
    outcome = Outcome(assumptions=_assumptions(name, table, weld, places))
    if weld is None:
        return outcome
    part = f"{name}, slot weld"
    if not isinstance(slot.welded(weld).shape, ClosedSlot):
        reason = "too small to restore anything: the rib counts as cut"
        return outcome + Outcome(does_not_apply=(NotNeeded(part, "weld throat", reason),))
    assert table.slot is not None
    joint = SlotJoint(
        name=part, slot=slot, weld=weld, steel=steel, inspected=table.slot.inspected, weldable=table.weldable
    )
    return outcome + check_slot_weld(joint, places, pieces, basis)


def _slot(table: SectionTable) -> Slot:
    assert table.slot is not None
    return Slot(table.h, table.t, table.slot.depth, table.slot.width)


def _weld(table: SlotTable | None) -> SlotWeld | None:
    if table is None:
        return None
    problems = []

    def fault(key: str, what: str, wanted: str, remedy: str = "") -> None:
        problems.append(Problem(f"slot.{key}", "", what, wanted, remedy))

    if table.weld == "none":
        for key in ("throat", "length", "returned", "inspected"):
            if getattr(table, key):
                fault(key, "describes a weld that is not stated", 'weld = "fillets" or "butt" beside it')
    elif table.weld == "fillets" and table.throat is None:
        fault("throat", "is missing", "the throat of the fillets that close the slot", 'throat = "4 mm"')
    elif table.weld == "butt" and table.throat is not None:
        fault("throat", "means nothing for a butt weld of full penetration", 'weld = "fillets", or no throat')
    if table.length is not None and table.length > table.depth:
        fault("length", "is more than the slot is deep", f"at most {table.depth:g} mm")
    if problems:
        raise InputError(problems)
    if table.weld == "none":
        return None
    return SlotWeld(table.weld, table.throat, table.length, table.returned)


def _assumptions(
    name: str, table: SectionTable, weld: SlotWeld | None, places: Sequence[Station]
) -> tuple[Assumption, ...]:
    restores = "the crossing rib restores nothing" if weld is None else "the weld restores what it carries"
    made = [Assumption(name, f'"{table.name}" counts as cut by its slot along its whole length; {restores}')]
    if any(station.N for station in places):
        text = "the axial force runs through the middle of what the slot leaves, not through that of the whole rib"
        made.append(Assumption(name, text, text))
    return tuple(made)
