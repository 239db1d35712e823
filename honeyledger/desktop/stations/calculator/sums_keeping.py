"""The sum about keeping: what heat may have done, as bands that certify nothing."""

from honeyledger.desktop.models.asked import Ask, FormTyped, Reading
from honeyledger.desktop.stations.calculator.sums import (
    Figure,
    Reckoned,
    Sum,
    from_memory,
    second_hand,
    typed_all,
)
from honeyledger.desktop.stations.calculator.words import tr
from honeyledger.domain.heat_budget import Band, Warmed, diastase_left, hmf_after, hmf_grown
from honeyledger.domain.units import parse_figure, parse_temperature


def keeping_sums() -> tuple[Sum, ...]:
    """Heat."""
    return (_heat(),)


def _heat() -> Sum:
    return Sum(
        "heat",
        tr("Heat"),
        tr("How warm it was and for how many hours; what was measured before, where you know."),
        (
            (
                Ask("temperature", tr("Temperature"), unit="°C"),
                Ask("hours", tr("Hours"), unit="h"),
            ),
            (
                Ask("hmf", tr("HMF before"), unit="mg/kg"),
                Ask("diastase", tr("Diastase before")),
            ),
        ),
        typed_all("temperature", "hours"),
        _heat_of,
    )


def _heat_of(typed: FormTyped, _reading: Reading) -> Reckoned:
    hours = _tenths(typed.text("hours"), "hours", "a number of hours", 100_000)
    warmed = [Warmed(parse_temperature(typed.text("temperature")), hours)]
    times = f"White, Kushnir, Subers 1964; {second_hand()}"
    figures = [Figure(_band(hmf_grown(warmed)), tr("HMF grown by, mg/kg"), times, doubtful=True)]
    if text := typed.text("hmf"):
        found = hmf_after(_tenths(text, "hmf", "a figure of HMF", 1_000), warmed)
        figures.append(Figure(_band(found), tr("HMF then, mg/kg"), times, doubtful=True))
    if text := typed.text("diastase"):
        left = diastase_left(_tenths(text, "diastase", "a diastase number", 1_000), warmed)
        source = f"White 1964; {from_memory()}"
        figures.append(Figure(_band(left), tr("diastase left"), source, doubtful=True))
    care = tr("A band for choosing what to have measured; it certifies nothing.")
    return Reckoned(tuple(figures), care)


def _band(band: Band) -> str:
    return tr("{low} to {high}").format(low=f"{band.least:.1f}", high=f"{band.most:.1f}")


def _tenths(text: str, field: str, what: str, most: int) -> float:
    return parse_figure(text, what, "12.5", decimals=1, bounds=(0, most), field=field) / 10
