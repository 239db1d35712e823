"""The calculator without its widgets: sums kept as they were left, answers, refusals."""

from datetime import date

from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.calculator.presenter import CalculatorPresenter
from honeyledger.desktop.stations.calculator.sums import Reckoned
from honeyledger.domain.refusals import Refusal

TODAY = date(2026, 7, 24)


def test_each_sum_is_kept_as_it_was_left_until_it_is_cleared() -> None:
    presenter = CalculatorPresenter(TODAY)
    assert list(presenter.sums) == [
        *("moisture", "colour", "blend", "air", "heat", "dip", "jars", "units", "days")
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
