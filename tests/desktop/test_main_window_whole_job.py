"""The main job in the window, from an empty house to a jar traced, by keys and a scanner alone."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.setup.view import SetupView
from honeyledger.desktop.stations.trace.view import TraceView
from honeyledger.domain.codes import Code, make_code, make_jar_code, parse_code
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS

MOST_TABS = 60
SEASON = 26


@pytest.fixture(
    params=[
        pytest.param("file", marks=pytest.mark.full),
        pytest.param("memory", marks=pytest.mark.full),
        pytest.param("server", marks=pytest.mark.postgres),
    ]
)
def rig(request: pytest.FixtureRequest, qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    """A window on an empty house, wherever houses may be."""
    where = {"file": None, "memory": ":memory:"}.get(request.param)
    if request.param == "server":
        where = request.getfixturevalue("fresh_postgres_url")
    made = Rig(qtbot, tmp_path, begun=False, where=where)
    yield made
    made.close()


def _types(rig: Rig, *texts: str) -> None:
    for text in texts:
        rig.type(text)


def _to(rig: Rig, name: str) -> None:
    """With Tab to what a screen reader calls so."""
    for _ in range(MOST_TABS):
        if rig.focused().startswith(name):
            return
        rig.keys("Tab")
    raise AssertionError(f"Tab never came to {name}")


def _kind(rig: Rig, name: str) -> None:
    """What happens on this station: along its choices with the arrows, and Enter."""
    _to(rig, "What happens")
    for _ in range(9):
        if rig.focused() == f"What happens: {name}":
            rig.keys("Return")
            return
        rig.keys("Right")
    raise AssertionError(f"there is no choice called {name}")


def _wait(rig: Rig, minutes: int) -> None:
    rig.now_ms += minutes * MINUTE_MS


def _newest(rig: Rig, letter: str) -> str:
    """The newest code of a letter: what a person has in hand on paper."""
    number = rig.house.ask(lambda view: view.last_number(letter, SEASON))
    code = make_code(letter, SEASON, number)
    assert code is not None
    return str(code)


def _set_up(rig: Rig) -> None:
    rig.keys("Return")
    _types(rig, "Hill House", "", "", "", "", "")
    _types(rig, "Ann Reed", "")
    _types(rig, "Mill Lane", "30", "", "")  # of no place, and no second yard
    _types(rig, "", "", "", "", "")  # the usual boxes, Line 1, and Tank 1 fed by it
    rig.keys("Return")
    assert rig.window.shell.open_key() == "dock"


def _product(rig: Rig, name: str, net_g: str) -> None:
    rig.keys("Ctrl+0")
    _to(rig, "What is set up")
    view = rig.window.stations["setup"]
    assert isinstance(view, SetupView)
    kinds = [kind.key for kind in view.presenter.kinds]
    rig.keys(*["Up"] * len(kinds), *["Down"] * kinds.index("product"), "Return")
    assert rig.focused() == "Name of the product"
    _types(rig, name, net_g, "")  # no GTIN
    assert rig.toast().lead == f"{name} is registered."


def _run(rig: Rig, *tags: str) -> list[str]:
    """A run with two drums filled, cappings weighed, closed and signed: the drums' codes."""
    rig.keys("Ctrl+4", "Return")
    for tag in tags:
        _wait(rig, 5)
        rig.scan(tag)
        assert rig.toast().lead == f"{tag} is in."
    _wait(rig, 60)
    drums = []
    for gross in ("310,5", "298"):
        _kind(rig, "Drum")
        _types(rig, "", "", gross, "18")
        drums.append(_newest(rig, "D"))
    _kind(rig, "Cappings")
    rig.type("41")
    _to(rig, "Close this run")
    rig.keys("Return")
    _types(rig, "40", "", "")
    rig.keys("Return")
    assert rig.toast().lead.endswith("is closed.")
    return drums


def _bottle(rig: Rig, first: str, second: str) -> str:
    """700 jars out of two drums, the first run empty: the jar lot."""
    rig.keys("Ctrl+6")
    _wait(rig, 60)
    rig.scan(first)
    rig.scan(second)
    _types(rig, "", "")
    _types(rig, "502", "503,5", "501")
    _wait(rig, 60)
    rig.scan(first)
    _types(rig, "580", "")
    _kind(rig, "Close")
    _types(rig, "700", "2", "", "", "")
    lot = _newest(rig, "J")
    assert rig.toast().lead == f"{lot} is made: 700 jars of Clover 500 g, 351.3 kg."
    return lot


def _send(rig: Rig, lot: str) -> None:
    rig.keys("Ctrl+7")
    _types(rig, "Corner Shop", "", "", "")  # a new name is added on the way
    rig.scan(lot)
    _types(rig, "240", "", "")
    assert rig.toast().lead == "N26-0001-R is signed: 1 lot, 120.4 kg to Corner Shop."


def test_from_an_empty_house_to_a_jar_traced(rig: Rig) -> None:
    _set_up(rig)
    _types(rig, "Mill", "", "", "North truck", "36", "", "", "", "")
    first = _newest(rig, "G")
    _types(rig, "Mill", "", "24", "", "", "")
    second = _newest(rig, "G")
    drums = _run(rig, first, second)
    _product(rig, "Clover 500 g", "500")
    lot = _bottle(rig, *drums)
    _send(rig, lot)
    code = parse_code(lot)
    assert isinstance(code, Code)
    jar = str(make_jar_code(code, 42))
    rig.keys("Ctrl+8")
    rig.scan(jar)
    trace = rig.window.stations["trace"]
    assert isinstance(trace, TraceView)
    assert trace.answer.page.text() == f"Where jar {jar} comes from: Clover 500 g, 0.5 kg"
    assert "Mill Lane" in trace.answer.sentence.text()
    assert [finding.name for finding in rig.store.audit() if not finding.holds] == []
