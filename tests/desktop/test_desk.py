"""What every station works at: who says it, which codes are this house's, what is recorded."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import StationAsks, refusal_of
from honeyledger.desktop.jobs import LaneClosed, Outcome
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.tokens import Density
from honeyledger.domain.codes import make_jar_code, next_code
from honeyledger.domain.refusals import BrokenRule, Damage, Refusal, Sentence
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Recorded
from honeyledger.settings import Settings
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def test_each_thing_said_has_an_id_of_its_own(rig: DeskRig) -> None:
    rig.desk.operator = "O26-0001-X"
    one, other = rig.desk.said(), rig.desk.said(run="R26-0001-X")
    assert (one.operator, one.station, one.run) == ("O26-0001-X", "dock", "")
    assert other.run == "R26-0001-X"
    assert one.command != other.command


def test_what_is_recorded_is_told_to_everyone_once(rig: DeskRig) -> None:
    heard: list[object] = []
    rig.desk.refresh.changed.connect(lambda kinds, me: heard.append((set(kinds), me)))
    outcomes: list[Outcome[Recorded]] = []
    facts = Register("yard", {"name": "Mill Lane"})
    rig.desk.record([facts], rig.desk.said(), outcomes.append, self_name := object())
    rig.settle()
    assert heard == [({"ledger"}, self_name)]
    assert outcomes[0].value is not None
    assert rig.desk.newest == outcomes[0].value.entries[-1].id == 5
    rig.desk.record([facts], rig.desk.said(), outcomes.append)
    rig.settle()
    assert outcomes[1].refusal is not None
    assert len(heard) == 1, "nothing changed, nobody is told"


def test_codes_of_this_house_are_known_by_their_letter(rig: DeskRig) -> None:
    drum = next_code("D", 26, 0)
    jar = make_jar_code(next_code("J", 26, 0), 7)
    assert rig.desk.letter_of(str(drum).lower()) == "D"
    assert rig.desk.letter_of(str(jar)) == "J"
    assert rig.desk.letter_of("Mill Lane") == ""
    assert rig.desk.code_of(f" {str(drum).replace('-', '')} ") == str(drum)
    assert rig.desk.code_of("D26-0001-Z") == ""
    rig.desk.prefix = "HB"
    assert rig.desk.letter_of(str(next_code("G", 26, 0, "HB"))) == "G"


def test_a_station_is_as_large_as_it_asks_unless_the_settings_say(rig: DeskRig) -> None:
    assert rig.desk.density(Density.FLOOR) is Density.FLOOR
    rig.desk.settings = Settings(density="desk")
    assert rig.desk.density(Density.FLOOR) is Density.DESK


def test_settings_are_kept_for_the_next_start(rig: DeskRig) -> None:
    rig.desk.remember(Settings(look="dark"))
    rig.settle()
    assert rig.desk.settings.look == "dark"
    assert rig.kept == [Settings(look="dark")]


def test_a_station_says_what_it_has_to_say(qtbot: QtBot) -> None:
    asks, said = StationAsks(), []
    asks.say.connect(said.append)
    asks.told(Message(Mark.READY, "Done."))
    assert said == [Message(Mark.READY, "Done.")]


def test_whatever_goes_wrong_is_said_in_a_sentence() -> None:
    asked = Refusal(Sentence("no-yard", "Name the yard."))
    assert refusal_of(Outcome(error=asked)) is asked
    assert refusal_of(Outcome(error=TimeoutError())).text == (
        "The ledger did not take it (TimeoutError). Try again: it is kept once, however often "
        "you try."
    )
    for error in (LaneClosed(), Damage("entry 3"), BrokenRule("sum")):
        assert refusal_of(Outcome(error=error)).text.startswith("Nothing more is recorded")


def test_the_row_in_hand_has_its_card_and_its_trace() -> None:
    asks, told = StationAsks(), []
    asks.card.connect(lambda key: told.append(("card", key)))
    asks.trace.connect(lambda key: told.append(("trace", key)))
    assert asks.of_row("card", "D26-0001-7")
    assert asks.of_row("trace-this", "D26-0001-7")
    assert not asks.of_row("card", "")
    assert not asks.of_row("print", "D26-0001-7")
    assert told == [("card", "D26-0001-7"), ("trace", "D26-0001-7")]
