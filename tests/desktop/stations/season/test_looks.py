"""Every look has all that the page shows, on a full house and on an empty one."""

from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.charts import chart_columns
from honeyledger.desktop.stations.season.looks import looks
from honeyledger.optimisation.routes import SolverRouter
from honeyledger.services.season_more import with_pulls, with_sheet
from tests.desktop.rig import DeskRig
from tests.desktop.season_rig import fill_house, page_of


@pytest.mark.parametrize("filled", [True, False])
def test_each_has_a_chart_whose_table_is_whole(qtbot: QtBot, tmp_path: Path, filled: bool) -> None:
    rig = DeskRig(qtbot, tmp_path)
    if filled:
        fill_house(rig)
    now_ms = rig.house.clock()
    page = rig.house.ask(lambda view: with_sheet(view, page_of(rig), (), now_ms))
    page = rig.house.ask(lambda view: with_pulls(view, page, SolverRouter(), now_ms))
    for look in looks():
        chart = look.chart(page)
        # Nothing is far off in so small a house.
        assert bool(chart.items) == (filled and look.key not in ("slips", "control")), look.key
        assert chart.empty.endswith(".")
        assert look.answer(page).endswith(".")
        if look.key not in ("slips", "pulling"):
            assert bool(look.figures(page)) == filled, look.key
        for item in chart.items:
            assert len(item.cells) == len(chart.heads)
            first, *others = chart_columns(chart)
            under = first.note(item).split(" · ") if first.note is not None else []
            told = [first.text(item), *(column.text(item) for column in others), *under]
            assert sorted(filter(None, told)) == sorted(filter(None, item.cells))
            assert item.spoken
        assert len(chart.totals) in (0, len(chart.heads))
        assert len({item.key for item in chart.items}) == len(chart.items)
        assert all(note.sentence.endswith(".") for note in look.notes(page))


def test_each_has_a_key_and_a_title_of_its_own() -> None:
    made = looks()
    assert len({look.key for look in made}) == len({look.title for look in made}) == len(made)
