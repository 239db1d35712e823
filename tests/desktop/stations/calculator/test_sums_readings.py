"""The sums about what was read: each figure as its source has it, each refusal in words."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.calculator.sums import Reckoned
from honeyledger.desktop.stations.calculator.sums_readings import reading_sums
from honeyledger.domain.refusals import Refusal

SUMS = {one.key: one for one in reading_sums()}


def _reckoned(key: str, **typed: str) -> Reckoned:
    one = SUMS[key]
    form = FormTyped({**one.begins().values, **typed})
    assert one.needs(form)
    answer = one.reckon(form, Reading("kg", date(2026, 7, 24)))
    assert all(figure.source for figure in answer.figures)
    return answer


def _found(key: str, **typed: str) -> dict[str, str]:
    return {figure.meaning: figure.figure for figure in _reckoned(key, **typed).figures}


@pytest.mark.parametrize(
    "typed", ["17.4 17.4 17.5 17.3 17.4 19.8", "17.4, 17.4, 17.5, 17.3 %; 17,4;19,8"]
)
def test_several_readings_and_the_odd_one(typed: str) -> None:
    assert _found("readings", moistures=typed) == {
        "mean": "17.80 %",
        "spread": "0.98 %",
        "lowest to highest": "17.3 % to 19.8 %",
        "does not belong: read it again": "19.8 %",
        "mean without it": "17.40 %",
    }


def test_readings_that_belong_together_and_too_few_of_them() -> None:
    assert _found("readings", moistures="17.4 17.5 17.3")["does not belong"] == "none"
    assert "does not belong" not in _found("readings", moistures="17.4 17.5")
    with pytest.raises(Refusal) as refused:
        _found("readings", moistures="17.4")
    assert refused.value.field == "moistures"
    assert refused.value.text == (
        "There is one reading: type two or more, with blanks between them."
    )


def test_gravity_by_a_bottle_and_the_density_of_it() -> None:
    # Worked example at 123foodscience.com (S2); water at 20 °C 998.2 g/l: value from memory, M.
    weights = {"empty": "28.4773", "with_water": "54.8809", "with_honey": "65.2718"}
    assert _found("gravity", **weights)["specific gravity"] == "1.3935"
    density = _reckoned("gravity", **weights).figures[1]
    assert density.doubtful
    assert density.figure.replace("\u202f", "") == "1391 g/l"
    with pytest.raises(Refusal, match="has to weigh more than empty") as refused:
        _found("gravity", empty="50", with_water="50", with_honey="60")
    assert refused.value.field == "with_water"


def test_conductivity_at_20_degrees_within_15_to_25() -> None:
    # 3.2 % a degree: value from memory, M.
    found = _reckoned("conductivity", microsiemens="640", temperature="22.5").figures[0]
    assert (found.figure, found.meaning, found.doubtful) == ("0.589 mS/cm", "at 20 °C", True)
    for outside in ("14.9", "25.1"):
        with pytest.raises(Refusal, match="too far from 20 °C") as refused:
            _found("conductivity", microsiemens="640", temperature=outside)
        assert refused.value.field == "temperature"


def test_a_code_fits_or_not_and_says_what_goes_behind_it() -> None:
    # Sources: gs1.org (6291041500213); python-stdnum, mod_97_10 and mod_37_36.
    assert _found("code", text="6291041500213")["its last digit as a GS1 check digit"] == "fits"
    wrong = _found("code", text="6291041500214")
    assert wrong["its last digit as a GS1 check digit"] == "does not fit"
    assert _found("code", text="794")["digits to put behind it"] == "44"
    assert _found("code", text="629104150021")["GS1 check digit to put behind it"] == "3"
    letters = _found("code", text="A12425GABC1234002M")
    assert letters["its end by ISO/IEC 7064 MOD 37,36"] == "fits"
    assert _found("code", text="(01)09521234543213(17)260400") == {
        "(01)": "09521234543213",
        "(17)": "30 Apr 2026",
    }
    with pytest.raises(Refusal, match="no check digits can be made") as refused:
        _found("code", text="Größe")
    assert refused.value.field == "text"
