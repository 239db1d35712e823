"""Numbers in words of a page."""

from honeyledger.desktop.models.counting import bare, counted


def test_one_has_its_own_word() -> None:
    assert counted(1, "one drum", "{n} drums") == "one drum"
    assert counted(1_200, "one drum", "{n} drums") == "1\u202f200 drums"
    assert counted(0, "one drum", "{n} drums") == "0 drums"


def test_a_mass_leaves_its_unit_to_the_head() -> None:
    assert bare(1_234_560, "kg") == "1\u202f234.6"
    assert bare(453_592, "lb", 0) == "1\u202f000"
