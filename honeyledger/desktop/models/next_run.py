"""The order of the next run, where the hot room and the floor both look for it."""

from collections.abc import Sequence
from typing import Protocol, TypeVar

NEXT_RUN = frozenset({"next-run"})  # what is broadcast when somebody orders it


class Waiting(Protocol):
    """A pallet that waits."""

    @property
    def pallet(self) -> str:
        """Its tag."""


Row = TypeVar("Row", bound=Waiting)


def order_draft(ledger: str) -> str:
    """Under which name a house's order is kept on this computer."""
    return f"hot-room-order-{ledger}"


def codes_from(kept: object) -> tuple[str, ...]:
    """The tags of an order as it was kept; none where it cannot be read."""
    codes = kept.get("order", ()) if isinstance(kept, dict) else ()
    is_list = isinstance(codes, Sequence) and not isinstance(codes, str)
    return tuple(str(code) for code in codes) if is_list else ()


def in_order(rows: Sequence[Row], codes: Sequence[str]) -> list[Row]:
    """Those of the next run first, as they were ordered; the rest as they were."""
    by_code = {row.pallet: row for row in rows}
    first = [by_code[code] for code in codes if code in by_code]
    return [*first, *(row for row in rows if row.pallet not in codes)]
