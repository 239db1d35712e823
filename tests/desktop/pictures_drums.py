"""The drum room in the states that are worth a picture, on the sample season."""

from PySide6.QtWidgets import QApplication

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.drums.view import DrumsView
from honeyledger.desktop.widgets.fields import Field

HELD, TO_WEIGH = "D26-0180-B", "D26-0186-0"
POTS = ("D26-0026-T", "D26-0027-R", "D26-0028-P", "D26-0029-N")
PAGES = (
    *("drums", "drums-pots", "drums-refused", "drums-weigh", "drums-blend", "drums-hold"),
    *("drums-free", "drums-found", "drums-chosen"),
)


def _view(window: MainWindow) -> DrumsView:
    found = window.stations["drums"]
    assert isinstance(found, DrumsView)
    return found


def _wait(window: MainWindow) -> None:
    QApplication.processEvents()
    while not window.desk.jobs.is_idle():
        QApplication.processEvents()
    QApplication.processEvents()


def _scan(window: MainWindow, *codes: str) -> None:
    for code in codes:
        window.take_code(code)
        _wait(window)


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = _view(window)
    while view.presenter.page is None:
        QApplication.processEvents()
    if how in ("weigh", "blend", "hold", "free"):
        view.form.choose(how)
    if how in ("pots", "refused"):
        _scan(window, *POTS)
        _read(view, ("17,4", "31"), ("16.9", ""), ("71" if how == "refused" else "18.6", "40"))
        if how == "refused":
            view.form.record.click()
    elif how == "weigh":
        _scan(window, TO_WEIGH)
    elif how == "blend":
        _scan(window, *POTS[:2], HELD)
    elif how == "hold":
        _scan(window, POTS[0])
    elif how == "found":
        view.find.set_text("18-20 % hold")
        view.presenter.find("18-20 % hold")
    elif how == "chosen":
        view.table.select(HELD)
        view.table.take_focus()


def _read(view: DrumsView, *pots: tuple[str, str]) -> None:
    for code, (moisture, colour) in zip(POTS, pots, strict=False):
        for key, text in (("moisture", moisture), ("colour", colour)):
            field = view.form.line_field(key, code)
            assert isinstance(field, Field)
            field.set_text(text)
            field.edited.emit(text)


def leave(window: MainWindow) -> None:
    """Empty what was typed, and find all drums again."""
    view = _view(window)
    view.handle("clear")
    view.form.choose("read")
    view.handle("clear")
    view.find.set_text("")
    view.presenter.find("")
    view.table.select("")
