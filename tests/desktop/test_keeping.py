"""The house is backed up when asked: a real copy of a real file, one at a time."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.keeping import Keeping
from honeyledger.domain.refusals import Refusal
from honeyledger.persistence.store import open_store
from honeyledger.services.backups import Backup
from tests.desktop.rig import DeskRig


class Kept:
    """A desk whose house is kept here, and what was told of it."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.keeping = Keeping(rig.desk)
        self.made: list[Backup] = []
        self.refused: list[Refusal] = []
        self.working: list[bool] = []
        self.keeping.made.connect(self.made.append)
        self.keeping.refused.connect(self.refused.append)
        self.keeping.working.connect(self.working.append)

    def back_up(self) -> None:
        """Ask for one and wait for it."""
        self.keeping.back_up()
        self.rig.settle()

    def said(self) -> str:
        """The sentence it was refused with."""
        (refusal,) = self.refused
        return refusal.text


@pytest.fixture
def kept(qtbot: QtBot, tmp_path: Path) -> Iterator[Kept]:
    rig = DeskRig(qtbot, tmp_path)
    rig.keep_here()
    yield Kept(rig)
    rig.close()


def test_a_copy_is_a_whole_house_named_by_house_ledger_and_day(kept: Kept) -> None:
    kept.back_up()
    (backup,) = kept.made
    file = kept.rig.folder / "papers" / "Backups" / "test-house-ledger-2026-07-24.honeyledger"
    assert Path(backup.file) == file
    copy = open_store(str(file))
    with copy.reading() as view:
        assert (view.head().entry, view.head().digest) == kept.rig.head()
    copy.close()
    assert kept.working == [True, False]
    kept.back_up()
    assert len(kept.made) == 2, "one file a day, written anew"
    assert [one.name for one in file.parent.glob("*.honeyledger")] == [file.name]


def test_a_chosen_folder_is_used_and_never_made(kept: Kept) -> None:
    stick = kept.rig.folder / "stick"
    kept.rig.desk.settings = replace(kept.rig.desk.settings, backups=str(stick))
    kept.back_up()
    assert kept.said() == (
        f"There is no folder {stick} for the backup. Make it, or choose another."
    )
    assert not stick.exists(), "a stick that is not there is not made up"
    stick.mkdir()
    kept.back_up()
    assert Path(kept.made[0].file).parent == stick


def test_a_usual_folder_that_cannot_be_made_is_named(kept: Kept) -> None:
    (kept.rig.folder / "papers").write_text("in the way")
    kept.back_up()
    folder = kept.rig.folder / "papers" / "Backups"
    assert kept.said().startswith(f"The folder {folder} for backups cannot be made (")
    assert kept.said().endswith("Choose another, then back up again.")


def test_two_at_once_are_one(kept: Kept) -> None:
    kept.keeping.back_up()
    kept.keeping.back_up()
    assert kept.said() == "A backup is being written already. It says so when it is done."
    kept.rig.settle()
    assert len(kept.made) == 1


@pytest.mark.parametrize("kept_by", [None, "nobody"])
def test_a_house_to_look_around_in_has_nothing_to_lose(kept: Kept, kept_by: str | None) -> None:
    keeper = kept.rig.desk.keeper
    assert keeper is not None
    kept.rig.desk.keeper = replace(keeper, kept="nobody") if kept_by else None
    kept.back_up()
    assert kept.said() == (
        "There is nothing to back up here: this house is only for looking around."
    )


def test_how_far_it_is_is_told_where_it_takes_a_while(kept: Kept) -> None:
    moved: list[tuple[int, int]] = []
    kept.keeping.moved.connect(lambda done, of: moved.append((done, of)))
    keeper = kept.rig.desk.keeper
    assert keeper is not None

    def slow(where: str, target: str, report: object) -> Backup:
        assert callable(report)
        while not moved:  # it is told once that has taken a while
            report(1, 4)
        return keeper.make(where, target, None)

    kept.rig.desk.keeper = replace(keeper, make=slow)
    kept.back_up()
    assert moved[0] == (1, 4)
    assert len(kept.made) == 1


def test_a_house_without_letters_in_its_name_still_has_a_file_name(kept: Kept) -> None:
    assert kept.keeping.file_name("蜂蜜", "a1b2c3d4").startswith("house-a1b2c3-2026-")
    name = kept.keeping.file_name("  Ann's Honey, Ltd. ", "a1b2c3d4")
    assert name.startswith("ann-s-honey-ltd-a1b2c3-2026-")
