"""Net contents in the terminal, without a house."""

from tests.support.terminal import Terminal

FIVE = ("510", "511", "509", "510", "484")


def test_jars_weighed_are_judged_by_a_rule(bare: Terminal) -> None:
    shown = bare.do("net", "500", *FIVE, "--lot", "1120").splitlines()
    assert shown[:3] == [
        "Average system: short below 485.0 g, far short below 470.0 g; weigh 80.",
        "5 weighed: mean 504.8 g, spread 11.6 g, 1 short (of so many 1 may be), 0 far short.",
        "Verdict: in order.",
    ]
    assert shown[3].startswith("With this spread, fill to 50")
    assert shown[-1].startswith("Source: Directive 76/211/EEC")
    answer = bare.json("net", "500", *FIVE, "484", "--lot", "1120")
    assert (answer["short"], answer["verdict"]) == (2, "many short")


def test_gross_weights_are_less_the_empty_jar(bare: Terminal) -> None:
    answer = bare.json("net", "500", "705", "703", "--empty", "203.5")
    assert (answer["mean_mg"], answer["fill_to_mg"]) == (500_500, None)


def test_what_nobody_has_seen_decides_nothing(bare: Terminal) -> None:
    shown = bare.do("net", "454", "420", "420", "--rule", "us")
    assert "Verdict: unverified, so it decides nothing." in shown
    assert "far short below" not in shown
    assert bare.json("net", "454", "--rule", "us")["verified"] is False


def test_there_is_no_rule_of_that_name(bare: Terminal) -> None:
    assert bare.refused("net", "500", "--rule", "mars") == (
        "There is no rule for net contents called mars: choose one of average, oiml-r87, "
        "new-zealand, us."
    )
