"""The season's page by keys alone: looked at, walked, opened, printed."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.verbs.measuring import Measure
from tests.desktop.season_rig import SeasonRig

Key = Qt.Key


@pytest.fixture
def season(qtbot: QtBot, tmp_path: Path) -> Iterator[SeasonRig]:
    made = SeasonRig(qtbot, tmp_path)
    yield made
    made.close()


def test_the_answer_stands_first_and_the_chart_has_the_keyboard(season: SeasonRig) -> None:
    view = season.view
    assert view.answer.page.text() == "Season 2027: Pace"
    assert view.answer.sentence.text() == (
        "50 supers are left. No run in the last fortnight; with a run every day, on 26 Jul."
    )
    assert QApplication.focusWidget() is view.chart
    assert season.walk(Key.Key_Right) == [
        "24 Jul: 30 supers, 270 frames in 0 h 30 min, 290 kg into drums"
    ]
    assert season.rig.focused().endswith("290 kg into drums")
    assert view.table.selected_key() == "2027-07-24"


def test_another_look_is_chosen_by_arrow(season: SeasonRig) -> None:
    view = season.view
    view.chooser.take_focus()
    season.press(Key.Key_Right)
    assert view.answer.page.text() == "Season 2027: Today"
    season.press(Key.Key_Right)
    assert view.answer.page.text() == "Season 2027: To do"
    season.press(Key.Key_Right)
    assert view.answer.page.text() == "Season 2027: Yards"
    assert [row.name for row in view.table.model.rows()] == ["Ash", "Birch"]
    assert view.listed.heading.text() == "Honey a colony by yard, 2027"
    assert view.chart.chart().title == "Honey a colony by yard, 2027"


def test_the_season_before_by_its_button(season: SeasonRig) -> None:
    view = season.view
    season.view.presenter.choose("yield")
    assert (view.before.text(), view.after.isHidden()) == ("Season 2026", True)
    view.before.setFocus()
    season.press(Key.Key_Return)
    assert view.answer.sentence.text() == "≈ 30.0 kg a colony: 300 kg from one yard."
    assert (view.before.isHidden(), view.after.text()) == (True, "Season 2027")


def test_enter_opens_the_card_of_what_is_in_hand(season: SeasonRig) -> None:
    season.view.presenter.choose("moisture")
    season.walk(Key.Key_End)
    season.press(Key.Key_Return)
    assert season.rig.window.card.presenter.code == season.drum
    season.press(Key.Key_Escape)
    season.view.table.select(season.drum)
    season.view.table.take_focus()
    season.press(Key.Key_Return)
    assert season.rig.window.card.presenter.code == season.drum


def test_what_is_in_hand_is_traced_by_its_key(season: SeasonRig) -> None:
    season.view.presenter.choose("moisture")
    season.walk(Key.Key_End)
    season.rig.keys("Ctrl+T")
    assert season.rig.window.shell.open_key() == "trace"


def test_print_writes_what_is_looked_at_and_opens_it(season: SeasonRig) -> None:
    season.rig.keys("Ctrl+P")
    (file,) = season.rig.opened
    assert file.name.startswith("season-2027-pace-")
    assert season.view.slot.sentence().startswith("The season is in ")
    season.rig.keys("Ctrl+Shift+P")
    assert season.rig.opened[1].suffix == ".png"


def test_looks_that_are_chosen_together_are_printed_together(season: SeasonRig) -> None:
    view = season.view
    assert view.print_all.isHidden(), "the pace is one by itself"
    view.presenter.choose("weeks")
    season.rig.settle()
    assert view.print_all.isVisible()
    view.print_all.click()
    season.rig.settle()
    (file,) = season.rig.opened
    assert file.name.startswith("season-2027-all-yield-")


def test_the_season_book_is_printed_of_the_season_looked_at_by_keys(season: SeasonRig) -> None:
    view = season.view
    view.book.setFocus()
    assert view.book.hasFocus()
    season.rig.bot.keyClick(view.book, Qt.Key.Key_Return)
    season.rig.settle()
    (file,) = season.rig.opened
    assert file.name == "Season book by yard 2027.pdf"
    assert view.slot.sentence().startswith("Season book by yard is in ")


def test_the_plan_is_made_in_one_turn_and_shown_in_the_next(season: SeasonRig) -> None:
    view, turns = season.view, season.rig.desk.jobs.turns
    view.chooser.chosen.emit("plan")
    assert view.plan is not None
    assert (view.plan.isHidden(), view.spread.isHidden()) == (True, False)
    view.chooser.chosen.emit("losses")
    turns.hurry()
    assert view.plan.isHidden(), "something else is meant by then"
    view.chooser.chosen.emit("plan")
    assert (view.plan.isHidden(), view.spread.isHidden()) == (False, True)


def test_what_is_recorded_elsewhere_comes_by_itself(season: SeasonRig) -> None:
    season.view.presenter.choose("moisture")
    season.rig.told(Measure(season.drum, moisture=1_720))
    assert season.view.answer.sentence.text().startswith("The middle of 1 drum is 17.2 %")
    assert season.view.slot.shown() is None, "no drum is wet any more"


def test_what_could_not_be_read_or_printed_is_said(season: SeasonRig) -> None:
    season.rig.desk.papers.write_text("a file stands where the folder would")
    season.rig.keys("Ctrl+P")
    assert season.view.slot.sentence().startswith("Not printed.")
    season.view.presenter.season = 2020
    season.view.presenter.ask()
    season.rig.settle()
    assert season.view.slot.sentence() == (
        "Not read. Nothing was pulled in 2020, as far as this ledger knows. It has 2027, 2026."
    )


def test_in_a_narrow_window_chart_and_figures_are_two_tabs(season: SeasonRig) -> None:
    season.rig.window.resize(640, 400)
    season.rig.settle()
    view = season.view
    assert view.listed.isHidden()
    assert view.chooser.buttons.isHidden()
    assert view.drawn.bar is not None
    assert not view.drawn.bar.isHidden(), "a warning is seen in a low window, too"
    view.presenter.choose("yield")
    assert view.drawn.bar.isHidden()
    view.spread.show_part(1)
    view.begin()
    assert QApplication.focusWidget() is view.table.view


def test_at_twice_the_size_one_can_print_and_a_refusal_has_the_whole_bar(
    season: SeasonRig,
) -> None:
    view = season.view
    season.rig.window.resize(640, 400)
    season.rig.settle()
    assert view.chooser.print_it.isVisible()
    assert view.chart.horizontalScrollBar().maximum() == 0
    view.chooser.print_it.click()
    season.rig.settle()
    assert len(season.rig.opened) == 1
    view.presenter.failed.emit(Refusal(Sentence("no", "There is no such season.")))
    season.rig.settle()
    assert view.slot.isVisible()
    assert view.slot.width() > view.drawn.width() * 0.6
    season.rig.window.resize(1280, 800)
    season.rig.settle()
    assert not view.chooser.print_it.isVisible()
    assert view.print_it.isVisible()


def test_in_a_narrow_window_too_all_of_it_is_printed_as_one(season: SeasonRig) -> None:
    view = season.view
    season.rig.window.resize(640, 400)
    season.rig.settle()
    assert view.chooser.print_all.isHidden(), "the pace is one by itself"
    view.presenter.choose("weeks")
    season.rig.settle()
    assert view.chooser.print_it.isVisible()
    assert view.chooser.print_all.isVisible()
    assert view.chooser.second.width() > view.chooser.second.minimumSizeHint().width() / 2
    assert view.chooser.geometry().right() <= view.widget.width()
    view.chooser.print_all.setFocus()
    season.rig.keys("Return")
    (file,) = season.rig.opened
    assert file.name.startswith("season-2027-all-yield-")


def test_an_empty_house_is_told_where_it_begins(qtbot: QtBot, tmp_path: Path) -> None:
    season = SeasonRig(qtbot, tmp_path, filled=False)
    assert season.view.answer.sentence.text() == "Nothing was extracted in 2026."
    assert season.view.chart.chart().empty == (
        "Nothing was extracted yet. Runs are opened on the floor (Ctrl+4)."
    )
    season.rig.keys("Ctrl+I")
    assert season.view.handle("find") is False
    season.close()


def test_codes_are_for_cards(season: SeasonRig) -> None:
    season.rig.scan(season.drum)
    assert season.rig.window.card.presenter.code == season.drum


def test_looks_that_belong_together_have_buttons_of_their_own(season: SeasonRig) -> None:
    view = season.view
    view.presenter.choose("yield")
    parts = view.parts["yield"]
    assert parts is not None
    assert not parts.isHidden()
    assert view.chooser.key() == "yield"
    parts.chosen.emit("crews")
    assert view.answer.page.text() == "Season 2027: Crews"
    assert (view.chooser.key(), parts.key()) == ("yield", "crews")
    view.presenter.choose("losses")
    assert parts.isHidden()
    others = view.parts["losses"]
    assert others is not None
    assert not others.isHidden()
    assert view.parts["pace"] is None


def test_what_prints_is_offered_again_where_the_window_grew_meanwhile(season: SeasonRig) -> None:
    season.rig.window.resize(640, 400)
    season.rig.settle()
    assert not season.view.print_it.isVisible()
    season.rig.window.open_station("keys")
    season.rig.settle()
    season.rig.window.resize(1280, 800)
    season.rig.settle()
    season.rig.window.open_station("season")
    season.rig.settle()
    assert season.view.print_it.isVisible()
    assert season.view.book.isVisible()
