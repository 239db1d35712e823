"""How entries, their reversal and the keeping of the house are said on the page."""

from collections.abc import Sequence
from pathlib import Path

from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.days import format_moment
from honeyledger.desktop.models.frame_facts import ago
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.entries.amends import tr
from honeyledger.desktop.stations.entries.presenter import EntriesPage, Previewed
from honeyledger.domain.moments import Moment
from honeyledger.domain.units import format_number
from honeyledger.services.backups import AtStake, Keeper
from honeyledger.services.journal_words import EntryRow
from honeyledger.services.labelling import HEAD_DIGITS

MOST_STATIONS = 6


def state_of(row: EntryRow) -> str:
    """What is unusual about an entry, in a word or two; nothing of most."""
    if row.reversed_by:
        return tr("reversed")
    if row.reverses:
        return tr("reversal")
    return tr("typed late") if row.late else ""


def mark_of(row: EntryRow) -> Mark | None:
    """The mark of its state."""
    if row.reversed_by or row.reverses:
        return Mark.REVERSED
    return Mark.NOTE if row.late else None


def parted(sentence: str) -> tuple[str, str]:
    """A sentence's first words for a table's row, and the rest for the line under them."""
    first, between, rest = sentence.partition("; ")
    if not between:
        first, between, rest = sentence.partition(tr(" from "))
        rest = f"{between.strip()} {rest}" if rest else ""
    return (first, rest) if rest else (sentence, "")


def under(row: EntryRow) -> str:
    """The line under an entry's first words: the rest of them, and who said it."""
    rest = parted(say(row.sentence))[1]
    who = ", ".join(part for part in (row.by, row.station) if part)
    return " ".join(part for part in (rest, f"({who})" if who else "") if part)


def shortly(moment: Moment) -> str:
    """The day and the time; the year stands with the entry itself."""
    day, month, _year, time = format_moment(moment).split(" ")
    return f"{day} {month} {time}"


def entry_columns(*, whole: bool = True) -> tuple[Column[EntryRow], ...]:
    """The columns of the list; of a preview what matters there."""
    columns: tuple[Column[EntryRow], ...] = (
        Column("entry", tr("Entry"), lambda row: format_number(row.entry), least=64),
        Column("when", tr("When"), lambda row: shortly(row.happened), least=104, from_width=620),
        Column("state", tr("State"), state_of, ColumnKind.STATE, mark=mark_of, from_width=480),
        Column(
            "what",
            tr("What was recorded"),
            lambda row: parted(say(row.sentence))[0],
            ColumnKind.NAME,
            note=under,
            strong=True,
        ),
    )
    return columns if whole else tuple(one for one in columns if one.key != "state")


def entry_notes(row: EntryRow) -> list[Message]:
    """All there is to say of one entry."""
    notes = [Message(Mark.REVERSED if row.reversed_by else Mark.READY, say(row.sentence))]
    if row.reversed_by:
        words = tr("Reversed by entry {n}.").format(n=format_number(row.reversed_by))
        notes.append(Message(Mark.REVERSED, words))
    when = tr("Happened {moment}.").format(moment=format_moment(row.happened))
    by = tr("By {name}.").format(name=row.by) if row.by else tr("Nobody was signed in.")
    at = tr("Recorded at {station}.").format(station=row.station) if row.station else ""
    notes.append(Message(Mark.NOTE, when, " ".join(part for part in (by, at) if part)))
    if row.late:
        words = tr("Typed well after it happened: reach is wider for it.")
        notes.append(Message(Mark.NOTE, words))
    return notes


def undo_messages(preview: Previewed) -> list[Message]:
    """What a person should know before reversing."""
    what, others = preview.what, len(preview.what.rows) - 1
    if preview.refusal is not None:
        return [
            Message(Mark.REFUSED, tr("This cannot be reversed."), refusal_words(preview.refusal))
        ]
    messages = []
    if others and what.has_left and what.amends:
        lead = tr("Honey of it was bottled or has left the house.")
        words = tr("Amend it instead: codes and labels stay true, old and new stay in reach.")
        messages.append(Message(Mark.WARNING, lead, words))
    if others:
        one = tr("One entry is built on it.")
        lead = one if others == 1 else tr("{n} entries are built on it.").format(n=others)
        words = tr("All are reversed together, newest first, or none is.")
        messages.append(Message(Mark.WARNING, lead, words))
    return messages


def house_messages(
    page: EntriesPage, keeper: Keeper | None, station: str, now_ms: int
) -> list[Message]:
    """How the house is kept: what needs a person, the backup, the head, the stations."""
    lead = tr("See to where the house is kept.")
    messages = [Message(Mark.WARNING, lead, words) for words in page.warnings]
    if page.checks:
        lead = tr("One check is due.")
        if page.checks > 1:
            lead = tr("{n} checks are due.").format(n=format_number(page.checks))
        messages.append(Message(Mark.WAITING, lead, tr("Ctrl+Shift+C lists them.")))
    if keeper is not None:
        messages.append(backup_message(page.stake, keeper, now_ms))
    head = page.head
    words = tr("Head {digits}, the last of {n} entries. Labels and prints carry it.")
    digits = head.digest[:HEAD_DIGITS].upper()
    n = format_number(head.entry)
    messages.append(Message(Mark.READY, tr("The ledger."), words.format(digits=digits, n=n)))
    messages.append(Message(Mark.NOTE, tr("Stations."), _stations(page, station, now_ms)))
    return messages


def backup_message(stake: AtStake | None, keeper: Keeper, now_ms: int) -> Message:
    """How old the last backup is and what it lacks, in words."""
    if keeper.kept == "server":
        words = tr("The database server's own tools do it: ask whoever keeps the server.")
        return Message(Mark.NOTE, tr("Backups are made on the server."), words)
    if stake is None:
        words = tr("This house is for looking around.")
        return Message(Mark.NOTE, tr("Not backed up."), words)
    lost = tr("{n} entries are on this computer alone.").format(n=format_number(stake.entries))
    mark = Mark.WARNING if stake.is_old(now_ms) else Mark.NOTE
    if stake.kept is None:
        return Message(mark, tr("Never backed up from here."), lost if stake.entries else "")
    lead = tr("Last backup {ago}.").format(ago=ago(max(0, now_ms - stake.kept.at_ms)))
    words = tr("It is {file}.").format(file=Path(stake.kept.file).name)
    if not stake.entries:
        return Message(Mark.READY, lead, words)
    return Message(mark, lead, f"{words} {lost}")


def _stations(page: EntriesPage, station: str, now_ms: int) -> str:
    """Who recorded lately, the latest first."""
    names = []
    for one in page.seen[:MOST_STATIONS]:
        name = one.station or tr("unnamed")
        here = tr("{name}, this one,") if one.station == station else "{name}"
        when = ago(max(0, now_ms - one.recorded_ms))
        names.append(f"{here.format(name=name)} {when}")
    return f"{'; '.join(names)}." if names else tr("Nothing was recorded yet.")


def answer(rows: Sequence[EntryRow], *, more: bool, filtered: bool) -> str:
    """The sentence that opens the page."""
    if not rows:
        return tr("No entry is like that.") if filtered else tr("Nothing was recorded yet.")
    count = format_number(len(rows))
    newest = tr("The last was recorded {moment}.").format(moment=format_moment(rows[0].happened))
    if filtered:
        one = len(rows) == 1
        words = tr("One entry is like that.") if one else tr("{n} entries are like that.")
        if more:
            words = tr("{n} entries are like that, and older ones.")
        return f"{words.format(n=count)} {newest}"
    return newest
