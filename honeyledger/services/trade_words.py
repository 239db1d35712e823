"""What trade and stocktakes left on a lot, in words: for its card and its history."""

from collections.abc import Mapping

from honeyledger.domain.moments import format_day, house_day
from honeyledger.domain.phrases import joined, phrase
from honeyledger.domain.units import MassUnit, format_weight
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.offers import REFUSED
from honeyledger.ledger.places import CUSTOMER, GATE, class_of
from honeyledger.ledger.seals import SEAL
from honeyledger.ledger.title import CONSIGNOR, HOUSE, OWNER, owner_of, party_name
from honeyledger.services.rooms import spot_words, where_it_stands
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

PAPERS = {
    "certificate": phrase("certificate"),
    "supplier_lot": phrase("supplier's lot"),
    "country": phrase("country"),
}


_VERDICTS = {"approved": phrase("approved"), "refused": phrase("refused")}


def mark_words(view: View, name: str, value: Json, names: PlaceNames, unit: MassUnit) -> str:
    """A mark of trade as a part of a sentence; "" where it says nothing of its own."""
    if name == CONSIGNOR:
        return phrase("in the name of {name}", name=party_name(view, str(value)))
    if name in PAPERS:
        return joined((PAPERS[name], str(value)), " ")
    if name == "written":
        return phrase("“{value}” stands on it", value=value)
    if name == SEAL:
        return phrase("sealed with {seal}", seal=value)
    if not isinstance(value, Mapping):
        return ""
    match name.partition("/")[0]:
        case "offered":
            return _offered(view, f"{CUSTOMER}/{name.partition('/')[2]}", value)
        case "verdict":
            reference = _behind(value.get("reference", ""))
            by = party_name(view, str(value["customer"]))
            verdict = _VERDICTS.get(str(value["verdict"]), str(value["verdict"]))
            told = phrase("{verdict} by {customer}", verdict=verdict, customer=by)
            return joined((told, reference), "") if reference else told
        case "buyer's weight":
            grams = value["grams"]
            assert isinstance(grams, int)
            shown = format_weight(grams, unit)
            told = phrase("{mass} on the buyer's scale", mass=shown)
            return joined((told, _behind(value.get("reference", ""))), "")
        case "stands":
            spot = {key: str(text) for key, text in value.items()}
            return phrase("in {place}", place=spot_words(names, spot)) if spot else ""
        case "missing":
            return phrase("not found there")
    return ""


def _offered(view: View, customer: str, said: Mapping[str, Json]) -> str:
    who, verdict = party_name(view, customer), said.get("verdict", "")
    if not verdict:
        return phrase("sample {sample} is for {who}", sample=said["sample"], who=who)
    # A refusal's reason stands behind the sentence.
    if verdict == REFUSED:
        return phrase("{who} refused sample {sample}", who=who, sample=said["sample"])
    return phrase("{who} approved sample {sample}", who=who, sample=said["sample"])


def _behind(text: Json) -> str:
    return f" ({text})" if text else ""


def title_facts(view: View, lot: Lot, names: PlaceNames) -> list[tuple[str, str]]:
    """Owner, holder and consignor of a lot as dated facts, where it is not all the house's own."""
    marks = {mark.name: mark for mark in view.marks(lot.code)}
    owner, zone = owner_of(view, lot), rules_of(view).zone
    holders = {
        names[row.place]: row.place
        for row in view.holdings(lot.id)
        if row.grams > 0 and class_of(row.place) in (CUSTOMER, GATE)
    }
    told, sent = marks.get(OWNER), marks.get(CONSIGNOR)
    if owner == HOUSE and not told and not sent and not holders:
        return []
    rows: list[tuple[str, str]] = [(phrase("owner"), party_name(view, owner))]
    if told and isinstance(told.value, Mapping):
        since = format_day(house_day(told.at_ms, zone))
        named = phrase("{owner}, since {day}", owner=rows[0][1], day=since)
        paper = _behind(told.value.get("document", ""))
        rows = [(phrase("owner"), joined((named, paper), ""))]
    out = [mark for name, mark in marks.items() if name.startswith("note/")]
    last_ms = max((mark.at_ms for mark in out), default=0)
    held: str = joined(holders) if holders else party_name(view, HOUSE)
    if last_ms and holders:
        held = phrase("{owner}, since {day}", owner=held, day=format_day(house_day(last_ms, zone)))
    rows.append((phrase("holder"), held))
    if sent:
        day = format_day(house_day(sent.at_ms, zone))
        rows.append((phrase("consignor"), f"{party_name(view, str(sent.value))}, {day}"))
    return rows


def trade_facts(view: View, lot: Lot, names: PlaceNames) -> list[tuple[str, str]]:
    """A card's facts of title, papers that came later, the buyer's scale, and where it stands."""
    rows = title_facts(view, lot, names)
    for name, caption in PAPERS.items():
        mark = view.mark(lot.code, name)
        if mark and mark.value != lot.attributes.get(name):
            rows.append((caption, str(mark.value)))
    written = view.mark(lot.code, "written")
    if written:
        rows.append((phrase("written on it"), str(written.value)))
    return rows + where_it_stands(view, lot.code, names)
