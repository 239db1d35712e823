"""Yards and equipment by dates, in the terminal."""

from tests.support.terminal import Terminal


def test_a_yards_dates_are_kept_and_told(terminal: Terminal) -> None:
    assert terminal.do("yard-days", "Long Field") == "Nothing is on record of Long Field yet.\n"
    terminal.do("supers-on", "Mill Lane", "60", "--day", "2026-06-01", "--box", "medium")
    said = terminal.do(
        *("treat", "Mill Lane", "Formic strips", "--active", "formic acid", "--supers-off"),
        *("--in", "2026-06-02", "--out", "2026-06-09", "--clear", "2026-06-23"),
    )
    assert "Pulls of Mill Lane are held from 2 Jun 2026 to 22 Jun 2026" in said
    terminal.do(
        *("feed", "Mill Lane", "sugar syrup", "--net", "120kg", "--day", "2026-06-03"),
        "--supers-on",
    )
    terminal.do(
        *("certify", "Mill Lane", "MV-118", "--by", "the inspector"),
        *("--from", "2026-06-01", "--to", "2026-12-31"),
    )
    ann = ("--operator", "Ann Reed")
    terminal.do("disease", "Mill Lane", "chalkbrood", "--since", "2026-06-04", *ann)
    days = terminal.json("yard-days", "mill lane")
    assert [(row["day"], row["sentence"]) for row in days["days"]] == [
        ("2026-06-01", "60 medium supers put on."),
        ("2026-06-01", "Certificate MV-118 by the inspector, good until 31 Dec 2026."),
        (
            "2026-06-02",
            "Treated with Formic strips, active: formic acid, out on 9 Jun 2026, not clear until "
            "23 Jun 2026.",
        ),
        ("2026-06-03", "Fed 120.0 kg of sugar syrup, with supers on."),
        ("2026-06-04", "Flagged for chalkbrood: empties are kept apart."),
    ]
    assert "\n1 Jun 2026  supers on" in terminal.do("yard-days", "mill lane")
    terminal.do("disease", "Mill Lane", "--until", "2026-06-20", *ann)
    assert "flag lifted on 20 Jun 2026" in terminal.do("yard-days", "Mill Lane")


def test_a_label_s_interval_counts_from_the_day_it_came_out(terminal: Terminal) -> None:
    treat = ("treat", "Mill Lane", "Strips", "--supers-off", "--in", "2026-03-01")
    out = ("--out", "2026-04-10")
    said = terminal.do(*treat, *out, "--interval", "14 days")
    assert "Pulls of Mill Lane are held from 1 Mar 2026 to 23 Apr 2026" in said
    assert "not clear until 24 Apr 2026" in said
    assert "Follow the label and your local code" in said
    both = (*treat, *out, "--interval", "14 days", "--clear", "2026-04-24")
    assert terminal.refused(*both).strip() == (
        "Give the day it is clear, or its label's interval: one of the two."
    )


def test_empties_of_a_flagged_yard_need_a_reason(terminal: Terminal) -> None:
    pallet = terminal.pallet()
    terminal.do("load", pallet, "Extractor")
    (pull,) = [row["code"] for row in terminal.json("stock") if row["kind"] == "S"]
    terminal.do("disease", "Mill Lane", "foulbrood", "--operator", "Ann Reed")
    out = ("wet-out", "5", "--pull", pull, "--to", "Long Field")
    assert "they do not go to another yard" in terminal.refused(*out)
    said = terminal.do(*out, "--despite-flag", "irradiated", "--operator", "Ann Reed")
    assert "went to Long Field although flagged" in said
    assert "5 empties went to Long Field." in terminal.do("yard-days", "Mill Lane")


def test_honey_of_a_drum_is_fed(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum(net="100")
    said = terminal.do("feed", "Mill Lane", "--from", drum, "--net", "20kg", "--supers-off")
    assert "Honey fed to bees can carry foulbrood" in said
    assert "Fed 20.0 kg of honey." in terminal.do("yard-days", "Mill Lane")


def test_jars_are_fed(terminal: Terminal) -> None:
    terminal.do("load", terminal.pallet(), "Extractor")
    lot = terminal.given("J", "change-over", "--product", "Summer 500", "--feed", terminal.drum())
    terminal.do("bottle", lot, "240")
    given = ("feed", "Mill Lane", "--from", lot, "--supers-off")
    assert terminal.refused(*given) == (
        f"Say how many jars of {lot} are given, or that all of them are."
    )
    terminal.do(*given, "--jars", "12")
    assert "Fed 6.0 kg of honey." in terminal.do("yard-days", "Mill Lane")
    assert "Fed: 12 jars, 6.0 kg from the jar store to bees of Mill Lane." in terminal.do(
        "lot", lot
    )
