"""What a row of the sample season's logs says, as the facts of a verb.

Rows name things as a crew does, "pallet 12", "drum 45", "barrel 3"; `Names` knows which code each
was given when it came to be.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.exchange.delimited import Row
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import UNKNOWN
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs import (
    bottling,
    bought_in,
    by_products,
    corrections,
    dispatch,
    dock,
    drums,
    floor,
    leftovers,
    measuring,
    owners,
    quality,
    stops,
)
from honeyledger.services.house import Recorded, given_codes

NO_SUCH_STEP = Sentence("no-such-step", "“{what}” is nothing that is done here.")


@dataclass(slots=True)
class Names:
    """What the files call things, to the code and the entry that gave it."""

    codes: dict[str, str] = field(default_factory=dict)
    entries: dict[str, int] = field(default_factory=dict)
    _unknown: int = 0

    def give(self, name: str, code: str, entry: int = 0) -> None:
        """Let a name stand for a code from now on: a drum refilled is another lot."""
        self.codes[name.casefold()] = code
        self.entries[name.casefold()] = entry

    def code(self, name: str) -> str:
        """Give the code of a name; what has none is left as it is, for the ledger to find."""
        return self.codes.get(name.casefold(), name)

    def entry(self, name: str) -> int:
        """Give the entry that gave a name its code, 0 where there is none."""
        return self.entries.get(name.casefold(), 0)

    def learn(self, step: "Step", recorded: Recorded) -> None:
        """Note the codes that an entry gave, under the names its row has for them.

        Of several names for one letter each stands for one code, in order; the last for the rest.
        """
        for entry in recorded.entries:
            if step.called:
                self.entries[step.called.casefold()] = entry.id
            wanted: dict[str, list[str]] = {}
            for name, letter in step.gives:
                wanted.setdefault(letter, []).append(name)
            for code in given_codes(entry):
                if names := wanted.get(code[0]):
                    self.give(names[0], code, entry.id)
                    del names[: len(names) > 1]
            self._learn_pulls(step, entry)

    def _learn_pulls(self, step: "Step", entry: Entry) -> None:
        pulls = iter(step.pulls)
        for lot in entry.lots:
            if lot.kind != "S" or lot.attributes.get("basis") == "stated":
                continue  # a drum of an earlier season, or one that was found, has its own name
            if lot.attributes.get("source") == UNKNOWN:
                self._unknown += 1
                self.give(f"unknown {self._unknown}", lot.code, entry.id)
            elif step.pulls:
                self.give(next(pulls), lot.code, entry.id)


@dataclass(frozen=True, slots=True)
class Step:
    """A verb's facts, the run they belong to, and the names of the codes they give by letter.

    `called` is what an entry is called that gives no code.
    """

    facts: Any
    run: str = ""
    gives: tuple[tuple[str, str], ...] = ()
    pulls: tuple[str, ...] = ()
    called: str = ""


Make = Callable[[Sequence[Row], Names], Step]


def several(text: str, names: Names) -> tuple[str, ...]:
    """The codes of things written with a plus between them."""
    return tuple(names.code(one.strip()) for one in text.split("+") if one.strip())


def weight_of(row: Row) -> Weight:
    return Weight(net_g=row["net_g"], gross_g=row["gross_g"], tare_g=row["tare_g"])


def _iso(value: object) -> str:
    return value.isoformat() if isinstance(value, date) else ""


def _pull(row: Row, names: Names) -> str:
    yard = row.text("yard")
    return names.code(f"{yard} on pallet {row.text('pallet')}") if yard else ""


def _pallet(row: Row, names: Names, column: str = "pallet") -> str:
    return names.code(f"pallet {row.text(column)}")


def _run(row: Row, names: Names) -> str:
    return names.code(f"run {row.text('run')}") if row.text("run") else ""


def pallets(rows: Sequence[Row], names: Names) -> Step:
    """Pallets split, joined and counted again."""
    row = rows[0]
    pallet = _pallet(row, names)
    match row.text("what"):
        case "split":
            name = f"pallet {row.text('onto')}"
            facts = dock.Split(pallet, row["supers"] or 0, _pull(row, names))
            return Step(facts, gives=((name, "G"),))
        case "join":
            return Step(dock.Join(pallet, _pallet(row, names, "onto")))
        case "count":
            return Step(dock.Count(pallet, row["supers"] or 0, _pull(row, names)))
        case "set aside":
            return Step(
                leftovers.SetAside(
                    pallet,
                    row.text("why"),
                    row.text("to"),
                    frames=row["frames"],
                    yard=row.text("bees"),
                )
            )
    raise Refusal(NO_SUCH_STEP, what=row.text("what"))


def on_floor(rows: Sequence[Row], names: Names) -> Step:
    """Runs, loads, wet supers, cappings, foam and washing."""
    row = rows[0]
    what, run, vessel = row.text("what"), _run(row, names), row.text("vessel")
    match what:
        case "open":
            name = f"run {row.text('run')}"
            return Step(floor.OpenRun(vessel, crew=row.text("crew")), gives=((name, "R"),))
        case "load":
            pull = _pull(row, names)
            facts: Any = floor.Load(
                _pallet(row, names), vessel, row["supers"], pull, row.text("why")
            )
        case "wet out":
            gross, tare = row["gross_g"], row["tare_g"] or 0
            pull = _pull(row, names)
            facts = floor.WetOut(row["supers"] or 0, gross, tare, pull, row.text("to"))
        case "pool":
            facts = owners.Pool(row.text("why"), run)
        case "cappings":
            barrel = row.text("barrel")
            facts = floor.Cappings(vessel, row["net_g"] or 0, barrel)
            return Step(facts, run, gives=((f"barrel {barrel}", "W"),))
        case "skim":
            facts = drums.Skim(vessel, row["net_g"] or 0)
        case "stop":
            reason, minutes = row.text("reason"), row["minutes"] or 0
            facts = stops.Stop(vessel, reason, minutes, row.text("why"))
        case "melt":
            return _melted(row)
        case "wash":
            vessels = tuple(one.strip() for one in vessel.split("+"))
            facts = floor.Wash(vessels, row.text("remains"))
        case "close":
            heels = () if row["heel_g"] is None else (_heel(row),)
            facts = floor.CloseRun(run, heels, bool(row["pending"]))
            return Step(facts)
        case _:
            raise Refusal(NO_SUCH_STEP, what=what)
    return Step(facts, run)


def _melted(row: Row) -> Step:
    """Wax in blocks, and honey from under it."""
    number = row.text("barrel")
    facts = by_products.Melt(
        row.text("vessel"),
        row["wax_g"] or 0,
        row["net_g"] or 0,
        row["residue_g"] or 0,
        temperature=row["temperature"],
    )
    return Step(facts, gives=((f"wax {number}", "W"), (f"melter honey {number}", "W")))


def _heel(row: Row) -> floor.Heel:
    return floor.Heel(row.text("vessel"), row["heel_g"], row.text("how") or "dip")


def in_drums(rows: Sequence[Row], names: Names) -> Step:
    """Drums filled, topped up, closed and weighed, and honey poured into vessels."""
    row = rows[0]
    what, run, container = row.text("what"), _run(row, names), row.text("container")
    source, gives = names.code(row.text("source")), ((container, "D"),)
    match what:
        case "fill" | "part fill" | "top up":
            facts = drums.Fill(
                source,
                weight_of(row),
                container,
                pending=bool(row["to_follow"]),
                whole=bool(row["whole"]),
                bung=what != "part fill",
                top_up=what == "top up",
                washed=row["washed"],
                despite_hold=row.text("why"),
            )
            return Step(facts, run, gives)
        case "bung":
            return Step(drums.Bung(container), run, gives)
        case "weigh":
            return Step(drums.Reweigh(names.code(container), weight_of(row)), run)
        case "pour" | "scrape back":
            facts = drums.Fill(
                source,
                weight_of(row),
                into=row.text("into"),
                jars=row["jars"],
                whole=bool(row["whole"]),
                despite_hold=row.text("why"),
            )
            return Step(facts, run)
    raise Refusal(NO_SUCH_STEP, what=what)


def readings(rows: Sequence[Row], names: Names) -> Step:
    """Readings of one lot."""
    row = rows[0]
    lot = names.code(row.text("lot"))
    return Step(
        measuring.Measure(
            lot, row["moisture"], row["colour"], row["temperature"], row.text("instrument")
        )
    )


def bought(rows: Sequence[Row], names: Names) -> Step:
    """A drum of honey bought in."""
    row = rows[0]
    facts = bought_in.Purchase(
        row.text("supplier"),
        weight_of(row),
        row.text("their_lot"),
        row.text("country"),
        certificate=row.text("certificate"),
    )
    return Step(facts, gives=((row.text("lot"), "P"),))


def in_bottling(rows: Sequence[Row], names: Names) -> Step:
    """A bottling begun, changed over and ended."""
    row = rows[0]
    name = f"bottling {row.text('bottling')}"
    source, why = names.code(row.text("source")), row.text("why")
    match row.text("what"):
        case "start":
            facts: Any = bottling.ChangeOver(
                product=row.text("product"), feed=source, despite_hold=why
            )
            return Step(facts, gives=((name, "J"),))
        case "change":
            facts = bottling.ChangeOver(
                names.code(name),
                feed=source,
                jars=row["jars"] or 0,
                mean_net_mg=row["mean_net_mg"],
                empty=bool(row["empty"]),
                despite_hold=why,
            )
        case "end":
            facts = bottling.Bottle(
                names.code(name),
                row["jars"] or 0,
                row["mean_net_mg"],
                row["rejects"] or 0,
                in_line=not row["labelled_later"],
                empty=bool(row["empty"]),
                despite_hold=why,
                packaging=several(row.text("packaging"), names),
            )
        case what:
            raise Refusal(NO_SUCH_STEP, what=what)
    return Step(facts)


def dispatched(rows: Sequence[Row], names: Names) -> Step:
    """A dispatch note: all rows of its number."""
    first = rows[0]
    lines = tuple(
        dispatch.DispatchLine(names.code(row.text("goods")), row["jars"], row["net_g"])
        for row in rows
    )
    facts = dispatch.Dispatch(
        first.text("customer"),
        lines,
        first.text("carrier"),
        first.text("reference"),
        first.text("contract"),
        first.text("vehicle"),
        seals=tuple(first.text("seals").split()),
    )
    return Step(facts, gives=((f"note {first.text('note')}", "N"),))


def returned(rows: Sequence[Row], names: Names) -> Step:
    """What came back, and what was thrown away."""
    row = rows[0]
    goods, reason = names.code(row.text("goods")), row.text("reason")
    match row.text("what"):
        case "came back":
            customer = row.text("customer")
            return Step(dispatch.TakeBack(customer, goods, reason, row["jars"], row["net_g"]))
        case "thrown away":
            return Step(dispatch.Discard(goods, reason, row["jars"], row["net_g"]))
    raise Refusal(NO_SUCH_STEP, what=row.text("what"))


def in_quality(rows: Sequence[Row], names: Names) -> Step:
    """Holds, what is cleared and released, and samples."""
    row = rows[0]
    target, reason = names.code(row.text("target")), row.text("reason")
    match row.text("what"):
        case "hold":
            first, last = _iso(row["first_day"]), row.text("last_day")
            return Step(quality.PutOnHold(target, reason, first, last))
        case "clear":
            hold = names.code(row.text("hold"))
            return Step(quality.Clear(target, hold, row.text("result"), reason))
        case "release":
            return Step(quality.Release(target, reason, row.text("certificate")))
        case "sample":
            lots = several(row.text("target"), names)
            purpose, customer = row.text("purpose"), row.text("customer")
            kept_at = row.text("kept_at")
            facts = quality.Sample(lots, row["net_g"] or 0, kept_at, purpose, customer)
            name = f"sample for {customer}" if customer else f"sample of {row.text('target')}"
            return Step(facts, gives=((name, "X"),))
    raise Refusal(NO_SUCH_STEP, what=row.text("what"))


def corrected(rows: Sequence[Row], names: Names) -> Step:
    """Mistakes put right: amended, narrowed, reversed."""
    row = rows[0]
    lot, reason = names.code(row.text("lot")), row.text("reason")
    match row.text("what"):
        case "amend":
            pallet = _pallet(row, names) if row.text("pallet") else ""
            return Step(corrections.Amend(lot, reason, yard=row.text("yard"), pallet=pallet))
        case "narrow":
            return Step(corrections.Narrow(lot, reason, place=row.text("place")))
        case "reverse":
            return Step(corrections.Reverse(names.entry(row.text("lot")), reason))
    raise Refusal(NO_SUCH_STEP, what=row.text("what"))


STEPS: Mapping[str, Make] = {
    "pallets": pallets,
    "floor": on_floor,
    "drums": in_drums,
    "readings": readings,
    "bought": bought,
    "bottling": in_bottling,
    "dispatch": dispatched,
    "returns": returned,
    "quality": in_quality,
    "corrections": corrected,
}
