"""What held the sample's line up, as it was said there, and the weather of its summer.

Stops lie within the time in which their run was worked; those that are long came after its last
pallet, where a run took longer than its frames. All of it is made up.
"""

from datetime import datetime, timedelta

from sample_chance import Tables

LINE = "Line A"
# The run, when work went on, for how many minutes it had stood, for what, and more of it.
STOPS = (
    (1, (7, 10, 9, 58), 14, "uncapping", "chain slack"),
    (2, (7, 13, 12, 25), 12, "drums", "the empties stood behind the truck"),
    (4, (7, 17, 12, 20), 40, "settling", "drums had to be drawn first"),
    (7, (7, 23, 10, 20), 15, "break", ""),
    (10, (7, 28, 9, 30), 10, "people", "both at the dock"),
    (13, (8, 7, 9, 40), 18, "extractor", "a comb broke in the basket"),
    (15, (8, 12, 14, 5), 50, "power", "the storm"),
    (18, (8, 19, 9, 50), 12, "supers", "the next pallet was still cold"),
    (19, (8, 21, 10, 30), 10, "uncapping", "knife cold"),
    (22, (8, 31, 13, 55), 45, "pump", "the key had sheared"),
    (24, (9, 18, 10, 15), 20, "washing", "the sump ran over"),
    (25, (9, 23, 10, 50), 15, "break", ""),
)
# The day, what it was like, its highest in °C, where, and a note.
WEATHER = (
    ((7, 7), "heat", 31, "", ""),
    ((7, 10), "storm", 27, "Windrow Seven", "hail, the canola beside it lies flat"),
    ((7, 12), "rain", 19, "", ""),
    ((7, 15), "rain", 18, "", "no flight until four"),
    ((7, 21), "heat", 33, "", ""),
    ((7, 28), "storm", 29, "", ""),
    ((7, 31), "rain", 17, "", ""),
    ((8, 1), "rain", 16, "", "tracks too soft for the truck"),
    ((8, 2), "rain", 15, "", ""),
    ((8, 3), "cold", 13, "", "no flight"),
    ((8, 10), "smoke", 28, "", "fires to the west"),
    ((8, 12), "storm", 26, "", "power out after two"),
    ((8, 21), "wind", 22, "", ""),
    ((8, 24), "rain", 18, "", ""),
    ((9, 2), "cold", 11, "", ""),
    ((9, 10), "frost", 7, "", "the first"),
    ((9, 21), "rain", 12, "", ""),
)
EVENING = timedelta(hours=21)


def write(tables: Tables) -> None:
    """A stop when work went on, the weather in the evening."""
    for run, when, minutes, reason, why in STOPS:
        month, day, hour, minute = when
        time = datetime(2026, month, day, hour, minute)  # noqa: DTZ001  See house.csv.
        tables.add(
            "floor",
            when=tables.free(time),
            run=run,
            what="stop",
            vessel=LINE,
            reason=reason,
            minutes=minutes,
            why=why,
        )
    for (month, date), sort, high, yard, note in WEATHER:
        day = datetime(2026, month, date)  # noqa: DTZ001  See house.csv.
        tables.add(
            "yard_log",
            when=tables.free(day + EVENING),
            by="Petra Lunnock",
            what="weather",
            yard=yard,
            day=day,
            sort=sort,
            high=high,
            note=note,
        )
