"""Why a code was not traced, and what may have been meant."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.trace.offers_view import MOST_OFFERS, Offers
from honeyledger.domain.refusals import Refusal, Sentence

MISREAD = Sentence("misread", "D26-0001-X is misread.")


def _offers(qtbot: QtBot, *codes: str) -> Offers:
    made = Offers()
    qtbot.addWidget(made)
    made.show_refusal(Refusal(MISREAD, offers=codes))
    return made


def test_it_is_not_there_while_nothing_is_refused(qtbot: QtBot) -> None:
    made = Offers()
    qtbot.addWidget(made)
    assert made.isHidden()


def test_a_code_that_was_meant_is_taken_by_pressing_it(qtbot: QtBot) -> None:
    made = _offers(qtbot, "D26-0001-C", "D26-0002-A")
    taken: list[str] = []
    made.taken.connect(taken.append)
    shown = [button for button in made.buttons if button.isVisible()]
    assert [button.text() for button in shown] == ["D26-0001-C", "D26-0002-A"]
    assert shown[1].accessibleName() == "Trace D26-0002-A"
    shown[1].click()
    assert taken == ["D26-0002-A"]


def test_at_most_a_few_are_offered(qtbot: QtBot) -> None:
    made = _offers(qtbot, *[f"D26-000{n}-X" for n in range(6)])
    assert sum(button.isVisible() for button in made.buttons) == MOST_OFFERS


def test_without_an_offer_only_the_sentence_stands(qtbot: QtBot) -> None:
    made = _offers(qtbot)
    assert not any(button.isVisible() for button in made.buttons)
    shown = made.slot.shown()
    assert shown is not None
    assert shown.mark is Mark.REFUSED
    assert made.slot.sentence() == "Not traced. D26-0001-X is misread."
