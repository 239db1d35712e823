"""Bottling: change-overs by the counter, the jar lot at the end, and its jars traced."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def drums(terminal: Terminal) -> tuple[Terminal, str, str]:
    """Two drums, each of another yard."""
    terminal.do("load", terminal.pallet("Mill Lane", gross="320"), "Extractor")
    first = terminal.drum("--whole", net="161")
    terminal.do("wash", "Extractor", "Tank 1")
    terminal.do("load", terminal.pallet("Long Field", gross="320"), "Extractor")
    return terminal, first, terminal.drum("--whole", net="161")


def _start(terminal: Terminal, feed: str) -> str:
    return terminal.given("J", "change-over", "--product", "Summer 500", "--feed", feed)


def test_jars_of_two_drums_are_told_apart_by_serial(drums: tuple[Terminal, str, str]) -> None:
    terminal, first, second = drums
    lot = _start(terminal, first)
    terminal.do("change-over", lot, "--jars", "200", "--feed", second, "--mean-net", "502,4")
    done = terminal.json("bottle", lot, "400", "--mean-net", "501.9")
    # 200 jars at 502.4 g and 200 at 501.9 g.
    assert done["lots"][0]["made_g"] == 100_480 + 100_380
    back = {row["name"]: row["share"] for row in terminal.json("trace", lot)["yards"]}
    assert back["Mill Lane"] == pytest.approx(100_480 / 200_860)
    jar = f"{lot[:-2]}-00100"
    jar_code = next(
        f"{jar}-{check}"
        for check in "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
        if terminal.type("trace", f"{jar}-{check}").code == 0
    )
    trace = terminal.json("trace", jar_code)
    assert (trace["code"], trace["lot"], trace["made_g"]) == (jar_code, lot, 500)
    assert [row["name"] for row in trace["yards"] if row["grams"]] == ["Mill Lane"]


def test_a_bottling_needs_product_and_feed(terminal: Terminal) -> None:
    said = terminal.refused("change-over", "--product", "Summer 500")
    assert said == "Name the product and the vessel or drum it is filled from."


def test_a_counter_does_not_go_back(drums: tuple[Terminal, str, str]) -> None:
    terminal, first, _ = drums
    lot = _start(terminal, first)
    terminal.do("change-over", lot, "--jars", "100")
    assert terminal.refused("bottle", lot, "99").startswith("The counter stood at 100 before")


def test_a_mean_that_does_not_fit_the_jar_is_refused(drums: tuple[Terminal, str, str]) -> None:
    terminal, first, _ = drums
    lot = _start(terminal, first)
    assert terminal.refused("bottle", lot, "100", "--mean-net", "50") == (
        "A mean net of 50.0 g does not fit jars of 500 g. Weigh the sample again, jar by jar."
    )
    assert terminal.refused("bottle", lot, "100", "--mean-net", "502.413") == (
        "502.413 can mean 502.4130 g or 502413 g: type 502.4130 or 502413."
    )


def test_labelled_later_and_rejects(drums: tuple[Terminal, str, str]) -> None:
    terminal, first, _ = drums
    lot = _start(terminal, first)
    terminal.do("bottle", lot, "300", "--rejects", "3", "--labelled-later", "--empty")
    assert terminal.json("stock")[-1]["pieces"] == 300
    assert first not in [row["code"] for row in terminal.json("stock")]
