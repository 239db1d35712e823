"""What the bottling says: claims a make-up allows, net contents, what would be recorded."""

from collections.abc import Mapping

from honeyledger.desktop.language import note_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, recorded
from honeyledger.desktop.stations.bottling.rows import tr
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LEFT,
    START,
    AtFiller,
    Typed,
    jars_by_mass,
)
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import FILLING, class_of
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.services.bottling import BottlingSheet
from honeyledger.services.bottling_page import BottlingPage
from honeyledger.services.house import Recorded, notes_of

_FAR_OFF = 10  # a counter off the mass by more than a tenth is read again; common practice
# What a note of the ledger is to a person: something to act on, or something to know.
_WARNINGS = frozenset(
    {"unknown-honey", "went-on-despite-hold", "more-than-the-books", "bottled-may-ferment"}
)


def next_step(page: BottlingPage | None, typed: Typed) -> str:
    """What the empty slot says."""
    sheet = page.sheet if page else None
    feed = sheet.feed.name if sheet else ""
    if typed.kind == START and typed.order:
        return tr("Scan the next drum of the order, or Enter to go on.")
    return {
        START: tr("Choose the product, then scan its drums in their order."),
        "weigh": tr("Weigh filled jars. Scan {feed} when it is empty.").format(feed=feed),
        CHANGE: tr("Read the counter, or the case number."),
        CLOSE: tr("What does the counter say at the end?"),
        "labels": tr("Every jar label has the caution about infants."),
        LEFT: tr("Weigh the drum with what is left in it."),
    }[typed.kind]


def look_messages(
    entry: Entry, page: BottlingPage, typed: Typed, filler: AtFiller, facts: object
) -> list[Message]:
    """What would be recorded, and what the ledger would note of it."""
    messages = [_noted(key, note_words(key, text)) for key, text in notes_of(entry)]
    sheet = page.sheet
    if typed.kind == START:
        return messages + [Message(Mark.HOLD, tr("On hold."), say(why)) for why in page.holds]
    if sheet is None or not isinstance(facts, ChangeOver | Bottle):
        return messages
    filled_g = _filled_g(entry, sheet)
    jars = facts.jars - sheet.bottling.jars
    by_mass = jars_by_mass(sheet, filler) - sheet.bottling.jars
    if facts.empty and abs(jars - by_mass) * _FAR_OFF > max(by_mass, 1):
        words = tr("{n} by mass: is it empty, and the count right?")
        lead = tr("{n} jars typed,").format(n=format_number(jars))
        messages.append(Message(Mark.WARNING, lead, words.format(n=format_number(by_mass))))
    left_g = 0 if facts.empty else max(0, sheet.feed.grams - filled_g)
    words = tr("{mass} from {feed}, {left} left there.")
    said = words.format(
        mass=format_mass(filled_g, page.unit),
        feed=sheet.feed.name,
        left=format_mass(left_g, page.unit) if left_g else tr("nothing"),
    )
    lead = tr("{n} jars:").format(n=format_number(jars))
    return [*messages, Message(Mark.NOTE, lead, said)]


def _noted(key: str, text: str) -> Message:
    mark = Mark.WARNING if key in _WARNINGS else Mark.NOTE
    lead, found, rest = text.partition(": ")
    if found and len(lead) < 32:
        return Message(mark, f"{lead}:", rest)
    return Message(mark, text)


def _filled_g(entry: Entry, sheet: BottlingSheet) -> int:
    """What the entry fills into jars: those it makes a lot of were filled before, in part."""
    made = sum(lot.made_g for lot in entry.lots if lot.kind == "J")
    if made:
        return made - sheet.filled_g
    return sum(row.grams for row in entry.postings if class_of(row.place) == FILLING)


def done_message(done: Recorded, page: BottlingPage, typed: Typed) -> Message:
    """The short line after recording, which offers to reverse it."""
    entry, unit = done.entries[-1], page.unit
    sentence = {
        START: lambda: _started(done, page, typed),
        CHANGE: lambda: _changed(entry, page, typed),
        CLOSE: lambda: _closed(entry, page, unit),
        LEFT: lambda: tr("{drum} is weighed.").format(drum=typed.lot.strip()),
    }[typed.kind]()
    return recorded(sentence, entry.id)


def _started(done: Recorded, page: BottlingPage, typed: Typed) -> str:
    names = {row.key: row.name for row in page.products}
    code = next(iter(done.given), "")
    words = tr("Bottling {code} of {product} has begun.")
    return words.format(code=code, product=names.get(typed.product, typed.product))


def _changed(entry: Entry, page: BottlingPage, typed: Typed) -> str:
    said = entry.facts.get("said", {})
    jars = said.get("jars", 0) if isinstance(said, Mapping) else 0
    names = {code: feed.name for feed in page.feeds for code in feed.codes}
    if not typed.next.strip():
        return tr("{n} jars so far.").format(n=format_number(int(str(jars))))
    following = names.get(typed.next.strip(), typed.next.strip())
    words = tr("{n} jars so far; {feed} runs now.")
    return words.format(n=format_number(int(str(jars))), feed=following)


def _closed(entry: Entry, page: BottlingPage, unit: MassUnit) -> str:
    lot = next(lot for lot in entry.lots if lot.kind == "J")
    name = page.sheet.bottling.product.name if page.sheet else ""
    words = tr("{code} is made: {n} jars of {product}, {mass}.")
    return words.format(
        code=lot.code,
        n=format_number(int(str(lot.attributes.get("jars", 0)))),
        product=name,
        mass=format_mass(lot.made_g, unit),
    )
