"""The calculator without its widgets: sums kept as they were left, answers, refusals."""

import re
from datetime import date
from pathlib import Path

import pytest

from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.calculator.presenter import CalculatorPresenter
from honeyledger.desktop.stations.calculator.sums import Reckoned
from honeyledger.domain.refusals import Refusal
from tests.support.terminal import Terminal

TODAY = date(2026, 7, 24)


def test_each_sum_is_kept_as_it_was_left_until_it_is_cleared() -> None:
    presenter = CalculatorPresenter(TODAY)
    assert list(presenter.sums) == [
        *("moisture", "colour", "blend", "air", "heat", "dry", "beetles"),
        *("dip", "jars", "units", "days", "readings", "gravity", "conductivity", "code"),
    ]
    assert presenter.answer() is None
    presenter.type(presenter.now().with_value("figure", "1.4900"))
    assert presenter.answer() is None
    presenter.choose("colour")
    presenter.type(presenter.now().with_value("reading", "34.5"))
    assert isinstance(presenter.answer(), Reckoned)
    presenter.choose("moisture")
    assert presenter.now().text("figure") == "1.4900"
    presenter.clear()
    assert presenter.now() == FormTyped({"scale": "index", "corrected": "no"})


def test_what_cannot_be_told_is_refused_in_words() -> None:
    presenter = CalculatorPresenter(TODAY)
    typed = {"scale": "index", "figure": "1.4600", "temperature": "20", "corrected": "no"}
    presenter.type(FormTyped(typed))
    answer = presenter.answer()
    assert isinstance(answer, Refusal)
    assert "is outside the table for honey" in answer.text
    assert presenter.sum.field_of(answer.field) == "figure"
    presenter.type(FormTyped({**typed, "temperature": "60"}))
    hot = presenter.answer()
    assert isinstance(hot, Refusal)
    assert hot.field == "temperature"


def test_weights_go_by_the_house_s_unit() -> None:
    presenter = CalculatorPresenter(TODAY, "lb")
    presenter.choose("units")
    presenter.type(FormTyped({"mass": "10"}))
    answer = presenter.answer()
    assert isinstance(answer, Reckoned)
    assert answer.figures[0].figure == "4.536 kg"


_DRYING = {
    "hour1": "0",
    "water1": "19.6",
    "hour2": "6",
    "water2": "19.4",
    "hour3": "12",
    "water3": "19.2",
    "hour4": "18",
    "water4": "19.0",
}
_TREND = "0=19.6 6=19.4 12=19.2 18=19.0"
_BOTTLE = {"empty": "28.4773", "with_water": "54.8809", "with_honey": "65.2718"}
_TANK = {"width": "1000", "dip": "1000", "moisture": "17"}


@pytest.mark.parametrize(
    ("words", "key", "typed"),
    [
        (
            "moisture 1.4890 --temperature 25",
            "moisture",
            {"figure": "1.4890", "temperature": "25"},
        ),
        ("colour 34.5", "colour", {"reading": "34.5"}),
        (
            "blend 300=17.2 200=19.4",
            "blend",
            {"net1": "300", "water1": "17.2", "net2": "200", "water2": "19.4"},
        ),
        ("air 18.8 45", "air", {"moisture": "18.8", "humidity": "45"}),
        ("heat 50=48 --hmf 5", "heat", {"temperature": "50", "hours": "48", "hmf": "5"}),
        (f"dry 18 {_TREND}", "dry", {"target": "18", **_DRYING}),
        (
            f"dry 18 {_TREND} --humidity 55",
            "dry",
            {"target": "18", "humidity": "55", **_DRYING},
        ),
        ("beetles 80 --humidity 45 --humidity 49", "beetles", {"hours": "80", "dampest": "49"}),
        ("dip --moisture 17 --width 1000 --dip 1000", "dip", _TANK),
        ("jars 300 500g --over 2.4", "jars", {"mass": "300", "net": "500", "over": "2.4"}),
        ("units --mass 640lb", "units", {"mass": "640lb"}),
        ("interval 2026-04-10 14d", "days", {"day": "2026-04-10", "interval": "14d"}),
        (
            "readings 17.4 17.4 17.5 17.3 19.8",
            "readings",
            {"moistures": "17.4 17.4 17.5 17.3 19.8"},
        ),
        ("gravity 28.4773 54.8809 65.2718", "gravity", _BOTTLE),
        (
            "conductivity 640 --temperature 22.5",
            "conductivity",
            {"microsiemens": "640", "temperature": "22.5"},
        ),
        ("code 6291041500213", "code", {"text": "6291041500213"}),
        ("code (01)09521234543213(17)260400", "code", {"text": "(01)09521234543213(17)260400"}),
    ],
)
def test_the_terminal_tells_the_same(
    tmp_path: Path, words: str, key: str, typed: dict[str, str]
) -> None:
    """Each figure stands in the terminal's answer, but those that the window tells besides."""
    presenter = CalculatorPresenter(TODAY)
    presenter.choose(key)
    presenter.type(FormTyped({**presenter.now().values, **typed}))
    answer = presenter.answer()
    assert isinstance(answer, Reckoned)
    said = Terminal(tmp_path).do("reckon", *words.split())
    told = [one.figure for one in answer.figures if one.meaning not in _BESIDES]
    assert told
    for figure in told:
        for part in re.split(" to ", _SAYS.get(figure, figure)):
            assert part.removesuffix(" h") in said


# What the window tells more than the terminal, and the same in other words.
_BESIDES = {
    *("the darkest Pfund reading in it", "water it comes to in this air", "density"),
    *("HMF grown by, mg/kg", "litres", "in the tank", "whether it keeps"),
}
_SAYS = {"dries it": "air dries"}


@pytest.mark.parametrize(
    ("words", "key", "typed"),
    [
        ("air 15 40", "air", {"moisture": "15", "humidity": "40"}),
        (
            f"dry 18 {_TREND} --humidity 90",
            "dry",
            {"target": "18", "humidity": "90", **_DRYING},
        ),
        (f"dry 18 {_TREND} --humidity 62", "dry", {"target": "18", "humidity": "62", **_DRYING}),
        (
            "conductivity 640 --temperature 26",
            "conductivity",
            {"microsiemens": "640", "temperature": "26"},
        ),
        ("gravity 5 5 6", "gravity", {"empty": "5", "with_water": "5", "with_honey": "6"}),
        ("dip --moisture 22 --width 9 --dip 9", "dip", {**_TANK, "moisture": "22"}),
    ],
)
def test_the_terminal_refuses_in_the_same_words(
    tmp_path: Path, words: str, key: str, typed: dict[str, str]
) -> None:
    presenter = CalculatorPresenter(TODAY)
    presenter.choose(key)
    presenter.type(FormTyped({**presenter.now().values, **typed}))
    answer = presenter.answer()
    assert isinstance(answer, Refusal)
    assert Terminal(tmp_path).refused("reckon", *words.split()).strip() == answer.text
    assert presenter.sum.field_of(answer.field) in {ask.key for ask in presenter.sum.asks()}
