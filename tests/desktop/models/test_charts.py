"""Charts as data, and the same figures as a table."""

from honeyledger.desktop.models.charts import (
    Chart,
    ChartForm,
    ChartHead,
    ChartItem,
    Part,
    as_lines,
    chart_columns,
    column_key,
)
from honeyledger.desktop.models.rows import ColumnKind


def chart(*items: ChartItem, form: ChartForm = ChartForm.BARS) -> Chart:
    heads = (
        ChartHead("Yard", is_number=False),
        ChartHead("Honey", "kg", estimated=True),
        ChartHead("Note", is_number=False),
    )
    return Chart(form, "Honey by yard", "Honey", "kg", heads, items)


ASH = ChartItem("A", "Ash", "Ash: 30 kg", ("Ash", "30", "dry"), (Part(0, 30.0),))
BIRCH = ChartItem("B", "Birch", "Birch: nothing", ("Birch", "", ""), ())
LOSS = ChartItem("C", "Run", "", ("", "", ""), (Part(0, 5.0), Part(1, 2.0), Part(2, -3.0)))


def test_parts_reach_above_and_below_nothing() -> None:
    assert (LOSS.top, LOSS.bottom) == (7.0, -3.0)
    assert (BIRCH.top, BIRCH.bottom) == (0, 0)


def test_an_item_is_found_by_its_key() -> None:
    made = chart(ASH, BIRCH)
    assert (made.place_of("B"), made.place_of("C")) == (1, None)
    assert made.axis == "Honey, kg"


def test_a_table_has_the_same_figures() -> None:
    made = chart(ASH, BIRCH)
    name, honey, note = chart_columns(made)
    kinds = (name.kind, honey.kind, note.kind)
    assert kinds == (ColumnKind.NAME, ColumnKind.NUMBER, ColumnKind.TEXT)
    assert [column.cell(ASH).text for column in (name, honey, note)] == ["Ash", "30", "dry"]
    assert honey.cell(ASH).estimated
    assert not honey.cell(BIRCH).estimated, "nothing is not about nothing"
    assert honey.unit == "kg"
    assert honey.key == column_key(1, made.heads[1])


def test_a_spreadsheet_gets_heads_and_figures() -> None:
    made = chart(ASH, BIRCH)
    lines = as_lines(made, made.items)
    assert lines == "Yard\tHoney kg\tNote\nAsh\t30\tdry\nBirch\t\t\n"
