"""Who has some of a recall: several notices and answers, and what came back of two lots."""

from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.recalls import AnswerRecall, OpenRecall, TellConsignees
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.recalls import recall_case
from tests.support.houses import BuiltHouse


def test_the_latest_answer_counts_and_every_notice_is_kept() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    for name in ("Packer", "Baker"):
        house.do(Register("customer", {"name": name}))
    house.do(Register("operator", {"name": "Ada Quill"}))
    house.load("Creek", 300_000, "Tank 1")
    first, second, third = (house.drum("Tank 1", 100_000) for _ in range(3))
    house.do(Dispatch("Packer", (DispatchLine(first),)))
    house.wait(5)
    house.do(Dispatch("Packer", (DispatchLine(second),)))
    house.do(Dispatch("Baker", (DispatchLine(third),)))
    house.do(TakeBack("Baker", third, "smoke"))
    done = house.do(OpenRecall("smoke", yard="Creek"))
    code = next(one for one in done.given if one[0] == "Q")
    house.do(TellConsignees(code, ("Packer", "Baker"), "phone"), operator="O26-0002-V")
    house.wait(5)
    house.do(TellConsignees(code, ("Packer",), "letter", "Mr Lund", "by post"))
    house.do(AnswerRecall(code, "Packer", here_g=80_000, here_jars=2))
    house.wait(5)
    house.do(AnswerRecall(code, "Packer", here_jars=0, passed_on="a shop in Ostwick"))
    case = house.house.ask(lambda view: recall_case(view, house.now_ms, code))
    packer, baker = case.consignees
    assert [(one.how, one.whom) for one in packer.told] == [("phone", ""), ("letter", "Mr Lund")]
    assert (packer.here_g, packer.here_pieces) == (None, 0)
    assert packer.passed_on == "a shop in Ostwick"
    assert len(packer.notes) == 2
    assert packer.notes[0] < packer.notes[1]
    assert (baker.has_g, baker.back_g, baker.open_g) == (0, 100_000, 0)
    assert baker.answered is None
    assert len(baker.told) == 1
