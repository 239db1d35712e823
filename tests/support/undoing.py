"""The page that says how each verb is undone, made from what the commands say of themselves.

`python -m tests.support.undoing` writes packaging/UNDO.md anew.
"""

import inspect
import re
from pathlib import Path

import click

from honeyledger.commandline.group import all_commands, honeyledger
from honeyledger.commandline.options import Recording
from honeyledger.commandline.stations import STATIONS
from honeyledger.ledger.verbs.table import VERBS

PAGE = Path(__file__).resolve().parents[2] / "packaging" / "UNDO.md"
UNDO = re.compile(r"^Undo: (.+(?:\n.+)*)$", re.MULTILINE)
NAMED = {
    "open run": "run open",
    "close run": "run close",
    "room log": "room log",
    "sample": "draw-sample",
    "register": "register yard add",
    "open recall": "recall open",
    "recall notice": "recall tell",
    "recall answer": "recall answer",
    "close recall": "recall close",
    "printed": "paper",
}
"""Verbs whose command is not their own name with hyphens."""
HEAD = """# How each thing is undone

Nothing that was recorded is edited or deleted. `honeyledger reverse ENTRY --reason WHY` answers an
entry with its opposite, while nothing is built on it; `--chain` shows first, and then reverses,
all that is built on it as well, the newest first. Where honey has gone on, `honeyledger amend`
puts the books right: codes and printed labels stay true, old and new are both in reach, and
`honeyledger narrow` takes one of them out by name. In the window both stand under Entries.

What follows is what each command says of itself (`honeyledger COMMAND --help`).

| verb | command | undone by |
| --- | --- | --- |
"""


def command_of(kind: str) -> str:
    """The words a verb is typed by."""
    return NAMED.get(kind, kind.replace(" ", "-").replace("'", ""))


def page() -> str:
    """The whole page, verbs in the order of their commands' list."""
    commands = dict(all_commands(click.Context(honeyledger)))
    order = [name for station in STATIONS for name in station.commands]
    kinds = sorted(VERBS, key=lambda kind: (order.index(command_of(kind).split()[0]), kind))
    rows = []
    for kind in kinds:
        words = command_of(kind)
        command = commands[words]
        assert isinstance(command, Recording), words
        (said,) = UNDO.findall(inspect.cleandoc(command.help or ""))
        shown = words.replace(" yard ", " ... ")
        rows.append(f"| {kind} | `{shown}` | {' '.join(said.split())} |")
    return HEAD + "\n".join(rows) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
