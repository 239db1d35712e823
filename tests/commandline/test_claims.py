"""Claims in the terminal."""

from tests.support.terminal import Terminal


def _jars(terminal: Terminal) -> str:
    terminal.do("register", "yard", "add", "Moor", "--not-for", "EU", "--organic", "no")
    terminal.do("register", "vessel", "add", "Tank 9")
    tag = terminal.given("G", "receive", "Moor", "24", "--gross", "500")
    terminal.do("load", tag, "Tank 9")
    product = ("Moor 500", "--net", "500", "--claims-organic", "yes")
    terminal.do("register", "product", "add", *product)
    code = terminal.given("J", "change-over", "--product", "Moor 500", "--feed", "Tank 9")
    terminal.do("bottle", code, "20")
    return code


def test_claims_are_told_with_the_lots_that_decide(terminal: Terminal) -> None:
    code = _jars(terminal)
    answer = terminal.json("claims", code)
    rulings = {row["claim"]: row["ruling"] for row in answer["now"]["claims"]}
    assert (rulings["yard"], rulings["organic"]) == ("allowed", "not allowed")
    assert rulings["market/eu"] == "not allowed"
    assert answer["as_bottled"] == answer["now"]
    assert answer["label_refused"][0].startswith("The label of Moor 500 says organic, and Moor")
    rows = [" ".join(line.split()) for line in terminal.do("claims", code).splitlines()]
    lot = answer["now"]["claims"][4]["lots"][0]
    assert f"organic not allowed not allowed {lot}" in rows
    assert f"eligible for EU not allowed not allowed {lot}" in rows
    assert rows[-1].startswith("Whether a claim may be made at all")


def test_claims_are_judged_again_after_a_record_was_put_right(terminal: Terminal) -> None:
    code = _jars(terminal)
    terminal.do("register", "yard", "change", "Moor", "--organic", "yes")
    terminal.do("register", "operator", "add", "Ann Ferris")
    shown = terminal.do("judge-claims", code, "typed wrongly", "--operator", "Ann Ferris")
    assert f"The claims of {code} are judged again: organic otherwise than before." in shown
    assert terminal.json("claims", code)["label_refused"] == []
