"""What must not be wrong with any page that is shown: cut words, overlap, small targets.

Words the kit paints itself are caught while they are painted, so that what counts is what a person
gets to see; all else is read off the tree of widgets.
"""

import re
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import cast

from PySide6.QtCore import QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QApplication,
    QComboBox,
    QFocusFrame,
    QHeaderView,
    QLabel,
    QLineEdit,
    QScrollArea,
    QTableView,
    QWidget,
)

from honeyledger.desktop import lettering, style, tokens
from honeyledger.desktop.lettering import Run, Side
from honeyledger.desktop.widgets.river import River
from honeyledger.desktop.widgets.sheet_look import SheetLook
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.desktop.widgets.table_frozen import FrozenCodes
from honeyledger.desktop.widgets.text import Text

# What no table cell may lose: a code, or a figure.
_WHOLE = re.compile(r"[A-Z]{1,4}\d{2}-[\d-]+[0-9A-Z]|≈?[\s\u00a0\u202f]*\d[\d\s\u00a0\u202f.,]*")
# A pixel of rounding is no overlap and no cut.
_SLACK = 1.0
# Of a line's height, how much letters take around its middle.
_LETTERS = 0.7


@dataclass(frozen=True, slots=True)
class Painted:
    """A line of words as it was painted: on what, where in it, and whether whole."""

    widget: QWidget
    words: str
    box: QRectF
    is_cut: bool


def faults_of(window: QWidget) -> list[str]:
    """Everything that is wrong with what a window shows now, each in a sentence."""
    with _watched_painting() as painted:
        window.grab()
    seen = [window, *(one for one in window.findChildren(QWidget) if one.isVisible())]
    found = [*_cut_words(painted), *_words_over_words(painted), *_left_out(painted)]
    for one in seen:
        found.extend(
            [*_own_words(one), *_too_small(one), *_too_wide(one), *_overlaps(one, painted)]
        )
    return sorted({*found, *no_ring()})


def no_ring() -> Iterator[str]:
    """The keyboard is somewhere, and nothing shows it."""
    ringed = style.ringed_widget(QApplication.focusWidget())
    if ringed is None or ringed.isWindow():
        return
    rings = [one for one in QApplication.allWidgets() if isinstance(one, QFocusFrame)]
    if not any(ring.isVisible() and ring.widget() is ringed for ring in rings):
        yield f"{name_of(ringed)}: it has the keyboard, and no ring stands round it"


# While it is painted.


@contextmanager
def _watched_painting() -> Iterator[list[Painted]]:
    """Take down every line of words that is painted."""
    painted: list[Painted] = []
    draw = lettering.draw

    def watched(
        painter: QPainter, rect: QRectF, line: Sequence[Run], side: Side = Side.LEFT
    ) -> QRectF:
        took = draw(painter, rect, line, side)
        widget = _painted_on()
        if widget is not None and line:
            high = max(run.font.pixelSize() for run in line) * _LETTERS
            box = QRectF(took.left(), took.center().y() - high / 2, took.width(), high)
            words = "".join(run.text for run in line)
            is_cut = lettering.width(line) > rect.width() + 0.5
            # On a screen of more dots that one counts those, and widgets do not.
            dots = painter.device().devicePixelRatioF()
            shown = painter.combinedTransform().mapRect(box)
            shown = QRectF(shown.topLeft() / dots, shown.size() / dots)
            painted.append(Painted(widget, words, shown, is_cut))
        return took

    lettering.draw = watched  # type: ignore[assignment]
    try:
        yield painted
    finally:
        lettering.draw = draw  # type: ignore[assignment]


def _painted_on() -> QWidget | None:
    """The widget that is painting: the innermost on the way here."""
    frame = sys._getframe(2)
    while frame is not None:
        option = frame.f_locals.get("option")
        if option is not None and isinstance(getattr(option, "widget", None), QWidget):
            return cast(QWidget, option.widget)
        own = frame.f_locals.get("self")
        if isinstance(own, QWidget) and frame.f_code.co_name in ("paintEvent", "paintSection"):
            return own
        frame = frame.f_back  # type: ignore[assignment]
    return None


def _cut_words(painted: Sequence[Painted]) -> Iterator[str]:
    """Words that end in an ellipsis, and no tip says the whole."""
    for one in painted:
        if not one.is_cut:
            continue
        if isinstance(one.widget, QTableView):
            # A table says the whole of any cell in its tip, but codes and figures stay whole.
            if _WHOLE.fullmatch(one.words):
                yield f"{name_of(one.widget)}: the cell “{one.words}” is cut"
        elif not _is_in_a_tip(one.words, one.widget, one.box.center().toPoint()):
            yield f"{name_of(one.widget)}: “{one.words}” is cut and no tip says the whole"


def _is_in_a_tip(words: str, widget: QWidget, at: QPoint) -> bool:
    """Whether a tip of the widget, of what it stands in or of what stands in it has the words.

    What is painted in one piece has `tip_at`.
    """
    near: list[QWidget] = [widget, *widget.findChildren(QWidget)]
    above = widget.parentWidget()
    while above is not None:
        near.append(above)
        above = above.parentWidget()
    wanted = _plain(words)
    tips = [one.toolTip() for one in near]
    tip_at = getattr(widget, "tip_at", None)
    if tip_at is not None:
        tips.append(tip_at(at))
    return any(wanted in _plain(tip) for tip in tips)


def _plain(text: str) -> str:
    return " ".join(text.replace("\u2011", "-").split()).strip(" .…")


def _left_out(painted: Sequence[Painted]) -> Iterator[str]:
    """Words painted past the edge of what they stand on; what scrolls is left to its bars."""
    for one in painted:
        if isinstance(one.widget, QAbstractScrollArea) or _scrolled(one.widget):
            continue
        room = QRectF(one.widget.rect()).adjusted(-_SLACK, -_SLACK, _SLACK, _SLACK)
        if one.words.strip() and not room.contains(one.box):
            yield f"{name_of(one.widget)}: “{one.words}” goes over its edge"


def _scrolled(widget: QWidget) -> bool:
    """Whether it is the content of something that scrolls by painting elsewhere."""
    parent = widget.parentWidget()
    return isinstance(parent, QAbstractScrollArea) and parent.viewport() is widget


def _words_over_words(painted: Sequence[Painted]) -> Iterator[str]:
    """Lines of words in one widget that cover each other."""
    by_widget: dict[QWidget, dict[tuple[str, int, int], Painted]] = {}
    for one in painted:
        place = (one.words, round(one.box.x()), round(one.box.y()))
        by_widget.setdefault(one.widget, {})[place] = one
    for widget, lines in by_widget.items():
        row = sorted(lines.values(), key=lambda one: one.box.top())
        for at, upper in enumerate(row):
            for lower in row[at + 1 :]:
                if lower.box.top() > upper.box.bottom() - _SLACK:
                    break
                both = upper.box.intersected(lower.box)
                if both.width() > _SLACK and both.height() > _SLACK:
                    yield f"{name_of(widget)}: “{upper.words}” and “{lower.words}” overlap"


# Off the tree.


def _own_words(one: QWidget) -> Iterator[str]:
    """Words Qt itself sets, and the wrapped ones of the kit, against their room."""
    if isinstance(one, Text):
        if one.is_cut() and not one.toolTip():
            yield f"{name_of(one)}: the text is cut and no tip says the whole"
    elif isinstance(one, QLabel) and one.text() and not one.wordWrap():
        wanted = one.fontMetrics().horizontalAdvance(one.text())
        if wanted > one.contentsRect().width() and one.text() not in one.toolTip():
            yield f"{name_of(one)}: the text is cut"
    elif isinstance(one, QLineEdit) and not one.text() and one.placeholderText():
        wanted = one.fontMetrics().horizontalAdvance(one.placeholderText())
        if wanted > one.width():
            yield f"{name_of(one)}: the hint “{one.placeholderText()}” is cut"
    elif isinstance(one, QLineEdit) and not one.hasFocus():
        wanted = one.fontMetrics().horizontalAdvance(one.text())
        if wanted > one.width():
            if not _is_in_a_tip(one.text(), one, one.rect().center()):
                yield f"{name_of(one)}: “{one.text()}” is cut and no tip says the whole"
            if one.cursorPosition():
                yield f"{name_of(one)}: “{one.text()}” does not show how it begins"
    if isinstance(one, Text | QAbstractButton) and one.text():
        if one.toolTip() and isinstance(one, Text) and one.is_cut():
            return
        hidden = _hidden_part(one)
        if hidden:
            yield f"{name_of(one)}: {hidden} px of it are cut off by what it stands in"


def _hidden_part(one: QWidget) -> int:
    """How much of a widget reaches past what it stands in, up to what scrolls."""
    box, above = one.rect(), one.parentWidget()
    inner: QWidget = one
    while above is not None and not inner.isWindow():
        box = QRect(inner.mapToParent(box.topLeft()), box.size())
        if isinstance(above.parentWidget(), QAbstractScrollArea) or isinstance(
            above, QAbstractScrollArea
        ):
            return 0
        over = box.united(above.rect())
        past = max(over.width() - above.width(), over.height() - above.height())
        if past > _SLACK:
            return past
        inner, above = above, above.parentWidget()
    return 0


def _too_small(one: QWidget) -> Iterator[str]:
    """Targets a gloved finger misses."""
    least = tokens.TARGET_LEAST
    if isinstance(one, QAbstractButton | QComboBox):
        if _is_inside_scrollbar(one):
            return
        if min(one.width(), one.height()) < least:
            yield f"{name_of(one)}: a target of {one.width()} by {one.height()}"
    elif isinstance(one, QLineEdit):
        box = one.parentWidget() or one
        if min(box.width(), max(box.height(), one.height())) < least:
            yield f"{name_of(one)}: a field of {box.width()} by {box.height()}"
    elif isinstance(one, SheetLook) and one.focusPolicy() is not Qt.FocusPolicy.NoFocus:
        cell = one.cell(one.first)
        if min(cell.width(), cell.height()) < least:
            yield f"{name_of(one)}: a label of {cell.width():.0f} by {cell.height():.0f}"
    elif isinstance(one, QHeaderView):
        if one.orientation() is Qt.Orientation.Horizontal and one.height() < least:
            yield f"{name_of(one)}: a head {one.height()} high"
    elif isinstance(one, QTableView) and one.model() is not None:
        first, bar = one.rowAt(0), one.verticalScrollBar()
        # Scrolled to its end, a table shows its last row whole.
        if first >= 0 and one.rowViewportPosition(first) < 0 and bar.value() < bar.maximum():
            yield f"{name_of(one)}: the head cuts row {first}"
        rows = range(min(one.model().rowCount(), 50))
        low = [row for row in rows if one.rowHeight(row) < least and not one.isRowHidden(row)]
        if low:
            yield f"{name_of(one)}: row {low[0]} is {one.rowHeight(low[0])} high"


def _too_wide(one: QWidget) -> Iterator[str]:
    """A page never scrolls sideways: what goes over its width is not seen."""
    if not isinstance(one, QScrollArea) or isinstance(one, River):
        return
    content, bar = one.widget(), one.horizontalScrollBarPolicy()
    if content is None or bar is not Qt.ScrollBarPolicy.ScrollBarAlwaysOff:
        return
    over = content.width() - one.viewport().width()
    if over > _SLACK:
        yield f"{name_of(one)}: {over} px of its width are not seen"


def _is_inside_scrollbar(one: QWidget) -> bool:
    parent = one.parentWidget()
    return isinstance(parent, QAbstractItemView) and isinstance(one, QAbstractButton)


def _overlaps(one: QWidget, painted: Sequence[Painted]) -> Iterator[str]:
    """Children of one widget that cover each other, but for what is laid over on purpose."""
    if isinstance(one, QAbstractScrollArea | QHeaderView | QAbstractButton):
        return
    children = [
        child
        for child in one.children()
        if isinstance(child, QWidget)
        and child.isVisible()
        and not child.isWindow()
        and not isinstance(child, FrozenCodes)
        and not child.testAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        and not (isinstance(one, Shell) and _is_laid_over(one, child))
    ]
    for at, first in enumerate(children):
        for second in children[at + 1 :]:
            both = first.geometry().intersected(second.geometry())
            if both.width() <= _SLACK or both.height() <= _SLACK:
                continue
            if _is_covered(first, both, painted) and _is_covered(second, both, painted):
                yield (
                    f"{name_of(first)} and {name_of(second)} overlap "
                    f"by {both.width()} by {both.height()}"
                )


def _is_laid_over(shell: Shell, child: QWidget) -> bool:
    """What answers to the words at the foot has none of its own; a scan takes the whole row."""
    return child is shell.foot or (shell.is_narrow() and child.isAncestorOf(shell.scan_box()))


def _is_covered(child: QWidget, both: QRect, painted: Sequence[Painted]) -> bool:
    """Whether a child has something there; one that only paints has what it painted."""
    if isinstance(child, QAbstractButton | QLineEdit | QLabel) or child.findChildren(QWidget):
        return True
    there = QRectF(both.translated(-child.pos()))
    return any(one.widget is child and one.box.intersects(there) for one in painted)


def name_of(one: QWidget) -> str:
    """What a person who looks for a fault finds a widget by."""
    words = one.accessibleName() or getattr(one, "text", lambda: "")()
    kind = type(one).__name__
    owner = one.parentWidget()
    if not words and owner is not None:
        kind = f"{type(owner).__name__} > {kind}"
    at = one.mapTo(one.window(), QPoint(0, 0))
    told = f" “{words[:60]}”" if words else ""
    return f"{kind}{told} at {at.x()},{at.y()} ({one.width()} by {one.height()})"
