"""Of many alike the plain run takes some, the long suites all."""

from collections.abc import Iterable
from typing import Any

import pytest


def first_plain(rows: Iterable[object], plain: int = 1) -> list[Any]:
    """Rows for `parametrize`, of which only the first are not of the long suites.

    Args:
        rows: what a test is given, a tuple where it takes several.
        plain: how many of them the plain run goes through.
    """
    return [
        pytest.param(
            *(row if isinstance(row, tuple) else (row,)),
            marks=() if place < plain else pytest.mark.full,
        )
        for place, row in enumerate(rows)
    ]
