"""Numbers and codes are as wide as they need; words share the rest, and give way first."""

from honeyledger.desktop.widgets.table_widths import Wanted, right_pads, widths

CODE = Wanted(100)
NAME = Wanted(150, is_name=True, gives_way=True, least=72)
TEXT = Wanted(120, gives_way=True, least=72)
NUMBER = Wanted(50, right=True)


def test_after_a_number_there_is_room_before_left_aligned_text() -> None:
    assert right_pads([CODE, NUMBER, NUMBER, NAME], units_in_foot=False) == [12, 12, 24, 12]
    assert right_pads([NAME, NUMBER], units_in_foot=True) == [12, 24]


def test_the_name_takes_the_spare_width_and_numbers_never_do() -> None:
    columns = [CODE, NAME, NUMBER]
    pads = right_pads(columns, units_in_foot=False)
    made = widths(columns, pads, 900)
    assert sum(made) == 900
    assert made[0] == 132
    assert made[2] == 74


def test_several_columns_of_words_share_it_so_that_no_gap_grows_alone() -> None:
    columns = [CODE, NAME, TEXT, TEXT, NUMBER]
    pads = right_pads(columns, units_in_foot=False)
    made = widths(columns, pads, 1200)
    assert sum(made) == 1200
    spare = [made[1] - 174, made[2] - 144, made[3] - 144]
    assert max(spare) - min(spare) <= 3


def test_words_give_way_before_anything_else() -> None:
    columns = [CODE, NAME, NUMBER]
    pads = right_pads(columns, units_in_foot=False)
    made = widths(columns, pads, 340)
    assert made[0] == 132
    assert made[2] == 74
    assert sum(made) <= 340


def test_then_the_gaps_before_numbers_do_and_then_the_table_scrolls() -> None:
    columns = [CODE, NUMBER, NUMBER]
    pads = right_pads(columns, units_in_foot=False)
    whole = sum(widths(columns, pads, 0, give_way=False))
    tight = widths(columns, pads, whole - 16)
    assert sum(tight) <= whole - 16
    assert tight[0] in (132, 133), "a code is never squeezed"
    assert sum(widths(columns, pads, 100)) > 100


def test_no_columns_need_no_room() -> None:
    assert widths([], [], 500) == []
    assert sum(widths([NUMBER], [12], 500)) == 500
