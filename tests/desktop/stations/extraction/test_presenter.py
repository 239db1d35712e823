"""The floor's presenter alone, on a real house in a file: no widget is made."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.messages import Message
from honeyledger.desktop.refresh import Refresh
from honeyledger.desktop.stations.extraction.presenter import DOUBLE_MS, ExtractionPresenter
from honeyledger.desktop.stations.extraction.typed import FillTyped, HeelTyped
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.persistence.store import open_store
from honeyledger.settings import Settings
from tests.support.houses import BuiltHouse


class Alone:
    """A presenter with a line, a tank and a pallet, and all it has said."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        store = open_store(str(folder / "house"), create=True, new_id=lambda: "ledger-1")
        self.bot = qtbot
        self.built = BuiltHouse(store=store)
        self.line = self.built.vessel("Line A", sort="line")
        self.tank = self.built.vessel("Tank 1", fed_by=self.line)
        _, self.tag = self.built.pull(self.built.yard("Mill Lane"), 400_000)
        self.desk = Desk(
            self.built.house,
            Jobs(),
            Refresh(),
            Settings(),
            folder,
            "O26-0001-X",
            station="floor",
            drafts=Drafts(folder / "drafts"),
        )
        self.presenter = ExtractionPresenter(self.desk)
        self.refused: list[Refusal] = []
        self.done: list[tuple[str, Message]] = []
        self.closing: list[bool] = []
        self.presenter.refused.connect(self.refused.append)
        self.presenter.done.connect(lambda kind, message: self.done.append((kind, message)))
        self.presenter.closing.connect(self.closing.append)
        self.presenter.ask()
        self.settle()

    def settle(self) -> None:
        """Until every question is answered."""
        self.bot.waitUntil(self.desk.jobs.is_idle)

    def begun(self) -> str:
        """A run with the pallet in it: its code."""
        self.presenter.open_run(self.line)
        self.settle()
        self.presenter.load(self.tag, "")
        self.settle()
        return self.presenter.run


@pytest.fixture
def alone(qtbot: QtBot, tmp_path: Path) -> Iterator[Alone]:
    made = Alone(qtbot, tmp_path)
    yield made
    made.desk.jobs.close()
    made.built.store.close()


def test_a_run_is_opened_and_is_the_one_in_hand(alone: Alone) -> None:
    assert not alone.presenter.is_open()
    run = alone.begun()
    assert alone.presenter.open_runs() == [run]
    assert alone.presenter.vessels() == (alone.line, alone.tank)
    assert alone.presenter.in_line_g() == 400_000
    assert [kind for kind, _ in alone.done] == ["open run", "load"]
    sheet = alone.presenter.sheet()
    assert sheet is not None
    assert [row.grams for row in sheet.went_in] == [400_000]


def test_pressed_twice_it_is_recorded_once(alone: Alone) -> None:
    alone.begun()
    alone.presenter.cappings("30")
    assert alone.presenter.busy
    alone.presenter.cappings("30")
    alone.settle()
    assert [kind for kind, _ in alone.done].count("cappings") == 1
    assert not alone.presenter.busy


def test_a_tag_is_a_double_for_a_moment(alone: Alone) -> None:
    alone.begun()
    assert alone.presenter.is_double(alone.tag)
    assert not alone.presenter.is_double("G26-0002-1")
    alone.built.now_ms += DOUBLE_MS + 1
    assert not alone.presenter.is_double(alone.tag)


def test_a_refused_tag_may_be_scanned_again_at_once(alone: Alone) -> None:
    alone.begun()
    alone.presenter.load(alone.tag, "")
    alone.settle()
    assert alone.refused[-1].key == "pallet-empty"
    assert not alone.presenter.is_double(alone.tag)


def test_a_parsers_refusal_is_told_like_the_ledgers(alone: Alone) -> None:
    alone.begun()
    alone.presenter.fill(FillTyped(alone.tank, "", "1.234", ""))
    alone.presenter.wet_out("12,5", "")
    alone.presenter.see_balance(alone.tank, "much", "dip")
    assert [refusal.field for refusal in alone.refused] == ["gross_g", "count", "heel"]
    assert not alone.presenter.busy


def test_heels_are_kept_one_a_vessel_and_a_blank_takes_one_away(alone: Alone) -> None:
    alone.begun()
    alone.presenter.see_balance(alone.tank, "40", "dip")
    alone.presenter.see_balance(alone.line, "2", "guess")
    alone.presenter.see_balance(alone.tank, "42", "mark")
    assert alone.presenter.heels == (
        HeelTyped(alone.line, "Line A", 2_000, "guess"),
        HeelTyped(alone.tank, "Tank 1", 42_000, "mark"),
    )
    alone.presenter.see_balance(alone.line, "", "dip")
    assert [heel.vessel for heel in alone.presenter.heels] == [alone.tank]
    assert alone.closing == [True] * 4


def test_signing_closes_the_run_and_forgets_the_heels(alone: Alone) -> None:
    run = alone.begun()
    alone.presenter.see_balance(alone.tank, "40", "dip")
    alone.presenter.sign()
    alone.settle()
    assert alone.done[-1][1].lead == f"Run {run} is closed."
    assert not alone.presenter.is_open()
    assert alone.presenter.run == ""
    assert alone.presenter.heels == ()
    assert alone.closing[-1] is False
    sheet = alone.presenter.sheet()
    assert sheet is not None
    assert sheet.run.code == run, "the last run stays in view"


def test_a_reversed_signature_brings_the_run_back(alone: Alone) -> None:
    run = alone.begun()
    alone.presenter.sign()
    alone.settle()
    entry = alone.done[-1][1].about
    assert isinstance(entry, int)
    alone.built.do(Reverse(entry, "entered wrongly"))
    alone.presenter.ask()
    alone.settle()
    assert alone.presenter.run == run


def test_the_next_run_of_two_lines(alone: Alone) -> None:
    first = alone.begun()
    other = alone.built.vessel("Line B", sort="line")
    alone.presenter.open_run(other)
    alone.settle()
    second = alone.presenter.run
    assert second != first
    alone.presenter.next_run()
    alone.settle()
    assert alone.presenter.run == first
    assert alone.presenter.vessels() == (alone.line, alone.tank)


def test_a_draft_is_kept_and_comes_back(alone: Alone) -> None:
    alone.presenter.draft = lambda: {"kind": "load", "typed": {"supers": "12"}}
    alone.presenter.keep_draft()
    alone.settle()
    again = ExtractionPresenter(alone.desk)
    restored: list[object] = []
    again.restored.connect(restored.append)
    again.ask()
    alone.bot.waitUntil(lambda: bool(restored))
    assert restored == [{"kind": "load", "typed": {"supers": "12"}}]
