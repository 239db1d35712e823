"""Pull sheets: what is known of a yard, what is to be filled in, its code read off the paper."""

import numpy as np
import pytest

from honeyledger.documents.report_paper import report_pdf
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Disease, SupersOn, Treat
from honeyledger.services.dock import dock_day
from honeyledger.services.field_papers import NO_TREATMENT, ON_RETURN, PALLET_ROWS, pull_sheet
from honeyledger.services.labelling import FOLLOW_LABEL
from honeyledger.services.report_tables import Report
from tests.support import printing
from tests.support.houses import BuiltHouse
from tests.support.print_faults import FAULTS, read_as_seen

MM = 25.4 / 72


@pytest.fixture
def house() -> BuiltHouse:
    """A house with one yard of 30 colonies."""
    house = BuiltHouse()
    record = {"name": "Creek", "colonies": 30, "forage": "clover", "place": "NE 4"}
    house.do(Register("yard", record))
    return house


def _sheet(house: BuiltHouse, text: str = "creek") -> Report:
    return house.house.ask(lambda view: pull_sheet(view, house.now_ms, text))


def test_a_yard_nobody_touched_says_what_its_record_says(house: BuiltHouse) -> None:
    report = _sheet(house)
    assert dict(report.facts) == {
        "Yard": "Creek",
        "Place": "NE 4",
        "Forage": "clover",
        "Colonies": "30",
        "Supers to expect": "about 60, by its colonies",
        "Supers pulled this season": "0",
    }
    assert report.says == (NO_TREATMENT, FOLLOW_LABEL, ON_RETURN)
    assert report.scan == report.of == "Y26-0001-P"


def test_supers_that_went_on_are_expected_back(house: BuiltHouse) -> None:
    house.do(SupersOn("Creek", 48, "2026-06-12"))
    house.do(Receive((Line("Creek", 20, "medium"),), gross_g=420_000))
    facts = dict(_sheet(house).facts)
    assert (facts["Supers to expect"], facts["Supers pulled this season"]) == ("28", "20")
    house.do(Receive((Line("Creek", 28, "medium"),), gross_g=590_000))
    assert dict(_sheet(house).facts)["Supers to expect"] == "none by the books"


def test_disease_stands_first_then_each_treatment_with_its_earliest_day(
    house: BuiltHouse,
) -> None:
    """One of two years ago is not told any more; one nobody took out is, however old it is."""
    house.do(Treat("Creek", "Old strips", "", "2024-05-01", "2024-06-01", "2024-06-15"))
    house.do(Treat("Creek", "Left-in strips", first_day="2024-08-01"))
    house.do(Treat("Creek", "Pads", "", "2026-07-01", "2026-07-10", "2026-07-31"))
    house.do(Treat("Creek", "Slow strips", first_day="2026-07-15", interval="6 weeks"))
    house.do(Treat("Creek", "Trickle", "", "2026-07-16", "2026-07-16"))
    house.do(Disease("Creek", "foulbrood", "2026-07-20"))
    assert _sheet(house).says == (
        "Flagged for foulbrood since 20 Jul 2026: nothing leaves this yard but by itself, and as "
        "your local code says.",
        "Treated with Left-in strips, in 1 Aug 2024, not out yet: no super comes off.",
        "Treated with Pads, in 1 Jul 2026, out 10 Jul 2026: no super comes off before "
        "31 Jul 2026.",
        "Treated with Slow strips, in 15 Jul 2026, not out yet: no super comes off until 6 weeks "
        "after it came out.",
        "Treated with Trickle, in 16 Jul 2026, out 16 Jul 2026: its label says when supers may "
        "come off.",
        FOLLOW_LABEL,
        ON_RETURN,
    )


def test_it_is_filled_in_by_hand_in_high_boxes(house: BuiltHouse) -> None:
    house.do(Register("box", {"name": "deep", "honey_g": 25_000, "tare_g": 8_000}))
    tables = {table.key: table for table in _sheet(house).tables}
    asked = [
        cell.split("\n")
        for table in tables.values()
        for row in table.rows
        for cell in row
        if table.box_mm >= 14
    ]
    captions = {cell[0] for cell in asked}
    assert captions >= {"Day", "Crew", "Hives pulled", "Weather", "Notes", "Pallet", "Supers"}
    assert tables["supers by kind"].rows[0] == ("deep", "medium", "Another kind", "Supers in all")
    assert asked.count(["Condition", "sealed", "mixed", "green"]) == PALLET_ROWS


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_its_code_is_read_off_one_page_and_begins_a_receipt(house: BuiltHouse, paper: str) -> None:
    pdf = report_pdf(_sheet(house), printing.typefaces(), paper=paper)
    assert len(printing.page_sizes_mm(pdf)) == 1
    (read,) = printing.read(printing.raster(pdf, 203))
    house.do(Receive((Line(read, 12, "medium"),), gross_g=260_000))
    arrivals = house.house.ask(lambda view: dock_day(view, house.now_ms)).arrivals
    assert [(one.yard, one.supers) for one in arrivals] == [("Creek", 12)]


@pytest.mark.parametrize("dots", [203, 300, 600])
def test_its_code_is_read_from_a_print_that_was_spoiled(house: BuiltHouse, dots: int) -> None:
    pdf = report_pdf(_sheet(house), printing.typefaces())
    (symbol,) = printing.placed_symbols(pdf)
    page = printing.raster(pdf, dots)
    side = symbol.side * symbol.module
    share, around = dots / 72, 4 * symbol.module  # with the white kept around it
    box = (
        symbol.x - around,
        page.height / share - symbol.y - side - around,
        symbol.x + side + around,
        page.height / share - symbol.y + around,
    )
    cut = page.crop(tuple(round(point * share) for point in box)).convert("L")
    for name, spoil in FAULTS.items():
        found = read_as_seen(spoil(np.asarray(cut), dots), dots)
        assert [one.text for one in found] == ["Y26-0001-P"], name


def test_a_long_name_and_many_treatments_stay_within_the_paper(house: BuiltHouse) -> None:
    name = "Long Field behind the old mill and the second bridge, north"
    house.do(Register("yard", {"name": name, "colonies": 30, "place": "NE 4 " * 12}))
    for number in range(9):
        house.do(Treat(name, f"Strips {number}", first_day="2026-07-15", interval="6 weeks"))
    pdf = report_pdf(_sheet(house, name), printing.typefaces())
    sizes = printing.page_sizes_mm(pdf)
    assert len(sizes) == 2
    for page, (width, height) in enumerate(sizes):
        for left, top, right, bottom in printing.text_boxes(pdf, page):
            assert 0 < left < right < width / MM
            assert min(top, bottom) > 0
            assert max(top, bottom) < height / MM


def test_no_such_yard(house: BuiltHouse) -> None:
    with pytest.raises(Refusal) as refused:
        _sheet(house, "Moon")
    assert refused.value.field == "about"
    assert "Moon" in refused.value.text
