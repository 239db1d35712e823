"""Setting text in a room: it shrinks, wraps, springs apart, or is refused."""

import pytest

from honeyledger.documents.fonts import CODE, STRONG, TEXT, width_mm
from honeyledger.documents.setting import Block, capital_mm, set_column, set_line, try_column
from honeyledger.domain.refusals import Refusal
from tests.support import printing


def test_text_with_room_is_set_as_large_as_wanted() -> None:
    column = set_column([Block("Honey", TEXT, 20, 8)], 50, 20, printing.typefaces(), "roll")
    assert [(line.text, line.size_pt) for line in column.lines] == [("Honey", 20)]


def test_text_shrinks_no_more_than_it_must() -> None:
    faces = printing.typefaces()
    column = set_column([Block("Clover honey", TEXT, 20, 8, most_lines=1)], 25, 20, faces, "roll")
    (line,) = column.lines
    assert width_mm(line.text, TEXT, line.size_pt) <= 25
    assert width_mm(line.text, TEXT, line.size_pt + 0.5) > 25


def test_blocks_shrink_together_and_keep_their_least_sizes() -> None:
    blocks = [Block("Clover honey", TEXT, 30, 7), Block("500 g", STRONG, 20, 16, gap_mm=1)]
    column = set_column(blocks, 40, 12, printing.typefaces(), "roll")
    assert column.height_mm <= 12
    sizes = [line.size_pt for line in column.lines]
    assert sizes[-1] >= 16
    assert sizes[0] >= 7
    baselines = [line.baseline_mm for line in column.lines]
    assert baselines == sorted(baselines)


def test_a_long_word_shrinks_its_own_block_alone() -> None:
    blocks = [Block("Sonnenblumenhonig", STRONG, 20, 7), Block("500 g", TEXT, 12, 6)]
    name, net = set_column(blocks, 30, 40, printing.typefaces(), "roll").lines
    assert name.text == "Sonnenblumenhonig"
    assert width_mm(name.text, STRONG, name.size_pt) == pytest.approx(30)
    assert net.size_pt == 12


def test_spare_room_goes_above_the_block_that_springs() -> None:
    blocks = [Block("Honey", TEXT, 10, 7), Block("Eastbrook", TEXT, 10, 7, spring=True)]
    column = set_column(blocks, 50, 40, printing.typefaces(), "roll")
    assert column.height_mm == 40
    assert column.lines[0].baseline_mm < 5
    assert column.lines[1].baseline_mm > 37


def test_empty_blocks_take_no_room() -> None:
    blocks = [Block("Honey", TEXT, 10, 7), Block("", TEXT, 10, 7), Block(" ", TEXT, 10, 7)]
    assert len(set_column(blocks, 50, 40, printing.typefaces(), "roll").lines) == 1


def test_text_that_cannot_fit_is_refused_by_its_longest_part() -> None:
    blocks = [Block("Honey", TEXT, 10, 7), Block("from a very long hillside", TEXT, 10, 7)]
    assert try_column(blocks, 20, 5, printing.typefaces()) is None
    with pytest.raises(Refusal) as refused:
        set_column(blocks, 20, 5, printing.typefaces(), "roll-70x40")
    assert refused.value.text == (
        "Label stock roll-70x40 has no room for all of the text: shorten "
        '"from a very long hillside", or take a larger label.'
    )


def test_a_single_line_stands_on_its_capitals() -> None:
    line = set_line(Block("D26-0611-Y", CODE, 40, 8), 50, printing.typefaces(), "roll")
    assert line.size_pt < 40
    assert line.baseline_mm == pytest.approx(capital_mm(line.size_pt))
    assert capital_mm(10) == pytest.approx(10 * 0.698 * 25.4 / 72)
