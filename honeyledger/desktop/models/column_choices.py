"""How a person has set the columns of a table: shown or not, in which order, how wide.

Columns are known by their keys, so that what was kept once still holds when a station has got
another column; keys that are none any more are passed over. The first column is what a row is
called by: it stays shown, and first.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

WIDEST = 1_200


@dataclass(frozen=True, slots=True)
class ColumnChoices:
    """Only what was set by hand; the rest is as the table would have it.

    Args:
        shown: by key, whether the column is shown whatever room there is, or never.
        order: keys from left to right; columns that are not among them keep their place.
        widths: by key, in pixels.
    """

    shown: Mapping[str, bool] = field(default_factory=dict)
    order: tuple[str, ...] = ()
    widths: Mapping[str, int] = field(default_factory=dict)

    @property
    def are_none(self) -> bool:
        """Whether nothing was set by hand."""
        return not (self.shown or self.order or self.widths)

    def with_shown(self, key: str, shown: bool) -> "ColumnChoices":
        """Show a column, or leave it out."""
        return replace(self, shown={**self.shown, key: shown})

    def with_width(self, key: str, width: int) -> "ColumnChoices":
        """Give a column a width; 0 for what it would have by itself."""
        widths = {**self.widths, key: min(width, WIDEST)}
        if not width:
            del widths[key]
        return replace(self, widths=widths)

    def keys_in_order(self, keys: Sequence[str]) -> list[str]:
        """These columns from left to right."""
        first = list(keys[:1])
        chosen = [key for key in self.order if key in keys and key not in first]
        rest = [key for key in keys if key not in first and key not in chosen]
        for key in rest:
            chosen.insert(min(keys.index(key) - 1, len(chosen)), key)
        return first + chosen

    def moved(self, keys: Sequence[str], key: str, to: int) -> "ColumnChoices":
        """Put a column at a place among these, the first of which keeps its own."""
        others = [one for one in self.keys_in_order(keys) if one != key]
        if key == keys[0]:
            return self
        others.insert(max(1, min(to, len(others))), key)
        return replace(self, order=tuple(others))

    def as_plain(self) -> dict[str, object]:
        """As it is kept in a file."""
        return {
            "shown": dict(self.shown),
            "order": list(self.order),
            "widths": dict(self.widths),
        }


def choices_of(kept: object) -> ColumnChoices:
    """What was kept in a file; whatever cannot be read there is as if it had not been set."""
    if not isinstance(kept, dict):
        return ColumnChoices()
    shown, order, widths = kept.get("shown"), kept.get("order"), kept.get("widths")
    return ColumnChoices(
        {key: on for key, on in _pairs(shown) if isinstance(on, bool)},
        tuple(key for key in order if isinstance(key, str)) if isinstance(order, list) else (),
        {
            key: min(width, WIDEST)
            for key, width in _pairs(widths)
            if isinstance(width, int) and not isinstance(width, bool) and width > 0
        },
    )


def _pairs(kept: object) -> list[tuple[str, object]]:
    return [(str(key), value) for key, value in kept.items()] if isinstance(kept, dict) else []
