"""The project's own icons: drawn as SVG on a grid of 24, tinted with a token when painted."""

from functools import cache

from PySide6.QtCore import QByteArray, QRectF
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from honeyledger import assets
from honeyledger.desktop import look


@cache
def _source(name: str) -> str:
    return assets.resource("icons", f"{name}.svg").read_text(encoding="utf-8")


@cache
def _renderer(name: str, value: str) -> QSvgRenderer:
    drawn = _source(name).replace("currentColor", value)
    return QSvgRenderer(QByteArray(drawn.encode()))


def forget() -> None:
    """Let go of what was read: it does not outlive the application it was made in."""
    _renderer.cache_clear()


def draw(
    painter: QPainter, name: str, left: float, top: float, size: float, colour: str = "ink"
) -> None:
    """Paint an icon in a square of that size, in one colour.

    Raises:
        Refusal: the program has no icon of that name.
    """
    renderer = _renderer(name, look.colour(colour).name())
    renderer.render(painter, QRectF(left, top, size, size))


def program_icon() -> QIcon:
    """The program's mark, for the window's frame and the task bar."""
    return QIcon(QPixmap(str(assets.resource("icons", "honeyledger.svg"))))
