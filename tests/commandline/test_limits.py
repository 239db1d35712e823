"""What markets ask, in the terminal."""

from pathlib import Path

from tests.support.terminal import Terminal


def test_each_rule_is_shown_with_its_limit_the_result_and_what_follows(bare: Terminal) -> None:
    shown = bare.do("limits", "eu", "moisture=19.2", "hmf=<5", "sucrose=6", "--kind", "blossom")
    rows = [" ".join(line.split()) for line in shown.splitlines()]
    assert "moisture at most 20 % 19.2 pass" in rows
    assert "hmf at most 40 mg/kg <5 pass" in rows
    assert "sucrose at most 5 g/100 g 6 fail" in rows
    assert "diastase at least 8 Schade unknown: not measured" in rows
    assert rows[-2].startswith("Source: Directive 2001/110/EC, annex II")
    assert rows[-1] == (
        "Composition of honey, European Union: fail. What counts is the text in force where the "
        "honey is sold."
    )


def test_what_nobody_has_seen_is_shown_and_decides_nothing(bare: Terminal) -> None:
    answer = bare.json("limits", "us-a", "moisture=25")
    assert answer["outcome"] == "unverified"
    assert {row["outcome"] for row in answer["rows"]} == {"unverified"}
    assert {row["mark"] for row in answer["rows"]} == {"S2", "M"}
    assert "Source:" not in bare.do("limits", "us-a", "moisture=25")


def test_a_canadian_grade_says_on_what_its_diastase_hangs(bare: Terminal) -> None:
    shown = bare.do("limits", "canada-1", "moisture=17.2", "hmf=3", "diastase=12")
    assert "at least 3 Gothe with hmf at most 15" in shown
    assert "No. 1, Canada: pass, 1 unverified." in shown


def test_the_standards_are_listed(bare: Terminal) -> None:
    names = [row["name"] for row in bare.json("limits")["standards"]]
    assert names[:4] == ["canada-1", "canada-2", "canada-3", "codex"]
    assert "Grade A, United States" in bare.do("limits")


def test_a_lot_brings_the_moisture_that_was_read_last(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    before = terminal.json("limits", "eu", "--lot", drum)
    assert before["rows"][0]["result"] is None
    terminal.do("measure", drum, "--moisture", "20.1")
    after = terminal.json("limits", "eu", "--lot", drum, "--kind", "blossom")
    assert (after["rows"][0]["result"], after["rows"][0]["outcome"]) == ("20.10", "fail")
    typed = terminal.json("limits", "eu", "moisture=19", "--lot", drum)
    assert typed["rows"][0]["result"] == "19"


def test_a_house_has_rules_of_its_own(bare: Terminal, tmp_path: Path) -> None:
    file = tmp_path / "own.toml"
    file.write_text(
        '[buyer]\nmarket="A buyer"\ntitle="A buyer\'s terms"\nsource="contract 12"\n'
        'as_of="1 Jul 2026"\n[[buyer.rules]]\nproperty="moisture"\nunit="%"\nhighest=17.5\n',
        "utf-8",
    )
    answer = bare.json("limits", "buyer", "moisture=17.6", "--own", str(file))
    assert (answer["outcome"], answer["rows"][0]["mark"]) == ("fail", "own")


def test_what_cannot_be_is_refused(bare: Terminal) -> None:
    assert bare.refused("limits", "codex", "ash=1").strip() == (
        "Composition of honey, Codex asks nothing of ash: choose of moisture, fructose and "
        "glucose, sucrose, insolubles, free acid, diastase, hmf, conductivity."
    )
    assert "There are no rules called mars: choose one of canada-1" in bare.refused(
        "limits", "mars"
    )
    assert bare.refused("limits", "eu", "hmf=much").strip() == (
        "much is no result: type a figure such as 12.4, <5, >30, or not detected."
    )


def test_a_lot_brings_all_that_is_on_record_of_it_composites_named(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    one, other = terminal.drum(), terminal.drum()
    sample = terminal.given("X", "draw-sample", one, other, "--net", "0.2")
    terminal.do("measure", sample, "hmf=<5", "diastase=7")
    terminal.do("measure", one, "insolubles=0.1")
    rows = {
        row["property"]: (row["result"], row["outcome"], row["together"])
        for row in terminal.json("limits", "eu", "--lot", one, "--kind", "blossom")["rows"]
    }
    # EU 2001/110, annex II (S): HMF at most 40; diastase 8, or 3 where HMF is at most 15, which is
    # for honey low in enzymes by nature; insolubles at most 0.1.
    assert rows["hmf"] == ("<5", "pass", True)
    assert rows["insolubles"] == ("0.1", "pass", False)
    assert rows["diastase"][2]
    shown = terminal.do("limits", "eu", "--lot", one)
    assert (
        "By a composite of several lots, any one of which may be off it: diastase, hmf." in shown
    )
