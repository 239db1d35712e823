"""The form at the filler: what it shows for each happening, and where it puts a refusal."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.bottling.form_view import BottlingForm
from honeyledger.desktop.stations.bottling.typed import CHANGE, CLOSE, LABELS, LEFT, START, WEIGH
from honeyledger.domain.refusals import Refusal, Sentence
from tests.desktop.bottling_rig import Filler
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def filler(qtbot: QtBot, tmp_path: Path) -> Iterator[Filler]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Filler(rig)
    rig.close()


def _shown(form: BottlingForm) -> list[str]:
    every = {**form.texts(), **form.buttons()}
    return sorted(name for name, field in every.items() if field.isVisible())


def test_each_happening_shows_its_own_fields(filler: Filler) -> None:
    form = filler.view.form
    shown = {}
    for kind in (START, LABELS, LEFT):
        filler.presenter.choose(kind)
        shown[kind] = _shown(form)
    filler.started()
    filler.settle()
    for kind in (WEIGH, CHANGE, CLOSE):
        filler.presenter.choose(kind)
        filler.settle()
        shown[kind] = _shown(form)
        assert form.record.text() == form.record_words(kind)
        assert form.slot.sentence()
    assert shown == {
        START: ["about", "counter", "feed", "product"],
        LABELS: ["first", "label_as", "last", "lot"],
        LEFT: ["gross", "lot"],
        WEIGH: ["tare", "weight"],
        CHANGE: ["case", "case_size", "empty", "jars", "mean", "next"],
        CLOSE: ["empty", "in_line", "jars", "mean", "packaging", "rejects"],
    }


def test_labels_say_what_is_known(filler: Filler) -> None:
    form = filler.view.form
    filler.scan(filler.first)
    assert form.feed.label.text() == "Drum 1, then"
    filler.started()
    filler.presenter.take_in_hand(filler.page().bottlings[0].code)
    filler.settle()
    filler.presenter.choose(CHANGE)
    filler.settle()
    assert form.jars.label.text() == "Counter, else ≈ 200"
    assert form.mean.label.text() == "Mean, else 500.0"
    assert form.empty.label.text() == "Drum 1 ran empty"
    filler.presenter.choose(CLOSE)
    filler.settle()
    assert form.jars.label.text() == "Counter now"
    assert [button.text() for button in form.empty.buttons()] == ["the rest", "nothing"]
    assert form.empty.key() == "no"


def test_the_counter_and_the_case_empty_one_another(filler: Filler) -> None:
    filler.started()
    filler.settle()
    filler.presenter.choose(CHANGE)
    filler.settle()
    form = filler.view.form
    form.form.take_focus(form.jars)
    filler.type("12", enter=False)
    form.form.take_focus(form.case)
    filler.type("3", enter=False)
    assert (form.jars.text(), form.case.text()) == ("", "3")
    form.form.take_focus(form.jars)
    filler.type("14", enter=False)
    assert (form.jars.text(), form.case.text()) == ("14", "")


def test_arrows_pass_over_kinds_and_enter_goes_into_the_fields(filler: Filler) -> None:
    filler.started()
    filler.settle()
    form = filler.view.form
    form.what.take_focus()
    filler.keys("Right")
    assert form.what.key() == CHANGE
    assert form.what.buttons()[1].hasFocus()
    filler.keys("Right", "Return")
    assert filler.at() == "jars"
    assert form.what.key() == CLOSE


def test_tab_goes_back_from_the_first_field_to_what_happens(filler: Filler) -> None:
    def back_and_forth() -> list[str]:
        filler.view.form.begin()
        first = filler.window.focused()
        filler.keys("Shift+Tab")
        back = filler.window.focused()
        filler.keys("Tab")
        assert filler.window.focused() == first
        return [first, back]

    filler.view.form.form.take_focus(filler.view.form.product)
    filler.keys("Shift+Tab")
    assert filler.window.focused() == "What happens: Start"
    filler.started()
    filler.open()
    for kind, first, back in (
        (WEIGH, "Jar on the scale, g", "What happens: Weigh"),
        (CHANGE, "Counter, else ≈ 200", "What happens: Change"),
        (CLOSE, "Counter now", "What happens: Close"),
        (LABELS, "Jar lot, Clover 500 g", "What happens: Labels"),
    ):
        filler.presenter.choose(kind)
        filler.settle()
        assert back_and_forth() == [first, back]


def test_weights_are_drawn_and_counted(filler: Filler) -> None:
    filler.started()
    filler.settle()
    form = filler.view.form
    assert form.strip.isVisible()
    filler.type("502")
    filler.type("498")
    assert form.strip.accessibleName().startswith("In order: mean 500.0 g, declared 500 g.")
    assert "76/211/EEC" in form.strip.accessibleName()
    filler.presenter.choose(CHANGE)
    filler.settle()
    assert not form.strip.isVisible()
    assert form.mean.label.text() == "Mean, else 500.0"


def test_a_refusal_stands_at_the_top_and_its_field_has_the_keyboard(filler: Filler) -> None:
    filler.started()
    filler.settle()
    filler.presenter.choose(CHANGE)
    filler.settle()
    form = filler.view.form
    form.show_refusal(Refusal(Sentence("x", "Read it again."), field="jars"))
    shown = form.slot.shown()
    assert shown is not None
    assert (shown.mark, shown.sentence) == (Mark.REFUSED, "Not recorded. Read it again.")
    assert form.jars.box.refused
    assert filler.at() == "jars"
    form.show_refusal(Refusal(Sentence("y", "About nothing here."), field="elsewhere"))
    assert filler.at() == "jars"


def test_what_is_said_goes_with_the_next_word(filler: Filler) -> None:
    form = filler.view.form
    form.say([Message(Mark.NOTE, "Well.")])
    assert form.slot.sentence() == "Well."
    form.say([])
    assert form.slot.sentence() == "Choose the product, then scan its drums in their order."


def test_an_empty_enter_never_leads_to_where_a_weight_would_be_a_tare(filler: Filler) -> None:
    filler.started()
    filler.settle()
    filler.type("")
    assert filler.at() == "weight"
    filler.keys("Tab")
    assert filler.at() == "tare"
    filler.type("240")
    assert filler.at() == "weight"
    filler.type("742")
    assert filler.presenter.hand.filler().weights_mg == (502_000,)


def test_clear_takes_back_what_was_weighed_last(filler: Filler) -> None:
    filler.started()
    filler.settle()
    filler.type("502")
    filler.keys("Ctrl+Backspace")
    assert filler.presenter.hand.filler().weights_mg == ()
    assert filler.at() == "weight"


def test_the_record_button_can_have_the_keyboard(filler: Filler) -> None:
    filler.view.form.focus_record()
    assert filler.window.focused() == "Start the bottling"


def test_what_chooses_a_happening_stays_while_the_fields_scroll(filler: Filler) -> None:
    filler.started()
    filler.rig.window.resize(640, 400)
    filler.settle()
    filler.presenter.choose(CLOSE)
    filler.settle()
    form = filler.view.form
    form.form.take_focus(form.packaging)
    bar = form.form.verticalScrollBar()
    assert bar.value() > 0
    bar.setValue(bar.maximum())
    for button in form.what.buttons():
        assert not button.visibleRegion().isEmpty()
        assert button.mapTo(form.form, button.rect().topLeft()).y() >= 0


def test_jars_are_weighed_in_full_view_where_the_window_was_low_before(filler: Filler) -> None:
    filler.started()
    form, window = filler.view.form.form, filler.rig.window
    window.resize(640, 400)
    filler.settle()
    filler.presenter.choose(WEIGH)
    filler.settle()
    window.resize(1280, 800)
    filler.settle()
    assert form.verticalScrollBar().maximum() == 0
    assert form.height() >= form.room()
