"""Three lanes: commands one after another, questions answered once, long work left running."""

from collections.abc import Iterator
from threading import Event, current_thread, main_thread

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.jobs import Jobs, LaneClosed, NotWantedAnyMore, Outcome
from honeyledger.domain.refusals import BrokenRule, Damage, Refusal, Sentence

TARE = Sentence("gross-below-tare", "The gross {gross} is below the tare {tare}.")


@pytest.fixture
def jobs() -> Iterator[Jobs]:
    made = Jobs()
    yield made
    made.close()


def test_a_task_runs_elsewhere_and_its_value_arrives_in_the_windows_thread(
    qtbot: QtBot, jobs: Jobs
) -> None:
    where: list[bool] = []
    got: list[Outcome[int]] = []

    def then(outcome: Outcome[int]) -> None:
        where.append(current_thread() is main_thread())
        got.append(outcome)

    def task() -> int:
        where.append(current_thread() is main_thread())
        # Grams of a large house are more than a 32-bit number holds.
        return 3_000_000_000

    jobs.write(task, then)
    qtbot.waitUntil(lambda: bool(got))
    assert got == [Outcome(3_000_000_000)]
    assert where == [False, True]
    assert jobs.is_idle()


def test_a_refusal_comes_back_as_a_value(qtbot: QtBot, jobs: Jobs) -> None:
    got: list[Outcome[int]] = []

    def task() -> int:
        raise Refusal(TARE, field="gross", gross="12.5 kg", tare="18 kg")

    jobs.write(task, got.append)
    qtbot.waitUntil(lambda: bool(got))
    refusal = got[0].refusal
    assert refusal is not None
    assert refusal.text == "The gross 12.5 kg is below the tare 18 kg."
    assert refusal.field == "gross"
    assert not got[0].is_fatal


def test_a_fault_nobody_expected_is_logged_with_where_it_came_from(
    qtbot: QtBot, jobs: Jobs, caplog: pytest.LogCaptureFixture
) -> None:
    got: list[Outcome[int]] = []

    def refused() -> int:
        raise Refusal(TARE, field="gross", gross="12.5 kg", tare="18 kg")

    def broken() -> int:
        try:
            raise ValueError("Failing row contains (Corner Shop)")
        except ValueError as error:
            raise KeyError("unknown") from error

    def called_off() -> int:
        raise NotWantedAnyMore

    for task in (refused, called_off, broken):
        jobs.read(task, got.append)
    qtbot.waitUntil(lambda: len(got) == 3)
    assert [record.name for record in caplog.records] == ["honeyledger.window"]
    assert "in broken" in caplog.text
    assert "KeyError: 'unknown'" in caplog.text
    assert "Corner Shop" not in caplog.text, "a server's error may quote whole rows"


def test_commands_run_one_after_another_in_the_order_given(qtbot: QtBot, jobs: Jobs) -> None:
    order: list[str] = []
    under_way: list[int] = []
    most: list[int] = []

    def command(number: int) -> int:
        under_way.append(number)
        most.append(len(under_way))
        order.append(f"ran {number}")
        under_way.remove(number)
        return number

    got: list[Outcome[int]] = []
    for number in range(40):
        jobs.write(lambda number=number: command(number), got.append)
    qtbot.waitUntil(lambda: len(got) == 40)
    assert order == [f"ran {number}" for number in range(40)]
    assert max(most) == 1
    assert [outcome.value for outcome in got] == list(range(40))


def test_only_the_newest_answer_to_a_question_arrives(qtbot: QtBot, jobs: Jobs) -> None:
    gate, got = Event(), []

    def slow() -> str:
        assert gate.wait(5)
        return "old"

    jobs.read(slow, lambda outcome: got.append(outcome.value), about="drums")
    jobs.read(lambda: "new", lambda outcome: got.append(outcome.value), about="drums")
    qtbot.waitUntil(lambda: got == ["new"])
    gate.set()
    jobs.close()
    assert got == ["new"]


def test_questions_about_other_things_do_not_replace_one_another(qtbot: QtBot, jobs: Jobs) -> None:
    got: list[str | None] = []
    jobs.read(lambda: "drums", lambda outcome: got.append(outcome.value), about="drums")
    jobs.read(lambda: "dock", lambda outcome: got.append(outcome.value), about="dock")
    qtbot.waitUntil(lambda: sorted(map(str, got)) == ["dock", "drums"])


def test_a_command_can_be_cancelled_only_before_it_begins(qtbot: QtBot, jobs: Jobs) -> None:
    began, gate = Event(), Event()
    ran: list[str] = []

    def first() -> str:
        began.set()
        assert gate.wait(5)
        ran.append("first")
        return "first"

    running = jobs.write(first, lambda _outcome: ran.append("told"))
    waiting = jobs.write(lambda: ran.append("second"), lambda _outcome: None)
    assert began.wait(5)
    assert not jobs.cancel(running), "it has begun, so it will be finished"
    assert jobs.cancel(waiting)
    gate.set()
    jobs.close()
    assert ran == ["first"]


def test_closing_finishes_every_command_and_tells_its_outcome(jobs: Jobs) -> None:
    written: list[int] = []
    told: list[int | None] = []
    for number in range(20):
        jobs.write(
            lambda number=number: written.append(number) or number,
            lambda outcome: told.append(outcome.value),
        )
    jobs.close()
    assert written == list(range(20))
    assert told == list(range(20))


def test_after_closing_nothing_more_is_taken(qtbot: QtBot, jobs: Jobs) -> None:
    jobs.close()
    got: list[Outcome[int]] = []
    jobs.write(lambda: 1, got.append)
    qtbot.waitUntil(lambda: bool(got))
    assert isinstance(got[0].error, LaneClosed)


@pytest.mark.parametrize("error", [Damage("entry 12, postings"), BrokenRule("sum is 1 g")])
def test_damage_stops_the_write_lane(qtbot: QtBot, jobs: Jobs, error: Exception) -> None:
    got: list[Outcome[int]] = []
    stopped: list[object] = []
    jobs.stopped.connect(stopped.append)

    def task() -> int:
        raise error

    jobs.write(task, got.append)
    jobs.write(lambda: 2, got.append)
    qtbot.waitUntil(lambda: len(got) == 2)
    assert got[0].error is error
    assert got[0].is_fatal
    assert isinstance(got[1].error, LaneClosed)
    assert stopped == [error]
    asked: list[Outcome[str]] = []
    jobs.read(lambda: "still answered", asked.append)
    qtbot.waitUntil(lambda: bool(asked))
    assert asked[0].value == "still answered"


def test_progress_is_told_only_of_work_that_takes_a_while(qtbot: QtBot, jobs: Jobs) -> None:
    told: list[tuple[int, int]] = []
    got: list[Outcome[str]] = []
    jobs.work(
        lambda report: report(1, 2) or "quick",
        got.append,
        progress=lambda done, of: told.append((done, of)),
    )
    qtbot.waitUntil(lambda: bool(got))
    assert told == []
    gate = Event()

    def labels(report) -> str:  # type: ignore[no-untyped-def]
        done = 0
        while not gate.wait(0.02):
            done += 1
            report(done, 640)
        return "printed"

    jobs.work(labels, got.append, progress=lambda done, of: told.append((done, of)))
    qtbot.waitUntil(lambda: bool(told))
    gate.set()
    qtbot.waitUntil(lambda: len(got) == 2)
    assert told[0][1] == 640
    assert got[1].value == "printed"
