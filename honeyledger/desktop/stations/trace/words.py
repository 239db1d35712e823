"""The words of the trace's pages, in the language in use."""

from PySide6.QtCore import QCoreApplication

from honeyledger.domain.units import MassUnit, format_mass, format_number


def tr(text: str) -> str:
    """A word of this station."""
    return QCoreApplication.translate("trace", text)


def counted(number: int, one: str, many: str) -> str:
    """How many, with the right word for one."""
    return one if number == 1 else many.format(n=format_number(number))


def bare(grams: int, unit: MassUnit) -> str:
    """A mass without its unit, which stands in the head; "" for none."""
    return format_mass(grams, unit).removesuffix(f" {unit}") if grams else ""


def accounted(part: float) -> str:
    """How much is accounted for; all of it only where nothing is missing."""
    percent = f"{100 * part:.1f}"
    if percent == "100.0" and part < 1:
        percent = "99.9"
    return tr("{percent} % accounted for").format(percent=percent)
