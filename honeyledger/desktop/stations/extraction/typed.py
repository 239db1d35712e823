"""From what is typed on the floor to the facts of a verb; a parser's refusal is the ledger's."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.units import MassUnit, parse_count, parse_mass_g
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load, WetOut

SUPERS = "a number of supers"


@dataclass(frozen=True, slots=True)
class Asked:
    """What the ledger asked back and the person answered, for the next try only."""

    washed: bool | None = None
    top_up: bool = False
    follows: bool = False
    why: str = ""


@dataclass(frozen=True, slots=True)
class HeelTyped:
    """A heel as typed for the closing: the vessel, its name, grams, and how it was read."""

    vessel: str
    name: str
    grams: int
    how: str


def closing_draft(run: str, heels: Sequence[HeelTyped], *, pending: bool) -> dict[str, object]:
    """What was typed for a run's closing, to be kept; {} where nothing was."""
    if not heels and not pending:
        return {}
    rows = [[row.vessel, row.grams, row.how] for row in heels]
    return {"run": run, "heels": rows, "pending": pending}


def heels_of(draft: Mapping[str, object], name_of: Callable[[str], str]) -> tuple[HeelTyped, ...]:
    """The heels of a draft; what is none is left out."""
    heels = draft.get("heels")
    return tuple(
        HeelTyped(str(row[0]), name_of(str(row[0])), row[1], str(row[2]))
        for row in (heels if isinstance(heels, list) else ())
        if isinstance(row, list) and len(row) == 3 and isinstance(row[1], int)
    )


def load_facts(pallet: str, line: str, count: str, asked: Asked) -> Load:
    """A pallet, or so many of its supers, into a line.

    Raises:
        Refusal: the count is none.
    """
    supers = parse_count(count, SUPERS, least=1, field="count") if count.strip() else None
    return Load(pallet, line, supers, despite_hold=asked.why)


@dataclass(frozen=True, slots=True)
class FillTyped:
    """A drum as typed: where from, which drum ("" for a one-way one), its weights, its seal."""

    source: str
    container: str
    gross: str
    tare: str
    seal: str = ""


def fill_facts(typed: FillTyped, unit: MassUnit, asked: Asked) -> Fill:
    """A drum filled; a weight that is to follow has to be said.

    Raises:
        Refusal: a weight is none.
    """
    gross, tare = typed.gross.strip(), typed.tare.strip()
    weight = Weight(
        gross_g=parse_mass_g(gross, unit, field="gross_g") if gross else None,
        tare_g=parse_mass_g(tare, unit, field="tare_g") if tare else None,
    )
    return Fill(
        typed.source,
        weight,
        container=typed.container,
        pending=not gross and asked.follows,
        washed=asked.washed,
        top_up=asked.top_up,
        despite_hold=asked.why,
        seal=typed.seal.strip(),
    )


def wet_out_facts(count: str, gross: str, unit: MassUnit) -> WetOut:
    """Empty supers counted, and weighed where there is a weight.

    Raises:
        Refusal: the count or the weight is none.
    """
    supers = parse_count(count, SUPERS, least=1, field="count")
    return WetOut(supers, parse_mass_g(gross, unit, field="gross_g") if gross.strip() else None)
