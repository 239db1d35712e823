"""Text set in several fonts on one line: a sentence with codes in it, a figure and its unit.

Codes are set in the monospaced companion with the number people call out in bold.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter

from honeyledger.desktop import look, tokens
from honeyledger.desktop.tokens import Density, Type

_CODE = re.compile(r"(?<![\w-])[A-Z]{1,4}\d{2}-\d{4,}(?:-\d{5})?(?:-[0-9A-Z])?(?![\w-])")
ELLIPSIS = "…"


def translated(text: str) -> str:
    """A word the kit itself paints, in the language in use."""
    return QCoreApplication.translate("kit", text)


class Side(Enum):
    """Where a line of text stands in its room."""

    LEFT = "left"
    RIGHT = "right"
    CENTRE = "centre"


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of text in one font and one colour (a token, or a value for text on honey)."""

    text: str
    font: QFont
    colour: str = "ink"

    @property
    def shown(self) -> str:
        """The text as it is drawn.

        The typefaces' narrow no-break space is too thin to part thousands; the sixth of an em is
        drawn in its place, and what a screen reader or the clipboard gets stays as it was.
        """
        return self.text.replace("\u202f", "\u2006")

    @property
    def width(self) -> float:
        """The room it takes."""
        return look.advance(self.shown, self.font)


@dataclass(frozen=True, slots=True)
class Hand:
    """How a sentence is written: its size, weight and colour."""

    kind: Type = Type.BODY
    density: Density = Density.FLOOR
    weight: int | None = None
    colour: str = "ink"

    @property
    def line(self) -> int:
        """The height of one line."""
        return tokens.type_size(self.kind, self.density).line

    def font(self, *, mono: bool = False, weight: int | None = None) -> QFont:
        """The font, or its companion for codes."""
        chosen = self.weight if weight is None else weight
        return look.font(self.kind, self.density, weight=chosen, mono=mono)

    def run(self, text: str) -> Run:
        """Plain text in this hand."""
        return Run(text, self.font(), self.colour)


def code_runs(code: str, hand: Hand) -> list[Run]:
    """A code with its number in bold: the serial of a jar, else the running number."""
    parts = code.split("-")
    numbers = [place for place, part in enumerate(parts) if place and len(part) >= 4]
    bold = numbers[-1] if numbers else -1
    light, heavy = hand.font(mono=True, weight=tokens.REGULAR), hand.font(mono=True, weight=700)
    runs: list[Run] = []
    for place, part in enumerate(parts):
        if place:
            runs.append(Run("-", light, hand.colour))
        runs.append(Run(part, heavy if place == bold else light, hand.colour))
    return runs


def runs(text: str, hand: Hand) -> list[Run]:
    """A sentence, with the codes in it set as codes."""
    made: list[Run] = []
    end = 0
    for found in _CODE.finditer(text):
        if found.start() > end:
            made.append(hand.run(text[end : found.start()]))
        made.extend(code_runs(found.group(), hand))
        end = found.end()
    if end < len(text):
        made.append(hand.run(text[end:]))
    return made


def width(line: Sequence[Run]) -> float:
    """The room a line takes."""
    return sum(run.width for run in line)


def elided(line: Sequence[Run], room: float) -> list[Run]:
    """The line cut at its end to fit, with an ellipsis where something was left out."""
    return [run for run, _ in _fitted(line, room)]


def _fitted(line: Sequence[Run], room: float) -> list[tuple[Run, float]]:
    """The runs that are drawn, each with its width: measuring is most of what drawing takes."""
    measured = [(run, run.width) for run in line]
    if sum(wide for _, wide in measured) <= room:
        return measured
    kept: list[tuple[Run, float]] = []
    left = room
    for run, wide in measured:
        if wide <= left:
            kept.append((run, wide))
            left -= wide
            continue
        metrics = look.metrics(run.font)
        cut = metrics.elidedText(run.shown, Qt.TextElideMode.ElideRight, max(0.0, left))
        last = replace(run, text=cut or ELLIPSIS)
        kept.append((last, last.width))
        break
    return kept


def middle_elided(text: str, font: QFont, room: float) -> str:
    """A name cut in its middle, because its beginning and its end both tell it apart."""
    return look.metrics(font).elidedText(text, Qt.TextElideMode.ElideMiddle, room)


def draw(painter: QPainter, rect: QRectF, line: Sequence[Run], side: Side = Side.LEFT) -> QRectF:
    """Draw one line on a common baseline, centred in the height of rect, cut to its width.

    Returns:
        The room the line took.
    """
    fitted = _fitted(line, rect.width())
    if not fitted:
        return QRectF(rect.left(), rect.top(), 0, rect.height())
    total = sum(wide for _, wide in fitted)
    largest = max((run for run, _ in fitted), key=lambda run: run.font.pixelSize())
    metrics = look.metrics(largest.font)
    baseline = rect.center().y() + (metrics.ascent() - metrics.descent()) / 2
    slack = {Side.LEFT: 0.0, Side.RIGHT: rect.width() - total}.get(
        side, (rect.width() - total) / 2
    )
    left = rect.left() + max(0.0, slack)
    start = left
    for run, wide in fitted:
        painter.setFont(run.font)
        painter.setPen(look.colour(run.colour))
        painter.drawText(QPointF(left, baseline), run.shown)
        left += wide
    return QRectF(start, rect.top(), total, rect.height())


def wrapped(text: str, hand: Hand, room: float) -> list[list[Run]]:
    """A sentence broken between words into lines that fit; codes are never broken."""
    return run_lines(runs(text, hand), room)


def run_lines(line: Sequence[Run], room: float, most: int | None = None) -> list[list[Run]]:
    """A line of several hands broken between words into at most so many lines.

    The last line is left too long where it does not fit, for `draw` to cut with an ellipsis.
    """
    lines: list[list[Run]] = [[]]
    taken = 0.0
    for word in _words(line):
        wide = width(word)
        full = bool(lines[-1]) and taken + wide > room
        if full and (most is None or len(lines) < most):
            lines.append([])
            taken = 0.0
        if not lines[-1] and word[0].text.startswith(" "):
            first = word[0]
            word = [Run(first.text.lstrip(), first.font, first.colour), *word[1:]]
            wide = width(word)
        lines[-1].extend(word)
        taken += wide
    return [made for made in lines if made]


def _words(line: Sequence[Run]) -> list[list[Run]]:
    """The words with the space before each; runs that touch (a code's parts) are one word.

    Per cent and degrees stay with their figure.
    """
    words: list[list[Run]] = []
    for run in line:
        for piece in re.findall(r" *[^ ]+(?: [%°]\S*)?| +$", run.text):
            if words and piece[0] != " ":
                words[-1].append(Run(piece, run.font, run.colour))
            else:
                words.append([Run(piece, run.font, run.colour)])
    return words
