"""Stacks whose honey a super lies far off the others of their box, and the slip that explains it.

What is far off is told by medians (`domain.outliers`), box by box, weighed stacks only. Each slip
that people make is tried on the figures as they were typed: what it leaves is looked at again, and
of those that come out as usual the likeliest is named. How likely one is against another is common
practice, no source. Nothing is corrected: somebody looks, and amends or counts again.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.outliers import TOO_FAR, Middle, median, middle_of
from honeyledger.domain.phrases import phrase
from honeyledger.domain.units import GRAMS_A_POUND
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import YARD, place
from honeyledger.services.holding import name_in
from honeyledger.services.season_books import SeasonBooks, number_of, said_of
from honeyledger.services.store import View

_POUND_A_KG = float(1000 / GRAMS_A_POUND)
_EXPLAINS = 2.0  # of a score: what a slip leaves must look as usual as this
_LEAST_TARE_OFF_G = 5_000


@dataclass(frozen=True, slots=True)
class Stack:
    """A weighed stack as it was typed, one box type; grams.

    Args:
        sheet: supers by the pull sheets; 0 where those of a line were not said.
    """

    code: str
    entry: int
    day: date
    yards: tuple[str, ...]
    crew: str
    box: str
    supers: int
    sheet: int
    gross_g: int
    tare_g: int
    net_g: int

    @property
    def a_super(self) -> float:
        """Grams of honey a super."""
        return self.net_g / self.supers


@dataclass(frozen=True, slots=True)
class Slip:
    """A stack that is far off.

    Args:
        score: how far, see `domain.outliers`; below 0 where it is too light.
        usual_g: honey of a super in the middle of all of its box.
        likely: the slip that explains it, in words; "" where none does.
        net_g: what the stack would hold then.
    """

    stack: Stack
    score: float
    usual_g: int
    likely: str
    net_g: int | None


@dataclass(frozen=True, slots=True)
class _Try:
    """A slip tried on a stack: what it would hold, how many supers, how likely by itself."""

    words: str
    net_g: float
    supers: int
    weight: float


def slips(books: SeasonBooks) -> tuple[Slip, ...]:
    """The stacks of a season to look at again, the furthest off first."""
    by_box: dict[str, list[Stack]] = {}
    for stack in stacks_of(books):
        by_box.setdefault(stack.box, []).append(stack)
    empties = {box: _empty_g(books.view, box) for box in by_box}
    tare = median([stack.tare_g for rows in by_box.values() for stack in rows]) if by_box else 0.0
    middles = {box: middle_of([one.a_super for one in rows]) for box, rows in by_box.items()}
    found = []
    for box, rows in by_box.items():
        middle = middles[box]
        if middle is None:
            continue
        for stack in rows:
            score = middle.score(stack.a_super)
            if abs(score) > TOO_FAR:
                tries = [*_tries(stack, tare), *_other_boxes(stack, empties, middles)]
                best = _best(tries, middle)
                words, net_g = (best.words, round(best.net_g)) if best else ("", None)
                found.append(Slip(stack, score, round(middle.median), words, net_g))
    return tuple(sorted(found, key=lambda slip: (-abs(slip.score), slip.stack.code)))


def stacks_of(books: SeasonBooks) -> list[Stack]:
    """All weighed stacks of one box type; of a mixed one nobody can tell what a super held."""
    made = (_stack(books.view, day, entry) for day, entry in books.of("receive"))
    return [stack for stack in made if stack is not None]


def _stack(view: View, day: date, entry: Entry) -> Stack | None:
    said = said_of(entry)
    boxes = {str(lot.attributes.get("box", "")) for lot in entry.lots}
    supers = sum(number_of(lot.attributes, "count") for lot in entry.lots)
    if not number_of(said, "gross_g") or len(boxes) != 1 or not supers:
        return None
    lines = said.get("lines")
    sheets = [number_of(line, "sheet") for line in lines] if isinstance(lines, list) else []
    yards = [str(lot.attributes.get("yard", "")) for lot in entry.lots]
    crews = [str(lot.attributes.get("crew", "")) for lot in entry.lots]
    return Stack(
        code=entry.lots[0].code,
        entry=entry.id,
        day=day,
        yards=tuple(dict.fromkeys(name_in(view, place(YARD, one), one) for one in yards)),
        crew="; ".join(dict.fromkeys(one for one in crews if one)),
        box=boxes.pop(),
        supers=supers,
        sheet=sum(sheets) if all(sheets) else 0,
        gross_g=number_of(said, "gross_g"),
        tare_g=number_of(said, "tare_g"),
        net_g=sum(lot.made_g for lot in entry.lots),
    )


def _empty_g(view: View, box: str) -> int:
    mark = view.mark(place("box", box), "record")
    return number_of(mark.value, "tare_g") if mark else 0


def _tries(stack: Stack, tare_g: float) -> Iterator[_Try]:
    """Each slip, by the figures as they would have been without it."""
    net, supers = stack.net_g, stack.supers
    off = tare_g - stack.tare_g
    empty_g = (stack.gross_g - stack.tare_g - net) / supers
    if off > _LEAST_TARE_OFF_G:
        words = phrase("weighed with its pallet: the usual tare was not taken off")
        yield _Try(words, net - off, supers, 4)
    elif off < -_LEAST_TARE_OFF_G:
        yield _Try(phrase("too much tare was taken off"), net - off, supers, 3)
    if tare_g:
        words = phrase("weighed with a second pallet")
        yield _Try(words, net - tare_g, supers, 1.5)
        yield _Try(phrase("the tare was taken off twice"), net + tare_g, supers, 1.5)
    taken = stack.tare_g + supers * empty_g
    pounds = phrase("the scale showed pounds, typed as kilograms")
    yield _Try(pounds, stack.gross_g / _POUND_A_KG - taken, supers, 2)
    kilograms = phrase("the scale showed kilograms, typed as pounds")
    yield _Try(kilograms, stack.gross_g * _POUND_A_KG - taken, supers, 2)
    for count in _counts(supers):
        words = phrase("{count} supers counted, {n} typed", count=count, n=supers)
        yield _Try(words, stack.gross_g - stack.tare_g - count * empty_g, count, 0.5)
    if stack.sheet and stack.sheet != supers:
        words = phrase("by the pull sheet {count} supers, {n} typed", count=stack.sheet, n=supers)
        net_g = stack.gross_g - stack.tare_g - stack.sheet * empty_g
        yield _Try(words, net_g, stack.sheet, 6)


def _counts(count: int) -> list[int]:
    """Counts that one slip of the finger makes of another: digits turned, doubled, lost, wrong."""
    text = str(count)
    found = {text[:at] + text[at + 1] + text[at] + text[at + 2 :] for at in range(len(text) - 1)}
    found |= {text[:at] + text[at + 1 :] for at in range(len(text))}
    found |= {text[: at + 1] + text[at:] for at in range(len(text))}
    found |= {text[:at] + one + text[at + 1 :] for at in range(len(text)) for one in "0123456789"}
    return sorted({int(one) for one in found if one and one[0] != "0"} - {count, 0})


def _other_boxes(
    stack: Stack, empties: Mapping[str, int], middles: Mapping[str, Middle | None]
) -> Iterator[_Try]:
    """The same stack in another type of box, whose own middle it is then held against."""
    own = middles[stack.box]
    for box, middle in middles.items():
        if box == stack.box or middle is None or own is None:
            continue
        net_g = stack.net_g + stack.supers * (empties[stack.box] - empties[box])
        if abs(middle.score(net_g / stack.supers)) <= _EXPLAINS:
            words = phrase("{box} supers, typed as {other}", box=box, other=stack.box)
            # Told as one of its own middle: it has been held against the other's already.
            yield _Try(words, own.median * stack.supers, stack.supers, 2)


def _best(tries: Sequence[_Try], middle: Middle) -> _Try | None:
    """The likeliest of those that leave a usual stack."""
    best, most = None, -math.inf
    for one in tries:
        score = middle.score(one.net_g / one.supers)
        worth = math.log(one.weight) - score * score / 2
        if abs(score) <= _EXPLAINS and one.net_g > 0 and worth > most:
            best, most = one, worth
    return best
