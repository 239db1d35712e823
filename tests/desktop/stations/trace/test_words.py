"""What the trace's pages say, in few words."""

import pytest

from honeyledger.desktop.stations.trace.words import accounted, bare, counted, tr


@pytest.mark.parametrize(
    ("part", "words"),
    [(1.0, "100.0 %"), (0.99996, "99.9 %"), (0.98, "98.0 %"), (0.0, "0.0 %")],
)
def test_all_of_it_is_said_only_where_nothing_is_missing(part: float, words: str) -> None:
    assert accounted(part) == f"{words} accounted for"


def test_one_is_one_and_nothing_is_blank() -> None:
    assert counted(1, "1 lot", "{n} lots") == "1 lot"
    assert counted(1234, "1 lot", "{n} lots") == "1\u202f234 lots"
    assert (bare(0, "kg"), bare(12_345, "kg")) == ("", "12.3")
    assert tr("Map") == "Map"
