"""The fields of the bottling: each kind has its own, and they say what was typed."""

from dataclasses import fields

from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.bottling.fields_view import BottlingFields, choose
from honeyledger.desktop.stations.bottling.typed import KINDS, Typed
from honeyledger.desktop.widgets.choices import Choice


def test_every_kind_has_fields_and_words(qtbot: QtBot) -> None:
    form = BottlingFields()
    known = {*form.texts().values(), *form.buttons().values()}
    for kind in KINDS:
        assert set(form.own(kind)) <= known
        assert form.kind_words(kind)
        assert form.record_words(kind)
    standing = {field for row in form.rows() for field, _ in row}
    assert standing == known, "what chooses between them is pinned over them"


def test_every_field_is_of_the_form_that_is_typed(qtbot: QtBot) -> None:
    form = BottlingFields()
    names = {one.name for one in fields(Typed)} - {"kind", "order"}
    assert {*form.texts(), *form.buttons()} == names


def test_what_is_shown_is_what_is_typed(qtbot: QtBot) -> None:
    form = BottlingFields()
    form.product.set_choices([Choice("clover-500-g", "Clover 500 g", "500 g")])
    typed = Typed(
        "change",
        product="clover-500-g",
        order=("D26-0001-C",),
        jars="12",
        next="Tank 9",
        empty="yes",
        in_line="no",
        weight="502,4",
    )
    form.show(typed)
    assert form.product.text() == "Clover 500 g"
    assert form.as_typed("change", ("D26-0001-C",)) == typed
    form.show(Typed())
    assert form.as_typed("start", ()) == Typed()


def test_what_is_no_choice_stands_as_it_was_typed(qtbot: QtBot) -> None:
    form = BottlingFields()
    choose(form.next, "Tank 9")
    assert (form.next.key(), form.next.text()) == ("", "Tank 9")
    form.next.set_choices([Choice("E26-0001-W", "Tank 9", "90 kg")])
    choose(form.next, "E26-0001-W")
    assert form.next.text() == "Tank 9"
