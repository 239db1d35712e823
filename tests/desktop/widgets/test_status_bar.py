"""The status bar says how the ledger is, and gives up its last part first."""

from pytestqt.qtbot import QtBot

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
