"""The parts of a card say what they show."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop import lettering, look
from honeyledger.desktop.colouring import pfund_colour
from honeyledger.desktop.lettering import Hand, Run, run_lines, runs
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.lot_card import CardEvent, CardFact, CardOrigin, CardQuality
from honeyledger.desktop.widgets.card_parts import (
    CardHead,
    EventRow,
    FactRow,
    OriginBar,
    QualityRow,
)
from tests.desktop.gallery_card import drum


def test_the_head_is_read_out(qtbot: QtBot) -> None:
    head = CardHead()
    qtbot.addWidget(head)
    head.grab()
    head.show_facts(drum())
    head.resize(420, head.height())
    head.grab()
    assert head.accessibleName() == (
        "D26-0611-Y, Drum, filled 24 Jul 2026, row 3 of the store, on hold"
    )


def test_yards_are_in_their_colour_and_an_unread_one_is_not(qtbot: QtBot) -> None:
    bar = OriginBar()
    qtbot.addWidget(bar)
    bar.show_origins(
        (CardOrigin("Tamarack Rise", 0.6, "60.0 %", 33), CardOrigin("Osier Ford", 0.4, "40.0 %"))
    )
    bar.resize(400, bar.sizeHint().height())
    image = bar.grab().toImage()
    assert image.pixelColor(100, 12).name().upper() == pfund_colour(33)
    assert image.pixelColor(300, 12).name() == look.colour("act_tint").name()
    assert bar.accessibleName() == "Origin: Tamarack Rise 60.0 %, Osier Ford 40.0 %"


def test_more_yards_than_lines_are_counted_and_told_in_the_tip(qtbot: QtBot) -> None:
    bar = OriginBar()
    qtbot.addWidget(bar)
    origins = tuple(CardOrigin(f"Yard {n}", 0.05, "5.0 %", 30) for n in range(20))
    bar.show_origins(origins)
    assert bar.sizeHint().height() < 300
    assert bar.toolTip().count("\n") == 19
    bar.resize(400, bar.sizeHint().height())
    bar.grab()


def test_a_sentence_of_the_history_asks_for_its_entry(qtbot: QtBot) -> None:
    row = EventRow(CardEvent("24 Jul 2026, 16:20", "Filled from T26-0101-S.", 48_190, True))
    qtbot.addWidget(row)
    row.resize(300, row.heightForWidth(300))
    assert row.height() >= 40
    row.grab()
    with qtbot.waitSignal(row.asked) as caught:
        qtbot.mouseClick(row, Qt.MouseButton.LeftButton)
    assert caught.args == [48_190]
    long = EventRow(CardEvent("25 Jul", "Put on hold with the pulls of Osier Ford. " * 4))
    qtbot.addWidget(long)
    assert long.hasHeightForWidth()
    assert long.heightForWidth(200) > long.heightForWidth(900)


def test_a_fact_is_read_with_its_label(qtbot: QtBot) -> None:
    row = FactRow(CardFact("Run", "R26-0093-U"))
    qtbot.addWidget(row)
    row.resize(300, 28)
    row.grab()
    assert row.accessibleName() == "Run: R26-0093-U"


def test_a_row_of_quality_is_as_high_as_its_words(qtbot: QtBot) -> None:
    short = QualityRow(CardQuality("HMF", "<5 mg/kg"))
    notes = ("A band for choosing what to have measured; it certifies nothing.",)
    long = QualityRow(CardQuality("Heat", "HMF now 6.0 to 20.0 mg/kg", notes, Mark.WARNING))
    for row in (short, long):
        qtbot.addWidget(row)
        row.resize(240, row.heightForWidth(240))
        row.grab()
    assert short.accessibleName() == "HMF: <5 mg/kg"
    assert long.accessibleName() == (
        "Heat: HMF now 6.0 to 20.0 mg/kg. A band for choosing what to have measured; it "
        "certifies nothing"
    )
    assert long.heightForWidth(240) > long.heightForWidth(600) > short.heightForWidth(600)
    assert long.sizeHint().height() == long.heightForWidth(240)


def test_words_are_broken_into_lines_once_for_a_width(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    broken: list[float] = []

    def wrapped(text: str, hand: Hand, room: float) -> list[list[Run]]:
        broken.append(room)
        return run_lines(runs(text, hand), room)

    monkeypatch.setattr(lettering, "wrapped", wrapped)
    for row in (
        QualityRow(CardQuality("Heat", "HMF now 6.0 to 20.0 mg/kg", ("It certifies nothing.",))),
        EventRow(CardEvent("25 Jul", "Put on hold with the pulls of Osier Ford.")),
    ):
        qtbot.addWidget(row)
        row.heightForWidth(240)
        known = len(broken)
        row.resize(240, row.heightForWidth(240))
        row.grab()
        assert len(broken) == known > 0
        row.heightForWidth(600)
        assert len(broken) > known
        broken.clear()
