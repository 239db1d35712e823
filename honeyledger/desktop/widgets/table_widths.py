"""How wide a table's columns are: numbers and codes as they need, words share the rest.

Pure arithmetic on wanted widths, so that it can be checked without a window.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from honeyledger.desktop import tokens

_GAP_MAY_GIVE = 8.0


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a column wants: its contents' width, and how it gives way.

    Args:
        content: the widest cell or head, without padding.
        right: whether it holds numbers.
        is_name: whether it takes the spare width first.
        gives_way: whether it may be narrower than its contents.
        least: how narrow it may become.
        bare: its contents' width without notes and what else may be left out.
        is_fixed: whether a person has said how wide it is.
    """

    content: float
    right: bool = False
    is_name: bool = False
    gives_way: bool = False
    least: float = 0.0
    bare: float = 0.0
    is_fixed: bool = False


def sides(place: int, pad: int) -> int:
    """What a column keeps free at both sides, `pad` at its right."""
    return pad + (tokens.PANEL_SIDE if place == 0 else tokens.CELL_PADDING)


def right_pads(columns: Sequence[Wanted], *, units_in_foot: bool) -> list[int]:
    """The padding at the right of each column: wide between a number and left-aligned text."""
    pads: list[int] = []
    for place, column in enumerate(columns):
        last = place == len(columns) - 1
        wide = column.right and (units_in_foot if last else not columns[place + 1].right)
        pads.append(tokens.AFTER_NUMBER if wide else tokens.CELL_PADDING)
    return pads


def widths(
    columns: Sequence[Wanted], pads: Sequence[int], room: float, *, give_way: bool = True
) -> list[int]:
    """The width of each column in a table so wide; the sum may be more than the room.

    A column of words that is alone in giving way takes all the spare width; several share it, so
    that no single gap grows across a wide screen.
    """
    if not columns:
        return []
    made = [
        column.content + sides(place, pad)
        for place, (column, pad) in enumerate(zip(columns, pads, strict=True))
    ]
    spare = room - sum(made)
    if not give_way:
        return [int(width) + 1 for width in made]
    if spare < 0:
        _give_way(columns, made, -spare)
    else:
        _share(columns, made, spare)
    whole = [int(width) for width in made]
    left_over = int(room) - sum(whole)
    if abs(left_over) <= len(whole) or left_over > 0:
        whole[_spare_taker(columns)] += left_over
    return whole


def _spare_taker(columns: Sequence[Wanted]) -> int:
    free = [place for place, column in enumerate(columns) if not column.is_fixed]
    names = [place for place in free if columns[place].is_name]
    words = [place for place in free if not columns[place].right]
    # Where every width was set by hand, the last one gives: the table fills its room.
    return next(iter([*names[:1], *words[-1:], *free[-1:]]), len(columns) - 1)


def _share(columns: Sequence[Wanted], made: list[float], spare: float) -> None:
    takers = [place for place, column in enumerate(columns) if column.gives_way]
    names = [place for place in takers if columns[place].is_name]
    takers = takers if len(takers) > 2 else names or takers
    if not takers:
        made[_spare_taker(columns)] += spare
        return
    for place in takers:
        made[place] += spare / len(takers)


def _give_way(columns: Sequence[Wanted], made: list[float], missing: float) -> None:
    """Words give way first; then the gaps before numbers, before the table has to scroll."""
    givers = {
        place: max(0.0, column.content - column.least)
        for place, column in enumerate(columns)
        if column.gives_way
    }
    missing = _take(givers, made, missing)
    gaps = {place: _GAP_MAY_GIVE for place, column in enumerate(columns) if column.right}
    if missing <= sum(gaps.values()):
        _take(gaps, made, missing)


def _take(givers: dict[int, float], made: list[float], missing: float) -> float:
    most = sum(givers.values())
    if most <= 0 or missing <= 0:
        return missing
    share = min(1.0, missing / most)
    for place, may_give in givers.items():
        made[place] -= may_give * share
    return missing - most * share
