"""The fields of dispatch: named, each in one row, with what there is to choose from."""

from dataclasses import replace

from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.dispatch.fields_view import (
    MOST_OFFERED,
    SEND,
    DispatchFields,
    goods_of,
    lots_of,
    sent_lately,
)
from honeyledger.desktop.stations.dispatch.other_typed import AWAY, BACK, SAMPLE
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.fields import Field
from tests.desktop.stations.dispatch.pages import HELD, NEW, OLD, PAGE, SHELF


def _fields(qtbot: QtBot) -> DispatchFields:
    made = DispatchFields(Density.DESK)
    for row in made.rows():
        for field, _part in row:
            qtbot.addWidget(field)
    return made


def test_every_field_stands_in_one_row_and_has_a_name(qtbot: QtBot) -> None:
    made = _fields(qtbot)
    fields = [field for row in made.rows() for field, _part in row]
    assert len(fields) == len(set(fields))
    for kind in (SEND, BACK, AWAY, SAMPLE):
        assert set(made.own(kind)) < set(fields)
        made.lot.set_label(made.lot_label(kind))
        made.mass.set_label(made.mass_label(kind))
        for field in made.own(kind):
            if isinstance(field, Field):
                assert field.editor.accessibleName(), kind
            else:
                assert all(button.accessibleName() for button in field.buttons()), kind


def test_each_happening_has_its_own_words(qtbot: QtBot) -> None:
    made = _fields(qtbot)
    assert made.lot_label(BACK) == "Came back: scan it"
    assert (made.mass_label(SAMPLE), made.mass_label(AWAY)) == ("Weight", "Net, blank for all")
    assert [one.choice.key for one in made.reason(BACK).buttons()] == [
        "broken",
        "unsold",
        "wrong",
        "other",
    ]
    assert [one.choice.key for one in made.reason(AWAY).buttons()] == [
        "broken",
        "spoilt",
        "spilt",
        "other",
    ]


def test_products_are_offered_before_lots_and_what_is_held_is_not() -> None:
    offered = goods_of(PAGE)
    assert [(one.text, one.note) for one in offered] == [
        ("Clover 500 g", "300 jars here"),
        ("Aster 250 g", "none"),
        ("Drums", "2 here"),
        ("J26-0001-L Clover 500 g", "100 jars"),
        ("J26-0002-J Clover 500 g", "200 jars"),
        ("D26-0001-C Drum 7", "280.0 kg"),
        ("D26-0002-A", "150.0 kg"),
    ]
    assert HELD.code not in [one.key for one in offered]
    assert [one.key for one in lots_of(PAGE, SHELF)] == [row.code for row in SHELF]
    assert [one.key for one in lots_of(PAGE, (NEW,))] == [NEW.code]


def test_of_very_many_lots_the_oldest_of_each_group_are_offered() -> None:
    jars, drum = SHELF[0], next(row for row in SHELF if row.kind == "D")
    many = [replace(jars, code=f"J26-{number:04}") for number in range(MOST_OFFERED + 5)]
    offered = [one.key for one in lots_of(PAGE, (*many, drum))]
    assert offered == [*(row.code for row in many[:MOST_OFFERED]), drum.code]


def test_what_went_out_lately_is_offered_when_something_comes_back() -> None:
    assert [(one.key, one.text, one.note) for one in sent_lately(PAGE)] == [
        (OLD.code, "J26-0001-L Clover 500 g", "Corner Shop"),
        ("D26-0009-X", "D26-0009-X", "Corner Shop"),
    ]
