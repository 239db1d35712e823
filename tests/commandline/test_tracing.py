"""Traces as answers: the shape for programs, the table for people, near codes for a slip."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def mixed(terminal: Terminal) -> tuple[Terminal, str, str]:
    """The worked example's second step: a heel of one yard under another's honey."""
    terminal.do("load", terminal.pallet("Mill Lane", gross="359"), "Extractor")
    first = terminal.drum(net="150")
    terminal.do("load", terminal.pallet("Long Field", gross="259"), "Extractor")
    return terminal, first, terminal.drum(net="100")


def test_the_shape_of_a_trace_back(mixed: tuple[Terminal, str, str]) -> None:
    terminal, _, drum = mixed
    trace = terminal.json("trace", drum)
    assert list(trace) == [
        *("code", "lot", "made_g", "seconds", "yards", "lots", "reach_complete"),
        *("ingredients", "packaging", "heated"),
    ]
    assert (trace["code"], trace["lot"], trace["made_g"]) == (drum, drum, 100_000)
    assert trace["reach_complete"] is True
    assert 0 < trace["seconds"] < 10
    assert list(trace["yards"][0]) == [
        *("kind", "code", "name", "share", "grams", "how", "only_through_heel"),
    ]
    # 50 kg of Mill Lane's heel under 100 kg of Long Field's.
    shares = {row["name"]: row["share"] for row in trace["yards"]}
    assert shares == pytest.approx({"Long Field": 2 / 3, "Mill Lane": 1 / 3}, abs=1e-12)
    assert sum(row["share"] for row in trace["yards"]) == pytest.approx(1, abs=1e-12)
    assert sum(row["grams"] for row in trace["yards"]) == 100_000
    heel = {row["name"]: (row["how"], row["only_through_heel"]) for row in trace["yards"]}
    assert heel == {"Long Field": (["grams"], False), "Mill Lane": (["heel"], True)}
    assert set(trace["lots"][0]) == {"code", "kind", "share"}


def test_every_code_of_a_trace_back_traces_forward(mixed: tuple[Terminal, str, str]) -> None:
    terminal, _, drum = mixed
    for row in terminal.json("trace", drum)["yards"]:
        forward = terminal.json("trace", row["code"], "--forward")
        assert drum in [lot["code"] for lot in forward["lots"]]
        assert {"lots", "customers", "on_hand_g"} <= set(forward)


def test_a_trace_for_people(mixed: tuple[Terminal, str, str]) -> None:
    terminal, _, drum = mixed
    lines = terminal.do("trace", drum).splitlines()
    assert lines[0].startswith(f"{drum}: 100.0 kg, traced in ")
    assert lines[1].split() == ["share", "weight", "code", "name", "kind", "how", "it", "is", "in"]
    assert lines[2].startswith("66.7 %  66.7 kg  Y26-0002-N  Long Field  yard  grams")
    assert lines[3].endswith("heel; only through a heel")


def test_a_trace_forward_for_people(mixed: tuple[Terminal, str, str]) -> None:
    terminal, first, drum = mixed
    terminal.do("dispatch", "Corner Shop", first)
    shown = terminal.do("trace", "Mill Lane", "--forward")
    assert f"Corner Shop  150.0 kg        {first}" in shown
    assert drum in shown
    assert "No customer has any of it." in terminal.do("trace", "Long Field", "--forward")


def test_forward_from_a_yard_may_be_of_some_days(mixed: tuple[Terminal, str, str]) -> None:
    terminal, _, _ = mixed
    assert terminal.json("trace", "Mill Lane", "--from", "25 Jul 2026")["lots"] == []
    assert terminal.json("trace", "Mill Lane", "--from", "24 Jul", "--to", "today")["lots"]


def test_a_slip_is_answered_with_the_near_code(mixed: tuple[Terminal, str, str]) -> None:
    terminal, first, _ = mixed
    slip = first.replace("D26-0001", "D26-0007")
    done = terminal.type("trace", slip)
    assert (done.code, done.out) == (2, "")
    assert f"Was it {first}" in done.err


def test_codes_are_read_in_any_case_and_spacing(mixed: tuple[Terminal, str, str]) -> None:
    terminal, first, _ = mixed
    assert terminal.json("trace", f"  {first.lower().replace('-', ' ')} ")["code"] == first
    assert terminal.json("trace", f"https://example.org/t/{first}")["code"] == first


def test_what_went_through_a_vessel_in_a_stretch_of_time(terminal: Terminal) -> None:
    terminal.do("register", "equipment", "add", "Sieve", "--part-of", "Tank 1")
    terminal.do("load", terminal.pallet(), "Extractor")
    drum = terminal.drum()
    found = terminal.json("through", "Sieve", "--from", "2026-01-01 00:00")
    assert (found["name"], found["margin_min"]) == ("Tank 1", 0)
    assert drum in {row["code"] for row in found["lots"]}
    assert drum not in found["went_through"]
    assert "No customer has any of it." in terminal.do(
        "through", "Sieve", "--from", "2026-01-01 00:00"
    )
    early = terminal.do(
        "through", "Sieve", "--from", "2025-01-01 00:00", "--to", "2025-01-02 00:00"
    )
    assert early == "Through Tank 1, 0 min on either side added: nothing.\n"
