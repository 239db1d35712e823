"""A yard by its dates: what was put on, given, found and pulled there, as sentences."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from honeyledger.domain.moments import say_day
from honeyledger.domain.phrases import joined, phrase
from honeyledger.domain.units import MassUnit, format_weight
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import YARD
from honeyledger.ledger.sources import sources_of
from honeyledger.ledger.state import Mark
from honeyledger.ledger.yard_log import (
    CERTIFICATE,
    DISEASE,
    EMPTIES,
    FED,
    SUPERS_ON,
    TREATED,
    told,
)
from honeyledger.services.store import View

PULLED = "pull"


@dataclass(frozen=True, slots=True)
class YardDay:
    """One thing that is on record of a yard; `day` is ISO, `entry` where it was written."""

    day: str
    kind: str
    sentence: str
    entry: int


@dataclass(frozen=True, slots=True)
class YardDays:
    """A yard with all of them."""

    code: str
    name: str
    days: tuple[YardDay, ...]


def yard_days(view: View, text: str, unit: MassUnit = "kg") -> YardDays:
    """What is on record of a yard, oldest first; what was reversed is left out.

    Raises:
        Refusal: there is no such yard.
    """
    yard, record = find_record(view, YARD, text)
    rows = [row for mark in view.marks(yard) for row in _told_of(mark, unit)]
    for lot in view.source_lots(yard):
        if not view.reversed_by(lot.made_by) and sources_of(view, lot).get(yard, 0) > 0:
            supers = lot.attributes.get("count", 0)
            sentence = phrase("Pulled {n} supers as {code}.", n=supers, code=lot.code)
            pulled = str(lot.attributes.get("pulled", ""))
            rows.append(YardDay(pulled, PULLED, sentence, lot.made_by))
    rows.sort(key=lambda row: (row.day, row.entry))
    return YardDays(yard.partition("/")[2], str(record.get("name", "")), tuple(rows))


def _told_of(mark: Mark, unit: MassUnit) -> list[YardDay]:
    for under, (day, kind, sentence) in _WORDS.items():
        if mark.name == under or (under.endswith("/") and mark.name.startswith(under)):
            return [YardDay(told(mark, day), kind, sentence(mark, unit), mark.entry)]
    return []


def _supers(mark: Mark, _: MassUnit) -> str:
    box = told(mark, "box")
    if box:
        return phrase("{n} {box} supers put on.", n=told(mark, "count"), box=box)
    return phrase("{n} supers put on.", n=told(mark, "count"))


def _treated(mark: Mark, _: MassUnit) -> str:
    parts = [phrase("Treated with {product}", product=told(mark, "product"))]
    if active := told(mark, "active"):
        parts.append(phrase("active: {active}", active=active))
    if last := told(mark, "last_day"):
        parts.append(phrase("out on {day}", day=say_day(last)))
    if interval := told(mark, "interval"):
        parts.append(phrase("its label says {interval}", interval=interval))
    if clear := told(mark, "clear_day"):
        parts.append(phrase("not clear until {day}", day=say_day(clear)))
    if told(mark, "supers_on") == "1":
        parts.append(phrase("with supers on"))
    return joined((joined(parts), "."), "")


def _fed(mark: Mark, unit: MassUnit) -> str:
    net = mark.value.get("net_g") if isinstance(mark.value, Mapping) else None
    fed: str = told(mark, "what")
    if isinstance(net, int):
        fed = phrase("{mass} of {what}", mass=format_weight(net, unit), what=fed)
    if told(mark, "supers_on") == "1":
        return phrase("Fed {what}, with supers on.", what=fed)
    return phrase("Fed {what}.", what=fed)


def _disease(mark: Mark, _: MassUnit) -> str:
    until = told(mark, "until")
    name = told(mark, "name")
    if until:
        return phrase("Flagged for {name}, flag lifted on {day}.", name=name, day=say_day(until))
    return phrase("Flagged for {name}: empties are kept apart.", name=name)


def _certificate(mark: Mark, _: MassUnit) -> str:
    by, to = told(mark, "by"), told(mark, "to")
    words: str = phrase("Certificate {number}", number=told(mark, "number"))
    if by:
        words = phrase("{certificate} by {by}", certificate=words, by=by)
    if to:
        words = phrase("{certificate}, good until {day}", certificate=words, day=say_day(to))
    return joined((words, "."), "")


def _empties(mark: Mark, _: MassUnit) -> str:
    run = told(mark, "run")
    count, to = told(mark, "count"), told(mark, "to")
    if run:
        return phrase("{n} empties of {run} went to {to}.", n=count, run=run, to=to)
    return phrase("{n} empties went to {to}.", n=count, to=to)


_WORDS: Mapping[str, tuple[str, str, Callable[[Mark, MassUnit], str]]] = {
    SUPERS_ON: ("day", "supers on", _supers),
    TREATED: ("first_day", "treatment", _treated),
    FED: ("day", "feeding", _fed),
    DISEASE: ("since", "disease", _disease),
    CERTIFICATE: ("from", "certificate", _certificate),
    EMPTIES: ("day", "empties", _empties),
}
