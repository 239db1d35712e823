"""The balance of a run as two bars on one scale: what went in, what came out, what is missing."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum

BAR = 40.0
BETWEEN = 4.0
ABOVE = 24.0
LABEL = 20.0
PIECE_GAP = 2.0
_LABEL_PAD = 8.0
_LABEL_GAP = 12.0
_MOST_OUTSIDE = 6


class PieceKind(Enum):
    """What a piece of a bar is, which decides how it is drawn."""

    HONEY = "honey"
    CAPPINGS = "cappings"
    HEEL = "heel"
    MISSING = "missing"


@dataclass(frozen=True, slots=True)
class BalancePiece:
    """A stretch of a bar.

    Args:
        label: what it is called on the bar: a yard, a drum's number.
        value: its mass in words, unit left out ("≈ 1 284").
        mass_g: how long it is.
        pfund_mm: its colour; a yard's mean for estimated pulls.
        is_code: whether the label is part of a code.
    """

    label: str
    value: str
    mass_g: int
    pfund_mm: float | None = None
    kind: PieceKind = PieceKind.HONEY
    is_code: bool = False

    @property
    def words(self) -> str:
        """The whole label."""
        return f"{self.label} {self.value}".strip()


@dataclass(frozen=True, slots=True)
class BalanceBars:
    """Both bars and what is said under them.

    Args:
        title: what is compared ("In, by estimate, and out, by scale").
        went_in: the pieces of the upper bar.
        came_out: the pieces of the lower bar; what is missing is added to the shorter bar.
        verdict: the difference in words, in `figure`.
        under: the losses between weighed points, in `body`.
        is_loss: whether the difference is a loss between weighed points, not an estimate's error.
    """

    title: str
    went_in: tuple[BalancePiece, ...]
    came_out: tuple[BalancePiece, ...]
    verdict: str = ""
    under: str = ""
    is_loss: bool = False

    @property
    def in_g(self) -> int:
        """What went in."""
        return sum(piece.mass_g for piece in self.went_in)

    @property
    def out_g(self) -> int:
        """What came out."""
        return sum(piece.mass_g for piece in self.came_out)


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """A piece with its rectangle, and its label inside it or outside."""

    piece: BalancePiece
    left: float
    top: float
    width: float
    inside: str
    outside_left: float | None = None

    @property
    def middle(self) -> float:
        """Halfway across it."""
        return self.left + self.width / 2


@dataclass(frozen=True, slots=True)
class BalanceGeometry:
    """Both bars placed; labels above the upper and under the lower where they do not fit."""

    upper: tuple[PlacedPiece, ...]
    lower: tuple[PlacedPiece, ...]
    upper_top: float = ABOVE
    lower_top: float = ABOVE + BAR + BETWEEN


def lay_out_balance(
    bars: BalanceBars,
    width: float,
    measure: Callable[[str], float],
    *,
    keep_free: tuple[float, float] = (0.0, 0.0),
) -> BalanceGeometry:
    """Place both bars from the same zero on the same scale.

    Args:
        measure: the width of a label's text.
        keep_free: how far from the left no label may stand, above and below the bars.
    """
    longest = max(bars.in_g, bars.out_g, 1)
    scale = width / longest
    upper = _with_missing(bars.went_in, bars.out_g - bars.in_g)
    lower = _with_missing(bars.came_out, bars.in_g - bars.out_g)
    lower_top = ABOVE + BAR + BETWEEN
    return BalanceGeometry(
        _place(upper, scale, ABOVE, measure, (keep_free[0], width)),
        _place(lower, scale, lower_top, measure, (keep_free[1], width)),
    )


def _with_missing(pieces: Sequence[BalancePiece], missing_g: int) -> list[BalancePiece]:
    made = list(pieces)
    if missing_g > 0:
        made.append(BalancePiece("", "", missing_g, kind=PieceKind.MISSING))
    return made


def _place(
    pieces: Sequence[BalancePiece],
    scale: float,
    top: float,
    measure: Callable[[str], float],
    span: tuple[float, float],
) -> tuple[PlacedPiece, ...]:
    placed: list[PlacedPiece] = []
    at = 0.0
    for piece in pieces:
        end = at + piece.mass_g * scale
        width = max(1.0, end - at - PIECE_GAP)
        placed.append(PlacedPiece(piece, at, top, width, _inside(piece, width, measure)))
        at = end
    return _label_outside(placed, measure, span)


def _inside(piece: BalancePiece, width: float, measure: Callable[[str], float]) -> str:
    """What fits inside a piece: label and value, or the label alone, or nothing."""
    if piece.kind is not PieceKind.HONEY:
        return ""
    for words in (piece.words, piece.label):
        if words and measure(words) + 2 * _LABEL_PAD <= width:
            return words
    return ""


def _label_outside(
    placed: Sequence[PlacedPiece],
    measure: Callable[[str], float],
    span: tuple[float, float],
) -> tuple[PlacedPiece, ...]:
    """Labels that do not fit stand outside, centred on their piece, pushed apart to the left.

    Where there are too many, none is shown outside: the tip and the table have them.
    """
    without = [place for place, one in enumerate(placed) if not one.inside and one.piece.words]
    if len(without) > _MOST_OUTSIDE:
        return tuple(placed)
    made = list(placed)
    limit = span[1]
    for place in reversed(without):
        one = made[place]
        room = measure(one.piece.words)
        left = min(one.middle - room / 2, limit - room)
        if left < span[0]:
            continue
        limit = left - _LABEL_GAP
        made[place] = PlacedPiece(one.piece, one.left, one.top, one.width, "", left)
    return tuple(made)
