"""From a card's rows to what the card shows: figures, states and sentences in words."""

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.days import format_day, format_moment
from honeyledger.desktop.models.lot_card import CardEvent, CardFact, CardOrigin, LotCardFacts
from honeyledger.desktop.stations.card.blend_rows import blends_part
from honeyledger.desktop.stations.card.claim_rows import JUDGED as CLAIMED
from honeyledger.desktop.stations.card.claim_rows import claims_part
from honeyledger.desktop.stations.card.quality_rows import quality_part
from honeyledger.domain.codes import LETTERS
from honeyledger.domain.moments import day_of
from honeyledger.domain.units import (
    MassUnit,
    format_mass,
    format_moisture,
    format_number,
    format_shares,
    format_temperature,
)
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.services.cards import LotCard, Standing, gap_words
from honeyledger.services.histories import Told
from honeyledger.services.place_cards import PlaceCard, StandsThere, any_card
from honeyledger.services.store import View

_LABELLED = "DPJX"
_PIECES = {"S": "supers", "J": "jars"}


def _tr(text: str) -> str:
    return QCoreApplication.translate("card", text)


def _made_words(kind: str) -> str:
    words = {
        "S": _tr("received {day}"),
        "P": _tr("bought in {day}"),
        "T": _tr("first drawn {day}"),
        "D": _tr("filled {day}"),
        "J": _tr("bottled {day}"),
        "W": _tr("weighed {day}"),
        "X": _tr("taken {day}"),
    }
    return words.get(kind, _tr("of {day}"))


def facts_of(view: View, code: str, now_ms: int, unit: MassUnit) -> LotCardFacts:
    """What the card of a code says.

    Raises:
        Refusal: the code names nothing.
    """
    card = any_card(view, code, now_ms, unit)
    facts = card_facts(card, unit)
    if isinstance(card, LotCard):
        quality = quality_part(view, card.code, now_ms)
        if card.kind in CLAIMED:
            quality += claims_part(view, card.code, now_ms)
        return replace(facts, quality=quality)
    if str(card.noun) == "vessel":
        return replace(facts, blends=blends_part(view, card.code, unit))
    return facts


def card_facts(card: LotCard | PlaceCard, unit: MassUnit) -> LotCardFacts:
    """Everything the card of a lot, or of a place, says."""
    return _lot_facts(card, unit) if isinstance(card, LotCard) else _place_facts(card, unit)


def _lot_facts(card: LotCard, unit: MassUnit) -> LotCardFacts:
    made = _made_words(card.kind).format(day=format_day(day_of(card.made)))
    mark, state = _lot_state(card)
    figures = [
        (format_mass(card.made_g, unit), _tr("made")),
        (format_mass(card.on_hand_g, unit), _tr("left here")),
    ]
    if card.moisture is not None:
        figures.append((format_moisture(card.moisture), _tr("moisture")))
    return LotCardFacts(
        code=card.code,
        kind=f"{_capital(say(card.noun))}, {made}",
        where=_where(card.standing),
        mark=mark,
        state=state,
        figures=tuple(figures),
        pfund_mm=card.colour / 10 if card.colour is not None else None,
        messages=tuple(_lot_messages(card)),
        origins=_origins(card.yards),
        facts=tuple(_lot_details(card, unit)),
        history=_events(card.history),
        can_print=card.kind in _LABELLED,
        has_papers=True,
        has_colour=card.kind not in "AWX",
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _lot_state(card: LotCard) -> tuple[Mark, str]:
    if card.holds:
        return Mark.HOLD, _tr("on hold")
    if card.pending:
        return Mark.WARNING, _tr("not weighed")
    if card.label_void:
        return Mark.WARNING, _tr("label void")
    if card.on_hand_g:
        return Mark.READY, _tr("ready")
    return Mark.READY, _tr("all gone")


def _where(standing: Sequence[Standing]) -> str:
    there = [row for row in standing if not row.is_gap and (row.grams > 0 or row.pieces > 0)]
    here = [_once(say(row.where)) for row in there]
    if not here:
        return _tr("nothing of it is here")
    if len(here) > 1:
        return _tr("{place} and {n} more").format(place=here[0], n=len(here) - 1)
    return here[0]


def _once(where: str) -> str:
    """A drum that is called "Drum 7" is not called "drum Drum 7"."""
    word, _, name = where.partition(" ")
    return name if name.casefold().startswith(word) else where


def _lot_messages(card: LotCard) -> list[Message]:
    messages = [Message(Mark.HOLD, _tr("On hold."), say(hold)) for hold in card.holds]
    if card.pending:
        words = _tr("Put it on the scale: its weight is an estimate.")
        messages.append(Message(Mark.WARNING, _tr("Not weighed yet."), words))
    if card.label_void:
        words = _tr("It was topped up: its honey has another code now.")
        messages.append(Message(Mark.WARNING, _tr("Take its label off."), words))
    if not card.reach_complete:
        words = _tr("Part of its honey came from a source nobody has named.")
        messages.append(Message(Mark.WARNING, _tr("Origin not complete."), words))
    return messages


def _origins(yards: Sequence[Ancestor]) -> tuple[CardOrigin, ...]:
    shares = [say(one) for one in format_shares([row.share for row in yards])]
    return tuple(
        CardOrigin(
            row.name,
            row.share,
            _share_words(row, words),
            heel_only=row.only_through_heel,
        )
        for row, words in zip(yards, shares, strict=True)
    )


def _share_words(row: Ancestor, share: str) -> str:
    if "amended" in row.how:
        return _tr("{share}, amended").format(share=share) if row.share else _tr("amended")
    return share if row.share else _tr("in reach")


def _lot_details(card: LotCard, unit: MassUnit) -> list[CardFact]:
    facts = []
    for row in card.standing:
        if row.is_gap:
            facts.append(CardFact(_tr("By the scale"), say(gap_words(row.grams, unit))))
            continue
        if len(card.standing) == 1:
            continue  # said at the head
        amount = _amount(row.grams, row.pieces, _PIECES.get(card.kind, ""), unit)
        facts.append(CardFact(_capital(say(row.where)), amount))
    facts += [CardFact(_capital(say(label)), say(value)) for label, value in card.facts]
    if card.temperature is not None:
        facts.append(CardFact(_tr("Temperature"), format_temperature(card.temperature)))
    for one in card.in_reach_only:
        how = _tr("{code}, late") if one.late else "{code}"
        facts.append(CardFact(_tr("In reach only"), how.format(code=one.code)))
    return facts


def _amount(grams: int, pieces: int, noun: str, unit: MassUnit) -> str:
    mass = format_mass(grams, unit)
    return f"{mass}, {format_number(pieces)} {_tr(noun)}" if pieces and noun else mass


def _events(history: Sequence[Told]) -> tuple[CardEvent, ...]:
    """Dated sentences, newest first."""
    events = []
    for one in reversed(history):
        by = _tr(" By {name}.").format(name=one.by) if one.by else ""
        sentence = say(one.sentence) + by
        if one.reversed_by:
            sentence += _tr(" Reversed by entry {n}.").format(n=one.reversed_by)
        events.append(
            CardEvent(format_moment(one.happened), sentence, one.entry, bool(one.reversed_by))
        )
    return tuple(events)


def _place_facts(card: PlaceCard, unit: MassUnit) -> LotCardFacts:
    mark, state = Mark.READY, ""
    if card.holds:
        mark, state = Mark.HOLD, _tr("on hold")
    figures = []
    if card.standing:
        if card.pieces:
            figures.append((format_number(card.pieces), _tr("supers")))
        figures.append((f"≈ {format_mass(card.grams, unit)}", _tr("stands here")))
    if card.moisture is not None:
        figures.append((format_moisture(card.moisture), _tr("moisture")))
    facts = [_standing_fact(row, unit) for row in card.standing]
    if card.standing:
        since = min((row.since for row in card.standing), key=lambda moment: moment.at_ms)
        facts.append(CardFact(_tr("Stands since"), format_moment(since)))
    facts += [CardFact(_capital(say(label)), say(value)) for label, value in card.facts]
    return LotCardFacts(
        code=card.code,
        kind=_capital(f"{say(card.noun)} {card.name}".strip()),
        where=_place_where(card),
        mark=mark,
        state=state,
        figures=tuple(figures),
        messages=tuple(Message(Mark.HOLD, _tr("On hold."), say(hold)) for hold in card.holds),
        facts=tuple(facts),
        history=_events(card.history),
        can_print=card.prints,
        can_trace=card.noun == "yard",
        has_sheet=card.noun == "yard",
        has_papers=card.noun == LETTERS["G"],
        has_colour=False,
    )


def _standing_fact(row: StandsThere, unit: MassUnit) -> CardFact:
    pieces = _PIECES.get(row.code.split("-")[-3][:1] if row.code.count("-") > 1 else "", "")
    return CardFact(row.code, _amount(row.grams, row.pieces, pieces, unit))


def _place_where(card: PlaceCard) -> str:
    if card.standing:
        lots = len(card.standing)
        words = _tr("one lot stands here") if lots == 1 else _tr("{n} lots stand here")
        return words.format(n=lots)
    return _tr("nothing stands here") if card.noun not in ("yard", "run", "dispatch note") else ""
