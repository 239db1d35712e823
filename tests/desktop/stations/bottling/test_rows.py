"""What the tables and figures of the bottling show."""

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.bottling import rows
from honeyledger.desktop.stations.bottling.typed import LABELS, START, WEIGH, AtFiller, Typed
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.bottling_page import Wanted
from tests.desktop.bottling_rig import PRODUCT, Drums


def test_milligrams_are_told_in_grams_to_a_tenth() -> None:
    assert rows.grams_of(501_949) == "501.9"
    assert rows.grams_of(1_501_950) == "1\u202f502.0"


def test_segments_filled_running_and_to_come(drums: Drums) -> None:
    code = drums.started()
    drums.tell(ChangeOver(code, jars=80, mean_net_mg=502_500))
    typed = Typed(WEIGH, order=(drums.second,))
    made = rows.segment_rows(drums.page(), AtFiller(), typed)
    told = [(one.name, one.serials, one.jars, one.mean, one.aside) for one in made]
    assert told == [
        ("Drum 1", "1–80", 80, "502.5", ""),
        ("Drum 1", "81–", 119, "", "runs now"),
        ("Drum 2", "200–", 120, "", "comes next"),
    ]
    assert [rows.code_of(one.key) for one in made] == [drums.first, drums.first, drums.second]
    totals = rows.segment_totals(made, "kg")
    assert (totals["jars"].text, totals["honey"].text) == ("319", "160.0")
    assert totals["jars"].estimated
    columns = rows.segment_columns("kg")
    assert [column.key for column in columns] == ["name", "serials", "jars", "mean", "honey"]
    narrow = rows.segment_columns("kg", narrow=True)
    assert [column.cell(made[1]).text for column in narrow] == ["Drum 1", "81–", "119"]
    assert narrow[2].cell(made[1]).estimated
    assert not narrow[2].cell(made[0]).estimated


def test_jars_to_come_are_reckoned_with_the_mean_of_those_weighed(drums: Drums) -> None:
    drums.started()
    (row,) = rows.segment_rows(drums.page(), AtFiller(((0, 510_000),)), Typed(WEIGH))
    assert row.jars == 196
    assert rows.segment_rows(drums.page(Wanted(is_starting=True)), AtFiller(), Typed()) == ()


def test_sources_by_share_those_in_reach_last(drums: Drums) -> None:
    drums.started()
    made = rows.source_rows(drums.page(Wanted(order=(drums.second,))).makeup)
    assert [(row.name, row.share, row.mark) for row in made] == [
        ("Mill Lane", "62.5", None),
        ("Long Field", "37.5", None),
    ]
    assert rows.source_rows(None) == ()


def test_a_source_in_reach_only_says_so(drums: Drums) -> None:
    """The tank was washed within the margin of a scan: Mill Lane may be in its next drum."""
    made = rows.source_rows(drums.page(Wanted(order=(drums.second,))).makeup)
    cells = [column.cell(made[1]) for column in rows.source_columns()]
    assert [cell.text for cell in cells] == ["Mill Lane", "in reach"]
    assert cells[0].mark is Mark.HEEL
    assert made[0].share == "100.0"


def test_feeds_with_their_state(drums: Drums) -> None:
    drums.tell(Measure(drums.first, moisture=1720, colour=150))
    drums.tell(PutOnHold(drums.second, "taste"))
    feeds = drums.page().feeds
    columns = {column.key: column for column in rows.feed_columns("kg")}
    first, second = feeds
    assert [columns[key].cell(first).text for key in ("code", "state", "moisture", "net")] == [
        *(drums.first, "ready", "17.2", "100.0")
    ]
    assert columns["colour"].cell(first).pfund_mm == 15
    assert columns["state"].cell(second).mark is Mark.HOLD
    assert columns["name"].cell(second).aside == f"{drums.second}: taste"
    assert columns["colour"].cell(second).pfund_mm is None
    narrow = rows.feed_columns("kg", narrow=True)
    assert [column.key for column in narrow] == ["code", "name", "net"]
    assert [narrow[1].cell(feed).mark for feed in feeds] == [None, Mark.HOLD]


def test_jars_on_hand(drums: Drums) -> None:
    code = drums.started()
    drums.tell(Bottle(code, 100))
    drums.started(drums.second)
    jars = drums.page().jars
    columns = rows.jar_columns("kg")
    assert [column.cell(jars[0]).text for column in columns] == [
        *(code, "ready", "Clover 500 g", "100", "50.0")
    ]
    totals = rows.jar_totals(jars, "kg")
    assert (totals["jars"].text, totals["honey"].text) == ("100", "50.0")


def test_figures_at_rest_planned_and_open(drums: Drums) -> None:
    page = drums.page()
    assert rows.figures(page, AtFiller(), Typed()) == [
        ("0", "jars on hand"),
        ("0 kg", "of honey in jars"),
        ("160 kg", "to bottle from"),
    ]
    planned = Typed(START, product=PRODUCT, order=(drums.first,))
    assert rows.figures(page, AtFiller(), planned) == [
        ("≈ 200 jars", "by mass"),
        ("100.0 kg", "in one feed"),
        ("500 g", "declared net"),
    ]
    drums.started()
    typed = Typed(WEIGH, order=(drums.second,))
    assert rows.figures(drums.page(), AtFiller(), typed) == [
        ("≈ 320 jars", "by mass, in all"),
        ("0", "at the last change-over"),
        ("≈ 100.0 kg", "left in Drum 1"),
    ]


@pytest.mark.parametrize(
    ("kind", "expected"), [(START, "Honey to bottle"), (LABELS, "Jars on hand")]
)
def test_headings_at_rest(drums: Drums, kind: str, expected: str) -> None:
    assert rows.heading(drums.page(), Typed(kind)) == expected


def test_the_heading_names_the_bottling_in_hand(drums: Drums) -> None:
    code = drums.started()
    assert rows.heading(drums.page(), Typed(WEIGH)) == f"{code}, Clover 500 g"
    assert rows.net_of(drums.page(), Typed()) == 500


def test_feeds_are_counted_in_words() -> None:
    assert rows.feeds_counted(1) == "in one feed"
    assert rows.feeds_counted(3) == "in 3 feeds"
