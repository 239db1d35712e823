"""The way to the window: on one's own house, an empty one, or the sample season."""

from honeyledger.exchange.season import SAMPLE_NOW_MS
from tests.support.terminal import NOTHING, Terminal


def test_it_opens_on_the_house_named(terminal: Terminal) -> None:
    terminal.do("window")
    ((house, settings),) = terminal.windows
    assert settings == terminal.settings
    assert house.clock() == terminal.now_ms


def test_without_a_house_of_ones_own_the_way_to_one_is_shown(bare: Terminal) -> None:
    bare.do("window")
    assert bare.firsts == [bare.where]
    assert not bare.windows
    assert bare.type("register", "house", "list").code == 2


def test_a_house_that_was_named_is_not_made(bare: Terminal) -> None:
    other = str(bare.folder / "other.honeyledger")
    done = bare.type("window", "--house", other)
    assert done.code == 2
    assert done.err.startswith(f"There is no house at {other}.")
    assert not bare.windows
    assert not bare.firsts


def test_the_sample_season_is_loaded_beside_and_has_its_own_clock(bare: Terminal) -> None:
    bare.do("window", "--sample")
    (house, _), place = bare.windows[0], bare.folder / "sample.honeyledger"
    assert house.clock() >= SAMPLE_NOW_MS
    assert place.exists()
    assert not place.with_name("sample.honeyledger.part").exists()
    assert bare.head() == NOTHING
    size = place.stat().st_mtime_ns
    bare.do("window", "--sample")
    assert place.stat().st_mtime_ns == size
