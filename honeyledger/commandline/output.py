"""How answers leave: JSON, plain sentences, and tables; in colour only on a terminal.

A code is never wrapped or cut, and what a house typed is never taken for markup.
"""

import importlib
import json
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import click

from honeyledger.domain.codes import LETTERS, LOT_LETTERS
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.ledger.sources import is_unknown
from honeyledger.services.holding import NOT_KNOWN
from honeyledger.services.house import Recorded, notes_of

GAP = "  "
MOST_NUMBERS = 3


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: figures stand right, and only prose may wrap."""

    title: str
    right: bool = False
    wraps: bool = False


def say(text: str = "") -> None:
    """A line for people."""
    click.echo(text)


def write_json(value: object) -> None:
    """An answer for programs."""
    click.echo(json.dumps(value, ensure_ascii=False, indent=2))


def table(columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> None:
    """A table: drawn by rich on a terminal, in plain columns elsewhere."""
    if sys.stdout.isatty():
        importlib.import_module("honeyledger.commandline.rich_table").draw(columns, rows)
        return
    for line in plain_lines(columns, rows):
        say(line)


def plain_lines(columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> list[str]:
    """A table as lines of plain text, each cell as long as it is."""
    cells = [[column.title for column in columns], *rows]
    widths = [max(len(row[at]) for row in cells) for at in range(len(columns))]
    lines = []
    for row in cells:
        parts = [
            cell.rjust(width) if column.right else cell.ljust(width)
            for cell, width, column in zip(row, widths, columns, strict=True)
        ]
        lines.append(GAP.join(parts).rstrip())
    return lines


def recorded_json(recorded: Recorded, digest: str) -> dict[str, Any]:
    """What a recording command answers to programs; `digest` is the last entry's."""
    return {
        "entries": [entry.id for entry in recorded.entries],
        "codes": list(recorded.given),
        "lots": [
            {"code": lot.code, "kind": lot.kind, "made_g": lot.made_g}
            for entry in recorded.entries
            for lot in entry.lots
        ],
        "notes": [
            {"key": key, "text": text}
            for entry in recorded.entries
            for key, text in notes_of(entry)
        ],
        "digest": digest,
        "again": recorded.again,
    }


def show_recorded(recorded: Recorded, mass: Callable[[int], str]) -> None:
    """What was written, in words: entries, lots made with their weight, other codes, notes."""
    numbers = _numbers(recorded.entries)
    if recorded.again:
        say(f"Recorded before, as {numbers}; nothing was written again.")
    else:
        say(f"Recorded as {numbers}.")
    made = {lot.code: lot for entry in recorded.entries for lot in entry.lots}
    for lot in made.values():
        say(f"{GAP}{lot.code}{GAP}{noun_of_lot(lot)}, {mass(lot.made_g)}")
    for code in recorded.given:
        if code not in made:
            say(f"{GAP}{code}{GAP}{noun_of(code)}")
    for note in recorded.notes:
        say(f"Note: {note}")


def _numbers(entries: Sequence[Entry]) -> str:
    """The entries by number and what each was; of many, the first and the last."""
    if len(entries) > MOST_NUMBERS:
        kinds = dict.fromkeys(entry.kind for entry in entries)
        return f"entries {entries[0].id} to {entries[-1].id} ({', '.join(kinds)})"
    return "entry " + " and ".join(f"{entry.id} ({what_of(entry)})" for entry in entries)


def what_of(entry: Entry) -> str:
    """What an entry was: of a register's record, which register and who or what."""
    said = entry.facts.get("said")
    if entry.kind != "register" or not isinstance(said, Mapping):
        return entry.kind
    record = said.get("record")
    name = record.get("name", "") if isinstance(record, Mapping) else ""
    return f"{said.get('what', entry.kind)} {name}".rstrip()


def noun_of_lot(lot: Lot) -> str:
    """What a lot is; unknown honey is told apart from a pull."""
    if is_unknown(lot):
        return NOT_KNOWN
    return str(lot.attributes.get("sort", "")) or LOT_LETTERS.get(lot.kind, "lot")


def noun_of(code: str) -> str:
    """What a code's letter stands for."""
    return LETTERS.get(code.split("-")[-3][0], "")
