"""What the forms of the drum room have in common."""

from honeyledger.desktop.models.asked import AT, Ask, FormTyped, LineTyped, Reading, Typing
from honeyledger.domain.units import MassUnit, parse_mass_g
from honeyledger.services.drums_page import DrumsPage

DRUMS, VESSELS, HOLDS = "drums", "vessels", "holds"


def drum_ask(label: str, key: str = "drum", *, many: bool = False) -> Ask:
    """A drum, or several: scanned, or one of those on hand."""
    return Ask(key, label, Typing.FREE, offers=DRUMS, many=many)


def grams_of(typed: FormTyped | LineTyped, key: str, unit: MassUnit, field: str) -> int | None:
    """A mass as typed; None where nothing is.

    Raises:
        Refusal: it is no mass.
    """
    text = typed.text(key)
    return parse_mass_g(text, unit, field=field) if text else None


def at_line(key: str, line: LineTyped) -> str:
    """The field of a lot's answer, for a refusal to name."""
    return f"{key}{AT}{line.code}"


def page_of(reading: Reading) -> DrumsPage:
    """The drum room, as it was when the form was shown."""
    page: DrumsPage = reading.page
    return page
