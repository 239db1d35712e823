"""What is typed of a return, of what is thrown away, of a sample, and the facts it says."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from honeyledger.desktop.stations.dispatch.typed import text_in
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit, parse_mass_g
from honeyledger.ledger.lookup import NOTHING_NAMED
from honeyledger.ledger.verbs.dispatch import Discard, TakeBack
from honeyledger.ledger.verbs.quality import PutOnHold, Sample
from honeyledger.services.dispatch_returns import CameBack, Holder
from honeyledger.services.dispatching import parse_jars

LOT_BY_LOT = Sentence(
    "back-lot-by-lot",
    "All of {code} comes back to stock. To throw it away or hold it, scan its lots one by one.",
)
BACK, AWAY, SAMPLE = "back", "away", "sample"
TO_STOCK, TO_AWAY, TO_HOLD = "stock", "away", "hold"
IN_WORDS = "other"
WHOLE = "NCL"
# The field of the form in which a refused fact was typed.
FIELD_OF = {
    "code": "lot",
    "lots": "lot",
    "lot": "lot",
    "customer": "party",
    "jars": "count",
    "net_g": "mass",
    "reason": "reason",
    "target": "lot",
}


@dataclass(frozen=True, slots=True)
class OtherTyped:
    """One of the three forms; each uses the fields it has.

    Args:
        lot: the code that was scanned or typed; of a sample, several with commas between them.
        party: who had it.
        reason: one of the buttons, in its words; "other" where `words` say it.
        goes: where a return goes: to stock, thrown away, on hold.
        kept: where a sample is kept.
    """

    lot: str = ""
    party: str = ""
    jars: str = ""
    net: str = ""
    reason: str = ""
    words: str = ""
    goes: str = TO_STOCK
    kept: str = ""

    @property
    def is_begun(self) -> bool:
        """Whether there is anything to lose."""
        return self != OtherTyped()

    @property
    def why(self) -> str:
        """The reason as it is recorded."""
        return self.words.strip() if self.reason == IN_WORDS else self.reason

    @property
    def lots(self) -> tuple[str, ...]:
        """The codes typed, each once."""
        codes = [part.strip() for part in self.lot.replace(";", ",").split(",")]
        return tuple(dict.fromkeys(code for code in codes if code))


def facts_of(kind: str, typed: OtherTyped, unit: MassUnit, back: CameBack | None) -> list[Any]:
    """The facts a form says, to be recorded as one command.

    Args:
        back: who has what comes back, where that is known.

    Raises:
        Refusal: a number or a weight cannot be read; its field names which.
    """
    jars = parse_jars(typed.jars) if typed.jars.strip() else None
    if kind == SAMPLE:
        return [Sample(typed.lots, _grams(typed.net, "g"), typed.kept.strip())]
    net_g = parse_mass_g(typed.net, unit, field="net_g") if typed.net.strip() else None
    lot = typed.lot.strip()
    if not lot:
        raise Refusal(NOTHING_NAMED, field="code", noun="lot")
    if kind == AWAY:
        return [Discard(lot, typed.why, jars, net_g)]
    if typed.goes != TO_STOCK and is_whole(lot):
        raise Refusal(LOT_BY_LOT, field="lot", code=lot)
    facts: list[Any] = [TakeBack(typed.party.strip(), lot, typed.why, jars, net_g)]
    if typed.goes == TO_AWAY:
        facts.append(_thrown_away(typed, back, jars, net_g))
    elif typed.goes == TO_HOLD:
        facts.append(PutOnHold(lot, typed.why))
    return facts


def is_whole(text: str) -> bool:
    """Whether a note, a case or a pallet is meant, whatever the house's own letters before it."""
    if "," in text or ";" in text:
        return False
    letter = text.upper().rpartition("-")[0].rpartition("-")[0].rpartition("-")[2][:1]
    return bool(letter) and letter in WHOLE


def _grams(text: str, unit: MassUnit) -> int:
    return parse_mass_g(text, unit, field="net_g")


def _thrown_away(
    typed: OtherTyped, back: CameBack | None, jars: int | None, net_g: int | None
) -> Discard:
    """What came back is thrown away, and nothing of what is on the shelf."""
    had = holder_of(typed, back)
    if had is not None and jars is None and net_g is None:
        jars, net_g = (had.jars, None) if had.jars else (None, had.grams)
    return Discard(typed.lot.strip(), typed.why, jars, net_g)


def holder_of(typed: OtherTyped, back: CameBack | None) -> Holder | None:
    """The customer it comes back from, with what they have of it."""
    wanted = typed.party.strip().casefold()
    for one in back.holders if back else ():
        if wanted and wanted in (one.customer.casefold(), one.name.casefold()):
            return one
    return None


def other_as_draft(typed: OtherTyped) -> dict[str, object]:
    """A form as a draft keeps it."""
    return asdict(typed)


def other_from_draft(kept: object) -> OtherTyped:
    """What a draft kept; what it does not know stays empty."""
    if not isinstance(kept, Mapping):
        return OtherTyped()
    names = ("lot", "party", "jars", "net", "reason", "words", "kept")
    goes = text_in(kept, "goes") or TO_STOCK
    return OtherTyped(**{name: text_in(kept, name) for name in names}, goes=goes)
