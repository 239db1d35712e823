import os
from pathlib import Path

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.persistence.backup import back_up
from honeyledger.persistence.store import open_store
from tests.support.entries import write_season


@pytest.fixture
def house(tmp_path: Path) -> Path:
    path = tmp_path / "north.house"
    store = open_store(str(path), create=True)
    write_season(store)
    store.close()
    assert [one.name for one in tmp_path.iterdir()] == ["north.house"], "closed, it is one file"
    return path


def test_a_backup_is_a_whole_house_by_itself(house: Path, tmp_path: Path) -> None:
    (tmp_path / "away").mkdir()
    target = tmp_path / "away" / "copy.house"
    # Open and just written to, so that the newest entry still lies beside the file.
    store = open_store(str(house))
    with store.reading() as view:
        digest = view.head().digest
    told: list[tuple[int, int]] = []
    head = back_up(house, target, lambda done, of: told.append((done, of)))
    store.close()
    assert head.digest == digest
    assert told[-1][0] == told[-1][1] > 0, "it says how far it is"
    assert [path.name for path in target.parent.iterdir()] == ["copy.house"]
    copy = open_store(str(target))
    with copy.reading() as view:
        assert view.head().digest == digest
    assert all(finding.holds for finding in copy.audit())
    copy.close()


def test_a_house_begun_from_a_backup_is_shared_by_programs_as_before(
    house: Path, tmp_path: Path
) -> None:
    target = tmp_path / "copy.house"
    back_up(house, target)
    copy, beside = open_store(str(target)), open_store(str(target))
    assert copy.warnings() == []
    assert beside.warnings() == []
    copy.close()
    beside.close()


def test_what_was_written_last_is_in_it(tmp_path: Path) -> None:
    path, target = tmp_path / "north.house", tmp_path / "copy.house"
    store = open_store(str(path), create=True)
    write_season(store)
    assert path.with_name("north.house-wal").stat().st_size > 0
    back_up(path, target)
    store.close()
    copy = open_store(str(target))
    with copy.reading() as view:
        assert view.head().entry == 10
    copy.close()


def test_an_older_backup_stays_when_the_house_is_damaged(house: Path, tmp_path: Path) -> None:
    target = tmp_path / "copy.house"
    back_up(house, target)
    before = target.read_bytes()
    content = bytearray(house.read_bytes())
    content[8192:12288] = b"\x55" * 4096
    house.write_bytes(content)
    with pytest.raises(Refusal) as refused:
        back_up(house, target)
    assert refused.value.key == "damaged-house"
    assert target.read_bytes() == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["copy.house", "north.house"]


def test_refusals(house: Path, tmp_path: Path) -> None:
    nowhere = tmp_path / "none" / "copy.house"
    cases = {
        (house, house): "A backup cannot replace the house itself. Give it another name.",
        (house, nowhere): f"There is no folder {nowhere.parent} for the backup. Make it, or choose"
        " another.",
        (nowhere, house): f"There is no house at {nowhere}. Check the name, or make a new house "
        "there.",
    }
    for (source, target), text in cases.items():
        with pytest.raises(Refusal) as refused:
            back_up(source, target)
        assert refused.value.text == text


def test_only_an_older_copy_of_the_same_house_is_replaced(house: Path, tmp_path: Path) -> None:
    back_up(house, tmp_path / "copy.house")
    back_up(house, tmp_path / "copy.house")
    other = tmp_path / "south.house"
    open_store(str(other), create=True).close()
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear customer")
    for target in (other, letter):
        before = target.read_bytes()
        with pytest.raises(Refusal) as refused:
            back_up(house, target)
        assert refused.value.text == (
            f"{target} is there already and is no copy of this house, so it is not replaced. "
            "Give the backup another name."
        )
        assert target.read_bytes() == before


def test_it_is_on_the_disk_before_it_has_its_name(
    house: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    done: list[str] = []
    real_sync, real_replace = os.fsync, os.replace
    monkeypatch.setattr(os, "fsync", lambda handle: (done.append("sync"), real_sync(handle)))
    monkeypatch.setattr(os, "replace", lambda a, b: (done.append("name"), real_replace(a, b)))
    back_up(house, tmp_path / "copy.house")
    assert done == (["sync", "name"] if os.name == "nt" else ["sync", "name", "sync"])
