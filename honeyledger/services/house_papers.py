"""Papers of the whole house: what came in at the dock, stock, balance, season book, two logs."""

from collections.abc import Collection, Mapping
from datetime import date

from honeyledger.domain.moments import (
    day_of,
    format_day,
    format_moment,
    house_day,
    moment_at,
    parse_moment,
)
from honeyledger.domain.units import format_mass, format_moisture, format_temperature
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.lookup import find_lot, find_pallet, find_record
from honeyledger.ledger.places import PALLET, ROOM, class_of, key_of, place
from honeyledger.services.dock import Arrival, dock_day
from honeyledger.services.holding import name_in
from honeyledger.services.inspection import done_between
from honeyledger.services.labelling import head_text
from honeyledger.services.line import DAY_MS, day_start_ms
from honeyledger.services.lot_papers import NOTHING, parts_table
from honeyledger.services.report_tables import (
    Report,
    ReportTable,
    cells,
    code,
    figure,
    name,
)
from honeyledger.services.season_books import season_books
from honeyledger.services.season_pulls import pulls_of, yard_records
from honeyledger.services.setup import mass_unit
from honeyledger.services.stock import CLASSES, house_balance, stock_on_hand
from honeyledger.services.store import View

BY_ESTIMATE = "A weight behind ≈ was reckoned by count; all others stood on the scale."
LOG_DAYS = 366
DUE = "The house's own plan and its local code say what is to be checked, and how often."


def dock_receipt(view: View, now_ms: int, text: str = "") -> Report:
    """What came in on a pallet, on a day, or today: handed to whoever brought it."""
    day_ms, pallet = _which_day(view, now_ms, text)
    start_ms = day_start_ms(view, day_ms)
    unit, zone = mass_unit(view), rules_of(view).zone
    rows = [
        row
        for row in reversed(dock_day(view, day_ms).arrivals)
        if start_ms <= row.at_ms < start_ms + DAY_MS and pallet in ("", row.pallet)
    ]

    def cell(row: Arrival) -> tuple[str, ...]:
        return (
            row.pallet,
            row.yard,
            row.crew,
            str(row.supers) if row.sheet in (0, row.supers) else f"{row.supers} of {row.sheet}",
            f"{'' if row.weighed else '≈ '}{format_mass(row.grams, unit)}",
            "" if row.moisture is None else format_moisture(row.moisture),
            f"{row.state}, {row.reason}" if row.reason else str(row.state),
        )

    total = ("In all", "", "", str(sum(row.supers for row in rows)))
    return Report(
        title="Dock receipt",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        of=pallet,
        facts=(
            ("Came in", format_day(house_day(day_ms, zone))),
            ("Supers", str(sum(row.supers for row in rows))),
            ("Honey", format_mass(sum(row.grams for row in rows), unit)),
        ),
        says=(BY_ESTIMATE,) if any(not row.weighed for row in rows) else (),
        tables=(
            ReportTable(
                "arrivals",
                "What came in",
                (
                    code("Pallet", 2.6),
                    name("Yard", 3),
                    name("Crew", 2),
                    figure("Supers", 1.8),
                    figure("Honey", 2.2),
                    figure("Moisture", 1.7),
                    name("As it came", 3),
                ),
                cells(rows, cell),
                (*total, format_mass(sum(row.grams for row in rows), unit), "", "")
                if rows
                else (),
                none="Nothing came in.",
            ),
        ),
        sign=("Brought by", "Taken in by", "Day and time"),
    )


def _which_day(view: View, now_ms: int, text: str) -> tuple[int, str]:
    """A time of the day meant, and the pallet's code where one was named."""
    if not text.strip():
        return now_ms, ""
    if text.strip()[:1].isdigit():
        return parse_moment(f"{text.strip()} 12:00", rules_of(view).zone, now_ms).at_ms, ""
    if text.strip()[:1].casefold() == "s":
        return _of_pull(view, now_ms, text)
    pallet = find_pallet(view, text, "code")
    mark = view.mark(pallet, "condition")
    return (mark.at_ms if mark else now_ms), key_of(pallet)


def _of_pull(view: View, now_ms: int, text: str) -> tuple[int, str]:
    """When a pull came in, and the pallet that it came on."""
    lot = find_lot(view, text, "S", "code")
    entry = view.entry(lot.made_by)
    assert entry is not None
    came = (p.place for p in entry.postings if p.lot == lot.id and p.grams > 0)
    pallet = next((one for one in came if class_of(one) == PALLET), "")
    return entry.act.happened.at_ms, key_of(pallet) if pallet else ""


def stock_list(view: View, now_ms: int, text: str = "") -> Report:
    """All that stands in the house, place by place, to be counted by."""
    unit = mass_unit(view)
    wanted = stock_on_hand(view, text.strip().upper(), CLASSES)
    rows = [row for row in wanted if row.grams or row.pieces]
    held = sum(row.held for row in rows)
    return Report(
        title="Stock list",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        facts=(
            ("Lines", str(len(rows))),
            ("Honey", format_mass(sum(row.grams for row in rows), unit)),
            ("On hold", str(held)),
        ),
        says=(),
        tables=(
            ReportTable(
                "stock",
                "By the books",
                (
                    code("Lot", 3),
                    name("What", 2.2),
                    name("Where", 4),
                    figure("Honey", 2.2),
                    figure("Supers, jars", 2),
                    name("", 1.6),
                ),
                cells(
                    rows,
                    lambda row: (
                        row.code,
                        str(row.noun),
                        str(row.where),
                        format_mass(row.grams, unit) if row.grams else "",
                        str(row.pieces or ""),
                        "on hold" if row.held else "",
                    ),
                ),
                none="Nothing stands in the house.",
            ),
        ),
        ticks=True,
        sign=("Counted by", "Day and time"),
    )


def balance_of_house(view: View, now_ms: int) -> Report:
    """All honey the books ever saw: what came, and where it is now."""
    balance, unit = house_balance(view), mass_unit(view)
    return Report(
        title="Mass balance",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        facts=(
            ("Came", format_mass(balance.came_g, unit)),
            ("In the house", format_mass(balance.on_hand_g, unit)),
            ("Not accounted for", format_mass(balance.gap_g, unit)),
        ),
        says=(),
        tables=(
            parts_table("came", "Came from", balance.came, unit),
            parts_table("places", "Is now at", balance.places, unit),
        ),
        sign=("Added up by", "Day and time"),
    )


def season_book(view: View, now_ms: int, text: str = "") -> Report:
    """A season yard by yard: what was pulled on which day, and when it was extracted."""
    year = int(text) if text.strip().isdigit() else house_day(now_ms, rules_of(view).zone).year
    unit, records = mass_unit(view), yard_records(view)
    loaded = _extracted(view, year, now_ms)
    tables, in_all = [], 0
    pulls = [pull for pull in pulls_of(view, list(records)) if pull.season == year]
    for yard in sorted(records, key=lambda one: str(records[one].get("name", "")).casefold()):
        here = sorted((one for one in pulls if one.yard == yard), key=lambda one: one.day)
        if not here:
            continue
        in_all += sum(pull.grams for pull in here)
        total = format_mass(sum(pull.grams for pull in here), unit)
        supers = str(sum(pull.supers for pull in here))
        forage = str(records[yard].get("forage", ""))
        title = str(records[yard].get("name", "")) or key_of(yard)
        tables.append(
            ReportTable(
                yard,
                f"{title}, {forage}" if forage else title,
                (
                    name("Pulled", 2.2),
                    code("Pull", 2.8),
                    name("Crew", 2.2),
                    name("Extracted", 4),
                    figure("Supers", 1.6),
                    figure("Honey", 2.4),
                ),
                cells(
                    here,
                    lambda pull: (
                        format_day(pull.day),
                        pull.code,
                        pull.crew,
                        loaded.get(pull.code, "not yet"),
                        str(pull.supers or ""),
                        format_mass(pull.grams, unit),
                    ),
                ),
                ("In all", "", "", "", supers, total),
            )
        )
    return Report(
        title="Season book by yard",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        facts=(
            ("Season", str(year)),
            ("Yards", str(len(tables))),
            ("Honey", format_mass(in_all, unit)),
        ),
        says=() if tables else (NOTHING,),
        tables=tuple(tables),
        sign=("Kept by", "Day"),
    )


def _extracted(view: View, year: int, now_ms: int) -> Mapping[str, str]:
    """Of each pull the days and runs of its loads, by its code."""
    found: dict[int, dict[tuple[date, str], None]] = {}
    for day, entry in season_books(view, year, now_ms).of("load"):
        for row in entry.postings:
            if row.grams < 0:
                found.setdefault(row.lot, {})[day, entry.act.run] = None
    lots = view.lots(found)
    return {
        lots[lot].code: ", ".join(f"{format_day(day)} {run}".strip() for day, run in times)
        for lot, times in found.items()
    }


def hot_room_log(view: View, now_ms: int, text: str = "") -> Report:
    """The air of a room, or of all, as it was read over the last year."""
    wanted = key_of(find_record(view, ROOM, text, "room")[0]) if text.strip() else ""
    zone = rules_of(view).zone
    rows = []
    for entry in view.entries(("room log",), now_ms - LOG_DAYS * DAY_MS):
        if entry.act.happened.at_ms > now_ms or view.reversed_by(entry.id):
            continue
        read: dict[str, dict[str, int]] = {}
        for subject, what, value in rows_of(entry, "marks"):
            if class_of(str(subject)) == ROOM and isinstance(value, int):
                read.setdefault(key_of(str(subject)), {})[str(what)] = value
        for room, values in read.items():
            if wanted in ("", room):
                heat, damp = values.get("temperature"), values.get("humidity")
                by = entry.act.operator
                rows.append(
                    (
                        format_moment(moment_at(entry.act.happened.at_ms, zone)),
                        name_in(view, place(ROOM, room), room),
                        "" if heat is None else format_temperature(heat),
                        "" if damp is None else format_moisture(damp, 0),
                        name_in(view, place("operator", by), by) if by else "",
                    )
                )
    return Report(
        title="Hot-room log",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        facts=(
            ("Room", name_in(view, place(ROOM, wanted), wanted) if wanted else "all"),
            ("Readings", str(len(rows))),
        ),
        says=(),
        tables=(
            ReportTable(
                "air",
                "The air as it was read",
                (
                    name("When", 3),
                    name("Room", 4),
                    figure("Temperature", 2),
                    figure("Humidity", 2),
                    name("By", 2.6),
                ),
                tuple(rows),
                none="Nothing was logged.",
            ),
        ),
        sign=("Kept by", "Day"),
    )


def checks_log(view: View, now_ms: int, text: str = "") -> Report:
    """Checks, calibrations and washes of the last year, or of one season."""
    year = int(text) if text.strip().isdigit() else 0
    done: list[tuple[str, ...]] = []
    kinds: Collection[str] = ("check", "calibrate", "wash")
    since = now_ms - LOG_DAYS * DAY_MS * (1 if not year else 10)
    for row in done_between(view, kinds, (since, now_ms)):
        if year in (0, day_of(row.at).year):
            done.append((format_moment(row.at), row.about or "the house", row.what, row.by))
    return Report(
        title="Checks log",
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        facts=(("Season", str(year) if year else "the last year"), ("Checks", str(len(done)))),
        says=(DUE,),
        tables=(
            ReportTable(
                "checks",
                "Checks, calibrations and washes",
                (name("When", 2.8), name("Of what", 3.4), name("What", 5), name("By", 2.4)),
                tuple(done),
                none=NOTHING,
            ),
        ),
        sign=("Kept by", "Day"),
    )
