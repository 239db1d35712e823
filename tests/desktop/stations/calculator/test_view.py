"""The calculator's page: typed at the left, told at the right with its source, by keys alone."""

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.calculator.view import Calculator, CalculatorView
from honeyledger.desktop.widgets.fields import Field
from honeyledger.ledger.verbs.measuring import Measure
from tests.desktop.checks_rig import Looked
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def calculator(qtbot: QtBot) -> Calculator:
    """A calculator without any house."""
    made = Calculator(date(2026, 7, 24))
    qtbot.addWidget(made.spread)
    made.spread.resize(1200, 700)
    made.spread.show()
    return made


def _type(calculator: Calculator, **values: str) -> None:
    for key, text in values.items():
        field = calculator.fields[calculator.presenter.key][key]
        assert isinstance(field, Field)
        field.editor.setText(text)
        field.editor.textEdited.emit(text)


def test_what_is_typed_is_reckoned_at_once_with_its_source(calculator: Calculator) -> None:
    calculator.begin()
    assert calculator.notes.sentences() == [
        "Type what the refractometer shows, and how warm honey and prism are."
    ]
    _type(calculator, figure="1.4900", temperature="20")
    said = calculator.notes.sentences()
    assert said[0].startswith("water: 18.60 %")
    assert "Chataway 1932" in said[0]
    _type(calculator, figure="1.4600")
    shown = calculator.slot.shown()
    assert shown is not None
    assert "outside the table for honey" in shown.sentence
    calculator.clear()
    assert calculator.slot.shown() is None


def test_another_sum_has_its_own_fields_and_keeps_them(calculator: Calculator) -> None:
    _type(calculator, figure="1.4900")
    calculator.choose("blend")
    shown = [key for key, field in calculator.fields["blend"].items() if field.isVisible()]
    assert shown == ["net1", "water1", "colour1", "net2", "water2", "colour2"]
    _type(calculator, net1="300", water1="17.2", net2="100", water2="19.2")
    assert calculator.fields["blend"]["net3"].isVisible()
    assert any(one.startswith("water: 17.70 %") for one in calculator.notes.sentences())
    calculator.choose("moisture")
    field = calculator.fields["moisture"]["figure"]
    assert isinstance(field, Field)
    assert field.text() == "1.4900"
    assert not calculator.fields["blend"]["net1"].isVisible()


def test_drying_is_reckoned_by_keys_alone(calculator: Calculator, qtbot: QtBot) -> None:
    calculator.choose("dry")
    calculator.begin()
    for text in ("18.6", "", "0", "20.6", "6", "19.8", "12", "19.0"):
        held = calculator.spread.window().focusWidget()
        assert held is not None
        qtbot.keyClicks(held, text)
        qtbot.keyClick(held, Qt.Key.Key_Tab)
    assert calculator.notes.sentences()[0].startswith("hours after the last reading, likely: 3")
    assert "Fieller" in calculator.notes.sentences()[0]
    assert calculator.fields["dry"]["hour4"].isVisible()
    assert not calculator.fields["dry"]["hour5"].isVisible()


def test_a_lot_that_is_scanned_goes_into_the_blend(qtbot: QtBot, tmp_path: Path) -> None:
    rig = Rig(qtbot, tmp_path, first=SOON)
    looked = Looked(rig)
    rig.house.record(Measure(looked.drum, 1_740, 320))
    rig.keys("Ctrl+Shift+R")
    rig.settle()
    view = rig.window.stations["calculator"]
    assert isinstance(view, CalculatorView)
    assert not view.take_code(looked.drum), "its card opens while something else is reckoned"
    view.calculator.choose("blend")
    for _ in range(6):
        rig.window.take_code(looked.drum)
        rig.settle()
    typed = view.calculator.presenter.now()
    assert [typed.text(key) for key in ("net1", "water1", "colour1")] == [
        *("60.0 kg", "17.4 %", "32 mm")
    ]
    assert typed.text("net5") == "60.0 kg"
    assert any(one.startswith("water: 17.40 %") for one in view.calculator.notes.sentences())
    shown = view.calculator.slot.shown()
    assert shown is not None
    assert shown.lead == "A blend has five parts here: clear it, or type over one."
    rig.window.take_code("D26-9999-0")
    rig.settle()
    rig.close()
