"""Several notes are open at once; a draft brings them back, but for those that were signed."""

from collections.abc import Iterator, Mapping
from itertools import count
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.dispatch.open_notes import (
    NoteDrafts,
    OpenNotes,
    already_sent,
)
from honeyledger.desktop.stations.dispatch.typed import NoteTyped
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.services.house import Said
from tests.desktop.dispatch_rig import Goods
from tests.desktop.rig import DeskRig

SHOP, PACKER = NoteTyped("Corner Shop", command="c-1"), NoteTyped("Packer", command="c-2")


def test_a_note_gets_its_id_when_it_is_begun() -> None:
    numbers = count(1)
    notes = OpenNotes().with_note(NoteTyped(), lambda: f"id-{next(numbers)}")
    assert notes.note.command == ""
    notes = notes.with_note(NoteTyped("Packer"), lambda: f"id-{next(numbers)}")
    assert notes.note.command == "id-1"
    again = notes.with_note(notes.note, lambda: f"id-{next(numbers)}")
    assert again.note.command == "id-1"


def test_a_note_is_put_aside_and_taken_up() -> None:
    notes = OpenNotes(SHOP).put_aside()
    assert notes == OpenNotes(NoteTyped(), (SHOP,))
    assert notes.put_aside() == notes, "a note that is not begun leaves nothing behind"
    both = OpenNotes(PACKER, (SHOP,))
    assert both.take_up(0) == OpenNotes(SHOP, (PACKER,))
    assert notes.take_up(0) == OpenNotes(SHOP)
    assert both.commands() == ["c-2", "c-1"]


def test_what_was_signed_is_not_open() -> None:
    both = OpenNotes(PACKER, (SHOP,))
    assert both.without(["c-2"]) == OpenNotes(NoteTyped(), (SHOP,))
    assert both.without(["c-1"]) == OpenNotes(PACKER)
    assert both.and_aside([PACKER]).aside == (SHOP, PACKER)


def test_a_draft_keeps_every_open_note() -> None:
    assert OpenNotes().as_draft() == {}
    both = OpenNotes(PACKER, (SHOP,))
    assert OpenNotes().restored(both.as_draft()) == both
    begun = OpenNotes(NoteTyped("Hill Farm", command="c-3"))
    assert begun.restored(both.as_draft()) == OpenNotes(begun.note, (PACKER, SHOP))
    aside = OpenNotes(NoteTyped(), (SHOP,)).as_draft()
    assert OpenNotes().restored(aside) == OpenNotes(NoteTyped(), (SHOP,))
    assert OpenNotes().restored({"notes": "?"}) == OpenNotes()


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def test_a_draft_tells_which_of_its_notes_were_signed(rig: DeskRig) -> None:
    goods = Goods(rig)
    facts = Dispatch("Packer", (DispatchLine(goods.drum),))
    done = rig.house.record(facts, Said(command="c-2"))
    commands = ["c-1", "c-2"]
    found = rig.house.ask(lambda view: already_sent(view, commands))
    assert found == {"c-2": done.given[0]}
    heard: list[tuple[Mapping[str, object], Mapping[str, str]]] = []
    drafts = NoteDrafts(rig.desk, lambda kept, sent: heard.append((kept, sent)))
    kept = OpenNotes(PACKER, (SHOP,))
    drafts.keep_now(kept)
    assert heard == [], "nothing is kept before it is known for which house"
    assert drafts.begin("ledger-1")
    rig.settle()
    assert heard == [], "there was nothing"
    drafts.keep(kept)
    rig.settle()
    again = NoteDrafts(rig.desk, lambda kept, sent: heard.append((kept, sent)))
    assert again.begin("ledger-1")
    assert not again.begin("ledger-1")
    rig.settle()
    ((found_kept, sent),) = heard
    assert OpenNotes().restored(found_kept) == kept
    assert sent == {"c-2": done.given[0]}
