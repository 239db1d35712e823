"""The words of the yards."""

from honeyledger.desktop.stations.yards.words import bare, counted, tr


def test_words_and_masses() -> None:
    assert tr("to read") == "to read"
    assert [counted(n, "one drum", "{n} drums") for n in (1, 2)] == ["one drum", "2 drums"]
    assert bare(297_500, "kg") == "297.5"
    assert bare(453_592, "lb", 0) == "1\u202f000"
