"""The status bar says how the ledger is, and gives up its last part first."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.models.frame_facts import StatusFacts
from honeyledger.desktop.widgets.status_bar import StatusBar

FACTS = StatusFacts(
    ("48\u202f211 entries", "head 7F3A·91C2", "backup 14 min ago", "3 stations"),
    "kg  °C  Pfund mm",
)


def test_what_does_not_fit_goes_from_the_end_and_stands_in_the_tip(qtbot: QtBot) -> None:
    bar = StatusBar()
    qtbot.addWidget(bar)
    assert bar.words() == ""
    bar.show_facts(FACTS)
    bar.resize(1280, bar.height())
    assert bar.height() == 32
    assert bar.words().endswith("3 stations")
    bar.resize(460, bar.height())
    assert bar.words() == "48\u202f211 entries · head 7F3A·91C2"
    assert bar.toolTip() == bar.accessibleName() == " · ".join(FACTS.parts)
    bar.grab()


def test_what_needs_a_person_stands_first_with_its_mark(qtbot: QtBot) -> None:
    bar = StatusBar()
    qtbot.addWidget(bar)
    bar.resize(1280, bar.height())
    bar.show_facts(StatusFacts(FACTS.parts, FACTS.units, "Not backed up for 4 days"))
    assert bar.accessibleName().startswith("Not backed up for 4 days · 48")
    assert bar.words().endswith("3 stations")
    image = bar.grab().toImage()
    alert, margin = look.colour("alert").name(), 24
    marked = [
        x
        for x in range(margin, margin + 16)
        for y in range(8, 24)
        if image.pixelColor(x, y).name() == alert
    ]
    assert marked, "the mark is seen, not the words alone"
    bar.resize(460, bar.height())
    assert bar.words() == "", "the rest gives way before what needs a person"
