"""What stands on a recall's report and on its letters."""

from dataclasses import replace

import pytest

from honeyledger.documents.recall_papers import recall_letters, recall_report
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.quality import Clear
from honeyledger.ledger.verbs.recalls import (
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
)
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.recall_rows import RecallCase
from honeyledger.services.recalls import recall_case
from tests.support import printing
from tests.support.houses import BuiltHouse
from tests.support.stress import overlapping


def smoked(sort: str) -> tuple[BuiltHouse, str, str, str]:
    """Two drums of Creek, one of them with Packer; the case, what was sent, what is here."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    record = {"name": "Packer", "place": "Ostwick", "phone": "555 0100"}
    house.do(Register("customer", record))
    house.do(Register("operator", {"name": "Ada Quill"}))
    house.load("Creek", 200_000, "Tank 1")
    sent, here = house.drum("Tank 1", 100_000), house.drum("Tank 1", 100_000)
    house.do(Dispatch("Packer", (DispatchLine(sent),)))
    facts = OpenRecall("smells of smoke", yard="Creek", found="by Packer", risk="low", sort=sort)
    code = next(one for one in house.do(facts).given if one[0] == "Q")
    return house, code, sent, here


def case_of(house: BuiltHouse, code: str) -> RecallCase:
    return house.house.ask(lambda view: recall_case(view, house.now_ms, code))


def words(pdf: bytes) -> str:
    return " ".join(printing.text_of(pdf).replace("- ", "-").split())


def test_a_report_says_where_all_of_it_is_until_the_end() -> None:
    house, code, sent, here = smoked("recall")
    report = words(recall_report(case_of(house, code), printing.typefaces()))
    for said in (
        "Status report: recall",
        "smells of smoke",
        "Creek, all its pulls",
        "Found: by Packer",
        "Risk: low",
        "Comes from: Creek.",
        "Customers told 0 of 1",
        "not yet",
        "Ostwick, 555 0100",
        "Scope, class and wording are agreed with the authority",
        "Page 1 of",
    ):
        assert said.replace("- ", "-") in report or _facts(said, report), said
    house.do(TellConsignees(code, ("Packer",), "phone"))
    house.do(AnswerRecall(code, "Packer", here_g=0, destroyed_g=100_000, proof="photographs"))
    house.do(Clear(here, "Creek", "filled before the fire"))
    house.do(CloseRecall(code, "burner thrown out", "burnt at the works"))
    closed = words(recall_report(case_of(house, code), printing.typefaces(), unit="lb"))
    for said in (
        "Closing report: recall",
        "Result: burner thrown out",
        "Disposal: burnt at the works",
        "photographs",
        "filled before the fire",
        "Told Packer by phone",
        "Closed: burner thrown out",
    ):
        assert said in closed, said
    assert sent in closed


def _facts(said: str, report: str) -> bool:
    """Captions stand in a row of their own, over what is said."""
    return all(word in report for word in said.split())


def test_a_letter_says_what_to_do_and_names_nobodys_guilt() -> None:
    house, code, sent, _ = smoked("withdrawal")
    case = case_of(house, code)
    pdf = recall_letters(case, case.consignees, printing.typefaces())
    letter = words(pdf)
    for said in (
        "Withdrawal of honey",
        "We call back the honey listed here: smells of smoke.",
        "Please stop selling and using it at once",
        "Do not throw it away yet",
        "What it may do, as judged so far: low.",
        "Fill in the slip below and send it back today",
        "Received and read by",
        sent,
    ):
        assert said in letter, said
    assert pdf == recall_letters(case, case.consignees, printing.typefaces())


def test_a_drill_says_so_first() -> None:
    house, code, *_ = smoked("drill")
    case = case_of(house, code)
    for pdf in (
        recall_report(case, printing.typefaces()),
        recall_letters(case, case.consignees, printing.typefaces()),
    ):
        assert "This is a drill: nothing is called back." in words(pdf)


def test_a_drill_tells_nobody() -> None:
    house, code, *_ = smoked("drill")
    said = words(recall_report(case_of(house, code), printing.typefaces()))
    assert "none of 1: a drill" in said
    assert "not yet" not in said


@pytest.mark.parametrize(
    "name",
    [
        "The Confraternity of Beekeepers and Packers of Lower Ostwick",
        "Spółdzielnia Pszczelarska „Łąka” w Żółkiewce-Ćwiklicach 1924",
        "Συνεταιρισμός Μελισσοκόμων Άνω Πηγών και Κάτω Ρεματιάς Ε.Π.Ε",
    ],
)
def test_a_long_name_is_whole_wherever_it_stands(name: str) -> None:
    assert len(name) == 60
    house, code, *_ = smoked("recall")
    case = case_of(house, code)
    case = replace(case, consignees=(replace(case.consignees[0], name=name),))
    pdf = recall_report(case, printing.typefaces())
    said = printing.text_of(pdf)
    # A word too long for its column is broken inside.
    assert [part for part in name.replace("-", " ").split() if part[:6] not in said] == []
    assert "…" not in printing.text_of(pdf)
    for page in range(len(printing.page_sizes_mm(pdf))):
        assert overlapping(printing.text_boxes(pdf, page)) == [], page


def test_what_no_typeface_has_is_refused_by_name() -> None:
    house, code, *_ = smoked("recall")
    case = replace(case_of(house, code), about="smells of smoke 🐝")
    with pytest.raises(Refusal) as refused:
        recall_report(case, printing.typefaces())
    assert "(honeybee, U+1F41D)" in str(refused.value)


def test_a_paper_that_is_none() -> None:
    house, code, *_ = smoked("recall")
    with pytest.raises(Refusal) as refused:
        recall_report(case_of(house, code), printing.typefaces(), paper="a5")
    assert "a5" in str(refused.value)
