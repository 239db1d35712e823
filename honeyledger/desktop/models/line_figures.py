"""What the line across the top shows: seven places and the six flows between them."""

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.marks import Mark

PLACES = 7
FLOWS = 6
TONNES_FROM = 100_000


@dataclass(frozen=True, slots=True)
class Badge:
    """How many things at a place need a person, and of which kind."""

    mark: Mark
    count: int
    meaning: str = ""


@dataclass(frozen=True, slots=True)
class PlaceFigure:
    """One place on the line.

    Args:
        key: the station's key ("hot_room").
        name: what stands above the figure.
        amount: what is there now, in the unit (whole kilograms, supers, orders).
        unit: "kg", "supers".
        qualifier: what follows the unit where there is room ("in tank").
        estimated: whether the amount is an estimate.
        badges: what needs a person, worst first.
    """

    key: str
    name: str
    amount: int
    unit: str
    qualifier: str = ""
    estimated: bool = False
    badges: tuple[Badge, ...] = ()


@dataclass(frozen=True, slots=True)
class Flow:
    """What went from one place to the next today; the colour is a mean, for drawing only."""

    amount_kg: int = 0
    pfund_mm: float | None = None


@dataclass(frozen=True, slots=True)
class LineFigures:
    """The line as it is at one moment.

    Raises:
        ValueError: there are not seven places and six flows.
    """

    places: tuple[PlaceFigure, ...]
    flows: tuple[Flow, ...]

    def __post_init__(self) -> None:
        if len(self.places) != PLACES or len(self.flows) != FLOWS:
            raise ValueError("The line has seven places and six flows between them.")


def grouped(number: int) -> str:
    """A whole number with a narrow no-break space between thousands."""
    return f"{number:,}".replace(",", "\u202f")


def figure_words(place: PlaceFigure, *, short: bool, qualified: bool) -> tuple[str, str]:
    """A place's figure and its unit as shown: tonnes from 100 000 kg up where room is short."""
    about = "≈" if place.estimated else ""
    if short and place.unit == "kg" and place.amount >= TONNES_FROM:
        return f"{about}{place.amount / 1000:.1f}", "t"
    unit = f"{place.unit} {place.qualifier}".strip() if qualified else place.unit
    return f"{about}{grouped(place.amount)}", unit


def place_sentence(figures: LineFigures, at: int) -> str:
    """A place's accessible name, in full."""
    place = figures.places[at]
    units = {"kg": _tr("kilograms")}
    amount = f"{place.amount:,}".replace(",", " ")
    said = f"{amount} {units.get(place.unit, place.unit)}"
    parts = [place.name, _tr("about {amount}").format(amount=said) if place.estimated else said]
    for badge in place.badges:
        parts.append(f"{badge.count} {badge.meaning or badge.mark.value}")
    if at > 0:
        flowed = f"{figures.flows[at - 1].amount_kg:,}".replace(",", " ")
        words = _tr("{amount} kilograms from {place} today")
        parts.append(words.format(amount=flowed, place=figures.places[at - 1].name))
    return ", ".join(parts)


def _tr(text: str) -> str:
    """A word of a place's name for a screen reader, in the language in use."""
    return QCoreApplication.translate("line", text)
