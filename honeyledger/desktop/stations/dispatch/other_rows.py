"""What is said of a return, of what is thrown away, of a sample: what follows, what was done."""

from dataclasses import replace

from honeyledger.desktop.language import first_note
from honeyledger.desktop.messages import Message, recorded
from honeyledger.desktop.stations.dispatch.other_typed import (
    AWAY,
    BACK,
    TO_AWAY,
    TO_HOLD,
    OtherTyped,
)
from honeyledger.desktop.stations.dispatch.rows import counted, tr
from honeyledger.domain.units import MassUnit, format_number, format_weight
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import is_inside
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.house import Recorded


def amount_words(jars: int, grams: int, unit: MassUnit) -> str:
    """So much honey, in so many jars where it is in jars."""
    mass = format_weight(grams, unit)
    if not jars:
        return mass
    return tr("{jars}, {mass}").format(jars=counted(jars, tr("1 jar"), tr("{n} jars")), mass=mass)


def moved(entry: Entry) -> tuple[int, int]:
    """Jars and grams that an entry moves over the house's threshold, either way."""
    grams = abs(sum(row.grams for row in entry.postings if is_inside(row.place)))
    counts = [row[2] for row in rows_of(entry, "pieces") if is_inside(str(row[0]))]
    return abs(sum(count for count in counts if isinstance(count, int))), grams


def follows(kind: str, typed: OtherTyped, entry: Entry, page: DispatchPage) -> tuple[str, ...]:
    """What comes of it, line by line, before it is recorded."""
    jars, grams = moved(entry)
    amount = amount_words(jars, grams, page.unit)
    if kind == BACK:
        lines = [tr("{amount} of {lot} come back from {customer}.")]
        if typed.goes == TO_AWAY:
            lines.append(tr("They are thrown away at once, for the same reason."))
        elif typed.goes == TO_HOLD:
            lines.append(
                tr("All of {lot} is on hold from then on: what is here and what is made of it.")
            )
        else:
            lines.append(tr("They can be sent again."))
    elif kind == AWAY:
        lines = [
            tr("{amount} of {lot} leave the books as thrown away."),
            tr("Left of it here: {left}."),
            tr("What is thrown away can never be sent; entered wrongly, it can be reversed."),
        ]
    else:
        lines = [tr("{amount} are taken as a sample, with a code of their own.")]
    facts = {
        "amount": amount,
        "lot": typed.lot.strip().upper(),
        "customer": typed.party.strip(),
        "left": _left(typed, jars, grams, page),
    }
    return tuple(line.format(**facts) for line in lines)


def _left(typed: OtherTyped, jars: int, grams: int, page: DispatchPage) -> str:
    row = page.on_shelf(typed.lot.strip().upper())
    if row is None or row.grams <= grams:
        return tr("nothing")
    return amount_words(row.jars - jars, row.grams - grams, page.unit)


def done_message(kind: str, typed: OtherTyped, done: Recorded, unit: MassUnit) -> Message:
    """What was recorded, with the offer to reverse it."""
    first = done.entries[0]
    jars, grams = moved(first)
    amount = amount_words(jars, grams, unit)
    words = tr("Sample {code} is taken: {amount}.")
    if kind == BACK:
        words = tr("{amount} of {lot} came back.")
        if typed.goes == TO_AWAY:
            words = tr("{amount} of {lot} came back and were thrown away.")
        elif typed.goes == TO_HOLD:
            words = tr("{amount} of {lot} came back; the lot is on hold.")
    elif kind == AWAY:
        words = tr("{amount} of {lot} are thrown away.")
    if done.again:
        words = tr("That was recorded already, as entry {entry}: it is kept once.")
    sentence = words.format(
        amount=amount,
        lot=typed.lot.strip().upper(),
        code=next(iter(done.given), ""),
        entry=format_number(first.id),
    )
    return replace(recorded(sentence, done.entries[-1].id), text=first_note(done.entries))
