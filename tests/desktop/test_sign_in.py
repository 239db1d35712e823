"""Who works here is remembered, chosen or scanned; nobody's work waits for it."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.sign_in import Person, SignIn, people_menu
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def _person(rig: DeskRig, name: str = "Ann Reed") -> str:
    return rig.house.record(Register("operator", {"name": name})).given[0]


def _signing(rig: DeskRig) -> tuple[SignIn, dict[str, list[Any]]]:
    signing = SignIn(rig.desk)
    heard: dict[str, list[Any]] = {"signed": [], "refused": [], "wanted": []}
    signing.signed.connect(heard["signed"].append)
    signing.refused.connect(heard["refused"].append)
    signing.wanted.connect(lambda: heard["wanted"].append(True))
    signing.start()
    rig.settle()
    return signing, heard


def test_a_house_without_people_asks_nobody(rig: DeskRig) -> None:
    _, heard = _signing(rig)
    assert heard == {"signed": [], "refused": [], "wanted": []}


@pytest.mark.parametrize("by_name", [True, False])
def test_whoever_is_remembered_works_here_again(rig: DeskRig, by_name: bool) -> None:
    code = _person(rig)
    rig.desk.operator = "Ann Reed" if by_name else code
    _, heard = _signing(rig)
    assert heard["signed"] == [Person(code, "Ann Reed")]
    assert rig.desk.operator == code


def test_one_who_is_not_of_this_house_is_asked_for(rig: DeskRig) -> None:
    _person(rig)
    rig.desk.operator = "O26-0099-X"
    _, heard = _signing(rig)
    assert heard["wanted"] == [True]
    assert rig.desk.operator == ""


def test_a_badge_or_a_name_signs_in_and_is_remembered(rig: DeskRig) -> None:
    code = _person(rig)
    signing, heard = _signing(rig)
    signing.sign_in(code.lower())
    rig.settle()
    assert rig.desk.operator == signing.operator() == code
    assert rig.kept[-1].operator == code
    signing.sign_in("")
    rig.settle()
    assert heard["signed"] == [Person(code, "Ann Reed"), None]
    assert rig.desk.operator == ""


def test_a_badge_nobody_has_is_refused_and_nobody_is_signed_out(rig: DeskRig) -> None:
    code = _person(rig)
    signing, heard = _signing(rig)
    signing.sign_in(code)
    rig.settle()
    signing.sign_in("Bob")
    rig.settle()
    assert heard["refused"][0].text.startswith("There is no operator called Bob.")
    assert rig.desk.operator == code


def test_the_list_has_everyone_and_nobody(rig: DeskRig) -> None:
    first, second = _person(rig), _person(rig, "Bo Lund")
    signing, _ = _signing(rig)
    parent = QWidget()
    rig.bot.addWidget(parent)
    menu = people_menu(signing, parent, lambda: None)
    assert [action.text() for action in menu.actions()] == ["Ann Reed", "Bo Lund"]
    menu.actions()[1].trigger()
    rig.settle()
    assert rig.desk.operator == second != first
    names = [action.text() for action in people_menu(signing, parent, lambda: None).actions()]
    assert names == ["Ann Reed", "Bo Lund", "", "Nobody"]


def test_a_house_without_people_leads_to_where_they_are_added(rig: DeskRig) -> None:
    signing, _ = _signing(rig)
    parent, asked = QWidget(), []
    rig.bot.addWidget(parent)
    menu = people_menu(signing, parent, lambda: asked.append(True))
    menu.actions()[0].trigger()
    assert asked == [True]


def test_people_added_later_are_known(rig: DeskRig) -> None:
    signing, _ = _signing(rig)
    rig.told(Register("operator", {"name": "Ann Reed"}))
    assert [person.name for person in signing.people] == ["Ann Reed"]


def test_whoever_registers_as_the_first_person_is_signed_in(rig: DeskRig) -> None:
    signing, heard = _signing(rig)
    code = rig.told(Register("operator", {"name": "Ann Reed"})).given[0]
    assert heard["signed"] == [Person(code, "Ann Reed")]
    assert rig.desk.operator == code
    rig.told(Register("operator", {"name": "Bob Ferris"}))
    assert rig.desk.operator == code
    assert len(signing.people) == 2


def test_who_is_on_shift_now_comes_first_with_the_shift(rig: DeskRig, qtbot: QtBot) -> None:
    _person(rig)
    bo = _person(rig, "Bo Hale")
    day = {"name": "All day", "begins": "00:00", "ends": "23:59", "people": bo}
    rig.house.record(Register("shift", day))
    signing, _ = _signing(rig)
    parent = QWidget()
    qtbot.addWidget(parent)
    menu = people_menu(signing, parent, lambda: None)
    assert [action.text() for action in menu.actions()] == ["Bo Hale · All day", "Ann Reed"]
