"""The calculator: a moisture told, a blend, a treatment's days, and a reading off the table."""

from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.calculator.view import Calculator, CalculatorView

PAGES = ("calculator", "calculator-moisture", "calculator-blend", "calculator-refused")
PAGES = (*PAGES, "calculator-days", "calculator-dip", "calculator-heat")
PAGES = (*PAGES, "calculator-dry", "calculator-beetles", "calculator-readings")
PAGES = (*PAGES, "calculator-gravity", "calculator-conductivity", "calculator-code")
PAGES = (*PAGES, "calculator-air-refused")

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
    "dry": (
        "dry",
        {
            "target": "18.0",
            "humidity": "55",
            "hour1": "0",
            "water1": "19.6",
            "hour2": "6",
            "water2": "19.4",
            "hour3": "12",
            "water3": "19.2",
            "hour4": "18",
            "water4": "19.0",
        },
    ),
    "beetles": ("beetles", {"hours": "80", "driest": "48", "dampest": "55"}),
    "readings": ("readings", {"moistures": "17.4 17.4 17.5 17.3 17.4 19.8"}),
    "gravity": (
        "gravity",
        {"empty": "28.4773", "with_water": "54.8809", "with_honey": "65.2718"},
    ),
    "conductivity": ("conductivity", {"microsiemens": "640", "temperature": "22.5"}),
    "code": ("code", {"text": "6291041500213"}),
    "air-refused": ("air", {"moisture": "15.0", "humidity": "40"}),
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
