"""What stands in the dock's form as typed, and what it says once it is read.

Reading is done by the parsers of the domain, so that the window and the terminal refuse the same
things in the same words.
"""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field, fields, replace
from datetime import date

from honeyledger.desktop.models.days import format_day
from honeyledger.domain.moments import parse_day
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit, parse_count, parse_mass_g, parse_moisture
from honeyledger.ledger.verbs.dock import NO_LINES, Line, Receive
from honeyledger.services.dock import Choice
from honeyledger.services.dock_page import DockPage

SUPERS = "a number of supers"
SEALED = "sealed"
USUAL_BOX = "medium"
# The field of the form in which a refused fact was typed.
FIELD_OF = {
    "yard": "yard",
    "sheet": "sheet",
    "pulled": "pulled",
    "count": "supers",
    "box": "box",
    "gross_g": "gross",
    "condition": "condition",
    "moisture": "moisture",
}


@dataclass(frozen=True, slots=True)
class LineTyped:
    """One yard on the pallet; `yard` and `box` are keys of what was chosen, else as typed."""

    yard: str = ""
    sheet: str = ""
    pulled: str = ""
    crew: str = ""
    supers: str = ""
    box: str = ""

    @property
    def is_begun(self) -> bool:
        """Whether anything was typed that does not repeat by itself."""
        return bool(self.yard.strip() or self.sheet.strip() or self.supers.strip())


@dataclass(frozen=True, slots=True)
class Typed:
    """The whole form: the line in hand, those already kept for this pallet, the pallet."""

    line: LineTyped = field(default_factory=LineTyped)
    kept: tuple[LineTyped, ...] = ()
    gross: str = ""
    condition: str = SEALED
    moisture: str = ""

    @property
    def is_begun(self) -> bool:
        """Whether there is anything to lose."""
        pallet = self.gross.strip() or self.moisture.strip() or self.condition != SEALED
        return bool(self.kept or pallet) or self.line.is_begun


def facts_of(typed: Typed, today: date, unit: MassUnit) -> Receive:
    """The facts the form says; whose a yard's bees are the ledger knows.

    Raises:
        Refusal: something in it cannot be read; its field names the fact.
    """
    lines = [*typed.kept]
    if typed.line.is_begun or not lines:
        lines.append(typed.line)
    read = tuple(_line_of(line, today) for line in lines)
    gross, moisture = typed.gross.strip(), typed.moisture.strip()
    return Receive(
        read,
        gross_g=parse_mass_g(gross, unit, field="gross_g") if gross else None,
        condition=typed.condition,
        moisture=parse_moisture(moisture) if moisture else None,
    )


def _line_of(line: LineTyped, today: date) -> Line:
    if not line.yard.strip():
        raise Refusal(NO_LINES, field="yard")
    pulled, sheet = line.pulled.strip(), line.sheet.strip()
    return Line(
        line.yard.strip(),
        parse_count(line.supers, SUPERS),
        line.box.strip() or USUAL_BOX,
        parse_day(pulled, today, field="pulled").isoformat() if pulled else "",
        line.crew.strip(),
        parse_count(sheet, SUPERS, field="sheet") if sheet else None,
    )


def as_draft(typed: Typed, command: str) -> dict[str, object]:
    """The form as a draft keeps it, with the id under which it will be recorded."""
    return {"command": command, **asdict(typed)} if typed.is_begun else {}


def from_draft(draft: Mapping[str, object]) -> tuple[Typed, str]:
    """What a draft kept; what it does not know stays empty."""
    kept = draft.get("kept", ())
    lines = [_line_from(one) for one in kept] if isinstance(kept, Sequence) else []
    typed = Typed(
        _line_from(draft.get("line")),
        tuple(lines),
        _text(draft, "gross"),
        _text(draft, "condition") or SEALED,
        _text(draft, "moisture"),
    )
    return typed, _text(draft, "command")


def _line_from(kept: object) -> LineTyped:
    if not isinstance(kept, Mapping):
        return LineTyped()
    return LineTyped(**{part.name: _text(kept, part.name) for part in fields(LineTyped)})


def _text(kept: Mapping[str, object], name: str) -> str:
    value = kept.get(name, "")
    return value if isinstance(value, str) else ""


def repeated_line(page: DockPage | None) -> LineTyped:
    """What the last pallet of the day said; before the first, today and the usual box."""
    if page is None:
        return LineTyped()
    repeated = page.repeated
    pulled = date.fromisoformat(repeated.pulled) if repeated.pulled else page.today
    boxes = [box.code for box in page.boxes]
    usual = USUAL_BOX if USUAL_BOX in boxes or not boxes else boxes[0]
    box = repeated.box or usual
    return LineTyped(yard=repeated.yard, pulled=format_day(pulled), crew=repeated.crew, box=box)


def next_form(last: Typed, page: DockPage | None) -> Typed:
    """A new form: day, crew and box as on the pallet before, all else to be said again."""
    before = last.line
    if before == LineTyped():
        before = repeated_line(page)
    return Typed(replace(before, yard="", sheet="", supers=""))


def yard_in(page: DockPage | None, text: str) -> Choice | None:
    """The yard of the page that is meant by a code or a name; None for neither."""
    wanted = text.strip().casefold()
    for yard in page.yards if page else ():
        if wanted and wanted in (yard.code.casefold(), yard.name.casefold()):
            return yard
    return None
