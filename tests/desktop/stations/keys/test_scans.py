"""What a scan was, in words."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.scanning import Scan
from honeyledger.desktop.stations.keys.scans import begin_messages, scan_messages
from honeyledger.domain.codes import make_jar_code, next_code

DRUM = str(next_code("D", 26, 610))


def test_a_good_scan_says_how_fast_and_what_it_is() -> None:
    came, how, read = scan_messages(Scan(DRUM, 8.0 * len(DRUM), "Tab"), DRUM, "")
    assert came.sentence == f"It came as {DRUM}."
    assert (how.mark, how.sentence) == (Mark.READY, "8 ms between its keys, ended by Tab.")
    assert read.sentence == f"It is read as {DRUM}, drum."


def test_a_slow_one_is_warned_of() -> None:
    _, how, _ = scan_messages(Scan(DRUM, 30.0 * len(DRUM), "Enter"), DRUM, "")
    assert how.mark is Mark.WARNING
    assert how.text == "That is slow for a scanner: set it to send without a delay."


def test_what_was_typed_is_told_apart() -> None:
    for scan in (None, Scan("another", 10.0, "Enter")):
        _, how, _ = scan_messages(scan, DRUM, "")
        assert how.sentence == "It was typed, or came too slowly to be told from a hand."


def test_a_jar_says_its_lot_and_serial_and_control_signs_are_seen() -> None:
    lot = next_code("J", 26, 146)
    jar = make_jar_code(lot, 382)
    text = f"10{lot}\x1d21{jar}"
    came, _, read = scan_messages(None, text, "")
    assert "␝" in came.text
    assert read.sentence == f"It is read as {jar}, jar 382 of {lot}."


def test_what_is_no_code_says_why() -> None:
    *_, read = scan_messages(None, "4006381333931", "")
    assert read.mark is Mark.REFUSED
    assert read.lead == "No code of a house."
    *_, read = scan_messages(None, f"KB{DRUM}", "")
    assert read.mark is Mark.REFUSED


def test_before_the_first_scan_it_says_how_to_set_a_scanner() -> None:
    words = " ".join(message.sentence for message in begin_messages())
    assert "ended by Enter or Tab" in words
