"""What the page of a residue says of a spread made by hand."""

from dataclasses import replace

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.trace.residue_presenter import ASSUMED, Feared
from honeyledger.desktop.stations.trace.residue_rows import (
    figure,
    is_known,
    judged_words,
    residue_answer,
    residue_columns,
    residue_figures,
    residue_heading,
    residue_totals,
)
from honeyledger.services.residues import MAY_BE, OVER, UNDER, ResidueLot, ResidueSpread

BAD = ResidueLot("D26-0001-C", "drum", 0.5, 20_000, 40_000, OVER, 200_000, 0)
MAY = ResidueLot("D26-0002-A", "drum", 0.125, 5_000, 20_000, MAY_BE, 0, 100_000)
CLEAN = ResidueLot("D26-0003-8", "drum", 0.001, 40, 1_000, UNDER, 50_000, 50_000)
CLUNG = ResidueLot("D26-0004-6", "drum", 0.0, 0, 40_000, MAY_BE, 10_000, 0)
FOUND = ResidueSpread("Y26-0001-P", 40_000, 10_000, 400_000, (BAD, MAY, CLEAN, CLUNG))
FEARED = Feared("Y26-0001-P", "40", "10", "Substance A")


def cells(row: ResidueLot, *, judged: bool = True) -> list[str]:
    return [column.text(row) for column in residue_columns("kg", judged=judged)]


def test_a_row_has_its_share_levels_and_whereabouts() -> None:
    assert cells(BAD) == ["D26-0001-C", "over", "drum", "50.0 %", "20.00", "40.00", "200.0", ""]
    assert cells(BAD, judged=False)[1] == "drum"
    assert figure(40) == "0.04"


def test_a_share_of_no_mass_is_not_known_and_says_why() -> None:
    assert not is_known(CLUNG)
    assert cells(CLUNG)[3:6] == ["not known", "unknown", "40.00"]
    expected = next(one for one in residue_columns("kg", judged=True) if one.key == "expected")
    assert expected.detail is not None
    assert expected.detail(CLUNG).startswith("No mass on record says")
    assert expected.detail(BAD) == ""


def test_a_state_is_a_word_and_a_mark_and_none_is_a_tick() -> None:
    state = residue_columns("kg", judged=True)[1]
    assert state.mark is not None
    assert [(state.text(row), state.mark(row)) for row in (BAD, MAY, CLEAN)] == [
        ("over", Mark.REFUSED),
        ("may be over", Mark.WARNING),
        ("under", Mark.NOTE),
    ]
    assert judged_words("") == ""


def test_the_answer_keeps_what_is_not_known_apart() -> None:
    assert residue_answer(FOUND, FEARED) == (
        "Measured 40.00 µg/kg. Against 10.00 µg/kg: 1 lot over, 1 may be over. "
        "Of 1 lot it is not known."
    )
    open_ended = replace(FOUND, limit=None, lots=(BAD, MAY))
    assert residue_answer(open_ended, replace(FEARED, how=ASSUMED)) == (
        "Assumed 40.00 µg/kg. 2 lots in reach."
    )
    assert residue_heading(FEARED) == "Substance A in Y26-0001-P"
    assert residue_heading(Feared("Y26-0001-P", "")) == "A residue in Y26-0001-P"
    assert residue_heading(None) == "Residue"


def test_totals_and_figures() -> None:
    lead, totals = residue_totals(FOUND, "kg")
    assert lead == "4 lots"
    assert {key: one.text for key, one in totals.items()} == {"here": "260.0", "sent": "150.0"}
    assert [(one.figure, one.meaning) for one in residue_figures(FOUND)] == [
        ("1", "over"),
        ("1", "may be over"),
        ("1", "under"),
        ("1", "share not known"),
    ]
    assert [one.meaning for one in residue_figures(replace(FOUND, limit=None))] == [
        "with a share",
        "share not known",
    ]
