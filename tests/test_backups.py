"""The last backup of each ledger is remembered, whatever stands in the file."""

from pathlib import Path

import pytest

from honeyledger.backups import backups_file, last_backup, remember_backup
from honeyledger.services.backups import Backup
from honeyledger.settings import data_folder

FIRST = Backup("/media/stick/house.honeyledger", 1_000, "ledger-1", 7, "ab" * 32)
OTHER = Backup("/media/stick/other.honeyledger", 2_000, "ledger-2", 3, "cd" * 32)


def test_each_ledger_has_its_last_one(tmp_path: Path) -> None:
    file = tmp_path / "new folder" / "backups.json"
    assert last_backup(file, "ledger-1") is None
    remember_backup(file, FIRST)
    remember_backup(file, OTHER)
    later = Backup("/media/stick/later.honeyledger", 3_000, "ledger-1", 9, "ef" * 32)
    remember_backup(file, later)
    assert last_backup(file, "ledger-1") == later
    assert last_backup(file, "ledger-2") == OTHER
    assert [one.name for one in file.parent.iterdir()] == ["backups.json"]


@pytest.mark.parametrize(
    "text", ["", "not json", "[1]", '{"ledger-1": 4}', '{"ledger-1": {"file": "x", "size": 4}}']
)
def test_a_file_that_cannot_be_read_is_none_and_is_written_anew(tmp_path: Path, text: str) -> None:
    file = tmp_path / "backups.json"
    file.write_text(text, encoding="utf-8")
    assert last_backup(file, "ledger-1") is None
    remember_backup(file, FIRST)
    assert last_backup(file, "ledger-1") == FIRST


def test_they_are_remembered_in_the_users_own_folder() -> None:
    assert backups_file().parent == data_folder()
