"""Figures as the season's page says them."""

from datetime import date

from honeyledger.desktop.stations.season.words import (
    bare,
    counted,
    mass,
    percent,
    span,
    tr,
)


def test_a_mass_is_told_in_tonnes_from_ten_on() -> None:
    assert mass(9_999_000, "kg") == "9\u202f999 kg"
    assert mass(48_898_109, "kg") == "48.9 t"
    assert mass(48_898_109, "lb") == "107\u202f802 lb"


def test_figures_without_their_unit() -> None:
    assert (bare(42_080, "kg", 1), bare(42_080, "lb", 1)) == ("42.1", "92.8")
    assert (percent(-580), percent(None), percent(367)) == ("−5.8", "", "3.7")


def test_one_and_many_and_days() -> None:
    assert counted(1, "1 yard", "{n} yards") == "1 yard"
    assert counted(1_200, "1 yard", "{n} yards") == "1\u202f200 yards"
    assert span(date(2026, 7, 1), 2026) == "1 Jul"
    assert span(date(2027, 1, 2), 2026) == "2 Jan 2027"
    assert tr("Pace") == "Pace"
