"""What the card of a lot shows, as plain values."""

from dataclasses import dataclass

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message


@dataclass(frozen=True, slots=True)
class CardOrigin:
    """A yard in the lot, its share from 0 to 1, and that share in words."""

    name: str
    share: float
    words: str
    pfund_mm: float | None = None
    heel_only: bool = False


@dataclass(frozen=True, slots=True)
class CardFact:
    """A label and what stands beside it; codes in it are set as codes."""

    label: str
    value: str


@dataclass(frozen=True, slots=True)
class CardEvent:
    """A dated sentence of the lot's history, and the entry it tells of."""

    when: str
    sentence: str
    entry: int = 0
    is_reversed: bool = False


@dataclass(frozen=True, slots=True)
class CardQuality:
    """A row of the quality part, or a blend: what it is about, what is said, what stands below.

    Args:
        mark: where it needs a person.
    """

    label: str
    value: str
    notes: tuple[str, ...] = ()
    mark: Mark | None = None


@dataclass(frozen=True, slots=True)
class LotCardFacts:
    """Everything a card says.

    Args:
        code: the lot's code.
        kind: what it is, in words ("Drum, filled 24 Jul 2026").
        where: where it stands.
        mark: its state; with words.
        state: the state in at most two words.
        figures: (figure with unit, what it is), made and left first.
        pfund_mm: its colour, None where it was not read.
        is_mean: whether the colour is a mean, which is no grade.
        messages: holds and readings that need a person.
        origins: the yards by share, largest first.
        quality: what was read of it, whether it keeps, what rules say to it.
        blends: what was blended in a vessel.
        facts: the rest, label by label.
        history: dated sentences, newest first.
        can_print: whether it has a label.
        can_trace: whether its honey can be traced.
        has_colour: whether it is honey of one colour, read or not.
        has_sheet: whether a pull sheet goes out to it.
        has_papers: whether there are papers of it besides its label.
    """

    code: str
    kind: str
    where: str = ""
    mark: Mark = Mark.READY
    state: str = ""
    figures: tuple[tuple[str, str], ...] = ()
    pfund_mm: float | None = None
    is_mean: bool = False
    messages: tuple[Message, ...] = ()
    origins: tuple[CardOrigin, ...] = ()
    quality: tuple[CardQuality, ...] = ()
    blends: tuple[CardQuality, ...] = ()
    facts: tuple[CardFact, ...] = ()
    history: tuple[CardEvent, ...] = ()
    can_print: bool = True
    can_trace: bool = True
    has_colour: bool = True
    has_sheet: bool = False
    has_papers: bool = False


def origin_spans(
    origins: tuple[CardOrigin, ...], width: float, gap: float = 2.0
) -> list[tuple[float, float]]:
    """Left and right of each origin in a bar so wide; none is thinner than two pixels."""
    whole = sum(origin.share for origin in origins)
    if not origins or whole <= 0:
        return []
    least = 2.0
    room = width - gap * (len(origins) - 1)
    wanted = [max(least, room * origin.share / whole) for origin in origins]
    over = sum(wanted) - room
    spare = sum(max(0.0, one - least) for one in wanted)
    if over > 0 and spare > 0:
        wanted = [one - over * max(0.0, one - least) / spare for one in wanted]
    spans: list[tuple[float, float]] = []
    left = 0.0
    for one in wanted:
        spans.append((left, left + one))
        left += one + gap
    return spans
