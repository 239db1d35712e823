"""A window put together from invented rows, for tests of the kit as a whole and for its pictures.

`python -m tests.desktop.gallery FOLDER` writes a picture of each page at each size and theme.
"""

import os
import sys
from datetime import date
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtWidgets import QApplication

from honeyledger.desktop import style, tokens
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.frame_facts import MastFacts, StatusFacts
from honeyledger.desktop.models.line_figures import Badge, Flow, LineFigures, PlaceFigure
from honeyledger.desktop.widgets.card import LotCard
from honeyledger.desktop.widgets.shell import Shell
from tests.desktop import gallery_card, gallery_closing, gallery_dock, gallery_trace

TODAY = date(2026, 7, 24)
SIZES = ((1280, 728), (1920, 1040), (1440, 900), (1024, 700), (853, 640), (731, 560), (640, 400))


def line_figures() -> LineFigures:
    """A busy afternoon in July."""
    places = (
        PlaceFigure("yards", "Yards", 38, "sites"),
        PlaceFigure("dock", "Dock", 412, "supers"),
        PlaceFigure(
            "hot_room",
            "Hot room",
            9840,
            "kg",
            "waiting",
            estimated=True,
            badges=(Badge(Mark.WARNING, 2, "to dry first"),),
        ),
        PlaceFigure("extraction", "Extraction", 1120, "kg", "in tank"),
        PlaceFigure(
            "drums", "Drums", 41300, "kg", "on hand", badges=(Badge(Mark.HOLD, 3, "on hold"),)
        ),
        PlaceFigure("bottling", "Bottling", 2600, "kg", "today"),
        PlaceFigure("dispatch", "Dispatch", 18, "orders", "open"),
    )
    flows = (
        Flow(6912, 22.0),
        Flow(6900, 26.0),
        Flow(5400, 32.0),
        Flow(1805, 40.0),
        Flow(2600, 55.0),
        Flow(1100, 66.0),
    )
    return LineFigures(places, flows)


def build() -> Shell:
    """The whole window, on the dock."""
    shell = Shell()
    shell.show_mast(MastFacts("Windrow Flats Honey", "Dock", "Operator 2", "O2", "2026"))
    shell.show_line(line_figures())
    shell.show_status(
        StatusFacts(
            ("48\u202f211 entries", "head 7F3A·91C2", "backup 14 min ago", "3 stations"),
            "kg  °C  Pfund mm",
        )
    )
    shell.add_page("dock", gallery_dock.DockPage(TODAY))
    shell.add_page("extraction", gallery_closing.ClosingPage())
    shell.add_page("trace", gallery_trace.TracePage())
    card = LotCard()
    card.show_facts(gallery_card.drum())
    shell.set_aside(card)
    card.closed.connect(lambda: shell.show_aside(False))
    shell.open_page("dock")
    return shell


def _settle(app: QApplication) -> None:
    """Let layouts that depend on one another come to rest."""
    for _ in range(3):
        app.processEvents()


def write_pictures(folder: Path) -> None:
    """A picture of every page at every size, light and dark."""
    app = QApplication.instance() or QApplication([])
    assert isinstance(app, QApplication)
    folder.mkdir(parents=True, exist_ok=True)
    style.install(app)
    shell = build()
    shell.show()
    for theme in (tokens.LIGHT, tokens.DARK):
        style.wear(app, theme, moving=False)
        for width, height in SIZES:
            shell.resize(width, height)
            for key in ("dock", "extraction", "trace"):
                shell.open_page(key)
                shell.pages.currentWidget().begin()
                _settle(app)
                name = f"{key}-{width}-{theme.name}.png"
                shell.grab().save(str(folder / name))
            shell.show_aside(True)
            _settle(app)
            shell.grab().save(str(folder / f"card-{width}-{theme.name}.png"))
            shell.show_aside(False)


if __name__ == "__main__":
    write_pictures(Path(sys.argv[1]))
