"""The window in Spanish: what it says, what the ledger keeps, and which language is chosen."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QLocale
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.assets import resource
from honeyledger.desktop import language
from honeyledger.desktop.language import facts_in, first_note, note_words, refusal_words, say
from honeyledger.domain.phrases import joined, phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import Rig

SPANISH = "es"


@pytest.fixture
def spanish(dressed: QApplication, light: QApplication) -> Iterator[QApplication]:
    language.wear(dressed, SPANISH)
    yield dressed
    language.wear(dressed, language.ENGLISH)


@pytest.fixture
def rig(spanish: QApplication, qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    made.house.record(Register("yard", {"name": "Mill Lane", "colonies": 40}))
    made.desk.refresh.broadcast(frozenset({"yards"}))
    made.settle()
    yield made
    made.close()


def test_the_dock_is_in_spanish_and_the_ledger_is_not(rig: Rig) -> None:
    form = rig.dock.form
    assert form.panel.heading.text() == "Recibir alzas"
    form.receive.click()
    rig.settle()
    assert form.slot.sentence() == (
        "No se registró. Nombre primero el colmenar y el número de alzas."
    )
    rig.keys("Ctrl+2")
    for text in ("Mill Lane", "", "", "North truck", "36", "", "", "", "17.2"):
        rig.type(text)
    assert "recibido: 36 alzas" in rig.toast().lead
    assert rig.toast().action == "Anular"
    heads = [column.title for column in rig.dock.table.model.columns]
    assert heads[:3] == ["Palé", "Estado", "Colmenar"]
    assert form.receive.text() == "Recibir e imprimir"
    last = rig.house.ask(lambda view: view.entries(last=2))
    assert [entry.kind for entry in last] == ["receive", "printed"]


def test_a_refusal_is_said_with_its_facts(spanish: QApplication) -> None:
    with pytest.raises(Refusal) as refused:
        parse_count("x", "a number of supers")
    assert refused.value.text == "x is not a whole number: type a number of supers, such as 24."
    assert refusal_words(refused.value) == (
        "x no es un número entero: escriba un número de alzas, como 24."
    )


def test_what_people_typed_is_never_translated(spanish: QApplication) -> None:
    named = Sentence("test-named", "There is no file {file}. Check its name and its folder.")
    assert refusal_words(Refusal(named, file="Dock")) == (
        "No hay archivo Dock. Revise su nombre y su carpeta."
    )
    assert say("not read") == "not read"
    assert say(phrase("in {room}", room="Dock")) == "en Dock"
    assert say(joined((phrase("not read"), "Dock"), "; ")) == "sin leer; Dock"


def test_a_note_of_the_ledger_is_said_again_from_its_text(spanish: QApplication) -> None:
    text = "Above 18 %: dry first, wet honey ferments."
    assert note_words("wet-honey", "something older") == "something older"
    assert note_words("no-such-key", text) == text
    assert first_note([]) == ""


def test_the_facts_of_a_text_are_read_back_by_its_template() -> None:
    template = "{yard}: {count} supers came, {yard} sent them."
    assert facts_in(template, "A: b: 3 supers came, A: b sent them.") == {
        "yard": "A: b",
        "count": "3",
    }
    assert facts_in(template, "nothing of it") is None


def test_in_english_everything_is_as_it_was() -> None:
    refusal = Refusal(Sentence("test-plain", "Name the {what}."), what="yard")
    assert refusal_words(refusal) == refusal.text
    assert note_words("test-plain", "Name the yard.") == "Name the yard."
    assert say(phrase("in {room}", room="Store")) == "in Store"
    assert QCoreApplication.translate("actions", "Dock") == "Dock"


def test_the_language_is_the_systems_where_there_is_a_catalogue(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert language.languages() == ("en", "es")
    for told, chosen in (("es_MX", "es"), ("de_AT", "en"), ("en_CA", "en")):
        monkeypatch.setattr(QLocale, "system", lambda told=told: QLocale(told))
        assert language.chosen(language.SYSTEM) == chosen
    assert [language.chosen(one) for one in ("es", "en", "fi")] == ["es", "en", "en"]
    assert [language.language_name(one) for one in ("en", "es")] == ["English", "Español"]


def test_what_is_worn_is_known_and_taken_off_again(dressed: QApplication) -> None:
    language.wear(dressed, SPANISH)
    assert language.worn() == "es"
    assert QCoreApplication.translate("actions", "Dock") == "Recepción"
    assert QCoreApplication.translate("actions", "Season") == "Temporada"
    language.wear(dressed, language.ENGLISH)
    assert language.worn() == "en"
    assert QCoreApplication.translate("actions", "Dock") == "Dock"
    assert language.catalogue_of("en").said("Dock") is None
    assert language.guide_folder(resource()) == resource("guide")
