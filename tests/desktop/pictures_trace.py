"""The trace's page in the states that are worth a picture, on the sample season."""

from honeyledger.desktop.main_window import MainWindow
from tests.desktop.pictures_dock import a_drum

A_YARD, A_JAR, NO_CODE = "Y26-0001-P", "J26-0015-9", "D26-9999-X"
PAGES = ("trace", "trace-jar", "trace-forward", "trace-refused")


def bring(window: MainWindow, how: str) -> None:
    """Bring one of the states about, by the name behind the page's."""
    codes = {"jar": A_JAR, "forward": A_YARD, "refused": NO_CODE}
    window.stations["trace"].take_code(codes.get(how) or a_drum(window))


def leave(window: MainWindow) -> None:
    """The next code takes its place; nothing is kept."""
    window.toast.put_away()
