"""The calculator: a moisture told, a blend, a treatment's days, and a reading off the table."""

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.calculator.view import Calculator, CalculatorView

PAGES = ("calculator", "calculator-moisture", "calculator-blend", "calculator-refused")
PAGES = (*PAGES, "calculator-days", "calculator-dip", "calculator-heat")

TYPED = {
    "moisture": ("moisture", {"scale": "index", "figure": "1.4890", "temperature": "25"}),
    "blend": (
        "blend",
        {
            "net1": "290",
            "water1": "17.2",
            "colour1": "12",
            "net2": "200",
            "water2": "19.4",
            "colour2": "64",
        },
    ),
    "heat": ("heat", {"temperature": "50", "hours": "48", "hmf": "5", "diastase": "16"}),
    "refused": ("moisture", {"scale": "index", "figure": "1.4600", "temperature": "20"}),
    "days": ("days", {"from": "out", "day": "10 Aug 2026", "interval": "6 weeks"}),
    "dip": ("dip", {"width": "1200", "dip": "640", "moisture": "17.8", "temperature": "32"}),
}


def fill(calculator: Calculator, how: str) -> None:
    """Type what one of its pictures shows."""
    key, values = TYPED[how]
    calculator.choose(key)
    calculator.presenter.type(FormTyped({**calculator.presenter.now().values, **values}))
    calculator.choose(key)


def _calculator(window: MainWindow) -> Calculator:
    view = window.stations["calculator"]
    assert isinstance(view, CalculatorView)
    return view.calculator


def bring(window: MainWindow, how: str) -> None:
    """Bring one of its pages about."""
    if how:
        fill(_calculator(window), how)


def leave(window: MainWindow) -> None:
    """Back to the first sum, with nothing typed."""
    calculator = _calculator(window)
    calculator.clear()
    calculator.choose("moisture")
    calculator.clear()
