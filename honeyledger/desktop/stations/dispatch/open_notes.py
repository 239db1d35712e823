"""The notes that are open on this computer: the one in hand, and those put aside."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, note_as_draft, note_from_draft
from honeyledger.services.dispatch_notes import given_code
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class OpenNotes:
    """One note in hand, begun or not, and those put aside, all of them begun."""

    note: NoteTyped = field(default_factory=NoteTyped)
    aside: tuple[NoteTyped, ...] = ()

    def with_note(self, note: NoteTyped, new_id: Callable[[], str]) -> "OpenNotes":
        """The note in hand is this now; once it is begun it has the id it will be recorded by."""
        if note.is_begun and not note.command:
            note = replace(note, command=new_id())
        return replace(self, note=note)

    def put_aside(self) -> "OpenNotes":
        """A new note in hand; the one before stays open."""
        aside = (*self.aside, self.note) if self.note.is_begun else self.aside
        return OpenNotes(NoteTyped(), aside)

    def take_up(self, at: int) -> "OpenNotes":
        """A note that was put aside in hand; the one before is put aside."""
        rest = tuple(one for place, one in enumerate(self.aside) if place != at)
        aside = (*rest, self.note) if self.note.is_begun else rest
        return OpenNotes(self.aside[at], aside)

    def without(self, commands: Sequence[str]) -> "OpenNotes":
        """Without the notes that were recorded under these ids."""
        aside = tuple(one for one in self.aside if one.command not in commands)
        note = NoteTyped() if self.note.command in commands else self.note
        return OpenNotes(note, aside)

    def and_aside(self, notes: Sequence[NoteTyped]) -> "OpenNotes":
        """With these put aside too."""
        return replace(self, aside=(*self.aside, *notes))

    def commands(self) -> list[str]:
        """The ids of all open notes."""
        return [one.command for one in (self.note, *self.aside) if one.command]

    def as_draft(self) -> dict[str, object]:
        """All open notes as a draft keeps them; nothing where there are none."""
        notes = [note for note in (self.note, *self.aside) if note.is_begun]
        if not notes:
            return {}
        return {
            "notes": [note_as_draft(note) for note in notes],
            "in_hand": self.note.is_begun,
        }

    def restored(self, kept: Mapping[str, object]) -> "OpenNotes":
        """With the notes a draft kept; a note that is in hand by now stays there."""
        rows = kept.get("notes", ())
        notes = [note_from_draft(row) for row in rows] if isinstance(rows, list) else []
        if notes and kept.get("in_hand") is True and not self.note.is_begun:
            return OpenNotes(notes[0], (*self.aside, *notes[1:]))
        return self.and_aside(notes)


def already_sent(view: View, commands: Sequence[str]) -> dict[str, str]:
    """Which of these ids were recorded, and the note each gave."""
    found = {}
    for command in commands:
        entries = view.entry_of_command(command)
        if entries:
            found[command] = given_code(entries[0])
    return found


class NoteDrafts:
    """Keeps the open notes as a draft; what was signed before the program stopped is not open.

    Args:
        restored: told of the draft that was left, and of the notes in it that were signed, by id.
    """

    def __init__(
        self,
        desk: Desk,
        restored: Callable[[Mapping[str, object], Mapping[str, str]], None],
    ) -> None:
        self._desk, self._restored = desk, restored
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)

    def begin(self, ledger: str) -> bool:
        """Read what was left for this house, once; answers whether this was that once."""
        if self._keeper.name:
            return False
        self._keeper.name = f"dispatch-{ledger}"
        self._keeper.read(self._read)
        return True

    def keep(self, notes: OpenNotes) -> None:
        """Keep these soon."""
        self._keeper.keep(notes.as_draft())

    def keep_now(self, notes: OpenNotes) -> None:
        """Keep these before going on: the window closes."""
        self._keeper.keep_now(notes.as_draft())

    def _read(self, kept: Mapping[str, object]) -> None:
        commands, house = OpenNotes().restored(kept).commands(), self._desk.house
        if commands:
            self._desk.jobs.read(
                lambda: house.ask(lambda view: already_sent(view, commands)),
                lambda outcome: self._restored(kept, outcome.value or {}),
            )
