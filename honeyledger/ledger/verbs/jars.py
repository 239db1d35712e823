"""Jars after bottling: labels put on later, under one product or several, and complaints."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.codes import JarCode
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import find_lot, find_record, read_code
from honeyledger.ledger.packaging import find_packaging, use_up
from honeyledger.ledger.places import key_of
from honeyledger.ledger.sources import number_in
from honeyledger.ledger.state import State
from honeyledger.ledger.yard_log import past_day

CLAIMS = {"claims_organic": "organic", "claims_region": "a region", "crop": "a crop year"}
LABELLED, COMPLAINT = "labelled/", "complaint/"

NO_LABELS = Sentence("no-labels", "Say how many jars of {code} were labelled.")
TORN_BELOW_NONE = Sentence("torn-below-none", "{torn} torn labels cannot be: type 0 or more.")
MORE_THAN_JARS = Sentence(
    "more-labels-than-jars",
    "Of {code} {left} are left without a label, not {asked}. Count again.",
)
ROLL_BACKWARDS = Sentence(
    "roll-backwards", "The roll ends at {last}, before it began at {first}. Read both again."
)
ROLL_DIFFERS = Sentence(
    "roll-differs",
    "The roll gave {used} labels for {jars} jars and {torn} torn: {off} {words}. Find them, or "
    "keep the strip.",
)
ROLL_AGAIN = Sentence(
    "roll-again",
    "Labels {first} to {last} were used with entry {entry} before: read the roll again, unless it "
    "is another roll.",
)
SEALS_AGAIN = Sentence(
    "seals-again",
    "Seals {first} to {last} were put on with entry {entry} before: read their numbers again.",
)
SEALS_BACKWARDS = Sentence(
    "seals-backwards", "The seals end with {last}, before {first}. Read both again."
)
OTHER_NET = Sentence(
    "other-net",
    "{product} says {says} and {code} was bottled at {net}: what a label says must be in the jar. "
    "Look at both before any of them go.",
)
OTHER_CLAIM = Sentence(
    "other-claim",
    "The label of {product} claims {claims}, and {code} was bottled as {bottled}, which does not: "
    "see what its make-up allows before any of them go.",
)
ON_OTHER_LABELS = Sentence(
    "on-other-labels",
    "{code} stands on labels of {others} already: whoever is warned of the code by one product's "
    "name has to hear of the other.",
)
NO_COMPLAINT = Sentence("no-complaint", "Say what the complaint is.")
NO_SUCH_COMPLAINT = Sentence(
    "no-such-complaint",
    "Entry {entry} is no complaint about {code}. Give the number of the entry that took it in.",
)
LOOK_AT_OTHERS = Sentence(
    "look-at-others",
    "Complaints about {code} before this one: {count}. Look at them together. What may hurt "
    "someone is held and told to your authority.",
)


@dataclass(frozen=True, slots=True)
class LabelJars:
    """Jars of a lot are labelled, under its product or another of the same honey and size.

    Args:
        roll_first, roll_last: the numbers on the roll before and after, where it has any.
        torn: labels spoilt.
        seal_first, seal_last: the first and last lid seal put on, where they are numbered.
        packaging: lots of labels, lids or seals used.
    """

    kind: ClassVar[str] = "label"
    lot: str
    jars: int
    product: str = ""
    roll_first: int | None = None
    roll_last: int | None = None
    torn: int = 0
    seal_first: str = ""
    seal_last: str = ""
    packaging: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Complain:
    """A complaint about a jar or a lot; its answer is the same again, with `completes`.

    Args:
        who: who says it, as they may be named; from: their town or shop.
        day: when it was said, ISO; else the entry's day.
    """

    kind: ClassVar[str] = "complaint"
    code: str
    what: str
    who: str = ""
    day: str = ""
    answer: str = ""
    completes: int = 0


def labelled_of(state: State, lot: Lot) -> dict[str, int]:
    """How many jars of a lot are labelled, by product key."""
    sums: dict[str, int] = {}
    for mark in state.marks(lot.code):
        if mark.name.startswith(LABELLED) and isinstance(mark.value, Mapping):
            product = str(mark.value.get("product", ""))
            sums[product] = sums.get(product, 0) + number_in(mark.value, "jars", 0)
    return sums


def note_other_product(b: Booking, lot: Lot, product: str) -> None:
    """A product of another net content than was bottled, or that claims more: said, and kept.

    What must stand on a label, and how exactly, is for the local code.
    """
    new, old = (_record(b, key) for key in (product, str(lot.attributes.get("product", ""))))
    name = str(new.get("name", "")) or product
    net, says = number_in(lot.attributes, "net_g", 0), number_in(new, "net_g", 0)
    if net and says and net != says:
        shown = {"says": format_mass(says, "g"), "net": format_mass(net, "g")}
        b.note(OTHER_NET, product=name, code=lot.code, **shown)
    claims = [words for key, words in CLAIMS.items() if new.get(key) not in (old.get(key), None)]
    if claims and new != old:
        bottled = old.get("name") or "another product"
        claimed = " and ".join(claims)
        b.note(OTHER_CLAIM, product=name, code=lot.code, claims=claimed, bottled=bottled)


def _record(b: Booking, product: str) -> Mapping[str, Json]:
    mark = b.state.mark(f"product/{product}", "record")
    return mark.value if mark and isinstance(mark.value, Mapping) else {}


def book_label(facts: LabelJars, b: Booking) -> None:
    """A fact of the jar lot under a product; packaging named comes into its reach."""
    lot = find_lot(b.state, facts.lot, "JK", "lot")
    product = _product(facts, lot, b)
    note_other_product(b, lot, product)
    if facts.jars < 1:
        raise Refusal(NO_LABELS, field="jars", code=lot.code)
    if facts.torn < 0:
        raise Refusal(TORN_BELOW_NONE, field="torn", torn=facts.torn)
    made, labelled = number_in(lot.attributes, "jars", 0), labelled_of(b.state, lot)
    left = made - sum(labelled.values())
    if facts.jars > left:
        raise Refusal(MORE_THAN_JARS, field="jars", code=lot.code, asked=facts.jars, left=left)
    if others := [str(_record(b, one).get("name", one)) for one in labelled if one != product]:
        b.note(ON_OTHER_LABELS, code=lot.code, others=" and ".join(sorted(others)))
    _check_roll(facts, b)
    if facts.seal_last and _number(facts.seal_last) < _number(facts.seal_first):
        shown = {"first": facts.seal_first, "last": facts.seal_last}
        raise Refusal(SEALS_BACKWARDS, field="seal_last", **shown)
    _note_again(facts, lot, b)
    packaging = find_packaging(b, facts.packaging)
    for one in packaging:
        b.late_origin(lot.id, one.id)
    use_up(b, packaging, facts.jars + facts.torn)
    roll = [facts.roll_first, facts.roll_last]
    b.mark(
        lot.code,
        f"{LABELLED}{b.entry_id}",
        {
            "product": product,
            "jars": facts.jars,
            "torn": facts.torn,
            "roll": roll if all(roll) else [],
            "seals": [facts.seal_first, facts.seal_last] if facts.seal_first else [],
        },
    )


def _product(facts: LabelJars, lot: Lot, b: Booking) -> str:
    if facts.product:
        return key_of(find_record(b.state, "product", facts.product)[0])
    amended = b.state.mark(lot.code, "product")
    return str(amended.value if amended else lot.attributes.get("product", ""))


def _check_roll(facts: LabelJars, b: Booking) -> None:
    if facts.roll_first is None or facts.roll_last is None:
        return
    used = facts.roll_last - facts.roll_first + 1
    if used < 1:
        raise Refusal(
            ROLL_BACKWARDS, field="roll_last", first=facts.roll_first, last=facts.roll_last
        )
    off = used - facts.jars - facts.torn
    if off:
        words = "too many" if off > 0 else "too few"
        shown = {"used": used, "jars": facts.jars, "torn": facts.torn}
        b.note(ROLL_DIFFERS, off=abs(off), words=words, **shown)


def _note_again(facts: LabelJars, lot: Lot, b: Booking) -> None:
    """Numbers of a roll and of seals are used once."""
    for mark in b.state.marks(lot.code):
        if not mark.name.startswith(LABELLED) or not isinstance(mark.value, Mapping):
            continue
        roll, seals = _ends(mark.value.get("roll")), _ends(mark.value.get("seals"))
        first, last = facts.roll_first, facts.roll_last
        if roll and first and last and first <= int(roll[1]) and int(roll[0]) <= last:
            b.note(ROLL_AGAIN, first=roll[0], last=roll[1], entry=mark.entry)
        start, end = _number(facts.seal_first), _number(facts.seal_last or facts.seal_first)
        if facts.seal_first and seals and start <= _number(seals[1]) and _number(seals[0]) <= end:
            b.note(SEALS_AGAIN, first=seals[0], last=seals[1], entry=mark.entry)


def _ends(value: object) -> tuple[str, str] | None:
    """The first and last number of a roll, or of seals; None where none were numbered."""
    rows = [str(one) for one in value if one] if isinstance(value, list) else []
    return (rows[0], rows[-1]) if rows else None


def _number(text: str) -> tuple[int, str]:
    """Seal numbers in order: longer ones are later, equal ones go by their characters."""
    return len(text.strip()), text.strip()


def book_complaint(facts: Complain, b: Booking) -> None:
    """A dated fact of the lot, with the jar it is about; its trace is made when asked for."""
    lot = find_lot(b.state, facts.code, field="code")
    code = read_code(b.state, facts.code, "code")
    if not facts.what.strip():
        raise Refusal(NO_COMPLAINT, field="what")
    number = facts.completes or b.entry_id
    before = [mark for mark in b.state.marks(lot.code) if mark.name.startswith(COMPLAINT)]
    if facts.completes and f"{COMPLAINT}{number}" not in {mark.name for mark in before}:
        raise Refusal(NO_SUCH_COMPLAINT, field="completes", entry=facts.completes, code=lot.code)
    value = {
        "what": facts.what.strip(),
        "who": facts.who.strip(),
        "jar": str(code) if isinstance(code, JarCode) else "",
        "day": past_day(b, facts.day, "day"),
        "answer": facts.answer.strip(),
    }
    b.mark(lot.code, f"{COMPLAINT}{number}", value)
    if before and not facts.completes:
        b.note(LOOK_AT_OTHERS, count=len(before), code=lot.code)
