"""The floor's fields: named, in the order of the work, and kept as typed."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.extraction.fields_view import FloorFields
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.fields import Field


def _fields(qtbot: QtBot) -> FloorFields:
    made = FloorFields()
    for field in (made.what, *made.fields().values()):
        qtbot.addWidget(field)
    return made


def test_every_field_stands_in_one_row(qtbot: QtBot) -> None:
    made = _fields(qtbot)
    rows = [field for row in made.rows() for field in row]
    assert len(rows) == len(set(rows))
    assert set(rows) == set(made.fields().values())


def test_every_field_has_a_name_for_a_screen_reader(qtbot: QtBot) -> None:
    for name, field in _fields(qtbot).fields().items():
        if isinstance(field, Field):
            assert field.editor.accessibleName(), name
        else:
            assert all(button.accessibleName() for button in field.buttons()), name


def test_what_is_usual_is_chosen_already(qtbot: QtBot) -> None:
    made = _fields(qtbot)
    assert (made.how.key(), made.pending.key()) == ("dip", "done")
    assert made.washed.key() == made.top_up.key() == made.follows.key() == ""


def test_a_draft_is_what_was_typed_and_comes_back(qtbot: QtBot) -> None:
    made = _fields(qtbot)
    assert made.draft() == {}
    made.gross.set_text("310,5")
    made.line.set_text("Line A")
    assert made.draft() == {"gross": "310,5"}
    again = _fields(qtbot)
    again.net.set_text("40")
    again.restore({"gross": "310,5", "net": "30", "count": 3})
    assert (again.gross.text(), again.net.text(), again.count.text()) == ("310,5", "40", "")


def test_a_button_that_was_tapped_is_kept_like_typing(qtbot: QtBot) -> None:
    """What is usual is no draft; what stays chosen is kept apart."""
    made = _fields(qtbot)
    made.washed.set_key("no")
    made.how.set_key("mark")
    made.vessel.set_choices([Choice("E26-0001-X", "Line A"), Choice("E26-0002-U", "Tank 1")])
    made.vessel.set_key("E26-0002-U")
    assert made.draft() == {"washed": "no", "how": "mark"}
    assert made.chosen() == {"vessel": "E26-0002-U"}
    again = _fields(qtbot)
    again.restore({"washed": "no", "how": "mark"})
    again.vessel.set_choices([Choice("E26-0001-X", "Line A")])
    again.choose_again({"vessel": "E26-0002-U", "how": "guess", "nothing": "x"})
    assert (again.washed.key(), again.how.key(), again.vessel.key()) == ("no", "mark", "")
    again.restore({"washed": "yes"})
    assert again.washed.key() == "no", "what was tapped since counts"
