"""The fields of a form: in rows, later ones hidden until there is something in them."""

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop import language
from honeyledger.desktop.stations.setup.deeds import setup_kinds
from honeyledger.desktop.stations.setup.form_view import KindForm, KindForms, rows_of
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Turns
from honeyledger.desktop.widgets.choices import ChoiceField
from honeyledger.desktop.widgets.form import FormField
from honeyledger.documents.stock import Stocks
from honeyledger.services.setup_page import setup_page
from tests.support.houses import BuiltHouse

BY_KEY = {kind.key: kind for kind in setup_kinds()}


def _form(qtbot: QtBot, key: str) -> KindForm:
    form = KindForm(BY_KEY[key], Density.DESK)
    qtbot.addWidget(form)
    return form


def test_questions_stand_beside_one_another_where_they_are_short() -> None:
    rows = [[ask.key for ask in row] for row in rows_of(BY_KEY["product"])]
    assert rows[:3] == [["name"], ["net_g", "gtin"], ["keeps_months", "crop"]]


def test_what_is_asked_later_is_shown_where_there_is_any_of_it(qtbot: QtBot) -> None:
    form = _form(qtbot, "yard")
    assert form.has_later()
    form.fill({"name": "Mill Lane"})
    assert form.by_key["forage"].isHidden()
    form.fill({"name": "Mill Lane", "forage": "clover"})
    assert not form.by_key["forage"].isHidden()
    form.show_later(False)
    assert form.values()["forage"] == "clover"
    assert not _form(qtbot, "box").has_later()


def test_there_are_names_to_choose_from(qtbot: QtBot) -> None:
    house = BuiltHouse()
    house.vessel("Line 1", sort="line")
    house.vessel("Tank 1")
    page = house.house.ask(setup_page)
    tank, sieve, first = (_form(qtbot, key) for key in ("tank", "equipment", "house"))
    for form in (tank, sieve):
        form.show_page(page)
    first.offer_zones(["UTC", "Europe/Berlin"])
    offered = {
        (form.kind.key, key): [choice.text for choice in form.by_key[key].choices()]
        for form, key in ((tank, "name"), (tank, "fed_by"), (sieve, "at"), (first, "zone"))
        if isinstance(form.by_key[key], ChoiceField)
    }
    assert offered == {
        ("tank", "name"): ["Tank 1"],
        ("tank", "fed_by"): ["Line 1"],
        ("equipment", "at"): ["Line 1", "Tank 1"],
        ("house", "zone"): ["UTC", "Europe/Berlin"],
    }


def test_what_a_field_offers_is_kept_by_its_english_word(
    qtbot: QtBot, light: QApplication
) -> None:
    """Others ask for it by that: a check is made of each piece of its sort."""
    language.wear(light, "es")
    kinds = {kind.key: kind for kind in setup_kinds()}
    form = KindForm(kinds["equipment"], Density.DESK)
    qtbot.addWidget(form)
    sort = form.by_key["sort"]
    assert isinstance(sort, ChoiceField)
    sort.set_text("filtro")
    assert form.values()["sort"] == "sieve"
    form.fill({"name": "Malla 400", "sort": "refractometer", "weighs": "supers"})
    assert sort.text() == "refractómetro"
    assert form.values()["weighs"] == "supers"
    sort.set_text("a sort of our own")
    assert form.values()["sort"] == "a sort of our own"
    language.wear(light, language.ENGLISH)


def test_typing_is_told(qtbot: QtBot) -> None:
    form = _form(qtbot, "operator")
    form.show()
    with qtbot.waitSignal(form.changed):
        qtbot.keyClicks(form.by_key["name"].editor, "A")
    assert form.values()["name"] == "A"


def test_a_form_is_made_when_it_is_first_asked_for(qtbot: QtBot) -> None:
    made: list[str] = []

    def make(key: str) -> KindForm:
        made.append(key)
        return _form(qtbot, key)

    forms = KindForms(make)
    forms.offer_zones(["UTC"])
    forms.show_page(BuiltHouse().house.ask(setup_page))
    assert list(forms) == []
    zone = forms["house"].by_key["zone"]
    assert isinstance(zone, ChoiceField)
    assert [choice.text for choice in zone.choices()] == ["UTC"]
    assert forms["house"] is forms["house"]
    assert made == list(forms) == ["house"]
    forms.offer_zones(["UTC", "Europe/Berlin"])
    assert len(zone.choices()) == 2


def test_every_paper_but_a_measured_printer_may_be_asked_about_each_time(qtbot: QtBot) -> None:
    papers, printer = (_form(qtbot, key) for key in ("papers", "printer"))
    for form in (papers, printer):
        form.offer_papers(["Office"], Stocks({}))
    offers = {
        key: [one.key for one in field.choices()]
        for form in (papers, printer)
        for key, field in form.by_key.items()
        if isinstance(field, ChoiceField) and (key == "name" or key.endswith("_printer"))
    }
    each = [f"{sort}_printer" for sort in ("tags", "labels", "badges", "sheets")]
    assert offers == {key: ["Office", "ask each time"] for key in each} | {"name": ["Office"]}


def test_a_form_is_made_in_turns_of_a_few_fields(qtbot: QtBot) -> None:
    kind, turns = BY_KEY["yard"], Turns()
    begun: list[dict[str, FormField]] = []

    def make(key: str) -> KindForm:
        begun.append(forms.begun.pop(key))
        return KindForm(kind, Density.DESK, begun[0])

    forms = KindForms(make)
    forms.make_in_turns(turns, lambda: kind, Density.DESK)
    turns.hurry()
    qtbot.addWidget(forms["yard"])
    assert list(begun[0]) == [ask.key for ask in kind.asks]
    assert list(forms["yard"].by_key) == list(_form(qtbot, "yard").by_key)
    assert all(forms["yard"].by_key[key] is field for key, field in begun[0].items())
    forms.make_in_turns(turns, lambda: kind, Density.DESK)
    turns.hurry()
    assert forms.begun == {}, "a form that is there is not begun again"


@pytest.mark.parametrize("key", BY_KEY)
def test_the_turns_suffice_for_every_form(qtbot: QtBot, key: str) -> None:
    kind, turns = BY_KEY[key], Turns()
    begun: dict[str, FormField] = {}

    def make(_key: str) -> KindForm:
        begun.update(forms.begun.pop(key))
        return KindForm(kind, Density.DESK, begun)

    forms = KindForms(make)
    forms.make_in_turns(turns, lambda: kind, Density.DESK)
    turns.hurry()
    qtbot.addWidget(forms[key])
    assert list(begun) == [ask.key for ask in kind.asks]
