"""From the page of checks to its tables, its heading and what is told of the row in hand."""

from datetime import date

from honeyledger.desktop.language import fact_word, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.days import format_day, format_moment
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.checks.asks import row_name
from honeyledger.desktop.stations.checks.words import counted, tr
from honeyledger.domain.checks import PRACTICE, WORDS, State, every_words
from honeyledger.services.checks import CheckRow, ChecksPage
from honeyledger.services.checks_used import Used, UsedRow

_MARKS = {
    State.OFF: Mark.REFUSED,
    State.OVERDUE: Mark.WARNING,
    State.DUE: Mark.WAITING,
    State.NEVER: Mark.NOTE,
    State.IN_ORDER: Mark.READY,
}
_ORDER = tuple(WORDS)


def check_columns() -> tuple[Column[CheckRow], ...]:
    """What is to be checked, when, and how it was."""
    return (
        Column(
            "state",
            tr("State"),
            lambda row: say(WORDS[row.state]),
            ColumnKind.STATE,
            mark=lambda row: _MARKS[row.state],
            sort_key=lambda row: _ORDER.index(row.state),
        ),
        Column(
            "name",
            tr("Check"),
            lambda row: fact_word(row.check.name),
            ColumnKind.NAME,
            note=lambda row: row.name,
            sort_key=lambda row: fact_word(row.check.name).casefold(),
            least=150,
        ),
        Column(
            "due",
            tr("Due"),
            lambda row: format_day(row.due) if row.due else "",
            sort_key=lambda row: row.due.toordinal() if row.due else 0,
        ),
        Column(
            "every",
            tr("How often"),
            lambda row: say(every_words(row.check.every)),
            from_width=640,
        ),
        Column("by", tr("By"), lambda row: row.by, from_width=900),
    )


def used_columns() -> tuple[Column[UsedRow], ...]:
    """What used it since: lots by code, of jars their serials."""
    return (
        Column("code", tr("Lot"), lambda row: row.code, ColumnKind.CODE),
        Column("noun", tr("What"), lambda row: say(row.noun)),
        Column("jars", tr("Jars"), lambda row: row.jars_text, ColumnKind.NAME, least=96),
        Column(
            "state",
            tr("State"),
            lambda row: tr("on hold") if row.held else tr("free"),
            ColumnKind.STATE,
            mark=lambda row: Mark.HOLD if row.held else Mark.NOTE,
        ),
    )


def heading(page: ChecksPage) -> str:
    """How many checks need a person."""
    if not page.waiting:
        return tr("Every check is in order")
    return counted(page.waiting, tr("One check needs a person"), tr("{n} checks need a person"))


def told(row: CheckRow, used: Used | None) -> list[Message]:
    """What there is to know of a check."""
    if used is not None:
        return [_since(row, used)]
    messages = []
    if row.state is State.OFF:
        lead = tr("{check} is off, as long as it has been here.").format(check=row_name(row))
        words = tr("All that was ever made is in doubt. Keep the check again with a time.")
        messages.append(Message(Mark.REFUSED, lead, words))
    look = fact_word(row.check.look or row.check.name)
    often = say(every_words(row.check.every)).capitalize()
    source = f"{often}; {source_words(row.check.source)}."
    messages.append(Message(Mark.NOTE, look, source))
    if row.last_day:
        messages.append(Message(Mark.READY, _last(row), row.note))
    return messages


def source_words(source: str) -> str:
    """Where an interval is from; the usual words in the language in use."""
    return tr("common practice, no source") if source == PRACTICE else source


def _last(row: CheckRow) -> str:
    result = tr("right") if row.result == "ok" else tr("off")
    words = tr("Last time: {result}, {day}")
    made = words.format(result=result, day=_day(row.last_day))
    more = [part for part in (row.value, row.by) if part]
    return ", ".join([made, *more])


def _day(iso: str) -> str:
    return format_day(date.fromisoformat(iso))


def _since(row: CheckRow, used: Used) -> Message:
    """Found off, since when, and what it puts in doubt."""
    lead = tr("{check} is off, as long as it has been here.").format(check=row_name(row))
    if used.since is not None:
        lead = tr("{check} may be off since {moment}.").format(
            check=row_name(row), moment=format_moment(used.since)
        )
    if not used.rows:
        return Message(Mark.REFUSED, lead, tr("Nothing used it since."))
    lots = counted(len(used.rows), tr("1 lot used it"), tr("{n} lots used it"))
    runs = counted(len(used.runs), tr("in 1 run"), tr("in {n} runs")) if used.runs else ""
    free = counted(used.free, tr("1 of them is free"), tr("{n} of them are free"))
    parts = [part for part in (lots, runs, free) if part]
    text = ", ".join(parts) + "."
    if used.is_wide:
        text += " " + tr("Nobody said what it is part of, so all that was made since is meant.")
    return Message(Mark.REFUSED, lead, text)
