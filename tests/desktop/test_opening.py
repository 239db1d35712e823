"""How a station comes to be shown: made piece by piece, then shown, no key lost between."""

import json
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import EVERYTHING, StationView
from honeyledger.desktop.messages import Message
from honeyledger.desktop.opening import Opening, Stations
from honeyledger.desktop.stations.dispatch.open_notes import OpenNotes
from honeyledger.desktop.stations.dispatch.typed import NoteTyped
from honeyledger.desktop.stations.dispatch.view import DispatchView
from honeyledger.desktop.stations.extraction.draft_view import FloorDraft
from honeyledger.desktop.stations.extraction.view import ExtractionView
from honeyledger.desktop.stations.keys.view import KeysView
from honeyledger.desktop.stations.season.view import SeasonView
from honeyledger.desktop.stations.setup.view import SetupView
from honeyledger.desktop.table_care import TableCare
from honeyledger.desktop.turns import Making
from honeyledger.desktop.widgets.choices import ChoiceField
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import Rig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    yield made
    made.close()


def keys_page(rig: Rig, qtbot: QtBot, told: list[str]) -> Making[StationView]:
    """A page in two pieces."""
    told.append("begun")
    yield
    page = KeysView(rig.desk)
    qtbot.addWidget(page.widget)
    return page


def test_a_station_is_made_when_it_is_first_asked_for(rig: Rig, qtbot: QtBot) -> None:
    made: list[tuple[str, StationView]] = []
    make = partial(keys_page, rig, qtbot, [])
    stations = Stations({"keys": make, "help": make}, lambda *station: made.append(station))
    assert list(stations) == ["keys", "help"]
    assert (len(stations), made) == (2, [])
    view = stations["help"]
    assert stations["help"] is view
    assert made == [("help", view)]
    assert stations.is_made("help")
    assert not stations.is_made("keys")


def test_a_station_is_made_piece_by_piece_and_asked_for_meanwhile_at_once(
    rig: Rig, qtbot: QtBot
) -> None:
    told: list[str] = []
    stations = Stations(
        {key: partial(keys_page, rig, qtbot, told) for key in ("keys", "help")},
        lambda key, _view: told.append(key),
    )
    assert not stations.go_on("keys")
    assert (told, stations.is_made("keys")) == (["begun"], False)
    assert not stations.go_on("keys"), "it is taken over in a turn of its own"
    assert stations.go_on("keys")
    assert stations.go_on("keys"), "and it stays made"
    assert told == ["begun", "keys"]
    assert not stations.go_on("help")
    assert isinstance(stations["help"], KeysView)
    assert told == ["begun", "keys", "begun", "help"], "what was begun is gone on with"


def test_a_station_that_failed_half_made_is_begun_anew(rig: Rig, qtbot: QtBot) -> None:
    told: list[str] = []

    def make() -> Making[StationView]:
        page = yield from keys_page(rig, qtbot, told)
        if told == ["begun"]:
            raise OSError("no paper")
        return page

    stations = Stations({"keys": make}, lambda key, _view: told.append(key))
    with pytest.raises(OSError, match="no paper"):
        stations["keys"]
    assert isinstance(stations["keys"], KeysView)
    assert told == ["begun", "begun", "keys"]


def test_a_new_page_is_shown_when_it_is_made_and_the_next_time_at_once(rig: Rig) -> None:
    told: list[str] = []
    rig.window.open_station("yards", lambda: told.append(rig.window.shell.open_key()))
    assert not rig.window.stations.is_made("yards")
    assert (rig.window.shell.open_key(), told) == ("dock", [])
    rig.settle()
    assert (rig.window.shell.open_key(), told) == ("yards", ["yards"])
    rig.window.open_station("dock")
    rig.window.open_station("yards", lambda: told.append("again"))
    assert (rig.window.shell.open_key(), told) == ("yards", ["yards", "again"])


def test_a_window_that_closed_takes_no_key_from_another(
    qtbot: QtBot, tmp_path: Path, rig: Rig
) -> None:
    (tmp_path / "other").mkdir()
    gone = Rig(qtbot, tmp_path / "other")
    gone.window.open_station("yards")
    with gone.window.scanner.resting():
        gone.close()
    QCoreApplication.processEvents()
    rig.window.close()
    assert gone.window.shell.open_key() == "dock"
    field = QLineEdit()
    qtbot.addWidget(field)
    field.show()
    field.setFocus()
    qtbot.keyClicks(field, "north")
    assert field.text() == "north"


def test_a_key_brings_the_page_asked_for_last_while_another_is_still_made(rig: Rig) -> None:
    turns = rig.desk.jobs.turns
    rig.window.open_station("extraction")
    rig.window.open_station("yards")
    while not rig.window.stations.is_made("yards"):
        turns._next()
    turns._next()
    assert not rig.window.stations.is_made("extraction"), "a piece of it is made, not all"
    assert rig.window.shell.open_key() == "dock"
    rig.press("m")
    assert rig.window.shell.open_key() == "yards"


def test_what_is_typed_while_a_page_is_being_made_stands_in_its_first_field(rig: Rig) -> None:
    rig.told(Register("yard", {"name": "Mill Lane"}))
    rig.keys("Ctrl+2")
    before = QApplication.focusWidget()
    assert isinstance(before, QLineEdit)
    rig.window.open_station("yards")
    rig.press("m", "i", "l")
    rig.window.scanner.give_back()
    after = QApplication.focusWidget()
    assert isinstance(after, QLineEdit)
    assert rig.window.shell.open_key() == "yards"
    assert (before.text(), after.text()) == ("", "mil")
    rig.settle()
    assert QApplication.focusWidget() is after, "nothing takes the keyboard away afterwards"


def test_who_thinks_better_of_it_stays_where_they_went_last(rig: Rig) -> None:
    rig.keys("Ctrl+1", "Ctrl+2")
    rig.window.open_station("drums")
    rig.window.open_station("yards")
    rig.settle()
    assert rig.window.shell.open_key() == "yards"
    rig.window.open_station("bottling")
    rig.window.open_station("dock")
    rig.settle()
    assert rig.window.shell.open_key() == "dock"


def test_a_page_is_whole_before_it_is_given_an_answer(rig: Rig, qtbot: QtBot) -> None:
    rig.window.open_station("setup")
    rig.settle()
    view = rig.window.stations["setup"]
    assert isinstance(view, SetupView)
    zone = view.by_kind["house"].by_key["zone"]
    assert isinstance(zone, ChoiceField)
    qtbot.waitUntil(lambda: len(zone.choices()) > 100)


LOAD = {"kind": "load", "typed": {"pallet": "north"}}


def note_left(customer: str) -> dict[str, object]:
    """The draft of an open dispatch note."""
    return OpenNotes(NoteTyped(customer=customer, command="1")).as_draft()


def half_typed(view: StationView) -> str:
    """What stands in the first field of a page."""
    if isinstance(view, ExtractionView):
        return view.floor.form.pallet.text()
    assert isinstance(view, DispatchView)
    return view.presenter.note.customer


@pytest.mark.parametrize(
    ("page", "draft", "typed"),
    [("extraction", LOAD, "NORTH"), ("dispatch", note_left("Corner Shop"), "Corner Shop")],
)
def test_what_was_half_typed_comes_back_where_something_is_recorded_as_its_page_is_made(
    rig: Rig, page: str, draft: dict[str, object], typed: str
) -> None:
    rig.told(Register("yard", {"name": "Mill Lane"}))
    rig.desk.drafts.keep(f"{page}-ledger-1", draft)
    rig.window.open_station(page)
    rig.window.open_station("dock")
    rig.desk.refresh.broadcast(EVERYTHING)
    rig.settle()
    assert rig.window.stations.is_made(page), "made to its end, and not shown"
    assert rig.window.shell.open_key() == "dock"
    assert half_typed(rig.window.stations[page]) == typed
    rig.window.open_station(page)
    rig.settle()
    kept = json.dumps(rig.desk.drafts.read(f"{page}-ledger-1"))
    assert kept == json.dumps(draft), "nothing wrote over it"


def test_the_window_may_close_while_a_page_is_half_made(rig: Rig) -> None:
    rig.window.open_station("extraction")
    rig.window.close()
    rig.desk.jobs.turns.hurry()
    assert not rig.window.stations.is_made("extraction")


NOT_OPENED_SAID = (
    "What was recorded is kept, but that place could not be opened (OSError). Open it again; if "
    "it still fails, close Honeyledger and start it again."
)


def test_a_page_that_cannot_be_made_is_not_on_its_way(rig: Rig, qtbot: QtBot) -> None:
    def make() -> Making[StationView]:
        raise OSError("no paper")
        yield

    shown: list[str] = []
    stations = Stations({"keys": make}, lambda _key, _view: None)
    place = QObject()
    opening = Opening(stations, rig.desk, lambda key, _view: shown.append(key), place)
    said: list[Message] = []
    opening.failed.connect(said.append)
    with pytest.raises(OSError, match="no paper"):
        opening.open("keys")
    opening.finish()
    assert shown == []
    assert [(one.lead, one.text) for one in said] == [("Not opened.", NOT_OPENED_SAID)]


def test_a_page_that_cannot_be_made_says_so_in_the_window_and_can_be_asked_for_again(
    rig: Rig, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    attend = TableCare.attend

    def fail(care: TableCare, station: str, page: QWidget) -> None:
        if station == "season":
            raise OSError("no paper")
        attend(care, station, page)

    monkeypatch.setattr(TableCare, "attend", fail)
    with qtbot.captureExceptions() as raised:
        rig.keys("Ctrl+9")
        rig.settle()
    assert [str(one[1]) for one in raised] == ["no paper"]
    assert rig.window.shell.open_key() == "dock"
    message = rig.window.toast.message()
    assert message is not None
    assert (message.lead, message.text) == ("Not opened.", NOT_OPENED_SAID)
    monkeypatch.undo()
    rig.keys("Ctrl+9")
    rig.settle()
    assert rig.window.shell.open_key() == "season"
    season = rig.window.stations["season"]
    assert isinstance(season, SeasonView)
    assert season.presenter.page is not None
    pages = rig.window.shell.pages
    assert pages.currentWidget() is season.widget, "what failed half made is not in its place"
    assert rig.window.toast.message() is None, "and nothing says any more that it failed"


def failing_at_last(rig: Rig, qtbot: QtBot, told: list[str]) -> Making[StationView]:
    """A page whose last piece cannot be made."""
    yield from keys_page(rig, qtbot, told)
    raise OSError("no paper")


def test_a_key_pressed_while_a_page_fails_hears_of_it_once(rig: Rig, qtbot: QtBot) -> None:
    told: list[str] = []
    stations = Stations(
        {"keys": partial(failing_at_last, rig, qtbot, told)}, lambda _key, _view: None
    )
    opening = Opening(stations, rig.desk, lambda _key, _view: None, rig.window)
    said: list[Message] = []
    opening.failed.connect(said.append)
    opening.open("keys")
    with pytest.raises(OSError, match="no paper"):
        opening.finish()
    rig.settle()
    assert (len(said), told) == (1, ["begun"])


def test_a_page_that_fails_takes_no_other_along(rig: Rig, qtbot: QtBot) -> None:
    told: list[str] = []
    stations = Stations(
        {
            "bad": partial(failing_at_last, rig, qtbot, told),
            "good": partial(keys_page, rig, qtbot, told),
        },
        lambda _key, _view: None,
    )
    shown: list[str] = []
    opening = Opening(stations, rig.desk, lambda key, _view: shown.append(key), rig.window)
    said: list[Message] = []
    opening.failed.connect(said.append)
    opening.open("bad")
    opening.open("good")
    with qtbot.captureExceptions() as raised:
        rig.settle()
    assert [str(one[1]) for one in raised] == ["no paper"]
    assert (shown, said) == (["good"], []), "who went elsewhere is not told of it"


def test_a_page_that_failed_half_made_erases_no_draft(
    rig: Rig, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    rig.desk.drafts.keep("extraction-ledger-1", LOAD)

    def fail(*_given: object) -> None:
        raise OSError("no paper")

    monkeypatch.setattr(FloorDraft, "__init__", fail)
    with qtbot.captureExceptions() as raised:
        rig.window.open_station("extraction")
        rig.settle()
    assert [str(one[1]) for one in raised] == ["no paper"]
    rig.desk.refresh.broadcast(EVERYTHING)
    rig.settle()
    rig.window.close()
    assert rig.desk.drafts.read("extraction-ledger-1") == LOAD
