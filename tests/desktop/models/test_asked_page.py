"""A station's page as its presenter keeps it: when it is asked for, and what if it cannot be."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import EVERYTHING
from honeyledger.desktop.models.asked import Ask, FormSpec
from honeyledger.desktop.models.asked_page import AskedPage
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.services.store import View
from tests.desktop.rig import DeskRig

SPEC = FormSpec(
    *("move", "Move", "Scan it.", "Keep it"),
    rows=((Ask("what", "What"),),),
    facts=lambda _typed, _reading: [],
    done=lambda _typed, _done, _reading: "done",
)


@dataclass(frozen=True, slots=True)
class Page:
    """A page that counts the entries."""

    ledger: str
    entries: int
    unit: str = "lb"
    zone: str = "America/Winnipeg"
    today: date = date(2026, 7, 24)


class Place:
    """A presenter with a page, and what was said of it."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.is_broken = False
        self.failures: list[str] = []
        self.presenter = AskedPage(rig.desk, "test", (SPEC,), self._page)
        self.presenter.failed.connect(lambda refusal: self.failures.append(refusal.text))

    def _page(self, view: View, _now_ms: int) -> Page:
        if self.is_broken:
            raise KeyError("gone")
        return Page(view.head().ledger_id, view.head().entry)

    def told(self) -> None:
        """Something was recorded."""
        self.rig.desk.refresh.broadcast(EVERYTHING)
        self.rig.settle()


@pytest.fixture
def place(qtbot: QtBot, tmp_path: Path) -> Iterator[Place]:
    rig = DeskRig(qtbot, tmp_path)
    yield Place(rig)
    rig.close()


def test_its_page_is_asked_for_and_says_unit_and_zone(place: Place) -> None:
    place.presenter.ask()
    place.rig.settle()
    assert place.presenter.page == Page("ledger-1", place.rig.head()[0])
    assert (place.rig.desk.unit, place.rig.desk.zone) == ("lb", "America/Winnipeg")
    assert place.presenter.asking.page is place.presenter.page


def test_a_page_that_nobody_sees_is_asked_for_when_it_is_opened(place: Place) -> None:
    place.presenter.is_seen = lambda: False
    place.told()
    assert place.presenter.page is None
    place.presenter.opened()
    place.rig.settle()
    first = place.presenter.page
    assert first is not None
    place.presenter.opened()
    place.rig.settle()
    assert place.presenter.page is first, "nothing has changed since"
    place.presenter.is_seen = lambda: True
    place.told()
    assert place.presenter.page is not first


def test_a_page_that_cannot_be_had_is_said_and_asked_for_again(place: Place) -> None:
    place.presenter.ask()
    place.rig.settle()
    first, place.is_broken = place.presenter.page, True
    place.told()
    assert place.failures == [
        "What is shown here may be old: it could not be asked for (KeyError). Open this place "
        "again to ask once more."
    ]
    assert place.presenter.page is first, "what was there stays"
    place.is_broken = False
    place.presenter.opened()
    place.rig.settle()
    assert place.presenter.page is not first


def test_a_refusal_speaks_for_itself(place: Place) -> None:
    def refuse(_view: View, _now_ms: int) -> Page:
        raise Refusal(Sentence("gone", "The file is gone: put it back."))

    presenter = AskedPage(place.rig.desk, "other", (SPEC,), refuse)
    said: list[str] = []
    presenter.failed.connect(lambda refusal: said.append(refusal.text))
    presenter.ask()
    place.rig.settle()
    assert said == ["The file is gone: put it back."]
