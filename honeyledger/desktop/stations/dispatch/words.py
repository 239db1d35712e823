"""What dispatch says of a note: before it is signed, after a scan, once it is recorded."""

from dataclasses import replace

from honeyledger.desktop.language import first_note
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, recorded
from honeyledger.desktop.stations.dispatch.picking import Scanned, older_left
from honeyledger.desktop.stations.dispatch.rows import counted, customer_words, serial_words, tr
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Picked
from honeyledger.domain.units import MassUnit, format_mass
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.dispatching import OnShelf
from honeyledger.services.house import Recorded


def note_messages(note: NoteTyped, page: DispatchPage) -> list[Message]:
    """What is to be known of the lots on a note before it is signed."""
    messages = []
    for picked in note.picked:
        row = page.on_shelf(picked.code)
        if row is None:
            messages.append(Message(Mark.WARNING, picked.code, tr("is no longer here.")))
        elif row.held:
            messages.append(Message(Mark.HOLD, tr("On hold."), row.way or row.held))
        elif older := older_left(note, picked.code, page):
            lead = tr("{code} is older").format(code=older[0].code)
            words = tr("than {code} and is here still: the oldest goes first.")
            messages.append(Message(Mark.WARNING, lead, words.format(code=picked.code)))
    return messages


def scan_message(
    picked: Picked, what: Scanned, row: OnShelf | None, page: DispatchPage | None
) -> Message:
    """What a scan did, in a sentence."""
    if what is Scanned.TWICE:
        return Message(
            Mark.WARNING, picked.code, tr("is on this note already; nothing was added.")
        )
    if what is Scanned.COUNTED:
        words = tr("is on this note by count: change the number if more go.")
        return Message(Mark.WARNING, picked.code, words)
    if what is Scanned.ANOTHER_JAR:
        return Message(Mark.READY, picked.code, serial_words(picked))
    if row is None or page is None:
        return Message(Mark.READY, picked.code, tr("is on the note."))
    if picked.is_counted:
        words = tr("of {name}: how many go?")
        return Message(Mark.NOTE, picked.code, words.format(name=row.name))
    words = tr("is on the note: {mass}.")
    mass = format_mass(row.grams, page.unit)
    return Message(Mark.READY, picked.code, words.format(mass=mass))


def sent_message(note: NoteTyped, done: Recorded, unit: MassUnit) -> Message:
    """What came of recording a note, with the offer to reverse it."""
    entry = done.entries[0]
    words = tr("{code} is signed: {lots}, {mass} to {customer}.")
    if done.again:
        words = tr("{code} was signed already, as entry {entry}: it is kept once.")
    sentence = words.format(
        code=done.given[0],
        entry=entry.id,
        lots=counted(len(note.picked), tr("1 lot"), tr("{n} lots")),
        mass=format_mass(sum(row.grams for row in entry.postings if row.grams > 0), unit),
        customer=customer_words(note.customer),
    )
    return replace(recorded(sentence, entry.id), text=first_note(done.entries))
