"""A season's yields and losses on the terminal."""

from pathlib import Path

import pytest

from tests.support.engines import SITE
from tests.support.printing import text_of
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    # An afternoon of the sample's.
    terminal.now_ms = 1_790_368_800_000
    return terminal


def test_yields_in_each_way(sample: Terminal) -> None:
    sample.do("weather", "sun", "--day", "1 Jul 2026", "--high", "18,5", "--note", "canola begins")
    assert "Mosswick Bend" in sample.do("yields").splitlines()[1]
    assert sample.do("yields", "crews").splitlines()[0].split()[0] == "crew"
    assert sample.do("yields", "weeks").splitlines()[2].endswith("rain, no flight until four")
    assert "weighed with its pallet" in sample.do("yields", "slips")
    shown = sample.do("yields", "weather").splitlines()[1]
    assert " ".join(shown.split()) == "1 Jul 2026 everywhere sun 18.5 °C canola begins"
    value = sample.json("yields")
    assert list(value) == ["yields", "groups", "slips", "weather"]
    assert value["weather"][0]["high"] == 185


def test_losses_in_each_way(sample: Terminal) -> None:
    assert "More stays in the combs" in sample.do("losses")
    assert sample.do("losses", "runs").splitlines()[-1].startswith("all closed")
    assert sample.do("losses", "wax").splitlines()[-2].startswith("Wax is as usual")
    assert sample.do("losses", "--comb", "2") == (
        "Bees use 14.0 kg to 20.0 kg of honey to build it again (common practice, no source).\n"
    )
    value = sample.json("losses")
    assert list(value) == ["losses", "charts", "wax"]
    assert value["charts"][0]["limits"]["made_of"] == 20


def test_both_as_papers(sample: Terminal, tmp_path: Path) -> None:
    for name, words in (("yields", "By crew"), ("losses", "Control limits")):
        file = tmp_path / f"{name}.pdf"
        assert sample.do(name, "-o", str(file)) == f"{name.title()} 2026: {file}\n"
        assert words in text_of(file.read_bytes())


def test_another_word_is_told_which_there_are(sample: Terminal) -> None:
    words = "bees is none of yards, crews, forages, weeks, seasons, slips, weather"
    assert words in sample.refused("yields", "bees")
    assert "bees is none of out, runs, machines, limits, wax" in sample.refused("losses", "bees")
