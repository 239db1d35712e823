"""What a label's printing would put on paper, as plain marks in mm: so that it can be seen first.

The marks come from the same drawing that makes the paper; whoever shows them adds nothing.
"""

from dataclasses import dataclass

from honeyledger.domain.phrases import Phrase


@dataclass(frozen=True, slots=True)
class TextInk:
    """A run of text, its baseline's left end; the size is in points, the width in mm."""

    x: float
    y: float
    text: str
    face: str
    size_pt: float
    width: float
    white: bool = False


@dataclass(frozen=True, slots=True)
class LineInk:
    """A line."""

    x1: float
    y1: float
    x2: float
    y2: float
    thick: float


@dataclass(frozen=True, slots=True)
class BoxInk:
    """A box: an outline of some thickness, or filled where that is 0."""

    x: float
    y: float
    width: float
    height: float
    thick: float = 0.0
    white: bool = False


@dataclass(frozen=True, slots=True)
class ShapeInk:
    """A filled shape."""

    points: tuple[tuple[float, float], ...]
    white: bool = False


Ink = TextInk | LineInk | BoxInk | ShapeInk


@dataclass(frozen=True, slots=True)
class SeenLabel:
    """One label: its size on paper, the marks on it in the order they are made.

    Args:
        notes: what is worth knowing of it.
    """

    code: str
    width_mm: float
    height_mm: float
    inks: tuple[Ink, ...]
    notes: tuple[Phrase, ...] = ()
