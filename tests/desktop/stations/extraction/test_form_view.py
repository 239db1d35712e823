"""The form of the floor: what it shows for each happening, and where it puts a refusal."""

import pytest

from honeyledger.desktop.stations.extraction.form_view import FloorForm
from honeyledger.domain.refusals import Refusal, Sentence
from tests.desktop.floor_rig import Floor


def _shown(form: FloorForm) -> list[str]:
    return [name for name, field in form.fields().items() if field.isVisible()]


def test_each_happening_shows_its_own_fields(floor: Floor) -> None:
    form = floor.view.floor.form
    assert _shown(form) == ["line"]
    assert not form.what.isVisible(), "nothing else can happen before a run is open"
    floor.loaded()
    shown = {}
    for kind in ("load", "drum", "cappings", "wet", "wash", "close", "open"):
        form.choose(kind)
        shown[kind] = _shown(form)
        assert form.what.isVisible()
        assert form.slot.sentence()
    assert shown == {
        "load": ["pallet", "supers"],
        "drum": ["source", "container", "gross", "tare", "seal"],
        "cappings": ["net"],
        "wet": ["count", "wet_gross"],
        "wash": ["remains"],
        "close": ["vessel", "heel", "how", "pending"],
        "open": ["line"],
    }


def test_what_is_typed_for_one_stays_while_another_is_shown(floor: Floor) -> None:
    floor.loaded()
    form = floor.view.floor.form
    form.choose("drum")
    form.gross.set_text("301")
    form.choose("cappings")
    form.net.set_text("40")
    form.submit()
    floor.rig.settle()
    assert (form.net.text(), form.gross.text()) == ("", "301")


def test_the_form_opens_on_the_last_vessel_of_the_line(floor: Floor) -> None:
    floor.loaded()
    form = floor.view.floor.form
    assert (form.source.key(), form.vessel.key()) == (floor.tank, floor.tank)


@pytest.mark.parametrize(
    ("key", "field"),
    [
        ("held-asks", "why"),
        ("held-by-way-asks", "why"),
        ("washed-asks", "washed"),
        ("top-up-asks", "top_up"),
        ("what-remains", "remains"),
    ],
)
def test_what_the_ledger_asks_becomes_a_field(floor: Floor, key: str, field: str) -> None:
    floor.loaded()
    form = floor.view.floor.form
    form.choose("drum")
    form.show_refusal(Refusal(Sentence(key, "It has to be said."), field="container"))
    assert form.slot.sentence() == "Not recorded. It has to be said."
    asked = form.fields()[field]
    assert asked.isVisible()
    assert asked.focusWidget() is not None
    assert asked.focusWidget().hasFocus()
    form.choose("drum")
    assert not form.fields()[field].isVisible(), "a new beginning asks nothing"


def test_the_fields_say_how_high_they_are(floor: Floor) -> None:
    floor.loaded()
    form = floor.view.floor.form
    form.choose("cappings")
    low = form.form.room()
    form.choose("close")
    assert form.form.room() > low > 0


def test_the_focused_field_is_seen_in_a_low_window(floor: Floor) -> None:
    floor.loaded()
    floor.rig.window.resize(640, 400)
    floor.rig.settle()
    floor.view.floor.choose("drum")
    floor.rig.settle()
    form = floor.view.floor.form
    assert form.gross.editor.hasFocus()
    box = form.gross.box
    top = box.mapTo(form.form.viewport(), box.rect().topLeft()).y()
    assert 0 <= top <= form.form.viewport().height() - box.height()
