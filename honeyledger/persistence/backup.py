"""A copy of a house's file that is whole, or none at all.

Copying the file as it lies would leave out what is still beside it. SQLite copies it page by
page while others work; the copy is checked, put on the disk, and only then takes its name.
"""

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.persistence import faults
from honeyledger.persistence.faults import faults_named, file_faults_named
from honeyledger.persistence.rows import previous_text
from honeyledger.services.store import Head

ONTO_ITSELF = Sentence(
    "backup-onto-itself", "A backup cannot replace the house itself. Give it another name."
)
NO_BACKUP_FOLDER = Sentence(
    "no-backup-folder",
    "There is no folder {where} for the backup. Make it, or choose another.",
)
ANOTHER_FILE = Sentence(
    "backup-over-another-file",
    "{target} is there already and is no copy of this house, so it is not replaced. Give the "
    "backup another name.",
)
_PAGES_AT_A_TIME = 4096
_HEAD = "SELECT ledger_id, entry, lot, digest FROM head"

Report = Callable[[int, int], None]


def back_up(house: Path, target: Path, report: Report | None = None) -> Head:
    """Write a checked copy of the house to `target`, replacing an older one only when whole.

    Args:
        report: told how many pages of the file are copied, and of how many.

    Returns:
        The head of the copy.

    Raises:
        Refusal: the house is gone or damaged, or nothing can be written there.
    """
    if not house.is_file():
        raise Refusal(faults.NO_HOUSE, field="house", where=house)
    if not target.parent.is_dir():
        raise Refusal(NO_BACKUP_FOLDER, field="target", where=target.parent)
    if target.exists() and target.samefile(house):
        raise Refusal(ONTO_ITSELF, field="target")
    if target.exists() and not _same_ledger(house, target):
        raise Refusal(ANOTHER_FILE, field="target", target=target)
    part = target.with_name(f".{target.name}.part")
    with file_faults_named(str(target.parent)):
        part.unlink(missing_ok=True)
        try:
            head = _copy(house, part, report)
            _to_disk(part)
            os.replace(part, target)  # noqa: PTH105 - the one call that swaps names at once
            if os.name != "nt":
                _to_disk(target.parent)
        finally:
            part.unlink(missing_ok=True)
    return head


def _same_ledger(house: Path, target: Path) -> bool:
    """Whether a file is an older copy of this house: it has the same ledger's id."""
    ids = []
    for path in (house, target):
        try:
            # Only to read: asking must not make a file, nor change one that is something else.
            with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)) as file:
                ids.append(file.execute("SELECT ledger_id FROM head").fetchone())
        except sqlite3.Error:
            return False
    return ids[0] is not None and ids[0] == ids[1]


def _copy(house: Path, part: Path, report: Report | None) -> Head:
    def told(_status: int, left: int, pages: int) -> None:
        if report is not None:
            report(pages - left, pages)

    with (
        faults_named(str(house)),
        closing(sqlite3.connect(house, timeout=10)) as source,
        closing(sqlite3.connect(part)) as copy,
    ):
        source.backup(copy, pages=_PAGES_AT_A_TIME, progress=told)
        found = copy.execute("PRAGMA integrity_check(1)").fetchone()[0]
        # The copy is one file by itself: nothing of it may stand beside it.
        copy.execute("PRAGMA journal_mode = DELETE")
        if found != "ok":
            raise Refusal(faults.DAMAGED, field="house", where=house, what=found)
        ledger, entry, lot, digest = copy.execute(_HEAD).fetchone()
    return Head(ledger, entry, lot, previous_text(entry + 1, digest))


def _to_disk(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY if path.is_dir() or os.name != "nt" else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
