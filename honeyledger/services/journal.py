"""What was recorded, entry by entry: each as one sentence, told from the house's side.

It also says what would be undone with an entry, and what of it can be amended instead.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from honeyledger.domain.codes import JarCode
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.ledger.in_run import MAY_BE_OF_RUN, entries_in, run_of
from honeyledger.ledger.lookup import read_code, refuse_unknown
from honeyledger.ledger.places import DRUM, PALLET, VESSEL, YARD, key_of, place
from honeyledger.ledger.sources import is_unknown
from honeyledger.ledger.verbs.corrections import chain_of, find_entry
from honeyledger.services.journal_words import EntryRow, EntryTeller
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

USUAL_COUNT = 200
_LATEST = 60  # lots whose entries a place or a yard is told by
# What has left the house with an entry of these kinds has labels that others rely on.
GONE = ("dispatch", "bottle")


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which entries are wanted: all of them where nothing is said.

    Args:
        kinds: the kinds of entries.
        station: the station that recorded them.
        code: what they are about: a lot, a jar, a place, a yard, a run.
        before: only entries below this number; 0 for the newest.
        count: how many at most.
    """

    kinds: tuple[str, ...] = ()
    station: str = ""
    code: str = ""
    before: int = 0
    count: int = USUAL_COUNT


@dataclass(frozen=True, slots=True)
class Amendable:
    """One way in which the books can have been wrong: what is amended, of which code.

    Args:
        what: "yard", "supplier", "pallet", "run", "entry", "load", "source", "container",
            "filled_on", "product".
        code: the lot's code; of a load and of what is in no run, its entry's number.
        now: what the books say, by name.
    """

    what: str
    code: str
    now: str


@dataclass(frozen=True, slots=True)
class Undoing:
    """What reversing an entry would take with it, newest first, and what to amend instead.

    Args:
        has_left: whether honey of it was bottled or has left the house.
    """

    rows: tuple[EntryRow, ...]
    amends: tuple[Amendable, ...]
    has_left: bool


def entry_rows(view: View, wanted: Wanted = Wanted(), unit: MassUnit = "kg") -> list[EntryRow]:
    """The entries wanted, newest first.

    Raises:
        Refusal: the code is none of this house; near codes that exist are offered.
    """
    teller = EntryTeller(view, unit)
    return [teller.row(entry) for entry in reversed(_entries(view, wanted))]


def undoing(view: View, entry_id: int, unit: MassUnit = "kg") -> Undoing:
    """The chain of an entry as a chain reversal would reverse it.

    Raises:
        Refusal: there is no such entry.
    """
    first = find_entry(view, entry_id)
    found = [view.entry(one) for one in chain_of(view, entry_id)]
    chain = [entry for entry in found if entry is not None]
    teller = EntryTeller(view, unit)
    return Undoing(
        tuple(teller.row(entry) for entry in chain),
        tuple(_amendable(view, first, teller.names)),
        any(entry.kind in GONE for entry in chain),
    )


# Which entries.


def _entries(view: View, wanted: Wanted) -> Sequence[Entry]:
    below = wanted.before or view.head().entry + 1
    if not wanted.code.strip():
        return view.entries_before(below, wanted.count, wanted.kinds, wanted.station)
    fitting = {
        entry.id: entry
        for entry in _about(view, wanted.code)
        if entry.id < below
        and (not wanted.kinds or entry.kind in wanted.kinds)
        and wanted.station in ("", entry.act.station)
    }
    return [fitting[one] for one in sorted(fitting)[-wanted.count :]]


def _about(view: View, text: str) -> list[Entry]:
    """The entries that are about what a code names, reversed ones included."""
    code = read_code(view, text, "code")
    plain = code.lot if isinstance(code, JarCode) else code
    if not view.is_given(str(plain)):
        raise refuse_unknown(view, text, "code")
    lot = view.lot_by_code(str(plain))
    if lot is not None:
        return list(view.history(lot.id))
    if plain.letter == "R":
        return entries_in(view, str(plain))
    if plain.letter == "Y":
        made = [view.entry(one.made_by) for one in view.source_lots(place(YARD, str(plain)))]
        return [entry for entry in made[-_LATEST:] if entry is not None]
    if plain.letter in "GE":
        return _at_place(view, _place_of(view, plain.letter, str(plain)))
    # A note, a case, a badge: the entry that gave it, and what carries it.
    newest = view.entries_before(view.head().entry + 1, _LATEST * 20)
    return [entry for entry in newest if _carries(entry, str(plain))]


def _place_of(view: View, letter: str, code: str) -> str:
    if letter == "G":
        return place(PALLET, code)
    kinds = [kind for kind in (VESSEL, DRUM) if view.mark(place(kind, code), "record")]
    return place(kinds[0] if kinds else VESSEL, code)


def _at_place(view: View, where: str) -> list[Entry]:
    lots = sorted({stay.lot for stay in view.stays(where, 0)})[-_LATEST:]
    return [
        entry
        for lot in lots
        for entry in view.history(lot)
        if any(posting.place == where for posting in entry.postings)
    ]


def _carries(entry: Entry, code: str) -> bool:
    if entry.act.operator == code or any(row[0] == code for row in rows_of(entry, "codes")):
        return True
    return any(key_of(str(name)) == code for _, name, _ in rows_of(entry, "marks"))


# What to amend instead.


def _amendable(view: View, entry: Entry, names: PlaceNames) -> list[Amendable]:
    """The ways in which this entry can have been wrong that an amendment puts right."""
    if entry.reverses or view.reversed_by(entry.id):
        return []
    ways: list[Amendable] = []
    for lot in entry.lots:
        ways += _of_lot(lot, names)
    found = [lot for lot in entry.lots if lot.kind == "D" and entry.kind == "found drum"]
    ways = [*(Amendable("run", lot.code, "") for lot in found), *ways]
    arrived = [str(where) for where, _ in rows_of(entry, "arrived")]
    if entry.kind == "load" and arrived:
        ways.append(Amendable("load", str(entry.id), names[arrived[0]]))
    if entry.kind in MAY_BE_OF_RUN and not run_of(view, entry):
        ways.append(Amendable("entry", str(entry.id), ""))
    return ways


def _of_lot(lot: Lot, names: PlaceNames) -> list[Amendable]:
    attributes = {name: str(value) for name, value in lot.attributes.items()}
    if is_unknown(lot):
        return [Amendable("pallet", lot.code, names.of_record(attributes.get("place", "")))]
    if lot.kind == "S":
        yard = names.of_record(f"yard/{attributes.get('yard', '')}")
        return [Amendable("yard", lot.code, yard)]
    if lot.kind == "P":
        supplier = names.of_record(f"supplier/{attributes.get('supplier', '')}")
        return [Amendable("supplier", lot.code, supplier)]
    if lot.kind == "D":
        drum = names.of_record(f"drum/{attributes.get('container', '')}")
        source = Amendable("source", lot.code, "")
        return [
            Amendable("container", lot.code, drum),
            Amendable("filled_on", lot.code, ""),
            source,
        ]
    if lot.kind == "J":
        product = names.of_record(f"product/{attributes.get('product', '')}")
        return [Amendable("product", lot.code, product), Amendable("source", lot.code, "")]
    return []
