"""The page of checks: made by keys, found off since when, what used it, held in one entry."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.checks.asks import HOLD, MADE
from honeyledger.desktop.stations.recalls.view import RecallsView
from honeyledger.domain.checks import State
from tests.desktop.checks_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    """The page, open."""
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def _type(station: Station, **values: str) -> None:
    station.page.asked.asking.fill(FormTyped(values))
    station.rig.settle()


def _row(station: Station, key: str) -> State:
    row = station.view.presenter.row(key)
    assert row is not None
    return row.state


def test_what_is_due_is_listed_and_kept_when_it_is_made(station: Station) -> None:
    assert _row(station, "pests") is State.NEVER
    assert _row(station, station.looked.key) is State.IN_ORDER
    assert station.view.listed.heading.text() == "10 checks need a person"
    assert station.view.notes.sentences()[0].startswith("Floors, drains, tables")
    station.view.table.opened.emit("pests")
    station.rig.settle()
    assert station.typed().text("check") == "pests"
    station.keep()
    assert station.rig.toast().lead == "Pests is in order."
    assert station.books.said()["listed"] == "pests"
    assert _row(station, "pests") is State.IN_ORDER


def test_one_found_off_asks_since_when_and_holds_what_used_it(station: Station) -> None:
    looked = station.looked
    station.choose(MADE)
    _type(station, check=looked.key, result="off")
    offered = station.typed().text("since")
    assert offered.startswith("24 Jul 2026")
    station.keep()
    assert station.rig.toast().lead == (
        "Sieve whole, Sieve was found off: look at what used it since."
    )
    assert _row(station, looked.key) is State.OFF
    assert station.view.table.selected_key() == looked.key, "what was just found off is shown"
    assert station.view.used.isVisible()
    assert looked.drum in [row.code for row in station.view.used.model.rows()]
    told = station.view.notes.sentences()[0]
    assert told.startswith(f"Sieve whole, Sieve may be off since {offered}.")
    assert "free" in told
    used = tuple(row.code for row in station.view.used.model.rows())
    handed: list[tuple[str, tuple[str, ...]]] = []
    station.view.asks.hand.connect(lambda key, codes: handed.append((key, codes)))
    station.view.call_back.click()
    station.rig.settle()
    recalls = station.rig.window.stations["recalls"]
    assert isinstance(recalls, RecallsView)
    assert handed == [("recalls", used)]
    assert recalls.presenter.asking.now().codes("lots") == used
    station.rig.window.open_station("checks")
    station.rig.settle()
    station.view.to_hold.click()
    station.rig.settle()
    assert station.page.asked.asking.kind == HOLD
    station.keep()
    assert "on hold with entry" in station.rig.toast().lead
    assert station.books.last().kind == "hold"
    assert not station.view.to_hold.isVisible()
    assert all(row.held for row in station.view.used.model.rows())


def test_another_time_may_be_typed_over_the_one_offered(station: Station) -> None:
    looked = station.looked
    station.choose(MADE)
    _type(station, check=looked.key, result="off")
    _type(station, check=looked.key, result="off", since="24 Jul 2026 09:30")
    station.keep()
    assert station.books.said()["since_ms"] > looked.right_ms
    row = station.view.presenter.row(looked.key)
    assert row is not None
    assert row.since is not None
    assert row.since.at_ms == station.books.said()["since_ms"]


def test_what_is_not_chosen_is_refused(station: Station) -> None:
    station.choose(MADE)
    station.keep()
    assert "Choose the check that was made from the list." in station.says()
    station.choose(HOLD)
    _type(station, check="pests")
    station.keep()
    assert "Choose the check that was found off; all that used it since is held." in station.says()


def test_the_label_of_a_piece_takes_its_check(station: Station) -> None:
    station.rig.window.take_code(station.looked.sieve)
    station.rig.settle()
    assert station.typed().text("check") == station.looked.key
    assert station.view.table.selected_key() == station.looked.key
    assert not station.view.take_code(station.looked.drum)


def test_the_log_is_printed_by_its_key(station: Station) -> None:
    assert station.view.handle("print")
    station.rig.settle()
    assert (station.rig.folder / "papers" / "Checks log.pdf").is_file()
