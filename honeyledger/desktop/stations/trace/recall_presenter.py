"""What the page of a call back knows: the code in hand, its scope, its forms, its paper."""

from collections.abc import Callable
from pathlib import Path
from time import perf_counter

from PySide6.QtCore import Signal

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.asked_page import AskedPage
from honeyledger.desktop.models.paper import Paper
from honeyledger.desktop.page_print import PagesOnPaper, print_pages
from honeyledger.desktop.stations.trace.recall_asks import recall_forms
from honeyledger.desktop.stations.trace.words import accounted, counted, tr
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_mass, format_number
from honeyledger.services.affected import Affected
from honeyledger.services.printed import WHO_HAS_IT
from honeyledger.services.recall_page import RecallPage, recall_page
from honeyledger.services.store import View

CODE = "code"


class RecallPresenter(AskedPage):
    """What is affected by one code, and the forms of the page.

    Signals:
        printed: the file that was written, or the `Refusal` it ended with.
    """

    page: RecallPage | None
    printed = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "recall", recall_forms(), self._asked)
        self.code = ""
        self.seconds = 0.0
        self.asking.changed.connect(self._followed)
        self.asking.pause.timeout.connect(self._paused)

    def _asked(self, view: View, now_ms: int) -> RecallPage:
        began = perf_counter()
        page = recall_page(view, now_ms, self.code)
        self.seconds = perf_counter() - began
        return page

    def open_for(self, code: str, kind: str = "") -> None:
        """Take a code in hand, with one of the forms."""
        if kind:
            self.asking.choose(kind)
        self.take(code)
        self.ask()

    def take(self, code: str) -> bool:
        """A code that was scanned goes into the form in hand, where it asks for one."""
        if not self.asking.spec.scan:
            return False
        self.asking.scan(code)
        return True

    def _followed(self) -> None:
        """What is shown follows the code that is typed, at once where it is a whole one."""
        asking = self.asking
        if not self._asks_code():
            return
        text = asking.now().text(CODE)
        if not text and self.code and not asking.spec.is_begun(asking.now()):
            # Another form goes on with the code in hand.
            asking.fill(asking.now().with_value(CODE, self.code))
        elif code := self._desk.code_of(text):
            self._show(code)

    def _paused(self) -> None:
        """A name, or what is no code, is asked about at a pause, so that nothing stale stays."""
        if self._asks_code():
            self._show(self.asking.now().text(CODE))

    def _asks_code(self) -> bool:
        return CODE in {ask.key for ask in self.asking.spec.asks()}

    def _show(self, code: str) -> None:
        if code and code not in (self.code, self._desk.code_of(self.code)):
            self.code = code
            self.ask()

    # How it is said.

    def heading(self) -> str:
        """The line above the answer."""
        page = self.page
        if page is None or page.scope is None:
            return tr("What is affected")
        return tr("What is affected if {name} is called back").format(name=page.scope.name)

    def answer(self) -> str:
        """Who has it, what is here, how much of it adds up."""
        page = self.page
        if page is None or page.scope is None:
            problem = page.problem if page is not None else ""
            return problem or tr(
                "Scan a jar: who has the rest of its lot stands here in a moment."
            )
        scope, unit = page.scope, page.unit
        who = counted(len(scope.consignees), tr("1 customer has"), tr("{n} customers have"))
        if not scope.consignees:
            who = tr("No customer has any of it")
        words = [f"{who} {self._sent(scope)}".strip() + "."]
        here = tr("{mass} is here, {free} of it on no hold.")
        if not scope.here_g:
            here = tr("None of it is here.")
        elif scope.free_g == scope.here_g:
            here = tr("{mass} is here, none of it on hold.")
        elif not scope.free_g:
            here = tr("{mass} is here, all of it on hold.")
        mass, free = format_mass(scope.here_g, unit), format_mass(scope.free_g, unit)
        words.append(here.format(mass=mass, free=free))
        words.append(f"{accounted(scope.accounted)}.")
        return " ".join(words)

    def _sent(self, scope: Affected) -> str:
        if not scope.consignees:
            return ""
        mass = format_mass(scope.sent_g, self._desk.unit)
        if not scope.jars_sent:
            return mass
        words = tr("{jars} jars, {mass} in all")
        return words.format(jars=format_number(scope.jars_sent), mass=mass)

    def doubts(self) -> str:
        """What is missing and how far it would go if the cause is further up."""
        page = self.page
        if page is None or page.scope is None:
            return ""
        scope, unit = page.scope, page.unit
        parts = []
        if scope.missing_g:
            words = tr("{mass} is not accounted for, {run} of it as runs were closed.")
            mass, run = format_mass(scope.missing_g, unit), format_mass(scope.run_g, unit)
            parts.append(words.format(mass=mass, run=run))
        if scope.wider > len(scope.lots):
            words = tr(
                "If the cause is further up, {n} lots share a source with it: trace it back."
            )
            parts.append(words.format(n=format_number(scope.wider)))
        words = tr("{ms}\u00a0ms, {n}\u00a0lots.")
        parts.append(words.format(ms=round(self.seconds * 1000), n=len(scope.lots)))
        return " ".join(parts)

    # On paper.

    def print(self, make: Callable[[], Paper]) -> None:
        """Write the list of who has it among the papers."""
        page = self.page
        if page is None or page.scope is None:
            return
        code = page.scope.code
        name = f"who-has-{code}-{page.scope.entries}"

        def done(outcome: Outcome[Path]) -> None:
            written: Path | Refusal = outcome.value or refusal_of(outcome)
            self.printed.emit(written)

        print_pages(self._desk, PagesOnPaper(name, WHO_HAS_IT, code, [make()]), done)
