"""What a label has to say, in the terminal."""

from tests.support.terminal import Terminal


def test_what_a_label_lacks_is_listed_with_its_source(terminal: Terminal) -> None:
    terminal.do("register", "yard", "add", "Moor")
    terminal.do("register", "vessel", "add", "Tank 9")
    tag = terminal.given("G", "receive", "Moor", "24", "--gross", "500")
    terminal.do("load", tag, "Tank 9")
    terminal.do(
        "register", "product", "add", "Moor 500", "--net", "500", "--for-markets", "EU, JP"
    )
    code = terminal.given("J", "change-over", "--product", "Moor 500", "--feed", "Tank 9")
    terminal.do("bottle", code, "20")
    answer = terminal.json("wording", code)
    assert (answer["markets"], answer["unknown_markets"]) == (["EU"], ["JP"])
    lacks = {row["what"]: row["verified"] for row in answer["lines"] if row["lacks"]}
    assert lacks["best before"] is True
    assert lacks["how to store it"] is False
    text = " ".join(terminal.do("wording", code).split())
    assert "No content of labels is on file for JP: add it with register wording." in text
    assert text.endswith(
        "Check your local code: what counts is the text in force where the jar is sold."
    )
    refused = terminal.refused("labels", code, "-o", "x.pdf")
    assert refused.startswith(
        "The label of Moor 500 lacks the address of who answers for it (EU: "
    )
    terminal.do("register", "wording", "add", "No storage", "--market", "EU", "--item", "lot")
