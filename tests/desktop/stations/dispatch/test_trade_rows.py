"""Containers owed and the farm gate as rows."""

from datetime import date

from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.stations.dispatch import trade_rows
from honeyledger.domain.moments import Moment
from honeyledger.services.empties_owed import Owed
from honeyledger.services.gate_sales import GateSale
from tests.support.houses import START_MS

OWED = Owed(
    *("E26-0002-V", "Drum 7", "drum", "customer/packer", "Packer", "D26-0001-C", "N26-0001-R"),
    Moment(START_MS, 0, "UTC"),
)
JARS = GateSale(date(2026, 7, 24), "J26-0001-L", "Clover 500 g", 1_012, 506_000)
HONEY = GateSale(date(2026, 7, 25), "D26-0001-C", "drums", 0, 20_500)


def test_a_container_is_with_somebody_since_a_day() -> None:
    cells = [column.cell(OWED) for column in trade_rows.owed_columns()]
    assert [cell.text for cell in cells][:2] == ["E26-0002-V", "Packer"]
    assert cells[1].note == "Drum 7, went as D26-0001-C"
    assert trade_rows.owed_key(OWED) == OWED.container


def test_how_many_are_out_in_words() -> None:
    assert trade_rows.owed_words([OWED]) == "1 container is out, with 1 customer"
    assert trade_rows.owed_words([]) == "0 containers are out, with 0 customers"


def test_the_gate_by_day_with_its_sum() -> None:
    columns = trade_rows.gate_columns("kg")
    assert [column.cell(JARS).text for column in columns] == [
        *("24 Jul 2026", "J26-0001-L", "Clover 500 g", "1\u202f012", "506.0")
    ]
    assert columns[3].cell(HONEY).text == ""
    words, totals = trade_rows.gate_totals([JARS, HONEY], "kg")
    assert words == "2 days"
    assert totals == {"jars": Total("1\u202f012"), "net": Total("526.5", "kg")}
    assert trade_rows.gate_key(JARS) == "2026-07-24/J26-0001-L"
