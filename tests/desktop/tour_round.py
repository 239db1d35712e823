"""The round of Tab on a page: to each stop, in the order of the work, and each has a name."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QApplication, QWidget

from honeyledger.desktop.widgets.action_bar import ActionBar
from honeyledger.desktop.widgets.panel import Panel

# Two stops whose tops are so near stand in one row.
_A_ROW = 12


def spoken(widget: QWidget) -> str:
    """What a screen reader calls it."""
    text = widget.text() if isinstance(widget, QAbstractButton) else ""
    return widget.accessibleName() or text


def stops_of(window: QWidget) -> set[QWidget]:
    """Everything the keyboard is meant to come to."""
    return {
        widget
        for widget in window.findChildren(QWidget)
        if widget.isVisible()
        and widget.isEnabled()
        # A group of buttons is one stop: the arrows go on in it.
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
    }


def walked(window: QWidget) -> list[QWidget]:
    """Where real Tab keys come to, one after the other, until they are round."""
    seen: list[QWidget] = []
    here = QApplication.focusWidget()
    assert here is not None
    while here not in seen:
        seen.append(here)
        QTest.keyClick(here, Qt.Key.Key_Tab)
        QApplication.processEvents()
        here = QApplication.focusWidget()
        assert here is not None, f"after “{spoken(seen[-1])}” the keyboard is nowhere"
    assert here is seen[0], f"Tab goes back to “{spoken(here)}” and never round"
    return seen


def _panel(stop: QWidget) -> QWidget | None:
    above = stop.parentWidget()
    while above is not None and not isinstance(above, Panel):
        above = above.parentWidget()
    return above


def _is_in_bar(stop: QWidget) -> bool:
    return isinstance(stop.parentWidget(), ActionBar)


def _from_first(stops: Sequence[QWidget], window: QWidget) -> list[QWidget]:
    """The same round, told from its topmost stop on; the foot of a panel comes last."""
    places = [(_is_in_bar(one), *_place(one, window)) for one in stops]
    first = places.index(min(places))
    return [*stops[first:], *stops[:first]]


def _place(stop: QWidget, window: QWidget) -> tuple[int, int]:
    at = stop.mapTo(window, QPoint(0, 0))
    return at.y() // _A_ROW, at.x()


def _jumps_back(stops: Sequence[QWidget], window: QWidget) -> Iterator[str]:
    """Steps that go up, or to the left in one row, among the fields and in the bar of a panel."""
    for one, other in pairwise(stops):
        if not _is_in_bar(one) and _is_in_bar(other):
            continue
        (top, left), (next_top, next_left) = _place(one, window), _place(other, window)
        is_same_row = abs(top - next_top) <= 1
        goes_back = next_left < left if is_same_row else next_top < top
        if goes_back or _is_in_bar(one) != _is_in_bar(other):
            yield f"from “{spoken(one)}” back to “{spoken(other)}”"


def disorder(round_of: Sequence[QWidget], window: QWidget) -> list[str]:
    """Where a round does not follow the work: a panel at a time, its fields, then its bar."""
    found: list[str] = []
    panels = {panel: None for panel in map(_panel, round_of) if panel is not None}
    for panel in panels:
        within = [stop for stop in round_of if _panel(stop) is panel]
        # A table beside fields is come to after what the fields are for.
        fields = [stop for stop in within if not isinstance(stop, QAbstractItemView)]
        if fields:
            found += _jumps_back(_from_first(fields, window), window)
        comings = sum(
            _panel(other) is panel and _panel(one) is not panel
            for one, other in pairwise([round_of[-1], *round_of])
        )
        if comings > 1:
            found.append(f"comes {comings} times to “{spoken(panel)}”")
    return found


def wrong_with_round(window: QWidget) -> list[str]:
    """What Tab does not come to in a window, and what it comes to that has no name."""
    return _missed_or_unnamed(walked(window), window)


def wrong_with_work(window: QWidget) -> list[str]:
    """The same, and where the round does not follow the work, or is another one backwards."""
    come_to = walked(window)
    found = [*_missed_or_unnamed(come_to, window), *disorder(come_to, window)]
    QTest.keyClick(come_to[0], Qt.Key.Key_Backtab, Qt.KeyboardModifier.ShiftModifier)
    QApplication.processEvents()
    if QApplication.focusWidget() is not come_to[-1]:
        found.append(f"Shift and Tab do not go back to “{spoken(come_to[-1])}”")
    return found


def _missed_or_unnamed(come_to: Sequence[QWidget], window: QWidget) -> list[str]:
    missed = stops_of(window) - set(come_to)
    return [
        *(f"Tab never comes to “{spoken(one) or type(one).__name__}”" for one in missed),
        *(f"no name: {type(one).__name__}" for one in come_to if not spoken(one).strip()),
    ]
