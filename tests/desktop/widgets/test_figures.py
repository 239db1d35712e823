"""Key figures are shown whole or not at all; a page opens with its answer."""

from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.figures import Answer, KeyFigure, KeyFigures
from honeyledger.desktop.widgets.wedge import Wedge

FIGURES = (
    KeyFigure("2\u202f940 kg", "52.5 kg a colony"),
    KeyFigure("171 supers", "3.1 a colony"),
    KeyFigure("17.2 %", "mean moisture"),
)


def _shown(figures: KeyFigures) -> list[str]:
    row = figures.layout().itemAt(1).layout()
    widgets = [row.itemAt(at).widget() for at in range(row.count())]
    return [one.accessibleName() for one in widgets if one is not None and one.isVisible()]


def test_what_has_no_room_is_left_out_from_the_end(qtbot: QtBot) -> None:
    figures = KeyFigures()
    qtbot.addWidget(figures)
    figures.resize(900, 90)
    figures.show()
    wedge = Wedge(44, mean=True)
    figures.show_figures("Coulee Bend this season", FIGURES, wedge)
    assert len(_shown(figures)) == 4
    figures.resize(330, 90)
    assert _shown(figures) == ["2\u202f940 kg, 52.5 kg a colony", "171 supers, 3.1 a colony"]
    figures.grab()


def test_other_figures_take_the_place_of_the_first(qtbot: QtBot) -> None:
    figures = KeyFigures("Pace")
    qtbot.addWidget(figures)
    figures.resize(900, 90)
    figures.show()
    figures.show_figures("Pace", FIGURES)
    figures.show_figures("Pace today", FIGURES[:1])
    assert _shown(figures) == ["2\u202f940 kg, 52.5 kg a colony"]
    assert figures.heading.text() == "Pace today"


def test_the_answer_is_64_high_and_is_read_out_with_its_page(qtbot: QtBot) -> None:
    answer = Answer()
    qtbot.addWidget(answer)
    answer.show_answer("Where jar J26-0147-00382-F comes from", "5 yards.")
    assert answer.sizeHint().height() == 64
    assert answer.accessibleName() == "Where jar J26-0147-00382-F comes from. 5 yards."
    answer.grab()


def test_an_answer_too_long_for_its_width_takes_further_lines_and_is_never_cut(
    qtbot: QtBot,
) -> None:
    page, answer, rest = QWidget(), Answer(), QWidget()
    qtbot.addWidget(page)
    column = QVBoxLayout(page)
    column.addWidget(answer)
    column.addWidget(rest, 1)
    answer.show_answer("Close", "In by estimate 1 701 kg. Estimates ran 21.8 % high (3.8 %).")
    page.resize(800, 600)
    page.show()
    QApplication.processEvents()
    assert answer.height() == 64
    page.resize(400, 600)
    QApplication.processEvents()
    assert answer.height() == 64 + 28
    assert not answer.sentence.is_cut()
    assert answer.page.isVisible()
    page.resize(380, 400)
    QApplication.processEvents()
    assert not answer.page.isVisible(), "a low window has other uses for its room"
    wanted = 8 + answer.sentence.heightForWidth(answer.width()) + 8
    qtbot.waitUntil(lambda: answer.height() == wanted)
    assert not answer.sentence.is_cut()
    assert answer.accessibleName().startswith("Close. ")


def test_words_alone_stand_closer_to_what_is_under_them(qtbot: QtBot) -> None:
    figures = KeyFigures("Against the pull sheets: 82 of 82 supers")
    qtbot.addWidget(figures)
    assert figures.sizeHint().height() == 5 + 20 + 4
    figures.show_figures("Against the pull sheets", FIGURES)
    assert figures.sizeHint().height() == 5 + 20 + 32 + 20 + 11


def test_figures_changed_twice_at_once_never_become_windows(qtbot: QtBot) -> None:
    figures = KeyFigures()
    qtbot.addWidget(figures)
    figures.resize(900, 90)
    with qtbot.waitExposed(figures):
        figures.show()
    for _ in range(2):
        figures.show_figures("Pace", FIGURES)
    # The layout shows what was put into it when the loop comes round, deletions come later.
    QCoreApplication.sendPostedEvents(None, QEvent.Type.MetaCall)
    shown = [one for one in QApplication.topLevelWidgets() if one.isVisible()]
    assert shown == [figures]


def test_it_is_as_high_before_it_is_shown_and_where_the_highest_gives_way(qtbot: QtBot) -> None:
    figures = KeyFigures(density=Density.DESK)
    qtbot.addWidget(figures)
    figures.show_figures("Coulee Bend this season", FIGURES, Wedge(44))
    before = figures.sizeHint().height()
    figures.resize(900, 90)
    figures.show()
    assert figures.sizeHint().height() == figures.minimumSizeHint().height() == before
    figures.resize(330, 90)
    assert figures.sizeHint().height() == before
