"""What else the house makes: wax and melter honey, cut comb, chunk honey.

Barrels of cappings are filled into a drainer, spinner or melter and honey out of it like out of
any vessel. Here is what makes lots of its own. Each of these entries is undone by reversing it; a
wrong yard or vessel behind them is amended.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, format_number, largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.heat import HEATED
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.in_run import check_run_open, of_run
from honeyledger.ledger.lookup import find_lot, find_record, find_vessel
from honeyledger.ledger.mixing import Taken, contents, put
from honeyledger.ledger.places import BARREL, DISCARDED, JARS, key_of, place
from honeyledger.ledger.plausible import note_cut, note_piece
from honeyledger.ledger.pouring import take
from honeyledger.ledger.sources import NOT_IN_HOUSE, find_source, number_in
from honeyledger.ledger.state import Holding
from honeyledger.ledger.verbs.bottling import NO_NET_CONTENT
from honeyledger.ledger.verbs.dispatch import part_of
from honeyledger.ledger.verbs.dock import CUT, LOADED, leave_empty, pallet_rows, take_supers
from honeyledger.ledger.verbs.drums import SAME_VESSEL
from honeyledger.ledger.verbs.floor import just_taken
from honeyledger.ledger.verbs.measuring import check_reading

WAX, MELTED, TRIMMINGS = "wax", "melter honey", "trimmings"
CUT_COMB, CHUNK_HONEY = "cut comb", "chunk honey"

NOTHING_MELTED = Sentence(
    "nothing-melted", "Weigh what came out of the melter: wax, honey or residue."
)
BELOW_NOTHING = Sentence(
    "below-nothing", "{what} cannot weigh {grams}: weigh it again, or leave it out."
)
HOT_WAX = Sentence(
    "hot-wax",
    "Hot wax burns and catches fire: a water jacket and never an open flame, gloves, and a lid at "
    "hand.",
)
IS_HEATED = Sentence(
    "is-heated",
    "{code} is heated honey, darker and higher in HMF: what it goes into says so. Do not feed it "
    "to bees.",
)
NO_PIECES = Sentence("no-pieces", "Count the pieces that were packed: at least one.")
WEIGH_PIECES = Sentence(
    "weigh-pieces", "Put all the packed pieces on the scale together, and type what they weigh."
)
INTO_WHERE = Sentence(
    "drained-into", "Name the vessel that the drained honey runs into, or give no weight for it."
)
NO_JARS_OF_CHUNK = Sentence("no-jars-of-chunk", "Count the jars that were filled: at least one.")
ALL_COMB = Sentence(
    "all-comb",
    "{pieces} pieces weigh {comb}, and {jars} jars hold {whole}: nothing is left for liquid "
    "honey. Count both again, or weigh the liquid.",
)


@dataclass(frozen=True, slots=True)
class Melt:
    """A melter is emptied: wax, honey, and what is thrown away, each weighed.

    Args:
        honey_g: honey from under the wax; it is heated honey from now on.
        residue_g: slumgum and dirt, discarded.
        into: the vessel the honey goes into; else it stands in a barrel of its own.
        temperature: the hottest it was, tenths of a degree Celsius.
        goes_on: more is in the melter; else what the books see there besides is difference.
    """

    kind: ClassVar[str] = "melt"
    vessel: str
    wax_g: int = 0
    honey_g: int = 0
    residue_g: int = 0
    into: str = ""
    temperature: int | None = None
    goes_on: bool = False
    despite_hold: str = ""


@dataclass(frozen=True, slots=True)
class Cut:
    """Supers are cut into pieces of comb honey; what they weigh decides, not the estimate.

    Args:
        count: supers; all on the pallet where none are said. `pull` names one yard's.
        pieces: packed, `net_g` all of them together.
        drained_g: what ran out of the cut edges, into the vessel `into`.
        trimmings_g: into the vessel `trimmings_into`, else into a barrel of their own.
        rejects_g: pieces not fit to sell, discarded.
    """

    kind: ClassVar[str] = "cut"
    pallet: str
    pieces: int
    net_g: int
    count: int | None = None
    pull: str = ""
    product: str = ""
    drained_g: int = 0
    into: str = ""
    trimmings_g: int = 0
    trimmings_into: str = ""
    rejects_g: int = 0
    despite_hold: str = ""


@dataclass(frozen=True, slots=True)
class Chunk:
    """Jars with a piece of comb in liquid honey.

    Args:
        comb: the comb honey the pieces are of.
        source: the vessel or drum the liquid is from.
        liquid_g: weighed; else what the jars hold by their product, less the comb.
    """

    kind: ClassVar[str] = "chunk"
    product: str
    comb: str
    pieces: int
    source: str
    jars: int
    liquid_g: int | None = None
    despite_hold: str = ""


def book_melt(facts: Melt, b: Booking) -> None:
    """The melter's fill becomes wax and heated honey; the rest is discarded, or difference."""
    weights = {"Wax": facts.wax_g, "Honey": facts.honey_g, "Residue": facts.residue_g}
    _check_weights(weights)
    if facts.temperature is not None:
        check_reading("temperature", facts.temperature)
    melter = find_vessel(b.state, facts.vessel)
    into = find_vessel(b.state, facts.into, "into") if facts.into else ""
    if into == melter:
        raise Refusal(SAME_VESSEL, field="into", vessel=facts.into)
    of_run(b, melter, into, asks=False)
    total = sum(weights.values())
    if not total:
        raise Refusal(NOTHING_MELTED, field="wax_g")
    ask_held(b, contents(b, melter), facts.despite_hold, "vessel")
    taken = take(b, melter, total, not facts.goes_on)
    heat = {"melter": key_of(melter), "temperature": facts.temperature}
    for sort, grams in ((WAX, facts.wax_g), (MELTED, facts.honey_g)):
        if grams:
            lot = _barrelled(b, sort, grams, _part_of_fill(taken, grams), heat)
            b.post(taken[0].lot, melter, -grams)
            _put_down(b, lot, into if sort == MELTED else "")
            b.mark(lot.code, HEATED, heat)
            if sort == MELTED:
                b.note(IS_HEATED, code=lot.code)
    b.move(taken[0].lot, melter, DISCARDED, facts.residue_g)
    b.note(HOT_WAX)


def _check_weights(weights: Mapping[str, int]) -> None:
    for what, grams in weights.items():
        if grams < 0:
            raise Refusal(BELOW_NOTHING, field="net_g", what=what, grams=format_mass(grams))


def _part_of_fill(taken: Sequence[Taken], grams: int) -> list[tuple[int, int]]:
    """A draw's lots as the origins of a part of it: the fill with its grams, the others at 0 g."""
    return [(one.lot, grams if at == 0 else 0) for at, one in enumerate(taken)]


def _barrelled(
    b: Booking,
    sort: str,
    grams: int,
    origins: Sequence[tuple[int, int]],
    more: Mapping[str, object] | None = None,
) -> Lot:
    return b.make_lot("W", grams, origins, attributes={"sort": sort, **(more or {})})


def _put_down(b: Booking, lot: Lot, into: str = "") -> None:
    """A new lot goes into a vessel, or stands in a barrel of its own."""
    where = into or place(BARREL, lot.code)
    if not into:
        b.comes(where, lot.id)
    b.post(lot.id, where, lot.made_g)
    if into:
        put(b, into, [Taken(lot.id, lot.made_g)])


def book_cut(facts: Cut, b: Booking) -> None:
    """Each pull gives its part of every weight; what the estimate was off by is difference."""
    weights = {"Drained honey": facts.drained_g, "Trimmings": facts.trimmings_g}
    _check_weights(weights | {"Rejects": facts.rejects_g})
    if facts.pieces < 1:
        raise Refusal(NO_PIECES, field="pieces")
    if facts.net_g <= 0:
        raise Refusal(WEIGH_PIECES, field="net_g")
    if facts.drained_g and not facts.into:
        raise Refusal(INTO_WHERE, field="into")
    product, declared = _product(facts.product, b)
    into = find_vessel(b.state, facts.into, "into") if facts.into else ""
    trimmed = facts.trimmings_into
    trimmed_into = find_vessel(b.state, trimmed, "trimmings_into") if trimmed else ""
    of_run(b, into, trimmed_into, asks=False)
    tag, rows = pallet_rows(b, facts.pallet)
    taken = take_supers(b, tag, rows, facts.count, facts.pull)
    lots = [lot for lot, _, _ in taken]
    ask_held(b, [lot.id for lot in lots], facts.despite_hold, "pallet")
    known = [lot.id for lot in lots]
    also = [] if facts.pull else [one.lot for one in just_taken(b, tag, known)]
    cut = _Cutting(b, tag, taken, also)
    poured = {into: facts.drained_g}
    barrelled_g = 0 if trimmed_into else facts.trimmings_g
    if trimmed_into:
        poured[trimmed_into] = poured.get(trimmed_into, 0) + facts.trimmings_g
    # What goes into one vessel is shared out at once, as it is moved: no gram is lost by rounding.
    cut.weigh([facts.net_g, barrelled_g, *poured.values(), facts.rejects_g])
    about = {"product": product, "net_g": declared or None, "pieces": facts.pieces}
    comb = cut.lot("K", facts.net_g, CUT_COMB, about)
    b.comes(JARS, comb.id)
    b.post(comb.id, JARS, facts.net_g)
    b.pieces(comb.id, JARS, facts.pieces)
    if barrelled_g:
        _put_down(b, cut.lot("W", barrelled_g, TRIMMINGS))
    for vessel, grams in poured.items():
        cut.pour(vessel, grams)
    cut.move(DISCARDED, facts.rejects_g)
    leave_empty(b, tag)
    note_piece(b, facts.net_g, facts.pieces, declared)


class _Cutting:
    """Supers on the table: what each pull gives to each thing that is made of them."""

    def __init__(
        self,
        b: Booking,
        tag: str,
        taken: Sequence[tuple[Lot, int, int]],
        also: Sequence[int],
    ) -> None:
        self._b = b
        self._tag = tag
        self._taken = taken
        self._also = also
        grams = [row[1] for row in taken]
        self._weights = grams if any(grams) else [1] * len(taken)
        for lot, _, supers in taken:
            b.pieces(lot.id, tag, -supers)

    def weigh(self, outs: Sequence[int]) -> None:
        """The scale is right: what the pulls had more or less by estimate is difference."""
        came = [sum(parts) for parts in zip(*map(self._parts, outs), strict=True)]
        for (lot, grams, _), out in zip(self._taken, came, strict=True):
            self._b.differ(lot.id, self._tag, out - grams)
        note_cut(self._b, self._tag, sum(row[1] for row in self._taken), sum(outs))

    def _parts(self, grams: int) -> list[int]:
        return largest_remainder(grams, self._weights)

    def lot(
        self, kind: str, grams: int, sort: str, more: Mapping[str, object] | None = None
    ) -> Lot:
        """A lot made of the pulls; a lot that went by this tag lately is in its reach."""
        parts = self._parts(grams)
        ids = [lot.id for lot, _, _ in self._taken]
        origins = [*zip(ids, parts, strict=True), *((one, 0) for one in self._also)]
        made = self._b.make_lot(kind, grams, origins, attributes={"sort": sort, **(more or {})})
        for lot, part in zip(ids, parts, strict=True):
            self._b.post(lot, self._tag, -part)
        self._b.mark(self._tag, f"{CUT}{made.id}", self._when())
        return made

    def pour(self, vessel: str, grams: int) -> None:
        """Honey of the pulls goes into a vessel as it is: loaded, in a way."""
        if grams:
            parts = self.move(vessel, grams)
            put(self._b, vessel, [*parts, *(Taken(one, 0) for one in self._also)])
            self._b.mark(self._tag, f"{LOADED}{vessel}", self._when())

    def move(self, where: str, grams: int) -> list[Taken]:
        """Honey of the pulls goes somewhere: the part of each."""
        parts = self._parts(grams)
        for (lot, _, _), part in zip(self._taken, parts, strict=True):
            self._b.move(lot.id, self._tag, where, part)
        return [Taken(lot.id, part) for (lot, _, _), part in zip(self._taken, parts, strict=True)]

    def _when(self) -> list[Json]:
        unsure_ms = self._b.act.unsure_ms
        return [self._b.at_ms - unsure_ms, self._b.at_ms + unsure_ms]


def _product(text: str, b: Booking) -> tuple[str, int]:
    """A product's key and declared net content; nothing where none is named."""
    if not text.strip():
        return "", 0
    subject, record = find_record(b.state, "product", text)
    return key_of(subject), number_in(record, "net_g", 0)


def book_chunk(facts: Chunk, b: Booking) -> None:
    """Pieces of comb and liquid honey become one lot, with all that is behind both."""
    check_run_open(b)
    if facts.jars < 1:
        raise Refusal(NO_JARS_OF_CHUNK, field="jars")
    subject, record = find_record(b.state, "product", facts.product)
    declared = number_in(record, "net_g", 0)
    if not declared:
        raise Refusal(NO_NET_CONTENT, field="product", product=record.get("name", facts.product))
    comb = find_lot(b.state, facts.comb, "K", "comb")
    row = next((row for row in b.standing(JARS) if row.lot.id == comb.id and row.grams), None)
    if row is None:
        raise Refusal(NOT_IN_HOUSE, field="comb", code=comb.code)
    source = find_source(b, facts.source)
    ask_held(b, [comb.id, *contents(b, source)], facts.despite_hold, "source")
    here = Holding(JARS, comb.id, row.grams, row.pieces)
    comb_g, pieces = part_of(comb, here, facts.pieces, None)
    liquid_g = facts.liquid_g
    if liquid_g is None:
        liquid_g = facts.jars * declared - comb_g
    if liquid_g <= 0:
        raise Refusal(
            ALL_COMB,
            field="pieces",
            pieces=format_number(pieces),
            comb=format_mass(comb_g),
            jars=format_number(facts.jars),
            whole=format_mass(facts.jars * declared),
        )
    taken = take(b, source, liquid_g, False)
    b.post(taken[0].lot, source, -liquid_g)
    b.post(comb.id, JARS, -comb_g)
    b.pieces(comb.id, JARS, -pieces)
    if pieces == row.pieces:
        b.leaves(JARS, comb.id)
    origins = [(comb.id, comb_g), *((one.lot, one.grams) for one in taken)]
    attributes = {
        "sort": CHUNK_HONEY,
        "product": key_of(subject),
        "net_g": declared,
        "jars": facts.jars,
    }
    chunk = b.make_lot("K", comb_g + liquid_g, origins, attributes=attributes)
    b.comes(JARS, chunk.id)
    b.post(chunk.id, JARS, comb_g + liquid_g)
    b.pieces(chunk.id, JARS, facts.jars)
