"""The parts of a lot's card: the head with its hole, the bar of origins, facts, history."""

from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from honeyledger.desktop import colouring, honey_paint, lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand, Run, Side
from honeyledger.desktop.marks import COLOURS, Mark
from honeyledger.desktop.models.lot_card import (
    CardEvent,
    CardFact,
    CardOrigin,
    CardQuality,
    LotCardFacts,
    origin_spans,
)
from honeyledger.desktop.tokens import REGULAR, SEMIBOLD, Density, Type

CUT = 16
HOLE = 8
HOLE_AT = 24
_SMALL = Hand(Type.CAPTION, colour="ink2")
_BODY = Hand(Type.BODY, Density.DESK)
_CODE = Hand(Type.FIGURE, weight=REGULAR)


class CardHead(QWidget):
    """The code, what it is, where it stands, and its state."""

    def __init__(self) -> None:
        super().__init__()
        self._facts: LotCardFacts | None = None
        self.setFixedHeight(112)

    def show_facts(self, facts: LotCardFacts) -> None:
        """Show another lot."""
        self._facts = facts
        said = [facts.code, facts.kind, facts.where, facts.state]
        self.setAccessibleName(", ".join(part for part in said if part))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._facts is None:
            return
        painter = QPainter(self)
        facts = self._facts
        left = float(HOLE_AT + HOLE + 12)
        wide = self.width() - left - tokens.TARGET_LEAST - 12
        lettering.draw(painter, QRectF(left, 8, wide, 32), lettering.code_runs(facts.code, _CODE))
        inset = float(tokens.PANEL_SIDE - 1)
        room = self.width() - 2 * inset
        kind = Hand(Type.BODY, Density.DESK, SEMIBOLD)
        lettering.draw(painter, QRectF(inset, 48, room, 24), [kind.run(facts.kind)])
        self._paint_state(painter, inset, room)

    def _paint_state(self, painter: QPainter, left: float, room: float) -> None:
        assert self._facts is not None
        facts = self._facts
        runs: list[Run] = []
        before = 0.0
        if facts.state:
            marks.draw(painter, facts.mark, left, 78, tokens.MARK_TABLE)
            before = tokens.MARK_TABLE + 8.0
            quiet = facts.mark in (Mark.READY, Mark.HEEL)
            weight = REGULAR if quiet else SEMIBOLD
            hand = Hand(Type.BODY, Density.DESK, weight, COLOURS[facts.mark])
            runs = [hand.run(facts.state)]
        if facts.where:
            gap = "  " if runs else ""
            runs += lettering.runs(gap + facts.where, Hand(Type.BODY, Density.DESK, colour="ink2"))
        lettering.draw(painter, QRectF(left + before, 76, room - before, 24), runs)


class OriginBar(QWidget):
    """Yards by share: a bar, and a line for each below it."""

    _BAR = 24
    _MOST_LINES = 8

    def __init__(self) -> None:
        super().__init__()
        self._origins: tuple[CardOrigin, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_origins(self, origins: tuple[CardOrigin, ...]) -> None:
        """Show these yards, largest first."""
        self._origins = origins
        said = [f"{one.name} {one.words}" for one in origins]
        self.setAccessibleName(self.tr("Origin: ") + ", ".join(said))
        self.setToolTip("\n".join(said) if len(origins) > self._MOST_LINES else "")
        self.updateGeometry()
        self.update()

    def _lines(self) -> list[tuple[CardOrigin | None, str]]:
        shown: list[tuple[CardOrigin | None, str]] = [
            (one, one.name) for one in self._origins[: self._MOST_LINES]
        ]
        rest = len(self._origins) - self._MOST_LINES
        if rest > 0:
            words = self.tr("and {n} more yards").format(n=rest)
            shown.append((None, words))
        return shown

    def sizeHint(self) -> QSize:
        lines = len(self._lines())
        return QSize(240, self._BAR + 8 + lines * 26 if self._origins else 0)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        spans = origin_spans(self._origins, float(self.width()))
        for origin, (left, right) in zip(self._origins, spans, strict=False):
            rect = QRectF(left, 0, right - left, self._BAR).adjusted(0.5, 0.5, -0.5, -0.5)
            read = origin.pfund_mm is not None
            fill = (
                colouring.pfund_colour(origin.pfund_mm)
                if origin.pfund_mm is not None
                else "act_tint"
            )
            painter.fillRect(rect, look.colour(fill))
            painter.setPen(QPen(look.colour("honey_edge" if read else "edge"), 1))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(rect)
        top = self._BAR + 8.0
        for shown, words in self._lines():
            self._paint_line(painter, top, shown, words)
            top += 26

    def _paint_line(
        self, painter: QPainter, top: float, origin: CardOrigin | None, words: str
    ) -> None:
        left = 0.0
        if origin is not None:
            square = QRectF(0, top + 5, 16, 16)
            if origin.heel_only:
                marks.draw(painter, Mark.HEEL, 0, top + 5, tokens.MARK_BADGE)
            else:
                honey_paint.draw_swatch(painter, square, origin.pfund_mm)
            left = 24.0
        room = QRectF(left, top, self.width() - left, 26)
        share = [_BODY.run(origin.words)] if origin is not None else []
        lettering.draw(painter, room, share, Side.RIGHT)
        name = room.adjusted(0, 0, -lettering.width(share) - 12, 0)
        lettering.draw(painter, name, [_BODY.run(words)])


class FactRow(QWidget):
    """A label in caption and its value beside it."""

    def __init__(self, fact: CardFact) -> None:
        super().__init__()
        self._fact = fact
        self.setFixedHeight(28)
        self.setAccessibleName(f"{fact.label}: {fact.value}")
        self.setToolTip(self.accessibleName())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        split = self.width() * 0.4
        label = QRectF(0, 0, split - 8, self.height())
        lettering.draw(painter, label, [_SMALL.run(self._fact.label)])
        value = QRectF(split, 0, self.width() - split, self.height())
        lettering.draw(painter, value, lettering.runs(self._fact.value, _BODY))


@dataclass(frozen=True, slots=True)
class _Laid:
    """A row's words broken into lines."""

    label: list[list[Run]]
    value: list[list[Run]]
    notes: list[list[Run]]

    @property
    def first(self) -> float:
        """How high the label and what is said beside it are."""
        return float(max(len(self.value) * _BODY.line, len(self.label) * _SMALL.line))


class QualityRow(QWidget):
    """A label with what is said beside it, and notes below over the whole width."""

    _ABOVE = 6

    def __init__(self, row: CardQuality) -> None:
        super().__init__()
        self._row = row
        self._laid: dict[float, _Laid] = {}
        said = [f"{row.label}: {row.value}", *row.notes]
        self.setAccessibleName(". ".join(part.rstrip(".") for part in said))
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def _split(self, width: float) -> float:
        return width * 0.4

    def _at(self, width: float) -> _Laid:
        """Its lines at a width; Qt asks for the height at each of a few widths many times over."""
        found = self._laid.get(width)
        if found is None:
            found = self._laid[width] = self._broken(width)
        return found

    def _broken(self, width: float) -> _Laid:
        split = self._split(width)
        before = tokens.MARK_BADGE + 8 if self._row.mark else 0
        hand = Hand(Type.BODY, Density.DESK, SEMIBOLD) if self._row.mark else _BODY
        room = max(40.0, width)
        return _Laid(
            lettering.wrapped(self._row.label, _SMALL, max(40.0, split - 8)),
            lettering.wrapped(self._row.value, hand, max(40.0, width - split - before)),
            [line for note in self._row.notes for line in lettering.wrapped(note, _SMALL, room)],
        )

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        laid = self._at(width)
        return round(self._ABOVE + laid.first + len(laid.notes) * _SMALL.line + 2)

    def sizeHint(self) -> QSize:
        return QSize(200, self.heightForWidth(max(200, self.width())))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, width = QPainter(self), float(self.width())
        laid, split, top = self._at(width), self._split(width), float(self._ABOVE)
        self._lines(painter, laid.label, 0.0, top, _SMALL)
        left = split
        if self._row.mark:
            marks.draw(painter, self._row.mark, split, top + 2, tokens.MARK_BADGE)
            left += tokens.MARK_BADGE + 8
        self._lines(painter, laid.value, left, top, _BODY)
        self._lines(painter, laid.notes, 0.0, top + laid.first, _SMALL)

    def _lines(
        self, painter: QPainter, lines: list[list[Run]], left: float, top: float, hand: Hand
    ) -> None:
        for line in lines:
            lettering.draw(painter, QRectF(left, top, self.width() - left, hand.line), line)
            top += hand.line


class EventRow(QPushButton):
    """A dated sentence of the history; pressing it asks for the entry.

    Signals:
        asked: the entry's number.
    """

    asked = Signal(object)

    def __init__(self, event: CardEvent) -> None:
        super().__init__()
        self._event = event
        self._laid: dict[float, list[list[Run]]] = {}
        self.setAccessibleName(f"{event.when}: {event.sentence}")
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.clicked.connect(lambda: self.asked.emit(event.entry))

    def _sentence(self, width: float) -> list[list[Run]]:
        """Its lines at a width; Qt asks for the height at each of a few widths many times over."""
        found = self._laid.get(width)
        if found is None:
            left = tokens.MARK_BADGE + 8 if self._event.is_reversed else 0
            room = max(40.0, width - left)
            found = self._laid[width] = lettering.wrapped(self._event.sentence, _BODY, room)
        return found

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        lines = len(self._sentence(width))
        return max(tokens.TARGET_LEAST, _SMALL.line + lines * _BODY.line + 8)

    def sizeHint(self) -> QSize:
        return QSize(200, self.heightForWidth(max(200, self.width())))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        if self.underMouse():
            painter.fillRect(self.rect(), look.colour("well"))
        lettering.draw(
            painter, QRectF(0, 2, self.width(), _SMALL.line), [_SMALL.run(self._event.when)]
        )
        left = 0.0
        if self._event.is_reversed:
            marks.draw(painter, Mark.REVERSED, 0, 4 + _SMALL.line, tokens.MARK_BADGE)
            left = tokens.MARK_BADGE + 8.0
        top = 2.0 + _SMALL.line
        for line in self._sentence(self.width()):
            lettering.draw(painter, QRectF(left, top, self.width() - left, _BODY.line), line)
            top += _BODY.line
