"""Behind the filler by keys and scanner alone: jars labelled later, kept, packed, unpacked."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.tokens import Density
from honeyledger.domain.codes import make_jar_code, parse_code
from honeyledger.ledger.verbs.bottling import Bottle
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from tests.desktop.bottling_rig import Filler
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def filler(qtbot: QtBot, tmp_path: Path) -> Iterator[Filler]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Filler(rig)
    rig.close()


@pytest.fixture
def jars(filler: Filler) -> str:
    """A hundred jars of Drum 1, not labelled; what is done behind the filler in hand."""
    code = filler.started()
    filler.tell(Bottle(code, 100, in_line=False))
    filler.open()
    filler.view.sheet.turn.setFocus()
    filler.keys("Return")
    return code


def _jar(lot: str, serial: int) -> str:
    code = parse_code(lot, "")
    return str(make_jar_code(code, serial))  # type: ignore[arg-type]


def test_what_stands_behind_the_filler_is_for_gloves_too(filler: Filler, jars: str) -> None:
    assert jars
    assert filler.view.after.panel.density is Density.FLOOR


def test_jars_are_labelled_later_with_their_roll_and_its_lot(filler: Filler, jars: str) -> None:
    filler.tell(Register("supplier", {"name": "Print Works"}), "")
    roll = filler.tell(Supply("Print Works", "packaging", "labels", count=500), "A")
    rig = filler.window
    assert rig.focused() == "Jar lot: scan it"
    filler.scan(_jar(jars, 7))
    assert rig.focused() == "Jars labelled"
    filler.scan(roll)
    filler.view.after.form.form.take_focus(filler.view.after.form.fields["label"]["jars"])
    for text in ("60", "", "1", "64", "", "", "4"):
        filler.type(text)
    filler.type("")
    assert rig.toast().lead == f"60 jars of {jars} are labelled."
    said = filler.last().facts["said"]
    assert isinstance(said, dict)
    assert (said["lot"], said["jars"], said["roll_last"], said["torn"]) == (jars, 60, 64, 4)
    assert list(said["packaging"]) == [roll]
    assert rig.focused() == "Jar lot: scan it"


def test_a_jar_is_kept_back_as_a_sample(filler: Filler, jars: str) -> None:
    filler.view.after.form.choose("keep")
    filler.scan(_jar(jars, 1))
    filler.type("500")
    filler.type("shelf 4")
    assert filler.window.toast().lead.endswith(f" is kept of {jars}.")
    assert filler.last().kind == "sample"


def test_cases_are_packed_and_opened_by_scan(filler: Filler, jars: str) -> None:
    rig = filler.window
    filler.view.after.form.choose("pack")
    filler.scan(_jar(jars, 1))
    filler.scan(_jar(jars, 2))
    filler.type("")
    filler.type("3")
    assert rig.focused() == f"{jars}, jars in a case"
    filler.type("12")
    lead = rig.toast().lead
    assert lead.startswith("3 cases are packed: C26-0001-")
    first = lead.split(": ")[1].split(" ")[0]
    filler.view.after.form.choose("unpack")
    filler.scan(first)
    filler.type("")
    assert rig.focused() == "Reason: sold singly"
    filler.type("")
    assert rig.toast().lead == f"{first} is open: what was in it stands by itself."


def test_too_many_is_refused_at_the_top(filler: Filler, jars: str) -> None:
    filler.scan(jars)
    filler.type("500", enter=False)
    filler.view.after.form.record.click()
    filler.settle()
    shown = filler.view.after.form.slot.sentence()
    assert shown.startswith("Not recorded.")
    assert filler.window.focused() == "Jars labelled"


def test_what_belongs_to_another_form_opens_its_card(filler: Filler, jars: str) -> None:
    assert not filler.view.after.take_code(filler.first)
    assert not filler.view.after.take_code("no code")
    filler.view.handle("clear")
    filler.view.sheet.turn.setFocus()
    filler.keys("Return")
    assert not filler.view.is_after()
    assert filler.view.sheet.turn.text() == "Label, pack…"


def test_the_lots_of_jars_and_lids_are_scanned_as_a_bottling_is_closed(filler: Filler) -> None:
    filler.tell(Register("supplier", {"name": "Glassworks"}), "")
    glass, lids = (
        filler.tell(Supply("Glassworks", "packaging", name, count=500), "A")
        for name in ("jars", "lids")
    )
    code = filler.started()
    filler.open()
    filler.presenter.choose("close")
    filler.settle()
    for scanned in (glass, lids, glass):
        filler.scan(scanned)
    assert filler.presenter.hand.typed.packaging == f"{glass}, {lids}"
    filler.view.form.form.take_focus(filler.view.form.jars)
    filler.type("100", enter=False)
    filler.view.form.record.click()
    filler.settle()
    assert filler.window.toast().lead.startswith(f"{code} is made: 100 jars")
    said = filler.last().facts["said"]
    assert isinstance(said, dict)
    assert list(said["packaging"]) == [glass, lids]
    assert filler.presenter.hand.typed.packaging == ""
