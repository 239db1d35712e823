"""The trace's pages in the states that are worth a picture, on the sample season."""

from collections.abc import Callable

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.stations.trace.view import TraceView
from tests.desktop.pictures_dock import a_drum

A_YARD, A_JAR, NO_CODE = "Y26-0001-P", "J26-0015-9", "D26-9999-X"
PAGES = (
    "trace",
    "trace-jar",
    "trace-map",
    "trace-opened",
    "trace-larger",
    "trace-forward",
    "trace-refused",
    "trace-affected",
    "trace-affected-map",
    "trace-lots",
    "trace-complaint",
    "trace-complaints",
    "trace-nothing-affected",
    "trace-residue",
    "trace-residue-refused",
)


def page_of(window: MainWindow) -> TraceView:
    """The trace's pages."""
    view = window.stations["trace"]
    assert isinstance(view, TraceView)
    return view


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    view = page_of(window)
    if how.startswith("residue"):
        _bring_residue(view, "none" if how == "residue-refused" else "40")
        return
    if how.startswith("affected") or how in (
        *("lots", "complaint", "complaints", "nothing-affected"),
    ):
        _bring_recall(view, how)
        return
    codes = {"forward": A_YARD, "refused": NO_CODE, "": a_drum(window)}
    view.take_code(codes.get(how, A_JAR))
    if how == "map":
        # As if the map had been asked for, however wide the window is.
        view.bodies.want_map(True)
    elif how == "opened":
        _once_shown(view, lambda: view.river.canvas.unfold(2))
    elif how == "larger":
        _once_shown(view, lambda: view.river.zoom_by(2))


def _once_shown(view: TraceView, do: Callable[[], None]) -> None:
    """Do it to the next trace's river, when it lies there."""

    def shown(_timed: object) -> None:
        view.presenter.answered.disconnect(shown)
        view.river.once_laid(do)

    view.presenter.answered.connect(shown)


def _bring_recall(view: TraceView, how: str) -> None:
    kind = "complaint" if how.startswith("complaint") else "hold"
    view.presenter.code = "" if how == "nothing-affected" else A_JAR
    view.recall().presenter.code = ""
    view.show_recall(kind)
    kinds = {"lots": "lots", "complaints": "complaints", "affected-map": "from"}
    view.recall().show_kind(kinds.get(how, "who"))
    if how == "affected-map":
        view.recall().turn_map()


def _bring_residue(view: TraceView, level: str) -> None:
    view.asides.show_residue(A_YARD)
    residue = view.asides.residue()
    typed = {"code": A_YARD, "substance": "Substance A", "level": level, "limit": "10"}
    for key, text in typed.items():
        residue.fields[key].set_text(text)
    residue.reckon.click()


def leave(window: MainWindow) -> None:
    """Nothing is kept."""
    view = page_of(window)
    view.bodies.want_map(None)
    for kind in ("hold", "complaint"):
        view.recall().presenter.asking.clear(kind)
    view.begin()
    window.toast.put_away()
