"""Each line of the sample's guide is true: its command is run, and shows the words it names."""

import shlex

import pytest

from honeyledger.assets import resource
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.sample_guide import Seen, filled, guide, rows
from tests.support.terminal import Terminal

EVERY = rows()


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Terminal:
    folder = tmp_path_factory.mktemp("season")
    return Terminal(folder, where=SITE.copy(loaded()[0], folder / SAMPLE))


@pytest.mark.long_on_server
@pytest.mark.parametrize("row", EVERY, ids=[row.what for row in EVERY])
def test_what_is_said_to_be_seen_is_seen(season: Terminal, row: Seen) -> None:
    assert row.words
    shown = season.do(*shlex.split(filled(row.command)))
    assert " ".join(filled(row.words).split()) in " ".join(shown.split())


def test_the_page_is_what_its_rows_say() -> None:
    page = resource("sample", "README.md").read_text("utf-8")
    assert page == guide(), "write it anew: python -m tests.support.sample_guide"
    assert len(EVERY) == page.count("` |")  # every row was read, and is shown to be true
    assert len(EVERY) > 50
