"""Months in the language in use; only a day as the ledger writes it is touched."""

from PySide6.QtWidgets import QApplication

from honeyledger.desktop import language
from honeyledger.desktop.months import day_in_words, month_word


def test_months_are_called_as_people_call_them(light: QApplication) -> None:
    assert [month_word(at) for at in (1, 8, 12)] == ["Jan", "Aug", "Dec"]
    language.wear(light, "es")
    assert [month_word(at) for at in (1, 4, 8, 12)] == ["ene", "abr", "ago", "dic"]
    language.wear(light, language.ENGLISH)


def test_only_a_day_as_the_ledger_writes_it_is_said_again(light: QApplication) -> None:
    language.wear(light, "es")
    assert day_in_words("3 Aug 2026 14:30") == "3 ago 2026 14:30"
    assert day_in_words("seen on 3 Aug 2026") == "seen on 3 Aug 2026"
    language.wear(light, language.ENGLISH)
    assert day_in_words("3 Aug 2026") == "3 Aug 2026"
