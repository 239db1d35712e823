"""The lot whose number is being said, or the product whose number is wanted."""

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.stations.dispatch.fields_view import SPAN, THESE, DispatchFields
from honeyledger.desktop.stations.dispatch.picking import span_of
from honeyledger.desktop.stations.dispatch.presenter import DispatchPresenter
from honeyledger.desktop.stations.dispatch.rows import counted, group_name, is_product, tr
from honeyledger.desktop.stations.dispatch.typed import JAR, Picked
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.form import Form
from honeyledger.domain.units import format_number
from honeyledger.services.dispatching import PACKS


class LotInHand(QObject):
    """What stands in the fields of a lot and its number. One of `hand` and `wanted` is empty.

    Signals:
        resized: fields came or went.
    """

    resized = Signal()

    def __init__(self, presenter: DispatchPresenter, fields: DispatchFields, form: Form) -> None:
        super().__init__()
        self._presenter, self._fields, self._form = presenter, fields, form
        self.hand = self.wanted = ""

    def take_in_hand(self, code: str) -> None:
        """Say how much of a lot goes."""
        picked = self._presenter.note.find(code)
        if picked is None or picked.kind in PACKS:
            return  # A case or pallet goes as it was packed.
        fields = self._fields
        self.hand, self.wanted = code, ""
        _show_from_its_start(fields.goes, self._spoken(picked))
        fields.goes.set_unit("")
        self._show_amount(picked)
        self.resized.emit()
        self._form.take_focus(fields.jars if picked.is_counted else fields.net)

    def _spoken(self, picked: Picked) -> str:
        page = self._presenter.page
        row = page.on_shelf(picked.code) if page else None
        return f"{picked.code} {row.name}".strip() if row else picked.code

    def _show_amount(self, picked: Picked) -> None:
        fields = self._fields
        label = tr("Jars") if picked.is_counted else tr("Net, blank for all")
        row = self._presenter.page.on_shelf(picked.code) if self._presenter.page else None
        if row is not None and picked.is_counted:
            words = tr("Jars, of {n}") if picked.kind == JAR else tr("Pieces, of {n}")
            label = words.format(n=format_number(row.jars))
        (fields.jars if picked.is_counted else fields.net).set_label(label)
        if fields.jars.text() != picked.jars:
            fields.jars.set_text(picked.jars)
        if fields.net.text() != picked.net:
            fields.net.set_text(picked.net)
        if len(picked.serials) > 1:
            first, last, jars = span_of(picked)
            these = counted(len(picked.serials), tr("this 1"), tr("these {n}"))
            words = tr("{first} to {last}: {n}")
            between = words.format(first=f"{first:05d}", last=f"{last:05d}", n=format_number(jars))
            choices = [Choice(THESE, these), Choice(SPAN, between)]
            if [one.choice for one in fields.span.buttons()] != choices:
                fields.span.set_choices(choices)
            fields.span.set_key(SPAN if picked.is_span else THESE)

    def leave_hand(self) -> None:
        """Nothing is in hand: the next scan, or the next line of the order."""
        fields = self._fields
        self.hand = self.wanted = ""
        for field in (fields.goes, fields.jars, fields.net):
            field.clear()
        fields.goes.set_unit("")
        fields.jars.set_label(tr("Jars"))
        self.resized.emit()

    def take_wanted(self, group: str) -> None:
        """Say how many of a product, or of drums, are wanted."""
        page, fields = self._presenter.page, self._fields
        if page is None:
            return
        self.hand, self.wanted = "", group
        name = group_name(group, page)
        if fields.goes.text() != name:
            _show_from_its_start(fields.goes, name)
        fields.jars.set_label(tr("Jars wanted") if is_product(group) else tr("How many"))
        before = next((one.count for one in self._presenter.note.wanted if one.group == group), 0)
        fields.jars.set_text(str(before) if before else "")
        self.resized.emit()
        self._form.take_focus(fields.jars)


def _show_from_its_start(field: ChoiceField, text: str) -> None:
    """Where a text is too long for its field, its end is cut, not the code it begins with."""
    field.set_text(text)
    field.editor.setCursorPosition(0)
