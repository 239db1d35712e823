"""Sets texts of unknown length in a given room: wraps and shrinks them, or refuses."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from honeyledger.documents.fonts import (
    CAPITAL,
    CODE,
    LEADING,
    POINTS_PER_MM,
    Typefaces,
    width_mm,
    words,
    wrapped,
)
from honeyledger.documents.page import Page, code_runs
from honeyledger.domain.refusals import Refusal, Sentence

NO_ROOM_FOR_TEXT = Sentence(
    "no-room-for-text",
    'Label stock {stock} has no room for all of the text: shorten "{text}", or take a larger '
    "label.",
)

# What hangs below the baseline, as a part of the size of type.
_BELOW = 0.27
_STEPS = 40
_HAIR = 1 - 1e-9


@dataclass(frozen=True, slots=True)
class Block:
    """A text to be set, as large as wanted or smaller.

    Args:
        text: what to set; a block without text takes no room.
        face: the typeface; a text in the typeface of codes is set as a code.
        size_pt: the size wanted.
        least_pt: the smallest size allowed.
        gap_mm: room above it, at the size wanted.
        most_lines: how many lines it may take.
        spring: whether room left over in the column goes above it.
        leading: from line to line, as a part of the size of type.
    """

    text: str
    face: str
    size_pt: float
    least_pt: float
    gap_mm: float = 0.0
    most_lines: int = 9
    spring: bool = False
    leading: float = LEADING


@dataclass(frozen=True, slots=True)
class SetLine:
    """One line as it will be drawn, its baseline in mm below the top."""

    text: str
    face: str
    size_pt: float
    baseline_mm: float

    def draw(self, page: Page, x: float, y: float) -> None:
        """Draw it from the left edge x, in a column whose top is y."""
        runs = code_runs(self.text) if self.face == CODE else [(self.text, self.face)]
        page.runs(x, y + self.baseline_mm, runs, self.size_pt)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of set lines and the height they take."""

    lines: tuple[SetLine, ...]
    height_mm: float

    def draw(self, page: Page, x: float, y: float) -> None:
        """Draw it with its upper left corner at x and y."""
        for line in self.lines:
            line.draw(page, x, y)


def set_column(
    blocks: Sequence[Block], width: float, height: float, typefaces: Typefaces, stock: str
) -> Column:
    """Set blocks one under another, as large as width and height in mm allow.

    All are shrunk together, each down to its own least size.

    Raises:
        Refusal: they do not fit even at their least sizes, or a sign cannot be printed.
    """
    column = try_column(blocks, width, height, typefaces)
    if column is None:
        longest = max((block.text for block in blocks), key=len)
        raise Refusal(NO_ROOM_FOR_TEXT, field="stock", stock=stock, text=longest)
    return column


def try_column(
    blocks: Sequence[Block], width: float, height: float, typefaces: Typefaces
) -> Column | None:
    """Set blocks as `set_column` does, or give None where they do not fit.

    Raises:
        Refusal: a sign cannot be printed.
    """
    checked = [
        replace(block, text=typefaces.checked(block.text, block.face))
        for block in blocks
        if block.text.strip()
    ]
    for step in range(_STEPS, -1, -1):
        column = _column_at(checked, width, height, step / _STEPS)
        if column is not None:
            return column
    return None


def set_line(block: Block, width: float, typefaces: Typefaces, stock: str) -> SetLine:
    """Set a text on one line, as large as the width in mm allows; baseline at a capital's height.

    Raises:
        Refusal: it does not fit at its least size, or a sign cannot be printed.
    """
    alone = replace(block, gap_mm=0, most_lines=1)
    line = set_column([alone], width, 1000, typefaces, stock).lines[0]
    return SetLine(line.text, line.face, line.size_pt, capital_mm(line.size_pt))


def capital_mm(size_pt: float) -> float:
    """Height of a capital or a figure in mm."""
    return size_pt * CAPITAL / POINTS_PER_MM


def _column_at(
    blocks: Sequence[Block], width: float, height: float, share: float
) -> Column | None:
    """Set all at their least size plus this share of what they want above it, if that fits."""
    lines: list[SetLine] = []
    below, sprung = 0.0, 0
    for block in blocks:
        size = _size_at(block, width, share)
        if lines:
            below += block.gap_mm * (0.4 + 0.6 * share)
        broken = wrapped(block.text, block.face, size, width)
        if len(broken) > block.most_lines:
            return None
        sprung = len(lines) if block.spring else sprung
        for number, line in enumerate(broken):
            down = (number + 1) * block.leading - _BELOW
            baseline = below + down * size / POINTS_PER_MM
            lines.append(SetLine(line, block.face, size, baseline))
        below += len(broken) * size * block.leading / POINTS_PER_MM
    spare = height - below
    if spare < 0:
        return None
    if sprung:
        lines[sprung:] = [
            replace(line, baseline_mm=line.baseline_mm + spare) for line in lines[sprung:]
        ]
        below = height
    return Column(tuple(lines), below)


def _size_at(block: Block, width: float, share: float) -> float:
    """Give the size at this share, smaller where its longest word would have to be broken."""
    size = block.least_pt + (block.size_pt - block.least_pt) * share
    widest = max(width_mm(word, block.face, size) for word in words(block.text))
    # A hair less than the room: what fills it to the last digit would be broken after all.
    fitting = size * width / widest * _HAIR if widest else size
    return max(block.least_pt, min(size, fitting))
