"""Both bars have one zero and one scale, and the shorter one shows what is missing."""

import itertools

import pytest

from honeyledger.desktop.models.balance_bars import (
    PIECE_GAP,
    BalanceBars,
    BalancePiece,
    PieceKind,
    lay_out_balance,
)

WIDTH = 800.0


def _measure(words: str) -> float:
    return 8.0 * len(words)


def _bars(*out_g: int, in_g: int = 2_010_000) -> BalanceBars:
    return BalanceBars(
        "In, by estimate, and out, by scale",
        (BalancePiece("Tamarack Rise", "≈ 2 010", in_g, 35),),
        tuple(
            BalancePiece(f"06{number:02}", f"{grams / 1000:.1f}", grams, 39, is_code=True)
            for number, grams in enumerate(out_g)
        ),
    )


def test_a_gram_is_as_long_in_one_bar_as_in_the_other() -> None:
    made = lay_out_balance(_bars(1_005_000, 1_005_000), WIDTH, _measure)
    upper, lower = made.upper, made.lower
    assert upper[0].left == lower[0].left == 0
    assert upper[0].width == pytest.approx(WIDTH - PIECE_GAP)
    assert lower[1].left == pytest.approx(WIDTH / 2)
    assert lower[0].width == lower[1].width
    assert made.lower_top == made.upper_top + 44


def test_what_is_missing_is_an_empty_box_at_the_end_of_the_shorter_bar() -> None:
    made = lay_out_balance(_bars(1_000_000, 980_500), WIDTH, _measure)
    box = made.lower[-1]
    assert box.piece.kind is PieceKind.MISSING
    assert box.piece.mass_g == 29_500
    assert box.left + box.width == pytest.approx(WIDTH - PIECE_GAP)
    over = lay_out_balance(_bars(2_110_000), WIDTH, _measure)
    assert over.upper[-1].piece.kind is PieceKind.MISSING
    assert over.upper[-1].piece.mass_g == 100_000


def test_where_all_is_there_no_box_is_drawn() -> None:
    made = lay_out_balance(_bars(2_010_000), WIDTH, _measure)
    kinds = {piece.piece.kind for piece in (*made.upper, *made.lower)}
    assert kinds == {PieceKind.HONEY}


def test_a_label_stands_inside_where_it_fits_else_outside() -> None:
    made = lay_out_balance(_bars(1_900_000, 110_000), WIDTH, _measure)
    wide, thin = made.lower
    assert wide.inside == "0600 1900.0"
    assert thin.inside == ""
    assert thin.outside_left is not None
    room = _measure(thin.piece.words)
    assert thin.outside_left + room <= WIDTH


def test_labels_outside_do_not_cover_one_another_or_the_verdict() -> None:
    pieces = (1_700_000, 60_000, 60_000, 60_000, 60_000, 70_000)
    made = lay_out_balance(_bars(*pieces), WIDTH, _measure, keep_free=(0, 300))
    spans = sorted(
        (one.outside_left, one.outside_left + _measure(one.piece.words))
        for one in made.lower
        if one.outside_left is not None
    )
    assert spans
    assert spans[0][0] >= 300
    for before, after in itertools.pairwise(spans):
        assert before[1] < after[0]


def test_where_too_many_labels_would_stand_outside_none_does() -> None:
    made = lay_out_balance(_bars(*[67_000] * 30), 300.0, _measure)
    assert all(one.outside_left is None for one in made.lower)


def test_an_empty_run_has_empty_bars() -> None:
    made = lay_out_balance(BalanceBars("In and out", (), ()), WIDTH, _measure)
    assert made.upper == made.lower == ()
