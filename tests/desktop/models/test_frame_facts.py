"""What the frame says gives way from its least needed end."""

from honeyledger.desktop.models.frame_facts import MastFacts, mast_choices, status_choices


def test_the_mast_drops_the_season_then_the_operators_name() -> None:
    facts = MastFacts("Windrow Flats Honey", "Dock", "Operator 2", "O2", "2026")
    assert mast_choices(facts) == [
        "Dock · Operator 2 · 2026",
        "Dock · Operator 2",
        "Dock · O2",
        "Dock",
    ]


def test_what_is_not_known_leaves_no_gap() -> None:
    assert mast_choices(MastFacts("House", "Dock")) == ["Dock"]


def test_the_status_bar_drops_its_last_part_first() -> None:
    parts = ("48 211 entries", "head 7F3A·91C2", "backup 14 min ago")
    assert status_choices(parts) == [
        "48 211 entries · head 7F3A·91C2 · backup 14 min ago",
        "48 211 entries · head 7F3A·91C2",
        "48 211 entries",
    ]
    assert status_choices(()) == []
