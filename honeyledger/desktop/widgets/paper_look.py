"""A paper as it will print, look by look, as large as there is room, white in either theme.

What is seen are pages of the PDF's own bytes, made into a picture in a lane, dot for dot as the
screen has them; here a picture is painted and nothing else.
"""

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget
from shiboken6 import isValid

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.jobs import Jobs, Outcome
from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.lettering import Hand, Run
from honeyledger.desktop.seen import SeenPaper
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.documents import raster
from honeyledger.documents.raster import Box
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_number

_CAPTION = Hand(Type.CAPTION, colour="ink2")
_NOTE = Hand(Type.CAPTION, colour="ink")
_GAP = 8.0
_LEAST = 80  # below that nothing on it can be made out
_WHITE = QColor(Qt.GlobalColor.white)

# Office paper that comes out smaller than this, in px a mm, is offered larger.
_READABLE = 4.0
_OFFICE_FROM_MM = 200
_STEP = 0.9  # of what is seen of a page in large, so that a line is not lost between two

Wanted = tuple[SeenPaper, int, Box | None, float]
"""Of which paper which page, which part of it, and how many dots a mm."""


class PaperLook(QWidget):
    """One look of a paper, its size on paper above it; a screen is no proof of a print.

    Args:
        jobs: the lanes in which pictures are made; None while none can be.
    """

    def __init__(self, jobs: Jobs | None = None) -> None:
        super().__init__()
        self.jobs = jobs
        self._paper: SeenPaper | None = None
        self._said = ""
        self._refusal = ""
        self._asked: Wanted | None = None
        self._made: tuple[Wanted, QImage] | None = None
        self.number = 0
        self.is_large = False
        self._down_mm = 0.0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.turns = QWidget(self)
        row = QHBoxLayout(self.turns)
        row.setContentsMargins(0, 0, 0, 0)
        self.back, self.on, self.large = (
            Button(words, density=Density.DESK)
            for words in (_tr("Back"), _tr("Forward"), _tr("Larger"))
        )
        for button in (self.back, self.on, self.large):
            button.setAutoDefault(False)
            row.addWidget(button)
        self.back.clicked.connect(lambda: self.turn(-1))
        self.on.clicked.connect(lambda: self.turn(1))
        self.large.clicked.connect(self._turn_large)
        self.turns.hide()

    # What is shown.

    def show_paper(self, paper: SeenPaper | Refusal | None) -> None:
        """Show this paper; what is said instead of one; None for none."""
        self._said = ""
        self._refusal = refusal_words(paper) if isinstance(paper, Refusal) else ""
        self._paper = paper if isinstance(paper, SeenPaper) else None
        self.is_large = self.is_large and self._is_office()
        count = self._paper.count if self._paper is not None else 0
        self.number, self._down_mm = min(self.number, max(count - 1, 0)), 0.0
        self.setVisible(paper is not None)
        self._renew()

    def show_progress(self, done: int, of: int) -> None:
        """Say how far the paper is drawn that will be shown."""
        words = _tr("It is drawn: {done} of {of}")
        self._said = words.format(done=format_number(done), of=format_number(of))
        self._renew()

    def turn(self, step: int) -> None:
        """Another look of the same paper; in large the rest of a page comes first."""
        paper = self._paper
        if paper is None:
            return
        seen = self._seen_mm()
        last = max(paper.size_mm[1] - seen, 0.0)
        if self.is_large and (self._down_mm < last if step > 0 else self._down_mm > 0):
            self._down_mm = min(max(self._down_mm + step * seen * _STEP, 0.0), last)
        elif 0 <= self.number + step < paper.count:
            self.number += step
            self._down_mm = last if self.is_large and step < 0 else 0.0
        self._renew()

    def _turn_large(self) -> None:
        """As wide as there is room, or the whole page again."""
        self.is_large, self._down_mm = not self.is_large, 0.0
        self.large.setText(_tr("Whole page") if self.is_large else _tr("Larger"))
        self._renew()

    def _renew(self) -> None:
        notes = [say(note) for note in self._paper.notes] if self._paper is not None else []
        self.setAccessibleName(". ".join((self.words(), *notes)))
        self._lay_out()
        self.update()

    def _lay_out(self) -> None:
        """Buttons for what can be done, right below the paper."""
        is_offered = self._is_office() and (self.is_large or self._small() < _READABLE)
        has_more = self._paper is not None and (self._paper.count > 1 or self.is_large)
        self.large.setVisible(is_offered)
        self.back.setVisible(has_more)
        self.on.setVisible(has_more)
        self.turns.setVisible((has_more or is_offered) and self.height() >= _LEAST)
        self.turns.adjustSize()
        self.turns.move(tokens.PANEL_SIDE, int(self.paper().bottom() + _GAP))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._down_mm = 0.0
        self._lay_out()

    def words(self) -> str:
        """Whose label it is or which paper, which look of how many, and how large on paper."""
        if self._said or self._refusal:
            return self._said or self._refusal
        paper = self._paper
        if paper is None:
            return ""
        words = QCoreApplication.translate(
            "label", "{code} as it will print, {width} × {height} mm"
        )
        said = words.format(
            code=paper.name,
            width=f"{round(paper.size_mm[0], 1):g}",
            height=f"{round(paper.size_mm[1], 1):g}",
        )
        if paper.count == 1:
            return said
        which = _tr("label {n} of {of}") if paper.boxes else _tr("page {n} of {of}")
        which = which.format(n=format_number(self.number + 1), of=format_number(paper.count))
        return f"{said}, {which}"

    # Where.

    def sizeHint(self) -> QSize:
        return QSize(320, 220)

    def _lines(self) -> list[list[Run]]:
        """What is said above the paper, in lines that fit."""
        room = self.width() - 2 * tokens.PANEL_SIDE
        lines = lettering.wrapped(self.words(), _CAPTION, room)
        notes = [say(note) for note in self._paper.notes] if self._paper is not None else []
        return lines + [line for note in notes for line in lettering.wrapped(note, _NOTE, room)]

    def _room(self) -> QRectF:
        """What is left for the paper, whether it has buttons or not."""
        top = len(self._lines()) * _NOTE.line + _GAP
        turns = self._is_office() or (self._paper is not None and self._paper.count > 1)
        below = self.turns.sizeHint().height() + _GAP if turns else 0.0
        side = tokens.PANEL_SIDE
        high = self.height() - top - _GAP - below
        return QRectF(side, top, self.width() - 2 * side, max(high, 0.0))

    def _is_office(self) -> bool:
        """Whether a look is a sheet of office paper."""
        paper = self._paper
        return paper is not None and not paper.boxes and paper.size_mm[1] > _OFFICE_FROM_MM

    def _small(self) -> float:
        """Px a mm where the whole of it is seen."""
        if self._paper is None:
            return 0.0
        wide, high = self._paper.size_mm
        room = self._room()
        return max(min(room.width() / wide, room.height() / high), 0.0)

    def _seen_mm(self) -> float:
        """How much of a page's height is seen."""
        if self._paper is None:
            return 0.0
        wide, high = self._paper.size_mm
        room = self._room()
        return min(high, room.height() / room.width() * wide) if self.is_large else high

    def paper(self) -> QRectF:
        """Where the paper, or what is seen of it, stands, on whole dots of the screen."""
        if self._paper is None:
            return QRectF()
        room, dots = self._room(), self.devicePixelRatioF()
        wide = self._paper.size_mm[0]
        scale = room.width() / wide if self.is_large else self._small()
        measures = (room.left(), room.top(), wide * scale, self._seen_mm() * scale)
        return QRectF(*(int(measure * dots) / dots for measure in measures))

    # The picture.

    def image(self) -> QImage | None:
        """The picture that is shown, if it is made."""
        return self._made[1] if self._made is not None else None

    def _wanted(self) -> Wanted | None:
        paper = self._paper
        wide = self.paper().width() * self.devicePixelRatioF()
        if paper is None or wide < 1:
            return None
        page, part = paper.look(self.number)
        if self.is_large:
            part = Box(0.0, self._down_mm, paper.size_mm[0], self._seen_mm())
        return paper, page, part, wide / paper.size_mm[0]

    def _ask(self, wanted: Wanted) -> None:
        """Have the picture made, unless that is under way; what comes late is not shown."""
        if self.jobs is None or self._asked is not None:
            return
        self._asked = wanted

        def made(outcome: Outcome[QImage]) -> None:
            if not isValid(self):
                return  # closed meanwhile
            self._asked = None
            if outcome.value is not None:
                self._made = wanted, outcome.value
            elif outcome.refusal is not None:
                self._paper, self._refusal = None, refusal_words(outcome.refusal)
            self._renew()

        self.jobs.read(lambda: picture(*wanted), made)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self.height() < _LEAST:
            return
        painter = QPainter(self)
        line = QRectF(tokens.PANEL_SIDE, 0, self.width() - 2 * tokens.PANEL_SIDE, _CAPTION.line)
        for words in self._lines():
            lettering.draw(painter, line, words)
            line = line.translated(0, line.height())
        wanted = self._wanted()
        if wanted is None:
            return
        paper = self.paper()
        painter.fillRect(paper, _WHITE)
        made = self._made
        if made is not None and made[0] == wanted:
            image = made[1]
            image.setDevicePixelRatio(self.devicePixelRatioF())
            painter.drawImage(paper.topLeft(), image)
        else:
            if made is not None and made[0][:3] == wanted[:3]:
                painter.drawImage(paper, made[1])
            self._ask(wanted)
        painter.setPen(QPen(look.colour("edge"), 1))
        painter.drawRect(QRectF(paper.topLeft() - QPointF(0.5, 0.5), paper.size() + QSize(1, 1)))


def picture(paper: SeenPaper, page: int, part: Box | None, dots_a_mm: float) -> QImage:
    """A page of a paper, or a part of it, as a picture; for a lane.

    Raises:
        Refusal: what reads PDFs does not load.
    """
    dots = raster.seen(paper.pdf, page, dots_a_mm, part)
    image = QImage(dots.data, dots.width, dots.height, dots.stride, QImage.Format.Format_RGB32)
    return image.copy()


def _tr(text: str) -> str:
    return QCoreApplication.translate("paper_look", text)
