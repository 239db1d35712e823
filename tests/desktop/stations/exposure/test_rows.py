"""What the page says of an exposure made by hand."""

from dataclasses import replace
from datetime import date

from honeyledger.desktop.stations.exposure.rows import (
    answer,
    best_wash,
    called_figures,
    ranked,
    run_columns,
    run_words,
    source_columns,
    tie_columns,
    wash_columns,
)
from honeyledger.services.exposure import (
    HEEL,
    MIX,
    Called,
    Exposure,
    SourceExposure,
    Tie,
    WashTonight,
)
from honeyledger.services.exposure_page import ExposurePage, OpenRun

HEELS = Tie(HEEL, "E26-0001-X", "Tank 1", 3, 500_000, 90_000)
BLEND = Tie(MIX, "T26-0001-0", "blend", 4, 300_000, 120_000)
CREEK = SourceExposure("Y26-0001-P", "Creek", 400_000, 100_000)
HILL = SourceExposure("Y26-0002-M", "Hill", 100_000, 0)
WASH = WashTonight("E26-0001-X", "Tank 1", 3, 200_000, 150_000)
WHOLE = Exposure(300_000, (CREEK, HILL), (HEELS,), (BLEND,), (WASH,))
CALLED = Called("R26-0001-X", 4, 250_000, 50_000, 100, 2)
RUN = OpenRun("R26-0001-X", "Line", 2, CALLED)
PAGE = ExposurePage("ledger", "kg", "UTC", date(2026, 7, 24), WHOLE, (RUN,))


def cells(columns: object, row: object) -> list[str]:
    return [column.text(row) for column in columns]  # type: ignore[attr-defined]


def test_the_answer_is_the_recall_to_expect_and_who_is_most_behind() -> None:
    assert answer(WHOLE, "kg") == (
        "Were one source bad, 300 kg would come back on the mean. Most is behind Creek: 500 kg."
    )
    one = replace(WHOLE, sources=(CREEK,))
    assert answer(one, "kg") == "Were one source bad, 300 kg would come back on the mean."
    assert answer(replace(WHOLE, sources=()), "kg").startswith("Nothing stands here yet")


def test_what_costs_most_comes_first_with_why() -> None:
    assert ranked(WHOLE) == [BLEND, HEELS]
    assert cells(tie_columns("kg"), BLEND) == ["T26-0001-0", "4", "300", "120"]
    assert cells(tie_columns("kg"), HEELS) == ["Tank 1", "3", "500", "90"]
    why = tie_columns("kg")[0].note
    assert why is not None
    assert why(HEELS) == "heels: not washed between its fills"
    assert why(BLEND) == "made of several: blend"


def test_sources_washes_and_runs() -> None:
    assert cells(source_columns("kg"), CREEK) == ["Creek", "400", "100", "500"]
    assert cells(wash_columns("kg"), WASH) == ["Tank 1", "3", "200", "150"]
    assert cells(run_columns("kg"), RUN) == ["R26-0001-X", "Line", "2", "250", "50"]


def test_what_is_said_of_a_wash_of_a_run_and_of_one_code() -> None:
    assert best_wash(PAGE) == (
        "A wash of Tank 1 tonight takes 150 kg off: 3 sources cling to its next fill."
    )
    assert best_wash(replace(PAGE, whole=replace(WHOLE, washes=()))) == ""
    assert run_words((RUN,), "kg") == (
        "R26-0001-X is open: 2 sources, 300 kg would go with it now."
    )
    assert run_words((), "kg") == ""
    figures = [(one.figure, one.meaning) for one in called_figures(CALLED, "kg")]
    assert figures == [
        ("300 kg", "in all"),
        ("4", "lots"),
        ("2", "customers"),
        ("100", "jars sent"),
    ]
    assert len(called_figures(replace(CALLED, jars=0), "kg")) == 3
