"""Every verb can be typed, and the page says how it is undone, in its command's own words."""

import click

from honeyledger.commandline.group import all_commands, honeyledger
from honeyledger.commandline.options import Recording
from honeyledger.ledger.verbs.table import VERBS
from tests.support.undoing import PAGE, command_of, page


def test_every_verb_has_a_command_of_its_own() -> None:
    writing = {
        words
        for words, command in all_commands(click.Context(honeyledger))
        if isinstance(command, Recording)
    }
    typed = [command_of(kind) for kind in VERBS]
    assert set(typed) <= writing
    assert len(set(typed)) == len(typed)


def test_the_page_is_what_the_commands_say() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "renew it: python -m tests.support.undoing"


def test_the_way_to_the_page_is_shown() -> None:
    top = PAGE.parents[1]
    for name in ("README.md", "DEVELOPERS.md"):
        assert "packaging/UNDO.md" in (top / name).read_text(encoding="utf-8")
