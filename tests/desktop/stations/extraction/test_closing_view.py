"""The closing page: what it says before a run is signed."""

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.extraction.closing_view import ClosingPage
from honeyledger.domain.refusals import Refusal, Sentence
from tests.desktop.floor_rig import Floor
from tests.support.printing import text_of


def _closing(floor: Floor, gross: str = "308") -> ClosingPage:
    floor.loaded()
    floor.rig.scan(floor.drum)
    form = floor.view.floor.form
    form.gross.set_text(gross)
    form.follows.set_key("" if gross else "yes")
    form.submit()
    floor.rig.settle()
    floor.view.floor.close_run.click()
    form.heel.set_text("40")
    form.submit()
    floor.rig.settle()
    return floor.view.closing


def test_estimates_against_scales_and_losses_are_said_apart(floor: Floor) -> None:
    page = _closing(floor)
    assert page.answer.sentence.text() == (
        "In by estimate 540 kg, out by scale and dip 330.0 kg. Estimates ran 38.8 % high, more "
        "than is usual here (6.0 %)."
    )
    assert page.balance.accessibleName() == (
        "In, by estimate, and out, by scale and dip. Estimates ran high by 210.0 kg. "
        "Lost between weighed points: 0.0 kg"
    )
    assert "330.0 kg" in page.came_out.foot.accessibleName()
    assert [row.yard for row in page.ties.model.rows()] == ["Mill Lane"]
    assert page.slot.sentence() == "All drums weighed. Check, then sign."


def test_what_went_in_is_told_against_the_pull_sheets(floor: Floor) -> None:
    page = _closing(floor)
    floor.rig.window.resize(1280, 728)
    floor.rig.settle()
    assert page.against.heading.text() == (
        "Against the pull sheets: 36 of 36 supers, 1 of 1 pallet empty, 0 scans at a time not sure"
    )
    floor.rig.window.resize(1440, 900)
    floor.rig.settle()
    assert page.against.heading.text() == "Against the pull sheets"


def test_what_a_run_is_signed_on_is_read_whole_in_a_narrow_window(floor: Floor) -> None:
    page = _closing(floor)
    floor.rig.window.resize(640, 400)
    floor.rig.settle()
    assert not page.answer.sentence.is_cut()
    assert page.answer.height() > 64


def test_the_run_sheet_is_printed_before_and_after_one_signs(floor: Floor) -> None:
    page, rig = _closing(floor), floor.rig
    page.print.click()
    rig.settle()
    assert rig.toast().lead == "The run sheet"
    rig.keys("Ctrl+P")
    (file,) = rig.opened
    assert file.name == f"Run sheet {floor.view.presenter.run}.pdf"
    before = text_of(file.read_bytes())
    assert "still open" in before
    rig.settle()
    page.sign.click()
    rig.settle()
    assert floor.view.floor.print.isVisible()
    floor.view.floor.print.click()
    rig.settle()
    assert "still open" not in text_of(file.read_bytes())


def test_a_drum_to_follow_is_told_and_hinders_nothing(floor: Floor) -> None:
    page = _closing(floor, gross="")
    assert page.slot.sentence() == ("1 drum is not weighed yet. You can sign; its weight follows.")
    assert "about 330.0 kg" in page.came_out.foot.accessibleName()


def test_what_one_signs_is_what_was_typed_last_from_the_first_moment(floor: Floor) -> None:
    floor.loaded()
    for heel, grams in (("10", 10_000), ("55", 55_000)):
        floor.view.floor.choose("close")
        floor.view.floor.form.heel.set_text(heel)
        floor.view.floor.form.submit()
        # Nothing is waited for: Enter may come at once.
        closing = floor.view.closing
        assert floor.view.widget.currentWidget() is closing
        assert [row.grams for row in closing.came_out.model.rows()] == [grams]
        floor.rig.settle()
        floor.view.presenter.leave_closing()
        floor.rig.settle()


def test_back_on_the_floor_the_heel_is_still_there(floor: Floor) -> None:
    page = _closing(floor)
    page.back.click()
    assert floor.view.widget.currentWidget() is floor.view.floor
    assert floor.says() == "Tank 1 40.0 kg"


def test_a_drum_is_weighed_again_and_the_closing_stands_as_it_was(floor: Floor) -> None:
    page = _closing(floor)
    floor.rig.window.resize(1920, 1080)
    floor.rig.settle()
    assert page.reweigh.isVisible()
    page.reweigh.click()
    floor.rig.settle()
    assert floor.rig.window.shell.open_key() == "drums"
    floor.rig.keys("Ctrl+4")
    assert floor.view.closing is page
    assert page.isVisible()


def test_a_refusal_stands_where_one_signs(floor: Floor) -> None:
    page = _closing(floor)
    page.show_refusal(Refusal(Sentence("no", "It cannot be closed.")))
    shown = page.slot.shown()
    assert shown is not None
    assert shown.mark is Mark.REFUSED
    assert page.slot.isVisible()
    assert page.slot.sentence() == "Not signed. It cannot be closed."


@pytest.mark.parametrize(("width", "height"), [(1280, 728), (1024, 700), (640, 400)])
def test_the_signature_is_in_view_at_every_size(floor: Floor, width: int, height: int) -> None:
    page = _closing(floor)
    floor.rig.window.resize(width, height)
    floor.rig.settle()
    page.begin()
    top = page.sign.mapTo(floor.rig.window, page.sign.rect().topLeft()).y()
    assert page.sign.isVisible()
    assert page.print.isVisible() is (width > 640), "Ctrl+P prints it there"
    assert page.sign.width() >= page.sign.sizeHint().width(), "all of its words are seen"
    assert top + page.sign.height() <= floor.rig.window.height()


def test_rows_open_cards_and_ties_open_traces(floor: Floor) -> None:
    page = _closing(floor)
    opened: list[str] = []
    page.opened.connect(opened.append)
    page.tie_opened.connect(opened.append)
    for table in (*page.tables(), page.ties):
        table.opened.emit("code")
    assert opened == ["code"] * 3
