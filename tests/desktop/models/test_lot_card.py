"""The bar of origins on a card fills its width, and no yard is lost in it."""

import pytest

from honeyledger.desktop.models.lot_card import CardOrigin, origin_spans


def _origins(*shares: float) -> tuple[CardOrigin, ...]:
    return tuple(CardOrigin(f"Yard {n}", share, "") for n, share in enumerate(shares))


def test_yards_fill_the_bar_by_their_shares() -> None:
    spans = origin_spans(_origins(0.6, 0.4), 402.0)
    assert spans[0] == (0.0, pytest.approx(240.0))
    assert spans[1] == (pytest.approx(242.0), pytest.approx(402.0))


def test_the_least_yard_is_still_seen_and_the_bar_keeps_its_width() -> None:
    spans = origin_spans(_origins(0.98, 0.01, 0.0001), 300.0)
    assert all(right - left >= 2.0 - 1e-9 for left, right in spans)
    assert spans[-1][1] == pytest.approx(300.0)


def test_without_shares_there_is_no_bar() -> None:
    assert origin_spans((), 300.0) == []
    assert origin_spans(_origins(0.0), 300.0) == []
