"""Codes are set as codes, sentences break between words, and what is cut says so."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop import lettering, look
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.tokens import Type

BODY = Hand(Type.BODY)


def _bold(code: str) -> str:
    return "".join(
        run.text
        for run in lettering.code_runs(code, BODY)
        if run.font.weight() == run.font.Weight.Bold
    )


def test_the_number_people_call_out_is_bold() -> None:
    assert _bold("D26-0611-Y") == "0611"
    assert _bold("J26-0147-00382-F") == "00382"
    assert _bold("Y14") == ""


def test_a_sentence_keeps_its_words_and_sets_its_codes_apart() -> None:
    text = "Where jar J26-0147-00382-F comes from: D26-0611-Y, half of it."
    made = lettering.runs(text, BODY)
    assert "".join(run.text for run in made) == text
    mono = "".join(run.text for run in made if run.font.family() == look.MONO)
    assert mono == "J26-0147-00382-FD26-0611-Y"


def test_a_word_that_only_looks_like_a_code_is_left_alone() -> None:
    made = lettering.runs("2026-0147 and AB-12", BODY)
    assert [run.font.family() for run in made] == [look.SANS]


def test_a_line_that_does_not_fit_ends_in_an_ellipsis() -> None:
    made = lettering.elided(lettering.runs("Tag it dry first: wet honey ferments.", BODY), 120)
    assert made[-1].text.endswith("…")
    assert lettering.width(made) <= 120
    whole = lettering.elided(lettering.runs("ready", BODY), 500)
    assert [run.text for run in whole] == ["ready"]


def test_a_name_is_cut_in_its_middle() -> None:
    cut = lettering.middle_elided("Tamarack Rise by the river", BODY.font(), 130)
    assert cut.startswith("Ta")
    assert cut.endswith("er")


def test_a_sentence_breaks_between_words_and_never_inside_a_code() -> None:
    text = "Filled from T26-0101-S and weighed 1\u202f284.5 kg by the second operator."
    lines = lettering.wrapped(text, BODY, 150)
    assert len(lines) > 2
    joined = ["".join(run.text for run in line) for line in lines]
    assert " ".join(joined) == text
    assert any("T26-0101-S" in line for line in joined)
    assert any("1\u202f284.5" in line for line in joined)


def test_no_more_lines_than_allowed_are_made() -> None:
    runs = lettering.runs("one two three four five six seven eight nine ten", BODY)
    assert len(lettering.run_lines(runs, 80, 2)) == 2


def test_thousands_stand_apart_and_what_is_read_out_stays_as_it_was() -> None:
    run = BODY.run("9\u202f840")
    assert run.text == "9\u202f840"
    assert run.width > BODY.run("9840").width + 2


def test_text_stands_at_the_side_it_is_asked_to() -> None:
    image = QImage(200, 40, QImage.Format.Format_RGB32)
    image.fill(look.colour("sheet"))
    painter = QPainter(image)
    room = QRectF(0, 0, 200, 40)
    left = lettering.draw(painter, room, [BODY.run("kg")], Side.LEFT)
    right = lettering.draw(painter, room, [BODY.run("kg")], Side.RIGHT)
    centre = lettering.draw(painter, room, [BODY.run("kg")], Side.CENTRE)
    painter.end()
    assert left.left() == 0
    assert abs(right.right() - 200) < 0.01
    assert abs(centre.center().x() - 100) < 0.01


def test_the_kit_says_its_own_words_through_translation() -> None:
    assert lettering.translated("not to scale") == "not to scale"


def test_a_line_never_begins_with_the_per_cent_or_degrees_of_a_figure() -> None:
    for sign in ("%", "°C", "%)."):
        text = f"more than is usual 3.8 {sign}"
        room = lettering.width(lettering.runs("more than is usual 3.8", BODY)) + 1
        lines = lettering.wrapped(text, BODY, room)
        assert "".join(run.text for run in lines[-1]) == f"3.8 {sign}"
