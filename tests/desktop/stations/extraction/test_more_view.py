"""What else happens on the floor, by keys and scanner alone; the same entries as by terminal."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.tokens import Density
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun, Wash
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Said
from tests.desktop.faces import Faces
from tests.desktop.floor_rig import Floor
from tests.desktop.rig import SOON, Rig


class More:
    """A run with a pallet in it, the floor's smaller forms in hand."""

    def __init__(self, floor: Floor, folder: Path) -> None:
        self.floor, self.rig = floor, floor.rig
        self.other = self.rig.told(Register("vessel", {"name": "Tank 2", "sort": "tank"})).given[0]
        self.faces = Faces(self.rig, folder)
        self.run = floor.loaded()
        self.forms = floor.view.floor.more.forms
        self.forms.turn()
        self.settle()

    def settle(self) -> None:
        self.rig.settle(self.forms.asking.pause)

    def choose(self, kind: str) -> None:
        self.forms.form.choose(kind)
        self.settle()

    def scan(self, code: str) -> None:
        self.floor.wait()
        self.rig.scan(code)
        self.settle()

    def type(self, *texts: str) -> None:
        for text in texts:
            self.rig.type(text)
        self.settle()


@pytest.fixture
def more(qtbot: QtBot, tmp_path: Path) -> Iterator[More]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield More(Floor(rig), tmp_path)
    rig.close()


def test_the_smaller_forms_are_for_gloves_too(more: More) -> None:
    assert more.forms.form.panel.density is Density.FLOOR


def test_foam_is_skimmed_off_in_the_open_run(more: More) -> None:
    terminal = more.faces.copy()
    more.scan(more.floor.tank)
    more.type("5,5")
    assert more.rig.toast().lead == "Foam is booked."
    assert more.floor.sheet(more.run).balance.skimmed_g == 5_500, "of the run that is open"
    more.faces.same(terminal, "skim", more.floor.tank, "5.5")


def test_honey_is_drawn_on_into_another_tank(more: More) -> None:
    terminal = more.faces.copy()
    more.choose("draw")
    more.scan(more.floor.tank)
    more.type("tank 2", "150", "")
    assert more.rig.toast().lead == "It is drawn over."
    words = ("fill", more.floor.tank, "--net", "150", "--into", more.other)
    more.faces.same(terminal, *words)


def test_a_drum_filled_part_by_part_is_closed_by_scan(more: More) -> None:
    floor = more.floor
    more.rig.told(Fill(floor.tank, Weight(net_g=90_000), container=floor.drum, bung=False))
    terminal = more.faces.copy()
    more.choose("bung")
    more.scan(floor.drum)
    more.type("")
    assert more.rig.toast().lead.startswith("Drum D26-0001-")
    more.faces.same(terminal, "bung", floor.drum)


def test_comb_is_cut_off_a_pallet_and_not_loaded(more: More) -> None:
    more.choose("cut")
    more.scan(more.floor.later)
    assert more.forms.is_shown()
    assert more.forms.asking.now().text("pallet") == more.floor.later
    more.type("4", "120", "40,5", "", "", "", "", "", "0,5", "")
    lead = more.rig.toast().lead
    assert lead.startswith("Comb K26-0001-")
    assert lead.endswith(" is packed: 120 pieces.")


def test_a_run_is_pooled(more: More) -> None:
    terminal = more.faces.copy()
    more.choose("pool")
    more.type(more.run, "spring agreement")
    assert more.rig.toast().lead == f"Run {more.run} is pooled."
    more.faces.same(terminal, "pool", more.run, "spring agreement")


def _of_another(more: More) -> tuple[str, str]:
    """A closed run of somebody else's honey, and the drum filled in it."""
    floor, record = more.floor, more.rig.house.record
    signed = Said(operator=more.faces.badge)
    theirs = Receive((Line(floor.yard, 10, owner="A. Wendt"),), gross_g=200_000, tare_g=0)
    tag = next(code for code in record(theirs, signed).given if code[0] == "G")
    record(CloseRun(more.run), signed)
    record(Wash((floor.line, floor.tank), "never"), signed)
    run = record(OpenRun(floor.line), signed).given[0]
    in_run = Said(operator=more.faces.badge, run=run)
    record(Load(tag, floor.line), in_run)
    filled = record(Fill(floor.tank, Weight(net_g=140_001)), in_run)
    record(CloseRun(run), signed)
    return run, next(code for code in filled.codes if code[0] == "D")


def test_a_closed_run_is_settled_with_its_owner_by_keys_and_scan(more: More) -> None:
    rig = more.rig
    run, drum = _of_another(more)
    rig.told(Register("customer", {"name": "A. Wendt"}))
    terminal = more.faces.copy()
    more.choose("settle")
    more.type(run)
    more.type("10")
    preview = more.forms.form.slot.sentence()
    assert "A. Wendt: 10 supers, 140.0 kg of honey" in preview
    assert "14.0 kg kept by the house, 126.0 kg due" in preview
    more.scan(drum)
    more.forms.form.record.click()
    more.settle()
    assert more.forms.form.slot.sentence() == (
        f"Not recorded. Say whose {drum} becomes: the owner's name, or take it off."
    )
    more.type("a. wendt")
    assert rig.toast().lead == f"Run {run} is settled."
    words = ("settle", run, "--kept", "100", "--drum", drum, "a. wendt")
    more.faces.same(terminal, *words)
    assert run not in [choice.key for choice in more.forms._offered["closed runs"]]


def test_a_pallet_at_the_uncapper_goes_in_whatever_form_is_in_hand(more: More) -> None:
    more.choose("skim")
    more.scan(more.floor.later)
    assert not more.forms.is_shown()
    assert more.floor.last().kind == "load"


def test_what_cannot_be_stands_at_the_top(more: More) -> None:
    more.choose("draw")
    more.scan(more.floor.tank)
    more.type("tank 1", "150", "")
    assert more.floor.last().kind == "load"
    assert more.forms.form.slot.sentence().startswith("Not recorded.")


def test_half_a_form_outlives_the_window(more: More, qtbot: QtBot, tmp_path: Path) -> None:
    more.choose("melt")
    more.type("tank 2", "72")
    more.rig.type("3,5", enter=False)
    more.settle()
    more.rig.close()
    again = Rig(qtbot, tmp_path, first=SOON)
    floor = object.__new__(Floor)
    floor.rig = again
    again.keys("Ctrl+4")
    forms = floor.view.floor.more.forms
    forms.turn()
    again.settle(forms.asking.pause)
    typed = forms.asking.typed["melt"]
    assert (typed.text("vessel"), typed.text("wax_g")) == (more.other, "3,5")
    again.close()
