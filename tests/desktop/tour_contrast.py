"""Which colours stand on which, read off a page as it is painted.

Words, marks and icons are caught while they are painted, with the colour they are painted in; what
they stand on is the commonest other colour of the picture there. So every pair in use is found
where it is used, whichever module painted it.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter, QPalette
from PySide6.QtWidgets import QWidget

from honeyledger.desktop import icons, lettering, look, marks, style, system_looks, tokens
from honeyledger.desktop.colouring import contrast
from tests.desktop.tour import Tour

# WCAG 2.2, 1.4.3 (text) and 1.4.11 (graphical objects); the house asks 4.5 of large text too.
LEAST_TEXT, LEAST_SHAPE = 4.5, 3.0

_ROLE = QPalette.ColorRole


def contrasty() -> QPalette:
    """What a system forces on its programs where a person needs high contrast."""
    palette = QPalette()
    for role, value in (
        (_ROLE.Base, "#000000"),
        (_ROLE.Text, "#FFFFFF"),
        (_ROLE.Highlight, "#FFFF00"),
        (_ROLE.HighlightedText, "#000000"),
    ):
        palette.setColor(role, QColor(value))
    return palette


THEMES = (tokens.LIGHT, tokens.DARK, system_looks.forced_theme(contrasty()))


@dataclass(frozen=True, slots=True)
class Inked:
    """A piece that was painted: what it is, its colour, and where on the picture."""

    what: str
    colour: str
    box: QRectF
    least: float


@dataclass(frozen=True, slots=True)
class Pair:
    """A colour on another, and the first thing it was seen on."""

    colour: str
    ground: str
    least: float
    seen: str

    @property
    def contrast(self) -> float:
        """How well the one is seen on the other."""
        return contrast(self.colour, self.ground)


def unreadable(led: Tour, window: QWidget) -> list[str]:
    """What cannot be read of a page a tour is at, theme after theme; the last stays worn."""
    found = []
    for theme in THEMES:
        style.wear(led.app, theme, moving=False)
        led.settle()
        pairs = pairs_of(window)
        assert len(pairs) > 3, "a page has its frame at least"
        found += [
            f"{theme.name}: {one.colour} on {one.ground} is {one.contrast:.1f}: “{one.seen}”"
            for one in pairs
            if one.contrast < one.least
        ]
    return found


def pairs_of(window: QWidget) -> list[Pair]:
    """Every pair of colours that a window shows now."""
    with _watched() as inked:
        image = window.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    found: dict[tuple[str, str, float], Pair] = {}
    for one in inked:
        ground = _ground(image, one)
        if ground:
            pair = Pair(one.colour, ground, one.least, one.what)
            found.setdefault((one.colour, ground, one.least), pair)
    return list(found.values())


@contextmanager
def _watched() -> Iterator[list[Inked]]:
    """Take down every line, mark and icon that is painted."""
    inked: list[Inked] = []
    kept: list[tuple[Any, Callable[..., Any]]] = [
        (lettering, lettering.draw),
        (marks, marks.draw),
        (icons, icons.draw),
    ]

    def line(
        painter: QPainter, rect: QRectF, runs: Sequence[Any], *more: Any, **named: Any
    ) -> Any:
        took = kept[0][1](painter, rect, runs, *more, **named)
        left = took.left()
        for run in runs:
            high = run.font.pixelSize()
            box = QRectF(left, took.center().y() - high / 2, run.width, high)
            left += run.width
            # What a line has no room for is not painted: it ends with three dots.
            box.setRight(min(box.right(), rect.right()))
            if run.text.strip() and box.width() > 0:
                _note(inked, painter, box, (run.text, run.colour, LEAST_TEXT))
        return took

    def shape(at: int) -> Callable[..., None]:
        def drawn(painter: QPainter, what: Any, *where: Any) -> None:
            kept[at][1](painter, what, *where)
            left, top, size, *colour = where
            default = marks.COLOURS[what] if at == 1 else "ink"
            name = str(getattr(what, "value", what))
            box = QRectF(left, top, size, size)
            _note(inked, painter, box, (name, (*colour, "")[0] or default, LEAST_SHAPE))

        return drawn

    for at, (module, _) in enumerate(kept):
        module.draw = line if at == 0 else shape(at)
    try:
        yield inked
    finally:
        for module, draw in kept:
            module.draw = draw


def _note(
    inked: list[Inked], painter: QPainter, box: QRectF, about: tuple[str, str, float]
) -> None:
    what, colour, least = about
    shown = painter.deviceTransform().mapRect(box)
    if painter.hasClipping():
        clip = painter.deviceTransform().mapRect(painter.clipBoundingRect())
        shown = shown.intersected(clip)
    inked.append(Inked(what, look.colour(colour).name().upper(), shown, least))


def _ground(image: QImage, one: Inked) -> str:
    """The commonest colour where a piece stands that is not its own; "" where nothing is seen."""
    box = one.box.adjusted(-2, -1, 2, 1).toAlignedRect().intersected(image.rect())
    if box.isEmpty():
        return ""
    piece = image.copy(box).convertToFormat(QImage.Format.Format_RGB32)
    pixels = Counter(memoryview(piece.constBits()).cast("I"))
    seen = Counter({pixel & 0xFFFFFF: count for pixel, count in pixels.items()})
    own = seen.pop(int(one.colour[1:], 16), 0)
    # Where none of its own colour is seen it was painted over, as a sheet under a sheet is.
    if not own or not seen:
        return ""
    return f"#{seen.most_common(1)[0][0]:06X}"
