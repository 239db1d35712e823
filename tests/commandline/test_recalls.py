"""A recall on the terminal: the sample's first hour to its end, a drill, a sieve's time window."""

import pytest

from honeyledger.commandline.recalls import CAUTION
from tests.support.engines import SITE
from tests.support.sample import SAMPLE, loaded
from tests.support.terminal import Terminal


@pytest.fixture
def sample(terminal: Terminal) -> Terminal:
    terminal.where = SITE.copy(loaded()[0], terminal.folder / SAMPLE)
    # An afternoon of the sample's.
    terminal.now_ms = 1_790_368_800_000
    return terminal


def newest(terminal: Terminal) -> str:
    code: str = terminal.json("recall", "list")["recalls"][0]["code"]
    return code


def test_a_recall_from_open_to_closed(sample: Terminal) -> None:
    assert "a scrap of black rubber in a pail" in sample.do("recall", "list")
    sample.do("recall", "open", "a treatment too late", "--yard", "Fennimark", "--found", "by us")
    code = newest(sample)
    case = sample.json("recall", "show", code)
    assert case["sums"]["to_tell"] > 3
    shown = sample.do("recall", "show", code)
    assert "It stands on Fennimark, all its pulls." in shown
    assert "not yet" in shown
    assert f"Told 0 of {case['sums']['to_tell']}, answered 0" in shown
    assert shown.rstrip().endswith(CAUTION)
    who = [one["name"] for one in case["consignees"] if one["key"]]
    sample.do("recall", "tell", code, *who, "--how", "phone", "--note", "letters follow")
    answer = ("recall", "answer", code, who[0], "--on-hand", "0", "--jars-destroyed", "3")
    assert sample.refused(*answer) == (
        f"Say how it is proved that {who[0]} destroyed it: a note, photographs."
    )
    sample.do(*answer, "--proof", "photographs")
    close = ("recall", "close", code, "--result", "strips taken out")
    sample.do(*close, "--disposal", "fed to nobody, burnt", "--operator", operator(sample))
    closed = sample.json("recall", "show", code)
    assert (closed["is_closed"], closed["sums"]["told"]) == (True, len(who))
    assert sample.json("recall", "list")["recalls"][0]["is_closed"]
    shown = sample.do("recall", "show", code)
    assert "Result: strips taken out." in shown
    assert "Became of it: fed to nobody, burnt." in shown


def test_a_house_that_called_nothing_back(terminal: Terminal) -> None:
    assert terminal.do("recall", "list").strip() == "There is no recall, and no drill was made."


def test_a_supplier_s_lot_number_means_all_that_came_in_under_it(sample: Terminal) -> None:
    sample.do("recall", "open", "not what was ordered", "--their-lot", "AM-2231", "--as", "drill")
    case = sample.json("recall", "show", newest(sample))
    stands_on = {lot["code"] for lot in case["lots"] if not lot["why"]}
    assert stands_on == {"P26-0006-K", "P26-0008-G", "P26-0009-E"}
    sentence = (
        "Nothing came in as lot 0000 of a supplier. Read their label again, or take the code of "
        "this house."
    )
    assert sample.refused("recall", "open", "glass", "--their-lot", "0000") == sentence


def operator(terminal: Terminal) -> str:
    name: str = terminal.json("register", "operator", "list")["operators"][0]["name"]
    return name


def test_a_vessel_and_a_stretch_of_time_and_a_drill(sample: Terminal) -> None:
    words = ("recall", "open", "a drill", "--as", "drill", "--through", "Settling tank")
    sample.do(*words, "--since", "20 Jul 2026 06:00", "--until", "21 Jul 2026 20:00")
    case = sample.json("recall", "show", newest(sample))
    assert case["sort"] == "drill"
    assert len(case["lots"]) > 2
    assert not any("a drill" in row["reason"] for row in sample.json("holds")["holds"])
