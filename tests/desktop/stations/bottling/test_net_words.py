"""What the bottling says of net contents."""

import pytest

from honeyledger.assets import resource
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.bottling.net_words import (
    mean_message,
    net_figures,
    net_heading,
    net_message,
    rule_title,
    rule_words,
    target_words,
)
from honeyledger.domain.net_contents import checked
from honeyledger.exchange.net_contents import usual_net_rule

RULE, SHOWN_ONLY = (usual_net_rule(resource("net_contents"), name) for name in ("average", "us"))


@pytest.mark.parametrize(
    ("weights", "mark", "sentence"),
    [
        (
            [501_000, 502_000],
            Mark.READY,
            "In order: mean 501.5 g, declared 500 g. Check your local rule.",
        ),
        (
            [499_000, 500_000],
            Mark.WARNING,
            "Mean 0.5 g low. Fill more: the mean may not be below 500 g.",
        ),
        (
            [499_000, 500_900] * 10,
            Mark.WARNING,
            "Mean 0.1 g low. It may be chance; weigh more jars, or fill a little more.",
        ),
        (
            [510_000, 484_000, 484_500],
            Mark.WARNING,
            "2 jars below 485.0 g. No more than 1 of so many may be. Set the filler, and sort the "
            "jars.",
        ),
        (
            [520_000, 469_000],
            Mark.WARNING,
            "One jar is below 470.0 g. Such a jar may not go out. Take it out, and set the "
            "filler.",
        ),
        (
            [520_000, 469_000, 469_500],
            Mark.WARNING,
            "2 jars are below 470.0 g. Such a jar may not go out. Take it out, and set the "
            "filler.",
        ),
    ],
)
def test_what_the_jars_weighed_say(weights: list[int], mark: Mark, sentence: str) -> None:
    message = net_message(checked(RULE, 500, weights))
    assert (message.mark, message.sentence) == (mark, sentence)


def test_the_rule_is_named_with_its_source() -> None:
    words = rule_words(checked(RULE, 500, []))
    assert words.startswith("Average system: Directive 76/211/EEC, annexes I and II")
    assert words.endswith("Short below 485.0 g, far short below 470.0 g. Check your local rule.")
    assert rule_words(checked(SHOWN_ONLY, 454, [])).endswith(
        "value from memory. Short below 434.1 g. Check your local rule."
    )
    assert net_heading(checked(RULE, 500, [])) == ("By the average system; check your local rule")
    assert rule_title(checked(SHOWN_ONLY, 454, [])) == "US plan, unverified"


def test_a_rule_nobody_has_seen_decides_nothing() -> None:
    message = net_message(checked(SHOWN_ONLY, 454, [430_000] * 12))
    assert (message.mark, message.sentence) == (
        Mark.NOTE,
        "Unverified: mean 430.0 g, 12 jars below 434.1 g. It decides nothing.",
    )
    assert mean_message(checked(SHOWN_ONLY, 454, []), 430_000).mark is Mark.NOTE


def test_a_mean_that_is_typed_is_held_against_the_declared_net() -> None:
    none, some = checked(RULE, 500, []), checked(RULE, 500, [499_000, 500_900] * 10)
    for check, mean, mark, sentence in (
        (none, 500_000, Mark.NOTE, "Mean 500.0 g: not below the declared 500 g."),
        (none, 499_900, Mark.WARNING, "Mean 499.9 g: 0.1 g below the declared 500 g."),
        (
            some,
            499_900,
            Mark.WARNING,
            "Mean 499.9 g: 0.1 g low, which may be chance by the jars weighed.",
        ),
    ):
        message = mean_message(check, mean)
        assert (message.mark, message.sentence) == (mark, sentence)


def test_the_sample_in_figures() -> None:
    figures = net_figures(checked(RULE, 500, [510_000] * 5 + [484_000, 469_000]), 1_000)
    assert [(one.figure, one.meaning) for one in figures] == [
        ("7", "weighed of 80"),
        ("500.4 ± 16.9", "mean ± spread, g"),
        ("1 + 1", "short + far"),
    ]
    assert target_words(checked(RULE, 500, [501_000])) == ""
    assert target_words(checked(RULE, 500, [501_000] * 5)) == "fill to 500.0 g"
    assert [one.figure for one in net_figures(checked(RULE, 500, []), 0)] == ["0", *["–"] * 2]
    assert net_figures(checked(RULE, 500, [501_000]), 0)[1].figure == "501.0"
