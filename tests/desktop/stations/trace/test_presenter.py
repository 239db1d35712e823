"""The trace page's presenter alone, on a real house in a file: no widget is made."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.jobs import Jobs
from honeyledger.desktop.refresh import Refresh
from honeyledger.desktop.stations.trace.presenter import Timed, TracePresenter
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.persistence.store import open_store
from honeyledger.services.trace_page import ForwardPage, TracePage
from honeyledger.settings import Settings
from tests.support.houses import BuiltHouse


class Alone:
    """A drum of two yards, one of them by a heel, and what the presenter answered."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        self.bot = qtbot
        store = open_store(str(folder / "house"), create=True, new_id=lambda: "ledger-1")
        self.built = BuiltHouse(store=store)
        tank = self.built.vessel("Tank 1")
        self.built.load(self.built.yard("Long Field", forage="canola"), 100_000, tank)
        self.built.drum(tank, 90_000)
        self.yard = self.built.yard("Mill Lane", place="NE 22", forage="clover")
        self.built.load(self.yard, 290_000, tank)
        self.drum = self.built.drum(tank, 280_000)
        self.built.do(Register("customer", {"name": "Corner Shop"}))
        self.desk = Desk(
            self.built.house,
            Jobs(),
            Refresh(),
            Settings(),
            folder,
            station="office",
            drafts=Drafts(folder / "drafts"),
        )
        self.presenter = TracePresenter(self.desk)
        self.answers: list[Timed] = []
        self.refusals: list[Refusal] = []
        self.presenter.answered.connect(self.answers.append)
        self.presenter.refused.connect(self.refusals.append)

    def find(self, text: str) -> None:
        self.presenter.find(text)
        self.settle()

    def settle(self) -> None:
        self.bot.waitUntil(self.desk.jobs.is_idle)

    def back(self) -> TracePage:
        page = self.answers[-1].answer
        assert isinstance(page, TracePage)
        return page

    def forward(self) -> ForwardPage:
        page = self.answers[-1].answer
        assert isinstance(page, ForwardPage)
        return page


@pytest.fixture
def alone(qtbot: QtBot, tmp_path: Path) -> Iterator[Alone]:
    made = Alone(qtbot, tmp_path)
    yield made
    made.desk.jobs.close()
    made.built.store.close()


def test_back_to_the_yards_with_shares_that_make_a_whole(alone: Alone) -> None:
    alone.find(alone.drum.lower())
    assert alone.presenter.code == alone.drum
    page = alone.back()
    assert alone.presenter.heading(page) == f"Where {alone.drum} comes from: 280.0 kg"
    assert alone.presenter.answer(page) == (
        "2 yards. 96.7 % from Mill Lane. Long Field only through a heel."
    )
    rows = alone.presenter.yard_rows(page)
    assert [(row.name, row.how, row.share, row.place, row.forage) for row in rows] == [
        ("Mill Lane", "direct", "96.7", "NE 22", "clover"),
        ("Long Field", "heel only", "3.3", "", "canola"),
    ]
    assert rows[0].pulled == "24 Jul 2026"
    assert sum(int(row.grams.replace("\u202f", "")) for row in rows) == 280_000


def test_what_was_added_is_said_beside_the_yards(alone: Alone) -> None:
    built = alone.built
    cream = built.vessel("Cream tank")
    built.do(Register("supplier", {"name": "Spice Trade"}))
    facts = Supply("Spice Trade", "ingredient", "Cinnamon", Weight(net_g=9_000))
    spice = built.do(facts).codes[0]
    parts = (Portion(alone.drum, Weight(net_g=98_000)), Portion(spice, Weight(net_g=2_000)))
    built.do(Blend(cream, parts))
    alone.find(built.drum(cream, 100_000))
    assert alone.presenter.answer(alone.back()) == (
        "2 yards. 96.7 % from Mill Lane. Long Field only through a heel. With 2.0 % Cinnamon."
    )


def test_the_river_comes_with_the_answer(alone: Alone) -> None:
    alone.find(alone.drum)
    river = alone.answers[-1].river
    assert river is not None
    assert river.node(alone.drum).mass_g == 280_000
    assert alone.answers[-1].seconds > 0


@pytest.mark.parametrize("text", ["Mill Lane", "mill lane", "Y26-0002-N"])
def test_a_yard_goes_forward_by_name_or_code(alone: Alone, text: str) -> None:
    alone.built.do(Dispatch("Corner Shop", (DispatchLine(alone.drum),)))
    alone.find(text)
    page = alone.forward()
    assert page.name == "Mill Lane"
    assert not alone.presenter.can_turn(), "a yard comes from nowhere"
    rows = alone.presenter.reached_rows(page)
    assert (rows[0].where, rows[0].lots, rows[0].grams) == (
        "Corner Shop",
        alone.drum,
        "280.0 kg",
    )
    assert rows[-1].where == "here: Tank 1"
    assert alone.presenter.forward_answer(page) == (
        "3 lots hold some of it. 1 customer got it; 20.0 kg of those lots are still here."
    )


def test_a_lot_can_be_turned_and_turned_back(alone: Alone) -> None:
    alone.find(alone.drum)
    alone.presenter.turn()
    alone.settle()
    assert alone.presenter.forward
    assert alone.forward().trace.code == alone.drum
    alone.presenter.turn()
    alone.settle()
    assert not alone.presenter.forward


def test_a_refusal_leaves_the_page_as_it_is_and_offers_what_is_near(alone: Alone) -> None:
    alone.find(alone.drum)
    wrong = alone.drum[:-1] + ("X" if alone.drum[-1] != "X" else "Y")
    alone.find(wrong)
    assert alone.drum in alone.refusals[-1].offers
    assert alone.presenter.code == alone.drum
    assert len(alone.answers) == 1
    alone.find("Nowhere Yard")
    assert len(alone.refusals) == 2


def test_what_is_recorded_meanwhile_is_traced_again(alone: Alone) -> None:
    alone.find(alone.yard)
    before = len(alone.forward().trace.customers)
    alone.built.do(Dispatch("Corner Shop", (DispatchLine(alone.drum),)))
    alone.desk.refresh.broadcast(EVERYTHING)
    alone.settle()
    assert len(alone.forward().trace.customers) == before + 1


def test_counts_have_their_nouns(alone: Alone) -> None:
    alone.find(alone.drum)
    rows = alone.back().trace.ancestors
    counted = alone.presenter.counted
    assert counted(rows) == "2 yards"
    assert counted(rows[:1]) == "1 yard"
    bought = rows[0]._replace(kind="supplier")
    assert counted((bought,)) == "1 other source"
    assert counted((*rows, bought, bought)) == "2 yards and 2 other sources"


@pytest.mark.parametrize(
    ("how", "says"),
    [
        (("heel",), "Mill Lane only through a heel."),
        (("margin",), "Mill Lane only within the margin."),
        (("heel", "margin"), "Mill Lane only through a heel or within the margin."),
        (("late",), "Mill Lane only indirectly."),
    ],
)
def test_how_a_yard_is_in_is_said_as_it_is(alone: Alone, how: tuple[str, ...], says: str) -> None:
    alone.find(alone.drum)
    page = alone.back()
    row = page.trace.ancestors[0]._replace(how=how, only_through_heel=True)
    changed = replace(page, trace=replace(page.trace, ancestors=(row,)))
    assert alone.presenter.answer(changed).endswith(says)
