"""What the frame says gives way from its least needed end."""

import pytest

from honeyledger.desktop.models.frame_facts import MastFacts, ago, mast_choices, status_choices

MINUTE_MS = 60_000
HOUR_MS = 60 * MINUTE_MS
DAY_MS = 24 * HOUR_MS


def test_the_mast_drops_the_season_then_the_operators_name() -> None:
    facts = MastFacts("Windrow Flats Honey", "Dock", "Operator 2", "O2", "2026")
    assert mast_choices(facts) == [
        "Dock · Operator 2 · 2026",
        "Dock · Operator 2",
        "Dock · O2",
        "Dock",
    ]


@pytest.mark.parametrize(
    ("ms", "words"),
    [
        (0, "just now"),
        (MINUTE_MS - 1, "just now"),
        (MINUTE_MS, "1 min ago"),
        (89 * MINUTE_MS, "89 min ago"),
        (90 * MINUTE_MS, "1 h ago"),
        (47 * HOUR_MS, "47 h ago"),
        (48 * HOUR_MS, "2 days ago"),
        (4 * DAY_MS, "4 days ago"),
    ],
)
def test_how_long_ago_in_minutes_then_hours_then_days(ms: int, words: str) -> None:
    assert ago(ms) == words


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
