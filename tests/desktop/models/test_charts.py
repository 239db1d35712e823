"""Charts as data, and the same figures as a table."""

from honeyledger.desktop.models.charts import (
    Chart,
    ChartForm,
    ChartHead,
    ChartItem,
    Part,
    about_mass,
    as_lines,
    chart_columns,
    column_key,
    drawn_mass,
    paper_columns,
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


def test_words_may_stand_under_the_name_and_the_figures_keep_their_room() -> None:
    heads = (
        ChartHead("What", is_number=False),
        ChartHead("Station", is_number=False, under=True),
        ChartHead("Honey", "kg"),
        ChartHead("Of", is_number=False, under=True),
    )
    made = Chart(ChartForm.BARS, "To do", "What there is", "", heads)
    name, honey = chart_columns(made)
    weigh = ChartItem("A", "", "", ("weigh it", "Drums", "293", "D26-0192-3"))
    assert (name.cell(weigh).text, name.cell(weigh).note) == ("weigh it", "Drums · D26-0192-3")
    assert (honey.cell(weigh).text, honey.key) == ("293", column_key(2, heads[2]))
    assert name.cell(ChartItem("B", "", "", ("rest", "", "", ""))).note == ""
    assert [column.title for column in paper_columns(made)] == [head.title for head in made.heads]


def test_a_spreadsheet_gets_heads_and_figures() -> None:
    made = chart(ASH, BIRCH)
    lines = as_lines(made, made.items)
    assert lines == "Yard\tHoney kg\tNote\nAsh\t30\tdry\nBirch\t\t\n"


def test_a_mass_is_drawn_and_told_in_the_houses_unit() -> None:
    assert drawn_mass(42_080, "kg") == 42.08
    assert round(drawn_mass(453_592, "lb"), 2) == 1_000.0
    assert (about_mass(42_080, "kg"), about_mass(42_080, "lb")) == (
        "≈\u202f42.1 kg",
        "≈\u202f92.8 lb",
    )
