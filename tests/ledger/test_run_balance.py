"""A run's figures, read from the entries that carry its code."""

from honeyledger.ledger.run_balance import RunBalance, balance_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Bung, Fill, Reweigh, Skim
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, WetOut
from honeyledger.ledger.verbs.owners import Settle
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import attributes, code_in, mark
from tests.support.houses import BuiltHouse


class Run:
    """A house with a run open on a line; what it does carries the run's code."""

    def __init__(self) -> None:
        self.house = BuiltHouse()
        self.house.yard("Creek")
        self.house.vessel("Line")
        self.house.vessel("Tank 1", fed_by="Line")
        self.house.container("17", tare_g=18_000)
        self.code = self.open()

    def open(self) -> str:
        return code_in(self.house.do(OpenRun("Line")), "R")

    def do(self, facts: object) -> tuple[str, ...]:
        return self.house.do(facts, run=self.code).codes

    def load(self, grams: int, count: int = 10) -> None:
        _, tag = self.house.pull("Creek", grams, count)
        self.do(Load(tag, "Line"))

    def fill(self, grams: int, **how: object) -> str:
        made = self.do(Fill("Tank 1", Weight(net_g=grams), **how))  # type: ignore[arg-type]
        return next((code for code in made if code[0] == "D"), "")

    @property
    def balance(self) -> RunBalance:
        return self.house.house.ask(lambda view: balance_of(view, self.code))


def test_what_went_in_and_what_came_out() -> None:
    run = Run()
    run.load(600_000, count=40)
    run.fill(290_000)
    run.fill(280_000)
    run.do(Skim("Tank 1", 3_000))
    run.do(CloseRun(run.code, (Heel("Tank 1", 12_000),), cappings_pending=True))
    balance = run.balance
    assert (balance.supers, balance.heel_in_g, balance.in_g) == (40, 0, 600_000)
    assert [row.grams for row in balance.drums] == [290_000, 280_000]
    assert (balance.skimmed_g, balance.heel_out_g, balance.out_g) == (3_000, 12_000, 585_000)
    assert balance.estimate_gap_g == 15_000
    assert (balance.lost_g, balance.heel_known, balance.cappings_pending) == (0, True, True)
    assert balance.figures() == {
        "in_g": 600_000,
        "out_g": 585_000,
        "heel_in_g": 0,
        "heel_out_g": 12_000,
        "estimate_gap_g": 15_000,
        "lost_g": 0,
        "supers": 40,
        "cappings_pending": 1,
    }
    assert balance.as_facts()["run"] == run.code


def test_a_run_is_as_long_as_it_was_worked_and_not_until_it_was_settled() -> None:
    run = Run()
    run.load(600_000)
    drum = run.fill(290_000)
    done = run.balance
    run.house.wait(60 * 24)
    run.do(Reweigh(drum, Weight(net_g=289_000)))
    run.do(CloseRun(run.code, (Heel("Tank 1", 12_000),)))
    run.house.do(Settle(run.code))
    assert (run.balance.first_ms, run.balance.last_ms) == (done.first_ms, done.last_ms)


def test_the_heel_of_one_run_comes_into_the_next() -> None:
    run = Run()
    run.load(300_000)
    run.fill(290_000)
    run.do(CloseRun(run.code, (Heel("Tank 1", 12_000),)))
    run.code = run.open()
    run.load(288_000)
    run.fill(290_000)
    assert (run.balance.heel_in_g, run.balance.in_g) == (12_000, 300_000)
    assert run.balance.estimate_gap_g == 10_000


def test_a_weight_to_follow_is_an_estimates_error_a_second_weighing_a_loss() -> None:
    run = Run()
    run.load(600_000)
    pending = run.do(Fill("Tank 1", container="17", pending=True))[-1]
    weighed = run.fill(280_000)
    assert [row.pending for row in run.balance.drums] == [True, False]
    run.do(Reweigh(pending, Weight(net_g=285_000)))
    run.do(Reweigh(weighed, Weight(net_g=278_000)))
    balance = run.balance
    assert [(row.grams, row.pending) for row in balance.drums] == [
        (285_000, False),
        (280_000, False),
    ]
    assert balance.lost_g == 2_000
    assert balance.out_g == 565_000
    assert balance.estimate_gap_g == 600_000 - 565_000 - 2_000


def test_cappings_are_counted_and_what_was_reversed_is_not() -> None:
    run = Run()
    run.load(600_000)
    run.do(Cappings("Line", 50_000))
    wrong = run.house.do(Fill("Tank 1", Weight(net_g=290_000)), run=run.code)
    run.house.do(Reverse(wrong.entries[0].id, "wrong tank"))
    balance = run.balance
    assert [row.grams for row in balance.barrels] == [50_000]
    assert balance.drums == ()


def test_a_drum_topped_up_counts_what_this_run_put_into_it() -> None:
    run = Run()
    run.load(600_000)
    run.fill(200_000, container="17")
    run.fill(90_000, container="17", top_up=True)
    assert [row.grams for row in run.balance.drums] == [200_000, 90_000]
    run.do(CloseRun(run.code))
    run.code = run.open()
    run.fill(20_000, container="17", top_up=True)
    assert [row.grams for row in run.balance.drums] == [20_000]


def test_a_drum_begun_in_one_run_and_closed_in_the_next() -> None:
    run = Run()
    run.load(600_000)
    run.fill(120_000, container="17", bung=False)
    assert (run.balance.drums, run.balance.part_filled_g) == ((), 120_000)
    assert run.balance.out_g == 120_000
    run.do(CloseRun(run.code))
    run.code = run.open()
    run.fill(100_000, container="17", bung=False)
    run.fill(60_000, container="17", bung=False)
    run.do(Bung("17"))
    assert [row.grams for row in run.balance.drums] == [160_000]
    assert run.balance.part_filled_g == 0


def test_drums_poured_in_are_honey_in_and_poured_over_are_none() -> None:
    run = Run()
    run.load(300_000)
    drum = run.fill(290_000)
    run.house.do(Register("supplier", {"name": "S9"}))
    bought = run.house.buy("S9", 145_000)
    run.do(Fill(bought, Weight(net_g=145_000), into="Tank 1"))
    assert (run.balance.poured_in_g, run.balance.in_g) == (145_000, 445_000)
    run.do(Fill(drum, Weight(net_g=290_000), container="17"))
    assert [row.grams for row in run.balance.drums] == [290_000, 0]
    run.do(Fill("Tank 1", Weight(net_g=50_000), into="Line"))  # from vessel to vessel
    assert run.balance.poured_in_g == 145_000


def test_gross_in_less_wet_out_is_the_true_measure() -> None:
    """10 supers, 85 kg full on the scale at 6 kg each empty: 25 kg; wet they weigh 62 kg."""
    run = Run()
    _, tag = run.house.pull("Creek", 25_000)
    run.do(Load(tag, "Line"))
    run.do(WetOut(6, gross_g=52_000, tare_g=15_000))
    assert run.balance.extracted_g is None  # four are still out
    run.do(WetOut(4, gross_g=40_000, tare_g=15_000))
    balance = run.balance
    assert (balance.wet_out_supers, balance.wet_out_g, balance.empties_g) == (10, 62_000, 60_000)
    assert balance.extracted_g == 25_000 + 60_000 - 62_000
    run.do(WetOut(1))
    assert run.balance.extracted_g == 23_000  # counted but not weighed: of the same ten


def test_a_run_of_nothing() -> None:
    run = Run()
    balance = run.balance
    assert (balance.in_g, balance.out_g, balance.estimate_gap_g, balance.extracted_g) == (
        0,
        0,
        0,
        None,
    )


def test_a_drum_bunged_without_a_run_is_of_the_run_that_filled_it() -> None:
    run = Run()
    run.load(600_000)
    run.fill(120_000, container="17", bung=False)
    run.fill(80_000, container="17", bung=False)
    done = run.house.do(Bung("17"))
    (drum,) = done.codes
    assert done.entries[0].act.run == run.code
    assert attributes(run.house, drum)["run"] == run.code
    assert [row.grams for row in run.balance.drums] == [200_000]
    assert run.balance.part_filled_g == 0
    run.house.do(Reverse(done.entries[0].id, "it takes more"))
    assert (run.balance.drums, run.balance.part_filled_g) == ((), 200_000)
    run.house.do(Bung("17"))
    assert [row.grams for row in run.balance.drums] == [200_000]


def test_each_run_shows_what_it_drew_into_a_drum_of_several() -> None:
    run = Run()
    run.load(600_000)
    first = run.code
    run.fill(120_000, container="17", bung=False)
    run.do(CloseRun(run.code))
    signed = run.balance.figures()
    run.code = second = run.open()
    run.fill(90_000, container="17", bung=False)
    run.do(CloseRun(run.code))
    done = run.house.do(Bung("17"))
    assert done.entries[0].act.run == ""
    assert "run" not in attributes(run.house, done.codes[0])
    for code, grams in ((first, 120_000), (second, 90_000)):
        run.code = code
        assert [row.grams for row in run.balance.drums] == [grams]
        assert run.balance.part_filled_g == 0
    run.code = first
    assert run.balance.figures() == signed  # what was signed still adds up
    run.house.container("18")
    run.house.do(Amend(reason="the other drum", lot=done.codes[0], container="18"))
    assert [row.grams for row in run.balance.drums] == [120_000]
    assert [row.name for row in run.house.store.audit() if not row.holds] == []


def test_a_run_that_only_closes_a_drum_shows_none() -> None:
    run = Run()
    run.load(600_000)
    first = run.code
    run.fill(190_000, container="17", bung=False)
    run.do(CloseRun(run.code))
    run.code = run.open()
    run.do(Bung("17"))
    assert run.balance.drums == ()
    run.code = first
    assert [row.grams for row in run.balance.drums] == [190_000]


def test_a_drum_bunged_after_its_run_was_signed_is_of_that_run_and_its_owner() -> None:
    """The entry does not join what is signed: its time is no time of the run's."""
    run = Run()
    run.house.do(Register("customer", {"name": "Otto"}))
    run.code = code_in(run.house.do(OpenRun("Line", owner="Otto")), "R")
    facts = Receive((Line(yard="Creek", count=10, owner="Otto"),), gross_g=360_000, tare_g=0)
    tag = code_in(run.house.do(facts), "G")
    run.do(Load(tag, "Line"))
    run.fill(200_000, container="17", bung=False)
    run.do(CloseRun(run.code))
    last_ms = run.balance.last_ms
    done = run.house.do(Bung("17"))
    assert done.entries[0].act.run == ""
    assert attributes(run.house, done.codes[0])["run"] == run.code
    assert mark(run.house, done.codes[0], "owner")["document"] == run.code
    assert [row.grams for row in run.balance.drums] == [200_000]
    assert run.balance.last_ms == last_ms


def test_a_weight_to_follow_is_counted_in_the_run_that_guessed_it() -> None:
    run = Run()
    run.load(600_000)
    first = run.code
    run.fill(100_000, container="17", bung=False)
    run.do(CloseRun(run.code))
    run.code = run.open()
    run.do(Fill("Tank 1", container="17", pending=True, bung=False))
    (drum,) = run.house.do(Bung("17")).codes
    run.house.do(Reweigh(drum, Weight(net_g=280_000)))
    assert [row.grams for row in run.balance.drums] == [180_000]
    run.code = first
    assert [row.grams for row in run.balance.drums] == [100_000]


def test_a_container_used_again_forgets_the_run_before() -> None:
    run = Run()
    run.load(600_000)
    run.fill(100_000, container="17", bung=False)
    run.house.vessel("Tank 2")
    run.house.pour("17", "Tank 2")
    run.do(CloseRun(run.code))
    run.code = run.open()
    run.fill(150_000, container="17", bung=False, washed=True)
    (drum,) = run.house.do(Bung("17")).codes
    assert attributes(run.house, drum)["run"] == run.code
    assert [row.grams for row in run.balance.drums] == [150_000]
