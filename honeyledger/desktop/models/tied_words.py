"""What a mixture ties together, in one line that stands over its figures."""

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.language import say
from honeyledger.desktop.models.counting import counted
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.tied import Tied


def tr(text: str) -> str:
    """A word of this line."""
    return QCoreApplication.translate("tied", text)


def tied_words(tied: Tied, unit: MassUnit) -> str:
    """What would come back with the worst of its sources, and what of that only by mixing."""
    back = [
        format_mass(tied.back_g, unit, 0),
        counted(tied.jars, tr("1 jar"), tr("{n} jars")),
        counted(tied.customers, tr("1 customer"), tr("{n} customers")),
    ]
    words = tr("Back with {name}, the worst of {n}: {back}; {more} by mixing.")
    if tied.sources == 1:
        words = tr("Back with {name}, its only source: {back}.")
    return words.format(
        name=say(tied.name),
        n=format_number(tied.sources),
        back=", ".join(back),
        more=format_mass(tied.more_g, unit, 0),
    )
