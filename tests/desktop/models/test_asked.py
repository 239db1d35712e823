"""Small forms as data: scans, lines, drafts, and the field a refusal is about."""

from honeyledger.desktop.models.asked import (
    Ask,
    FormSpec,
    FormTyped,
    LineTyped,
    Typing,
    as_draft,
    field_of,
    from_draft,
    with_scan,
    without_line,
)
from honeyledger.domain.refusals import Refusal, Sentence

SAYS = Sentence("says", "No.")


def spec(*rows: tuple[Ask, ...], scan: str = "", line: tuple[Ask, ...] = ()) -> FormSpec:
    return FormSpec(
        *("weigh", "Weigh", "Scan it.", "Keep it", rows),
        facts=lambda _typed, _reading: [],
        done=lambda _typed, _done, _reading: "Done.",
        scan=scan,
        line=line,
        fields={"gross_g": "gross"},
    )


def test_a_form_begins_as_usual_and_is_begun_with_anything_else() -> None:
    one = spec((Ask("what", "What", Typing.BUTTONS, usual="all"), Ask("note", "Note")))
    assert one.begins() == FormTyped({"what": "all"})
    assert not one.is_begun(FormTyped({"what": "all", "note": "  "}))
    assert one.is_begun(FormTyped({"what": "one"}))
    assert one.is_begun(FormTyped({}, (LineTyped("D26-0001-C"),)))


def test_a_scan_fills_its_field_adds_to_several_or_makes_a_line() -> None:
    single = spec((Ask("drum", "Drum"),), scan="drum")
    typed = with_scan(single, with_scan(single, FormTyped(), "A"), "B")
    assert typed.text("drum") == "B"
    several = spec((Ask("codes", "Drums", many=True),), scan="codes")
    typed = FormTyped()
    for code in ("A", "B", "A"):
        typed = with_scan(several, typed, code)
    assert typed.text("codes") == "A, B"
    assert FormTyped({"codes": " A;B,,A "}).codes("codes") == ("A", "B")
    listed = spec((Ask("lot", "Drum"),), scan="lot", line=(Ask("moisture", "Moisture"),))
    typed = FormTyped()
    for code in ("A", "B", "A"):
        typed = with_scan(listed, typed, code)
    assert [line.code for line in typed.lines] == ["A", "B"]
    assert [line.code for line in without_line(typed, "A").lines] == ["B"]


def test_a_refusal_names_the_answer_and_the_line_it_is_about() -> None:
    one = spec((Ask("gross", "Gross"),))
    assert field_of(one, Refusal(SAYS, field="gross_g")) == ("gross", "")
    assert field_of(one, Refusal(SAYS, field="moisture@D26-0001-C")) == ("moisture", "D26-0001-C")


def test_a_draft_gives_back_what_was_typed_and_nothing_it_cannot_read() -> None:
    typed = FormTyped({"into": "Tank 1"}, (LineTyped("D26-0001-C", {"planned": "100"}),))
    assert from_draft(as_draft(typed, "id-7")) == (typed, "id-7")
    for broken in (None, 7, {"values": 7, "lines": {"code": "A"}}, {"lines": [7, {"values": {}}]}):
        assert from_draft(broken) == (FormTyped(), "")
    assert from_draft({"values": {"a": 1, "b": "x"}})[0] == FormTyped({"b": "x"})


def test_answers_are_read_without_blanks() -> None:
    assert FormTyped({"a": " x "}).text("a") == "x"
    assert FormTyped().with_value("a", "y").text("a") == "y"
    assert LineTyped("A", {"m": " 17 "}).text("m") == "17"
    assert LineTyped("A").text("m") == ""
