"""What is set up that is no record: checks, goods coming in, tables, this computer, its papers."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from honeyledger.desktop.language import SYSTEM, language_name, languages
from honeyledger.desktop.stations.setup.asks import YES, Ask, Deed, SetupKind, Typing, tr
from honeyledger.desktop.stations.setup.paper_kinds import order_kind, shift_kind, stock_kind
from honeyledger.desktop.stations.setup.printer_deeds import printer_kind, ways_kind
from honeyledger.desktop.stations.setup.registers import (
    first_kinds,
    kinds_of_the_floor,
    kinds_of_trade,
)
from honeyledger.domain.moments import parse_day
from honeyledger.domain.units import parse_count, parse_mass_g
from honeyledger.ledger.packaging import INGREDIENT, PACKAGING
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.checks import RESULTS, Check
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.setup_page import SetupPage
from honeyledger.settings import SCALES, Settings, with_setting

YARDS, RECEIPTS, RESULTS_READ = "yards", "receipts", "results"


def setup_kinds() -> tuple[SetupKind, ...]:
    """All that is set up, in the order a new house needs it."""
    return (
        *first_kinds(),
        shift_kind(),
        *kinds_of_the_floor(),
        _check(),
        SetupKind(
            "due",
            "",
            tr("Checks due"),
            tr("What is to be checked today, and what was found off since when (Ctrl+Shift+C)."),
            deed=Deed.OPEN,
            button=tr("See what is due"),
            opens="checks",
        ),
        SetupKind(
            "recalls",
            "",
            tr("Recalls and drills"),
            tr("Cases, who was told, report and letters, and when to rehearse (Ctrl+Shift+K)."),
            deed=Deed.OPEN,
            button=tr("See recalls"),
            opens="recalls",
        ),
        *kinds_of_trade(),
        order_kind(),
        _supply(),
        _table(),
        stock_kind(),
        printer_kind(),
        ways_kind(),
        SetupKind(
            "kept",
            "",
            tr("Backups"),
            tr("How old the last copy is, where copies go, and one more now."),
            deed=Deed.KEPT,
            button=tr("See backups"),
        ),
        SetupKind(
            "calculator",
            "",
            tr("Calculator"),
            tr("Moisture, colour, a dip, a blend, jars, air, units, days (Ctrl+Shift+R)."),
            deed=Deed.OPEN,
            button=tr("Open the calculator"),
            opens="calculator",
        ),
        _computer(),
    )


def _check() -> SetupKind:
    return SetupKind(
        "check",
        "",
        tr("Checks made"),
        tr("A scale against a weight, a refractometer against its oil: one that is off says so."),
        (
            Ask("equipment", tr("Instrument"), Typing.NAMED, of="equipment"),
            Ask("what", tr("Against what"), offers=(tr("20 kg"), tr("test oil"), tr("by eye"))),
            Ask("value", tr("What it showed"), beside=True),
            Ask(
                "result",
                tr("It is"),
                Typing.BUTTONS,
                usual=RESULTS[0],
                buttons=((RESULTS[0], tr("right")), (RESULTS[1], tr("off"))),
            ),
            Ask("note", tr("Note")),
        ),
        deed=Deed.CHECK,
    )


def _supply() -> SetupKind:
    return SetupKind(
        "supply",
        "",
        tr("Packaging in"),
        tr("Jars, lids, labels by the piece; an ingredient by weight. Bought seed is honey."),
        (
            Ask("supplier", tr("From the supplier"), Typing.NAMED, of="supplier"),
            Ask("name", tr("What it is")),
            Ask(
                "sort",
                tr("It is"),
                Typing.BUTTONS,
                usual=PACKAGING,
                buttons=((PACKAGING, tr("packaging")), (INGREDIENT, tr("an ingredient"))),
            ),
            Ask("count", tr("Pieces of packaging"), Typing.COUNT),
            Ask("net_g", tr("Net weight of an ingredient"), Typing.MASS, beside=True),
            Ask("supplier_lot", tr("What the supplier calls the lot")),
            Ask("best_before", tr("Good until, or empty"), Typing.DAY, beside=True),
        ),
        deed=Deed.SUPPLY,
    )


def _table() -> SetupKind:
    return SetupKind(
        "table",
        "",
        tr("Spreadsheets"),
        tr("Save the sheet as CSV. All its rows are taken in, or none and every reason why."),
        (
            Ask(
                "what",
                tr("Its rows are"),
                Typing.BUTTONS,
                usual=YARDS,
                buttons=(
                    (YARDS, tr("yards")),
                    (RECEIPTS, tr("receipts")),
                    (RESULTS_READ, tr("lab results")),
                ),
            ),
            Ask("file", tr("File"), Typing.FILE),
        ),
        deed=Deed.TABLE,
        button=tr("Take it in"),
    )


def _computer() -> SetupKind:
    return SetupKind(
        "computer",
        "",
        tr("This computer"),
        tr("What this one alone remembers. Labels and papers are in English in every language."),
        (
            Ask("station", tr("Name it has in the entries")),
            Ask(
                "look",
                tr("The window is"),
                Typing.BUTTONS,
                buttons=(
                    ("light", tr("light")),
                    ("dark", tr("dark")),
                    ("system", tr("as the system")),
                ),
            ),
            Ask(
                "scale",
                tr("Text size, per cent"),
                Typing.BUTTONS,
                buttons=tuple((scale, scale) for scale in SCALES),
            ),
            Ask(
                "density",
                tr("Buttons and fields"),
                Typing.BUTTONS,
                buttons=(
                    ("station", tr("as the place asks")),
                    ("floor", tr("large")),
                    ("desk", tr("small")),
                ),
            ),
            Ask(
                "language",
                tr("Language of the window"),
                Typing.BUTTONS,
                buttons=(
                    (SYSTEM, tr("as the system")),
                    *((one, language_name(one)) for one in languages()),
                ),
            ),
            Ask("tones", tr("A scan is answered with a tone"), Typing.YES),
        ),
        deed=Deed.COMPUTER,
        button=tr("Keep this"),
    )


def deed_facts(kind: SetupKind, typed: Mapping[str, str], page: SetupPage, today: date) -> Any:
    """The facts of a check, or of goods coming in.

    Raises:
        Refusal: something cannot be read; its field names it.
    """
    said = {ask.key: typed.get(ask.key, "").strip() for ask in kind.asks}
    if kind.deed is Deed.CHECK:
        equipment = named(page, "equipment", said["equipment"])
        return Check(equipment, said["what"], said["result"], said["value"], said["note"])
    net, count, best = said["net_g"], said["count"], said["best_before"]
    return Supply(
        named(page, "supplier", said["supplier"]),
        said["sort"],
        said["name"],
        Weight(net_g=parse_mass_g(net, page.unit, field="net_g") if net else None),
        parse_count(count, "a number of pieces", field="count") if count else None,
        said["supplier_lot"],
        parse_day(best, today, field="best_before").isoformat() if best else "",
    )


def named(page: SetupPage, register: str, text: str) -> str:
    """The key of a record by its name; what is none stays as typed, for the ledger to refuse."""
    for row in page.registers.get(register, ()):
        if text.casefold() in (row.name.casefold(), row.key.casefold()):
            return row.key
    return text


def computer_values(settings: Settings, station: str) -> dict[str, str]:
    """This computer's settings as the form shows them."""
    return {
        "station": settings.station or station,
        "look": settings.look,
        "scale": settings.scale,
        "density": settings.density,
        "language": settings.language,
        "tones": YES if settings.tones else "",
    }


def computer_settings(settings: Settings, typed: Mapping[str, str], station: str) -> Settings:
    """The settings with what the form says; the computer's own name needs no setting."""
    name = typed.get("station", "").strip()
    if name == station and not settings.station:
        name = ""
    changed = replace(settings, station=name, tones=typed.get("tones") == YES)
    for key in ("look", "scale", "density", "language"):
        changed = with_setting(changed, key, typed.get(key, "") or getattr(settings, key))
    return changed
