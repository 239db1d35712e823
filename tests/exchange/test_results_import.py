"""A laboratory's table comes in whole or not at all, and once."""

from pathlib import Path
from typing import Any

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.results_import import import_results
from honeyledger.ledger.verbs.corrections import Reverse
from tests.support.books import mark
from tests.support.houses import BuiltHouse

HEADS = "Sample;Lab;Report;Sampled on;HMF mg/kg;Diastase;Moisture %;Free acid\n"


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.load("Creek", 300_000, "Tank 1")
    return house


def taken(house: BuiltHouse, tmp_path: Path, rows: str) -> Any:
    path = tmp_path / "results.csv"
    path.write_text(HEADS.replace(" mg/kg", "") + rows, encoding="utf-8")
    return import_results(house.house, path)


def head(house: BuiltHouse) -> int:
    return house.house.ask(lambda view: view.head().entry)


def test_results_are_kept_as_reported_and_once(house: BuiltHouse, tmp_path: Path) -> None:
    one, other = house.drum("Tank 1", 140_000), house.drum("Tank 1", 140_000)
    first = f"{one};Bench;26-118;20.07.2026;<5;18,4;17,6;\n"
    result = taken(house, tmp_path, first)
    assert result.text == "results.csv: the results of 1 row were kept."
    found = [mark(house, one, name) for name in ("hmf", "diastase", "moisture", "free acid")]
    assert found == ["<5", "18.4", 17_60, None]
    before = head(house)
    again = taken(house, tmp_path, first)
    assert (again.again, again.text) == (
        True,
        "results.csv: the results of 0 rows were kept; 1 taken in before.",
    )
    assert head(house) == before
    grown = taken(house, tmp_path, first + f"{other};Bench;26-119;20.07.2026;not detected;;;12\n")
    assert grown.text == "results.csv: the results of 1 row were kept; 1 taken in before."
    assert mark(house, other, "hmf") == "not detected"
    assert mark(house, other, "free acid") == "12"


def test_what_was_reversed_may_come_in_again(house: BuiltHouse, tmp_path: Path) -> None:
    drum = house.drum("Tank 1", 140_000)
    row = f"{drum};Bench;26-118;;<5;;;\n"
    taken(house, tmp_path, row)
    house.do(Reverse(head(house), "other report"))
    assert mark(house, drum, "hmf") is None
    assert not taken(house, tmp_path, row).again
    assert mark(house, drum, "hmf") == "<5"


def test_all_that_is_wrong_is_named_and_nothing_is_written(
    house: BuiltHouse, tmp_path: Path
) -> None:
    drum = house.drum("Tank 1", 140_000)
    before = head(house)
    rows = f"{drum};;;;some;;;\nD26-0099-Z;;;;5;;;\n{drum};;;;;;;\n{drum};;;;;;<18;\n"
    with pytest.raises(Refusal) as caught:
        taken(house, tmp_path, rows)
    told = caught.value.text.splitlines()
    assert told[0] == "results.csv has 4 things to put right, so nothing of it was taken in."
    assert told[1].startswith("results.csv, row 2, HMF: some is no result")
    assert told[2].startswith("results.csv, row 3, Sample: D26-0099-Z")
    assert any("no result stands in this row. Fill one in, or drop it." in line for line in told)
    assert any("Moisture is kept as a figure" in line for line in told)
    assert head(house) == before


def test_a_file_without_rows_writes_nothing(house: BuiltHouse, tmp_path: Path) -> None:
    result = taken(house, tmp_path, "")
    assert result.text == "results.csv has no rows under its first one: nothing was written."
