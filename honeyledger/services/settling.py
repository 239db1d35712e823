"""What a run's owners get, by name: as it was signed, or as it would be now."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Json
from honeyledger.ledger.in_run import RUN_UNKNOWN
from honeyledger.ledger.lookup import read_code
from honeyledger.ledger.owners import Settlement, settlement_of
from honeyledger.ledger.places import place
from honeyledger.ledger.run_balance import balance_of
from honeyledger.ledger.sources import number_in
from honeyledger.ledger.title import party_name
from honeyledger.ledger.verbs.blending import mean_moisture
from honeyledger.ledger.verbs.owners import SETTLED
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class OwnerRow:
    """One owner's line of a statement, grams; `taken_g` is None where not all was weighed."""

    owner: str
    supers: int
    in_g: int
    taken_g: int | None
    honey_g: int
    kept_g: int
    due_g: int
    cappings_g: int


@dataclass(frozen=True, slots=True)
class Statement:
    """A run's statement. The rows sum to `honey_g` and `cappings_g`, to the gram.

    `signed_in` is the entry that froze it, 0 while nobody has; `moisture` the mean of the run's
    drums by weight, hundredths of a percent, None where none was read.
    """

    run: str
    basis: str
    honey_g: int
    cappings_g: int
    signed_in: int
    rows: tuple[OwnerRow, ...]
    moisture: int | None = None


def statement(view: View, text: str) -> Statement:
    """A run's statement: as signed, else as it stands now.

    Raises:
        Refusal: there is no such run.
    """
    run = str(read_code(view, text, "run"))
    if view.mark(place("run", run), "opened") is None:
        raise Refusal(RUN_UNKNOWN, field="run", run=run)
    return replace(_shared(view, run), moisture=_moisture(view, run))


def _moisture(view: View, run: str) -> int | None:
    drums = [(view.lot(row.lot), row.grams) for row in balance_of(view, run).drums]
    read = [one for one in drums if view.mark(one[0].code, "moisture")]
    return mean_moisture(view, read)


def _shared(view: View, run: str) -> Statement:
    signed = view.mark(place("run", run), SETTLED)
    if signed is None or not isinstance(signed.value, Mapping):
        return _as_it_stands(view, settlement_of(view, run))
    value = signed.value
    parts = value.get("parts", ())
    assert isinstance(parts, Sequence)
    return Statement(
        run,
        str(value.get("basis", "")),
        number_in(value, "honey_g", 0),
        number_in(value, "cappings_g", 0),
        signed.entry,
        tuple(_signed(view, part) for part in parts if isinstance(part, Mapping)),
    )


def _as_it_stands(view: View, now: Settlement) -> Statement:
    rows = tuple(
        OwnerRow(
            party_name(view, part.owner),
            part.supers,
            part.in_g,
            part.taken_g,
            part.honey_g,
            0,
            part.honey_g,
            part.cappings_g,
        )
        for part in now.parts
    )
    return Statement(now.run, now.basis, now.honey_g, now.cappings_g, 0, rows)


def _signed(view: View, part: Mapping[str, Json]) -> OwnerRow:
    taken = part.get("taken_g")
    honey, kept = number_in(part, "honey_g", 0), number_in(part, "kept_g", 0)
    return OwnerRow(
        party_name(view, str(part.get("owner", ""))),
        number_in(part, "supers", 0),
        number_in(part, "in_g", 0),
        taken if isinstance(taken, int) else None,
        honey,
        kept,
        honey - kept,
        number_in(part, "cappings_g", 0),
    )
