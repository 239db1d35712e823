"""Which backup of a house was made last from this computer: one record a ledger, in one file.

It stands in the user's own data folder, since a house cannot hold what is only true of its copies.
A file that cannot be read is taken for none: the next backup writes it anew.
"""

import json
from collections.abc import Mapping
from dataclasses import asdict
from pathlib import Path

from honeyledger.services.backups import Backup
from honeyledger.settings import data_folder


def backups_file() -> Path:
    """Where this user's backups are remembered."""
    return data_folder() / "backups.json"


def last_backup(file: Path, ledger: str) -> Backup | None:
    """The last backup of a ledger, as remembered in a file."""
    kept = _read(file).get(ledger)
    try:
        return Backup(**kept) if isinstance(kept, Mapping) else None
    except TypeError:
        return None


def remember_backup(file: Path, backup: Backup) -> None:
    """Remember a backup as the last of its ledger; the others stay.

    Raises:
        OSError: the disk or the folder does not allow it.
    """
    kept = _read(file) | {backup.ledger: asdict(backup)}
    part = file.with_name(f".{file.name}.part")
    file.parent.mkdir(parents=True, exist_ok=True)
    part.write_text(json.dumps(kept, ensure_ascii=False, indent=1), encoding="utf-8")
    part.replace(file)


def _read(file: Path) -> dict[str, object]:
    try:
        kept = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return dict(kept) if isinstance(kept, Mapping) else {}
