"""What the calculator knows: the sum in hand, what is typed in each, and what comes of it.

No widgets, no house: it reckons as long as the program runs, before there is a house as well.
"""

from datetime import date

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.calculator.sums import Reckoned, Sum
from honeyledger.desktop.stations.calculator.sums_honey import BLEND, MOST_PARTS, honey_sums
from honeyledger.desktop.stations.calculator.sums_house import house_sums
from honeyledger.desktop.stations.calculator.sums_keeping import keeping_sums
from honeyledger.desktop.stations.calculator.sums_readings import reading_sums
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit, format_colour, format_mass, format_moisture
from honeyledger.services.lot_figures import LotFigures


class CalculatorPresenter:
    """The sums, each kept as it was left.

    Args:
        today: the day that dates without a year are read by.
        unit: of weights typed without one.
    """

    def __init__(self, today: date, unit: MassUnit = "kg") -> None:
        self.today, self.unit = today, unit
        every = (*honey_sums(), *keeping_sums(), *house_sums(), *reading_sums())
        self.sums: dict[str, Sum] = {one.key: one for one in every}
        self.key = next(iter(self.sums))
        self._typed = {key: one.begins() for key, one in self.sums.items()}

    @property
    def sum(self) -> Sum:
        """The sum in hand."""
        return self.sums[self.key]

    def choose(self, key: str) -> None:
        """Take another sum in hand."""
        self.key = key

    def now(self) -> FormTyped:
        """What is typed in it."""
        return self._typed[self.key]

    def type(self, typed: FormTyped) -> None:
        """Something was typed."""
        self._typed[self.key] = typed

    def clear(self) -> None:
        """Empty the sum in hand."""
        self._typed[self.key] = self.sum.begins()

    def add_part(self, figures: LotFigures) -> bool:
        """A lot goes into the blend's next empty part; whether there was one."""
        typed = self._typed[BLEND]
        for at in range(1, MOST_PARTS + 1):
            if typed.text(f"net{at}"):
                continue
            typed = typed.with_value(f"net{at}", format_mass(figures.grams, self.unit, 1))
            for key, value, write in (
                ("water", figures.moisture, format_moisture),
                ("colour", figures.colour, format_colour),
            ):
                if value is not None:
                    typed = typed.with_value(f"{key}{at}", write(value))
            self._typed[BLEND] = typed
            return True
        return False

    def reading(self) -> Reading:
        """What is typed is read by."""
        return Reading(self.unit, self.today)

    def answer(self) -> Reckoned | Refusal | None:
        """What comes of it, why nothing can be told, or None while something is still to type."""
        if not self.sum.needs(self.now()):
            return None
        try:
            return self.sum.reckon(self.now(), self.reading())
        except Refusal as refusal:
            return refusal
