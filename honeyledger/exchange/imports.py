"""Yards and receipts out of a spreadsheet's file: all of it, or nothing and every reason why.

A file taken in twice writes once, whatever the spreadsheet has done to its separators meanwhile;
of a file that has grown, only what is new is written.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from honeyledger.domain.moments import format_iso
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit
from honeyledger.exchange.delimited import Sheet, read_sheet
from honeyledger.exchange.mapping import (
    Known,
    Pallet,
    Setting,
    pallets_in,
    receipt_columns,
    yard_columns,
    yards_in,
)
from honeyledger.ledger.booking import as_json, rules_of
from honeyledger.ledger.canonical import digest_of, text_of
from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.places import YARD, key_of
from honeyledger.ledger.state import Mark
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import House, Recorded, Said
from honeyledger.services.store import View

NOBODY = Said()
CORRECTED = Sentence(
    "corrected-in-file",
    "this pallet differs from entry {entry}, taken in before for the same time: reverse that "
    "entry first. If this is another pallet, keep the row of that one in the file as well.",
)


@dataclass(frozen=True, slots=True)
class ImportResult:
    """What a file brought.

    Args:
        file: its name.
        rows: rows read.
        recorded: what was written; None where there was nothing new.
        again: all of the file was taken in before, and nothing was written now.
        text: what happened, as a sentence.
    """

    file: str
    rows: int
    recorded: Recorded | None
    again: bool
    text: str

    @property
    def codes(self) -> tuple[str, ...]:
        """All codes given: yards, or pulls and pallet tags."""
        return self.recorded.given if self.recorded else ()


def import_yards(house: House, path: Path, said: Said = NOBODY) -> ImportResult:
    """Register the yards of a file; one known by name is changed where the file says otherwise.

    Raises:
        Refusal: nothing was written; every bad cell is named.
    """
    sheet = read_sheet(path, yard_columns())
    records = yards_in(sheet)
    sheet.check()
    if not records:
        return _nothing_in(sheet)
    marks = {_name(mark).casefold(): mark for mark in house.ask(_yards)}
    named = [(record, marks.get(str(record["name"]).casefold())) for record in records]
    changes = [(record, mark) for record, mark in named if _differs(record, mark)]
    if not changes:
        text = f"{sheet.file}: all {_count(len(records), 'yard')} were already so."
        return ImportResult(sheet.file, len(sheet.rows), None, True, text)
    facts = [_register(record, mark) for record, mark in changes]
    replaced = [mark.entry if mark else 0 for _, mark in changes]
    recorded = house.record_all(facts, replace(said, command=_command("yards", facts, replaced)))
    new = replaced.count(0)
    text = f"{sheet.file}: {_count(new, 'new yard')}, {len(facts) - new} changed."
    return ImportResult(sheet.file, len(sheet.rows), recorded, recorded.again, text)


def import_receipts(house: House, path: Path, said: Said = NOBODY) -> ImportResult:
    """Receive the pallets of a file, each when it arrived.

    Raises:
        Refusal: nothing was written; every bad cell is named.
    """
    setting, known = house.ask(lambda view: (setting_of(view, house.clock()), known_to(view)))
    sheet = read_sheet(path, receipt_columns(setting))
    pallets = pallets_in(sheet, known)
    sheet.check()
    if not pallets:
        return _nothing_in(sheet)
    new, undone, others = house.ask(lambda view: _not_yet_received(view, pallets))
    for pallet, entry in _corrected(new, others):
        row = pallet.rows[0]
        refusal = Refusal(CORRECTED, entry=entry.id)
        sheet.problem(row.number, "arrived", str(row["arrived"]), refusal)
    _try_each(house, new, sheet)
    sheet.check()
    recorded = None
    if new:
        facts = [pallet.facts for pallet in new]
        happened = [pallet.happened for pallet in new]
        command = _command("receipts", facts, [*map(format_iso, happened), *undone])
        recorded = house.record_all(facts, replace(said, command=command), happened)
    text = _received_text(sheet.file, new, len(pallets) - len(new))
    return ImportResult(sheet.file, len(sheet.rows), recorded, not new, text)


def _nothing_in(sheet: Sheet) -> ImportResult:
    text = f"{sheet.file} has no rows under its first one: nothing was written."
    return ImportResult(sheet.file, 0, None, False, text)


def _not_yet_received(
    view: View, pallets: Sequence[Pallet]
) -> tuple[list[Pallet], list[int], list[Entry]]:
    """The pallets that no receipt of the same content and time is written for, and entries of
    such receipts that were reversed: these may come in again. Then receipts taken in from files
    that are none of these pallets.
    """
    since_ms = min(pallet.happened.at_ms for pallet in pallets)
    written: dict[str, list[Entry]] = {}
    undone: dict[str, int] = {}
    for entry in view.entries(["receive"], since_ms):
        content = _content(entry.act.happened.at_ms, entry.facts["said"])
        if view.reversed_by(entry.id):
            undone[content] = entry.id
        else:
            written.setdefault(content, []).append(entry)
    new = []
    for pallet in pallets:
        same = written.get(_content(pallet.happened.at_ms, as_json(pallet.facts)))
        if same:
            same.pop()
        else:
            new.append(pallet)
    contents = [_content(one.happened.at_ms, as_json(one.facts)) for one in new]
    others = [one for entries in written.values() for one in entries if _is_import(one)]
    return new, [undone.get(content, 0) for content in contents], others


def _is_import(entry: Entry) -> bool:
    return entry.act.command.startswith(_command_of("receipts"))


def _corrected(
    pallets: Sequence[Pallet], others: Sequence[Entry]
) -> Iterator[tuple[Pallet, Entry]]:
    """Pallets that look like one taken in before, with something put right in the file since.

    They came at the same moment, and from the same yards or else alike in everything but these.
    """
    left = list(others)
    for pallet in pallets:
        wanted = as_json(pallet.facts)
        for entry in left:
            at_once = entry.act.happened.at_ms == pallet.happened.at_ms
            said = entry.facts["said"]
            if at_once and any(part(said) == part(wanted) for part in (_yards_of, _without)):
                left.remove(entry)
                yield pallet, entry
                break


def _lines_of(said: Json) -> list[Mapping[str, Json]]:
    lines = said.get("lines", ()) if isinstance(said, Mapping) else ()
    assert isinstance(lines, Sequence)
    return [line for line in lines if isinstance(line, Mapping)]


def _yards_of(said: Json) -> list[str]:
    return sorted({str(line["yard"]) for line in _lines_of(said)})


def _without(said: Json) -> tuple[object, ...]:
    """What is said of a pallet, but its yards."""
    assert isinstance(said, Mapping)
    rest = {name: value for name, value in said.items() if name != "lines"}
    lines = [{k: v for k, v in line.items() if k != "yard"} for line in _lines_of(said)]
    return rest, lines


def _content(at_ms: int, said: Json) -> str:
    return text_of([at_ms, said])


def _received_text(file: str, new: Sequence[Pallet], before: int) -> str:
    supers = sum(line.count for pallet in new for line in pallet.facts.lines)
    known = f"{_count(before, 'pallet')} {'was' if before == 1 else 'were'} taken in before"
    if not new:
        return f"{file}: {known}, and nothing is new. Nothing was written."
    came = f"{file}: received {_count(len(new), 'pallet')} with {_count(supers, 'super')}"
    return f"{came}; {known}." if before else f"{came}."


def _try_each(house: House, pallets: Sequence[Pallet], sheet: Sheet) -> None:
    """Book each pallet on trial, so that what the dock refuses is named by its row."""
    for pallet in pallets:
        try:
            house.preview(pallet.facts, Said(happened=pallet.happened))
        except Refusal as refusal:
            row = pallet.rows[0]
            sheet.problem(row.number, refusal.field, str(row[refusal.field] or ""), refusal)


def setting_of(view: View, now_ms: int) -> Setting:
    """The house's zone and unit, by which its files are read."""
    mark = view.mark("house", "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    unit: MassUnit = "lb" if record.get("unit") == "lb" else "kg"
    return Setting(rules_of(view).zone, now_ms, unit)


def known_to(view: View) -> Known:
    """The yards and boxes the house knows, by name, number and code."""
    yards: dict[str, str] = {}
    names = []
    for mark in _yards(view):
        record = mark.value
        assert isinstance(record, Mapping)
        code = key_of(mark.subject)
        names.append(_name(mark))
        for name in (_name(mark), code, str(record.get("number", ""))):
            if name:
                yards[name.casefold()] = code
    boxes = {
        _name(mark).casefold(): key_of(mark.subject) for mark in view.marked("record", "box/")
    }
    return Known(yards, boxes, names, rules_of(view).prefix)


def _yards(view: View) -> Sequence[Mark]:
    return [mark for mark in view.marked("record", f"{YARD}/") if isinstance(mark.value, Mapping)]


def _name(mark: Mark) -> str:
    return str(mark.value.get("name", "")) if isinstance(mark.value, Mapping) else ""


def _differs(record: Mapping[str, str | int], mark: Mark | None) -> bool:
    """Whether a file says anything of a yard that its record does not say."""
    if mark is None or not isinstance(mark.value, Mapping):
        return True
    return any(mark.value.get(key) != value for key, value in record.items())


def _register(record: Mapping[str, str | int], mark: Mark | None) -> Register:
    if mark is None or not isinstance(mark.value, Mapping):
        return Register(YARD, record)
    kept = {key: value for key, value in mark.value.items() if isinstance(value, str | int)}
    return Register(YARD, {**kept, **record}, key_of(mark.subject))


def _command(what: str, facts: Sequence[Any], beside: Sequence[Json]) -> str:
    """A command id that the same content always gives."""
    content: list[Json] = [[as_json(one) for one in facts], list(beside)]
    return f"{_command_of(what)}{digest_of(text_of(content))[:40]}"


def _command_of(what: str) -> str:
    return f"import-{what}-"


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"
