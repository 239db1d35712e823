"""The same facts of yards in the window and in a terminal give the same digests."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.asking_rig import BothFaces
from tests.desktop.yards_rig import Station

Both = BothFaces[Station]


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = BothFaces(qtbot, tmp_path, Station)
    yield made
    made.window.close()


def test_a_new_yard_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.window.type("Hill Top")
    both.window.type("")
    both.window.type("24")
    both.window.type("clover")
    both.window.type("NE 10")
    both.window.type("49.5")
    both.window.type("98,8 W")
    both.station.keep()
    both.again(
        *("register", "yard", "add", "Hill Top", "--colonies", "24", "--forage", "clover"),
        *("--place", "NE 10", "--latitude", "49.5", "--longitude", "98.8 W"),
    )


def test_a_changed_record_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.window.scan(both.station.land.mill)
    form = both.station.view.form
    form.form.take_focus(form.fields["record"]["colonies"])
    both.window.type("28", enter=False)
    both.station.keep()
    both.again("register", "yard", "change", both.station.land.mill, "--colonies", "28")


def test_a_treatment_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("treat")
    both.window.scan(both.station.land.bank)
    both.window.type("Formic pads")
    both.window.type("formic acid")
    both.window.type("20 Jul 2026")
    both.window.type("")
    both.window.type("20 Aug 2026")
    both.station.keep()
    both.again(
        *("treat", both.station.land.bank, "Formic pads", "--active", "formic acid"),
        *("--in", "20 Jul 2026", "--clear", "20 Aug 2026"),
    )


def test_supers_put_on_are_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("supers")
    both.window.scan(both.station.land.bank)
    both.window.type("60")
    both.window.type("medium")
    both.station.keep()
    both.again("supers-on", both.station.land.bank, "60", "--box", "medium")
