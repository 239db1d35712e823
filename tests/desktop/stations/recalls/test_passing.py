"""A case on a piece of equipment and a window of time, by keys; what is refused of it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.recalls.asks import OPEN
from honeyledger.desktop.stations.recalls.passing import (
    PLACE,
    SINCE,
    UNTIL,
    Passing,
    Wanted,
    passed,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.recalls_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    """The page, open; a sieve is part of the tank."""
    rig = Rig(qtbot, tmp_path, first=SOON)
    made = Station(rig)
    rig.house.record(Register("equipment", {"name": "Sieve", "at": "Tank"}))
    rig.house.record(Register("vessel", {"name": "Spare"}))
    made.view.presenter.ask()
    rig.settle()
    yield made
    rig.close()


def _code(station: Station, name: str) -> str:
    page = station.view.presenter.page
    assert page is not None
    return next(row.code for row in page.equipment if row.name == name)


def _fill(station: Station, **values: str) -> None:
    asking = station.page.asked.asking
    begun = asking.specs[OPEN].begins().values
    asking.fill(FormTyped({**begun, "about": "the sieve is broken", **values}))
    station.rig.settle()


def test_a_case_by_keys_holds_all_that_went_through(station: Station) -> None:
    rig = station.rig
    rig.type("the sieve is broken")
    while not rig.focused().startswith("Or equipment"):
        rig.keys("Return")
    rig.type("Sieve")
    rig.settle()
    assert rig.focused().startswith("In use from"), rig.focused()
    rig.type("yesterday 00:01")
    assert rig.focused().startswith("to, else now"), rig.focused()
    rig.settle()
    rig.keys("Return", "Return", "Return", "Return")
    rig.settle()
    case = station.view.presenter.page.case  # type: ignore[union-attr]
    assert case is not None
    assert {station.sent.sent, station.sent.here} <= {lot.code for lot in case.lots}
    assert [one.name for one in case.consignees] == ["Packer"]
    assert rig.toast().lead == f"{case.code} is open, and all stock in its scope is on hold."


def test_what_is_refused_of_it_stands_at_its_field(station: Station) -> None:
    sieve, spare = _code(station, "Sieve"), _code(station, "Spare")
    for values, sentence in (
        (
            {PLACE: sieve},
            "Type from when on it may have happened, as in yesterday 14:30.",
        ),
        (
            {PLACE: sieve, SINCE: "today 00:02", UNTIL: "today 00:01"},
            "It ends before it begins. Correct one of the two times.",
        ),
        (
            {PLACE: spare, SINCE: "yesterday 00:01"},
            "Nothing went through Spare between these times. Correct them, or scan what is meant.",
        ),
    ):
        _fill(station, **values)
        station.keep()
        assert sentence in station.says()
    assert station.codes() == []


def test_no_case_is_opened_on_an_answer_to_something_else(station: Station) -> None:
    came: list[int] = []
    passing = Passing(station.rig.desk, lambda: came.append(1))
    asked = FormTyped({PLACE: _code(station, "Tank"), SINCE: "yesterday 00:01"})
    passing.look(asked)
    with pytest.raises(Refusal) as early:
        passing.lots(asked)
    assert str(early.value) == (
        "What went through it then is being looked up. Wait a moment, then go on."
    )
    station.rig.settle()
    assert station.sent.sent not in passing.lots(asked), "what it was drawn from went through"
    assert passing.lots(asked)
    with pytest.raises(Refusal):
        passing.lots(asked.with_value(SINCE, "yesterday 00:02"))
    assert passing.lots(FormTyped()) == ()
    assert came == [1]


def test_a_time_that_cannot_be_read_is_at_its_field(station: Station) -> None:
    with pytest.raises(Refusal) as refused:
        station.rig.house.ask(
            lambda view: passed(view, station.rig.now_ms, Wanted("Tank", "soon", ""))
        )
    assert refused.value.field == SINCE
