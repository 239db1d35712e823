"""Half-filled forms outlive a crash, and never stop anybody's work."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.drafts import DraftKeeper, Drafts
from honeyledger.desktop.jobs import Jobs


def test_a_draft_is_kept_and_read_again(tmp_path: Path) -> None:
    drafts = Drafts(tmp_path / "drafts")
    drafts.keep("dock", {"yard": "Mühlenweg", "kept": []})
    assert Drafts(tmp_path / "drafts").read("dock") == {"yard": "Mühlenweg", "kept": []}
    assert [file.name for file in (tmp_path / "drafts").iterdir()] == ["dock.json"]


def test_an_empty_draft_is_thrown_away(tmp_path: Path) -> None:
    drafts = Drafts(tmp_path)
    drafts.keep("dock", {"yard": "Mill Lane"})
    drafts.keep("dock", {})
    assert list(tmp_path.iterdir()) == []
    drafts.keep("dock", {})


@pytest.mark.parametrize("content", [b"", b"{", b"[1]", b"\xff\xfe"])
def test_what_cannot_be_read_is_no_draft(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "dock.json").write_bytes(content)
    assert Drafts(tmp_path).read("dock") == {}
    assert Drafts(tmp_path).read("none") == {}


def test_a_draft_that_cannot_be_written_stops_nobody(tmp_path: Path) -> None:
    file = tmp_path / "drafts"
    file.write_text("in the way")
    Drafts(file).keep("dock", {"yard": "Mill Lane"})
    assert file.read_text() == "in the way"


@pytest.fixture
def jobs() -> Iterator[Jobs]:
    made = Jobs()
    yield made
    made.close()


def test_of_many_drafts_the_newest_is_kept(qtbot: QtBot, jobs: Jobs, tmp_path: Path) -> None:
    keeper = DraftKeeper(Drafts(tmp_path), jobs)
    keeper.keep({"supers": "0"})  # nowhere yet
    keeper.name = "dock"
    for supers in range(50):
        keeper.keep({"supers": str(supers)})
    qtbot.waitUntil(jobs.is_idle)
    assert Drafts(tmp_path).read("dock") == {"supers": "49"}
    found: list[object] = []
    keeper.read(found.append)
    qtbot.waitUntil(jobs.is_idle)
    assert found == [{"supers": "49"}]


def test_at_the_end_a_draft_is_written_at_once(jobs: Jobs, tmp_path: Path) -> None:
    keeper = DraftKeeper(Drafts(tmp_path), jobs)
    keeper.keep_now({"supers": "1"})
    assert list(tmp_path.iterdir()) == []
    keeper.name = "dock"
    keeper.keep_now({"supers": "1"})
    assert Drafts(tmp_path).read("dock") == {"supers": "1"}
