"""The totals of a table, pinned to its foot under a line of ink."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.tokens import BOLD, Density, Type

_LINE = 2


class AboveFoot:
    """What stands between the rows and the totals: put away where the rows need its room.

    Args:
        make_room: says whether there is room, by `give_room`.
    """

    def __init__(self, widget: QWidget, make_room: Callable[[], None]) -> None:
        self._widget, self._make_room = widget, make_room
        self._is_wanted = True

    def want(self, is_wanted: bool) -> None:
        """Whether there is anything to show in it now."""
        self._is_wanted = is_wanted
        self._make_room()

    def wanted_height(self) -> int:
        """The room it takes."""
        return self._widget.sizeHint().height()

    def give_room(self, has_room: bool) -> None:
        """Stand there where it is wanted and there is room."""
        self._widget.setVisible(self._is_wanted and has_room)


class TableFoot(QWidget):
    """Totals under their columns; the words at the left take the room before the first total."""

    def __init__(self, density: Density, height: int) -> None:
        super().__init__()
        self._density = density
        self._lead = ""
        self._note = ""
        self._last_unit = True
        self._totals: dict[str, Total] = {}
        self._spans: dict[str, tuple[float, float, bool]] = {}
        self.setFixedHeight(height)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_totals(self, lead: str, totals: Mapping[str, Total]) -> None:
        """Show these totals by column key."""
        self._lead = lead
        self._totals = dict(totals)
        self._name()

    def totals(self) -> Mapping[str, Total]:
        """The totals shown, by column key."""
        return dict(self._totals)

    def total_width(self, key: str) -> float:
        """The room a column's total takes, without its unit."""
        if key not in self._totals:
            return 0.0
        hand = Hand(Type.BODY, self._density, BOLD)
        about = "≈\u00a0" if self._totals[key].estimated else ""
        return hand.run(about + self._totals[key].text).width + 1

    def has_unit(self, key: str) -> bool:
        """Whether a total of that column hangs its unit at its right."""
        return key in self._totals and bool(self._totals[key].unit)

    def show_last_unit(self, shown: bool) -> None:
        """Whether there is room for the unit of the last column."""
        self._last_unit = shown

    def set_note(self, note: str) -> None:
        """A note after the words: which rows are in view."""
        self._note = note
        self._name()

    def words(self) -> str:
        """The words at the left."""
        return ", ".join(part for part in (self._lead, self._note) if part)

    def set_spans(self, spans: Mapping[str, tuple[float, float, bool]]) -> None:
        """Where each column's text begins and ends, and whether it stands at the right."""
        self._spans = dict(spans)
        self.update()

    def _name(self) -> None:
        about = lettering.translated("about {n}")
        totals = [
            (about.format(n=total.text) if total.estimated else total.text) + f" {total.unit}"
            for total in self._totals.values()
        ]
        totals = [one.strip() for one in totals]
        self.setAccessibleName(", ".join([self.words(), *totals]))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("sheet"))
        painter.fillRect(QRectF(0, 0, self.width(), _LINE), look.colour("ink"))
        hand = Hand(Type.BODY, self._density, BOLD)
        small = Hand(Type.CAPTION, colour="ink2")
        first = float(self.width())
        middle = QRectF(0, _LINE, 0, self.height() - _LINE)
        for key, total in self._totals.items():
            if key not in self._spans:
                continue
            left, right, is_right = self._spans[key]
            runs = [hand.run(total.text)]
            if total.estimated:
                quiet = Hand(Type.BODY, self._density, colour="ink2")
                runs.insert(0, quiet.run("≈\u00a0"))
            width = lettering.width(runs)
            start = right - width if is_right else left
            if start < 0 or start + width > self.width() + 1:
                # Half a figure is another one: its column is scrolled into view for it.
                continue
            first = min(first, start)
            room = QRectF(start, middle.top(), width + 1, middle.height())
            lettering.draw(painter, room, runs)
            unit = QRectF(start + width + 4, middle.top(), tokens.AFTER_NUMBER + 8, room.height())
            is_last = key == next(reversed(self._spans))
            if total.unit and (self._last_unit or not is_last):
                lettering.draw(painter, unit, [small.run(total.unit)])
        left_pad = tokens.PANEL_SIDE - 1
        room = QRectF(left_pad, middle.top(), max(0.0, first - left_pad - 12), middle.height())
        lettering.draw(painter, room, [hand.run(self.words())], Side.LEFT)
