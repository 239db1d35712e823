"""The same facts in the drum room and in a terminal give the same digests and refusals."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.verbs.quality import PutOnHold
from tests.desktop.asking_rig import BothFaces
from tests.desktop.drums_rig import Station
from tests.support.tiers import first_plain

Both = BothFaces[Station]


def _a_hold(station: Station) -> None:
    station.rig.told(PutOnHold(station.cellar.pull, "strips"))


@pytest.fixture
def both(qtbot: QtBot, tmp_path: Path) -> Iterator[Both]:
    made = BothFaces(qtbot, tmp_path, Station, _a_hold)
    yield made
    made.window.close()


def test_a_reading_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.window.scan(both.station.cellar.second)
    both.window.type("")
    both.window.type("17,9")
    both.window.type("44")
    both.again("measure", both.station.cellar.second, "--moisture", "17.9", "--colour", "44")


def test_a_weighing_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("weigh")
    both.window.scan(both.station.cellar.first)
    both.window.type("319.5")
    both.window.type("17.5")
    both.window.type("")
    both.again("reweigh", both.station.cellar.first, "--gross", "319.5", "--tare", "17.5")


def test_a_sample_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("sample")
    both.window.scan(both.station.cellar.second)
    both.window.type("250")
    both.window.type("shelf 2")
    both.window.type("before shipment")
    both.again(
        *("draw-sample", both.station.cellar.second, "--net", "250 g", "--kept-at", "shelf 2"),
        *("--purpose", "before shipment"),
    )


def test_a_move_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("move")
    both.window.scan(both.station.cellar.second)
    both.window.type("Drum room")
    both.window.type("B3")
    both.again("move", "Drum room", both.station.cellar.second, "--row", "B3")


def test_a_hold_and_its_end_are_the_same_entries_from_both_faces(both: Both) -> None:
    both.station.choose("hold")
    both.window.scan(both.station.cellar.third)
    both.window.keys("Right")
    both.window.type("")
    both.again("hold", both.station.cellar.third, "--reason", "wet")
    both.station.choose("free")
    both.window.type(f"{both.station.cellar.third}: wet")
    both.window.type("")
    both.window.type("blended down")
    number = both.station.cellar.last().id - 1
    both.again("release", str(number), "--reason", "blended down")


def test_one_drum_freed_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("free")
    number = both.station.view.presenter.page.holds[0].number  # type: ignore[union-attr]
    both.window.type(f"{both.station.cellar.pull}: strips")
    both.window.keys("Right")
    both.window.scan(both.station.cellar.second)
    both.window.type("none found")
    both.window.type("")
    both.again("clear", both.station.cellar.second, "--hold", number, "--result", "none found")


def test_a_blend_is_the_same_entry_from_both_faces(both: Both) -> None:
    both.station.choose("blend")
    both.window.scan(both.station.cellar.third)
    both.window.type("Blender")
    both.window.type("")
    both.window.type("")
    both.window.type("18")
    both.window.type("")
    both.window.type("")
    both.window.type("blended down")
    both.window.type("")
    both.window.type("100")
    both.window.type("101.5")
    both.again(
        *("blend", both.station.cellar.blender, f"{both.station.cellar.third}=101.5"),
        *("--plan", f"{both.station.cellar.third}=100", "--despite-hold", "blended down"),
    )


@pytest.mark.parametrize(("gross", "tare"), first_plain([("18", "18"), ("300.0.0", ""), ("", "")]))
def test_both_faces_refuse_a_weighing_in_the_same_words(both: Both, gross: str, tare: str) -> None:
    both.station.choose("weigh")
    both.window.scan(both.station.cellar.first)
    both.window.type(gross)
    both.window.type(tare)
    words = ["reweigh", both.station.cellar.first]
    words += ["--gross", gross] if gross else []
    words += ["--tare", tare] if tare else []
    both.both_refuse(*words)


def _measured(both: Both, **values: str) -> None:
    """The form of readings, filled in and recorded."""
    stock = both.station.view.stock
    if not stock.is_shown():
        stock.turn()
    stock.form.choose("measure")
    both.window.scan(both.station.cellar.second)
    typed = stock.asking.now()
    stock.asking.fill(replace(typed, values={**typed.values, **values}))
    stock.form.record.click()
    both.window.settle()


def test_readings_and_results_are_the_same_entries_from_both_faces(both: Both) -> None:
    drum = both.station.cellar.second
    _measured(both, scale="index", value="1.4908", at="27", instrument="R 1")
    shown = ("--shown", "1.4908", "--read-at", "27", "--instrument", "R 1")
    both.again("measure", drum, *shown)
    papers = {"laboratory": "Bench", "report": "26-118", "sampled": "20 Jul 2026"}
    _measured(both, kind="laboratory", result_of="hmf", value="<5", **papers)
    said = ("--laboratory", "Bench", "--report", "26-118", "--sampled", "20 Jul 2026")
    both.again("measure", drum, "hmf=<5", *said)
