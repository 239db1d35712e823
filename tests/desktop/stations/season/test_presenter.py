"""What the season's page knows: asked when it is looked at, season by season, and on paper."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked_page import NOT_SHOWN
from honeyledger.desktop.printing import Paper as OnPaper
from honeyledger.desktop.stations.season.presenter import SeasonPresenter
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.printing import prints_of
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig
from tests.desktop.season_rig import fill_house
from tests.support.printing import text_of


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    fill_house(made)
    yield made
    made.close()


@pytest.fixture
def presenter(rig: DeskRig) -> SeasonPresenter:
    made = SeasonPresenter(rig.desk)
    made.open()
    rig.settle()
    return made


def test_it_asks_when_it_is_looked_at_and_something_was_recorded(
    rig: DeskRig, presenter: SeasonPresenter
) -> None:
    told: list[object] = []
    presenter.shown.connect(told.append)
    presenter.open()
    rig.settle()
    assert told == [], "it is still true"
    rig.told(Register("yard", {"name": "Cedar"}))
    assert len(told) == 1
    presenter.is_seen = lambda: False
    rig.told(Register("yard", {"name": "Dogwood"}))
    assert len(told) == 1, "nobody looks"
    presenter.open()
    rig.settle()
    assert len(told) == 2


def test_one_goes_from_season_to_season_as_far_as_they_go(
    rig: DeskRig, presenter: SeasonPresenter
) -> None:
    assert presenter.page is not None
    assert (presenter.page.season, presenter.neighbour(-1), presenter.neighbour(1)) == (
        2027,
        2026,
        0,
    )
    presenter.go(1)
    presenter.go(-1)
    rig.settle()
    assert presenter.page.season == 2026
    assert (presenter.neighbour(-1), presenter.neighbour(1)) == (0, 2027)
    presenter.go(1)
    rig.settle()
    assert (presenter.page.season, presenter.season) == (2027, 0), "this one goes on by itself"


def test_another_look_at_the_same_season_asks_nothing(
    rig: DeskRig, presenter: SeasonPresenter
) -> None:
    told: list[object] = []
    presenter.shown.connect(told.append)
    presenter.choose("losses")
    presenter.choose("losses")
    presenter.choose("no such")
    assert told == [presenter.page]
    assert presenter.look.key == "losses"
    assert rig.desk.jobs.is_idle()


def _file(told: object) -> Path:
    assert isinstance(told, OnPaper)
    return told.file


def _prints(rig: DeskRig, kind: str, of: str) -> int:
    return rig.house.ask(lambda view: prints_of(view, kind, of))


def test_what_is_looked_at_goes_on_paper_with_the_head_it_was_read_at(
    rig: DeskRig, presenter: SeasonPresenter
) -> None:
    written: list[object] = []
    presenter.printed.connect(written.append)
    presenter.choose("yield")
    presenter.print(picture=False)
    rig.settle()
    presenter.print(picture=True)
    rig.settle()
    pdf, png = (_file(one) for one in written)
    assert presenter.page is not None
    assert pdf.name == f"season-2027-yield-{presenter.page.entries}.pdf"
    assert pdf.read_bytes()[:5] == b"%PDF-"
    assert png.read_bytes()[1:4] == b"PNG"
    assert _prints(rig, "season-charts", "2027 yield") == 1, "a picture is no print"
    assert "reprint" not in text_of(pdf.read_bytes())
    presenter.print(picture=False)
    rig.settle()
    assert "· reprint 1" in text_of(_file(written[-1]).read_bytes())
    paper = presenter.paper(presenter.page, presenter.look)
    assert paper.heading == (
        "Honey a colony by yard, 2027",
        "≈ 25.0 kg a colony: 750 kg from 2 yards.",
    )
    assert [row[0].text for row in paper.rows] == ["Ash", "Birch"]
    assert dict(paper.totals)["1 A colony"].text == "25.0"
    assert paper.chart is not None
    assert paper.foot.startswith(f"Test House · head {presenter.page.entries} ")


def test_what_is_chosen_together_is_one_paper_numbered_through(
    rig: DeskRig, presenter: SeasonPresenter
) -> None:
    written: list[object] = []
    presenter.printed.connect(written.append)
    assert presenter.page is not None
    for key, count in (("crews", 6), ("control", 3)):
        presenter.choose(key)
        presenter.print_all()
        rig.settle()
        pdf = _file(written[-1])
        text = text_of(pdf.read_bytes())
        looks, page = presenter.together(), presenter.page
        assert len(looks) == count
        assert pdf.name == f"season-2027-all-{looks[0].key}-{page.entries}.pdf"
        for number, look in enumerate(looks, 1):
            assert f"{look.chart(page).title} {look.answer(page)}" in text
            assert f"page {number} of {count}" in text
    control = presenter.paper(presenter.page, presenter.looks["control"])
    titles = [column.title for column in control.columns]
    assert titles == ["Run", "Part", "Share", "Usual", "Look first"]
    presenter.choose("pace")
    assert presenter.together() == [presenter.look]


def test_a_paper_that_cannot_be_written_says_why(rig: DeskRig, presenter: SeasonPresenter) -> None:
    written: list[object] = []
    presenter.printed.connect(written.append)
    rig.desk.papers.write_text("a file stands where the folder would")
    presenter.print(picture=False)
    rig.settle()
    (refusal,) = written
    assert isinstance(refusal, Refusal)
    assert "cannot be written" in refusal.text


def test_a_season_that_cannot_be_read_says_so(rig: DeskRig) -> None:
    presenter = SeasonPresenter(rig.desk)
    failed: list[Refusal] = []
    presenter.failed.connect(failed.append)
    presenter.season = 2020
    presenter.ask()
    rig.settle()
    assert [one.text for one in failed] == [
        "Nothing was pulled in 2020, as far as this ledger knows. It has 2027, 2026."
    ]
    rig.desk.jobs.close()
    presenter.ask()
    rig.settle()
    assert failed[1].sentence == NOT_SHOWN


def test_the_next_pulls_and_the_days_work_are_asked_for_when_they_are_looked_at(
    rig: DeskRig, presenter: SeasonPresenter
) -> None:
    written: list[object] = []
    presenter.printed.connect(written.append)
    assert presenter.page is not None
    assert presenter.report(presenter.page) is None
    for key, name in (("pulling", "pulling"), ("todo", "today_sheet")):
        assert getattr(presenter.page, name) is None
        presenter.choose(key)
        rig.settle()
        assert getattr(presenter.page, name) is not None
        presenter.print(picture=False)
        rig.settle()
    truck, sheet = (_file(one) for one in written)
    for kind, of in (("truck-sheet", "2027-07-24"), ("day-sheet", "2027-07-24")):
        assert _prints(rig, kind, of) == 1
    assert truck.name.startswith("pulling-2027-07-24-")
    assert "Truck sheet" in text_of(truck.read_bytes())
    assert "Day sheet" in text_of(sheet.read_bytes())
    presenter.print(picture=True)
    rig.settle()
    assert _file(written[-1]).suffix == ".png"
