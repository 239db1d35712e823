"""A run against its pull sheets: what is missing, what still stands, which times are not sure."""

import pytest

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load, OpenRun
from honeyledger.services.floor import run_sheet
from honeyledger.services.pull_sheets import AgainstSheets
from tests.support.houses import MINUTE_MS, BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """A yard and a line with a run open on it."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line")
    house.do(OpenRun("Line"))
    return house


def _came(house: BuiltHouse, count: int, sheet: int | None = None) -> str:
    codes = house.do(Receive((Line("Creek", count, sheet=sheet),), gross_g=500_000)).given
    return next(code for code in codes if code.startswith("G"))


def _against(house: BuiltHouse) -> AgainstSheets:
    sheet = house.house.ask(lambda view: run_sheet(view, "R26-0001-X", house.now_ms))
    assert sheet is not None
    return sheet.against


def test_before_anything_is_loaded_there_is_nothing_to_compare(house: BuiltHouse) -> None:
    _came(house, 20)
    assert _against(house) == AgainstSheets()


def test_what_the_sheets_say_is_told_beside_what_went_in(house: BuiltHouse) -> None:
    """The sheet said 22; of the second pallet, which had none, 5 of 12 went in."""
    first, second = _came(house, 20, sheet=22), _came(house, 12)
    house.do(Load(first, "Line"), run="R26-0001-X")
    house.do(Load(second, "Line", count=5), run="R26-0001-X", unsure_ms=30 * MINUTE_MS)
    assert _against(house) == AgainstSheets(
        supers=25, on_sheets=34, pallets=2, not_empty=(second,), unsure=1
    )
