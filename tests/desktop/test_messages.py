"""The worst is said first, and what was recorded can be reversed."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, and_more, recorded, tr_reverse, worst_first


def test_the_worst_message_is_said_first_and_equals_keep_their_order() -> None:
    first = Message(Mark.WARNING, "Above 18 %.", "Tag it dry first.")
    second = Message(Mark.WARNING, "Two fewer than the pull sheet.")
    note = Message(Mark.NOTE, "First pull of this yard.")
    refused = Message(Mark.REFUSED, "Not recorded:", "the gross is below the tare.")
    assert worst_first([note, first, second, refused]) == [refused, first, second, note]


def test_a_recorded_line_offers_to_reverse_its_entry() -> None:
    message = recorded("Received 36 supers as S26-0417-5.", 48_212)
    assert message.action == tr_reverse() == "Reverse"
    assert message.about == 48_212
    assert message.sentence == "Received 36 supers as S26-0417-5."


def test_what_stands_behind_is_counted() -> None:
    assert and_more(2) == "and 2 more"
