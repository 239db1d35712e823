"""The heat log: honey liquefied, or warmed for other work, with how hot and how long.

Heat adds up in a lot. Above a house's liquefying heat the lot counts as heated, and what it goes
into shows it. An entry is undone by reversing it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_temperature
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.heat import HEATED
from honeyledger.ledger.lookup import code_in, find_lot
from honeyledger.ledger.mixing import feed, name_of, settle
from honeyledger.ledger.places import JARS
from honeyledger.ledger.sources import NOT_IN_HOUSE, NOTHING_THERE, find_source
from honeyledger.ledger.verbs.measuring import check_reading

HOW_LONG = Sentence("how-long", "Say how long it was warm: at least a minute.")
HMF_RISES = Sentence(
    "hmf-rises",
    "{code} has been at {temperature} or so for {hours} h in all: in published trials HMF came to "
    "30 mg/kg after {bound} h and more. Cool it, keep it short, and have it tested.",
)
HEAT_TELLS = Sentence(
    "heat-tells",
    "{code} counts as heated now: above 40 °C HMF rises and enzymes (diastase) are lost. Have "
    "both tested before it is sold as raw or unheated, as your local code has it.",
)
SCALDS = Sentence(
    "scalds", "Honey at {temperature} scalds and sticks: gloves, and nobody alone with it."
)
COUNTS_AS_HEATED = 400  # tenths of a degree Celsius; common practice, no source
LONG_MIN = 12 * 60  # common practice, no source: shorter is a warm bucket
SCALDING = 500  # common practice, no source
LOG = "heat/"  # a mark on a lot's code, for each time it was warm

# Shortest times to 30 mg/kg HMF, by tenths of a degree Celsius: hours. White, Kushnir and Subers
# 1964, as reprinted in a manual of beekeeping; two reprints disagree, the shorter one is taken.
HMF_HOURS: Mapping[int, int] = {300: 2_400, 400: 480, 500: 96, 600: 24, 700: 3, 800: 1}
TOLD_PERMILLE = 250  # of the shortest time; common practice, no source


@dataclass(frozen=True, slots=True)
class Warm:
    """Honey was kept warm.

    Args:
        what: a drum, a vessel, or jars by their lot.
        temperature: the hottest, tenths of a degree Celsius.
        minutes: how long; the entry's time is when it ended.
        why: what for, such as liquefying.
    """

    kind: ClassVar[str] = "warm"
    what: str
    temperature: int
    minutes: int
    why: str = ""


def book_warm(facts: Warm, b: Booking) -> None:
    """What stands there takes the heat, as one lot: warming a vessel mixes it."""
    check_reading("temperature", facts.temperature)
    if facts.minutes < 1:
        raise Refusal(HOW_LONG, field="minutes")
    lot = _warmed(facts.what, b)
    value = {"temperature": facts.temperature, "minutes": facts.minutes, "why": facts.why}
    b.mark(lot.code, f"{LOG}{b.entry_id}", value)
    if facts.temperature > COUNTS_AS_HEATED:
        b.mark(lot.code, HEATED, value)
    _tell(facts, lot, b)


def _warmed(text: str, b: Booking) -> Lot:
    code = code_in(b.state, text, "what") if text.strip() else None
    if code is not None and code.letter in "JK":
        lot = find_lot(b.state, text, "JK", "what")
        if not any(row.lot.id == lot.id and row.grams for row in b.standing(JARS)):
            raise Refusal(NOT_IN_HOUSE, field="what", code=lot.code)
        return lot
    where = find_source(b, text, "what")
    feed(b, where)
    if b.grams_at(where) <= 0:
        raise Refusal(NOTHING_THERE, field="what", place=name_of(b.state, where))
    lot = b.lot(settle(b, where))
    b.touches(where)
    return lot


def _tell(facts: Warm, lot: Lot, b: Booking) -> None:
    if facts.temperature >= SCALDING:
        b.note(SCALDS, temperature=format_temperature(facts.temperature))
    heats = [mark.value for mark in b.state.marks(lot.code) if mark.name.startswith(LOG)]
    now: list[Json] = b.marked_now(lot.code, LOG)
    spent = dict.fromkeys(HMF_HOURS, 0)
    for heat in [*heats, *now]:
        assert isinstance(heat, Mapping)
        band = _band(int(str(heat["temperature"])))
        if band:
            spent[band] += int(str(heat["minutes"]))
    used = sum(minutes * 1_000 // (HMF_HOURS[band] * 60) for band, minutes in spent.items())
    band = _band(facts.temperature)
    if facts.temperature > COUNTS_AS_HEATED and facts.minutes >= LONG_MIN:
        b.note(HEAT_TELLS, code=lot.code)
    if band and used >= TOLD_PERMILLE:
        b.note(
            HMF_RISES,
            code=lot.code,
            temperature=format_temperature(band),
            hours=f"{spent[band] / 60:.1f}",
            bound=HMF_HOURS[band],
        )


def _band(temperature: int) -> int:
    """The warmest row of the table that was reached; 0 where it was cooler than all of them."""
    return max((band for band in HMF_HOURS if band <= temperature), default=0)
