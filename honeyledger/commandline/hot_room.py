"""Commands of the hot room: its air, drying, and supers that do not go through."""

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_iso, format_moment
from honeyledger.domain.units import (
    format_moisture,
    format_temperature,
    parse_count,
    parse_percent,
    parse_temperature,
)
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.hot_room import Dry, RoomLog
from honeyledger.ledger.verbs.leftovers import SetAside
from honeyledger.services.hot_room import RoomAir, room_air


@click.group(no_args_is_help=True)
def room() -> None:
    """Log a room's air, or show its log."""


@room.command("log", cls=Recording)
@click.argument("name", metavar="ROOM")
@click.option("--temperature", metavar="DEGREES", help="In degrees Celsius, or with F behind.")
@click.option("--humidity", metavar="PERCENT", help="Relative humidity of the air.")
@click.option("--note", default="", help="Anything worth knowing.")
@click.pass_obj
def log(desk: Desk, name: str, temperature: str | None, humidity: str | None, note: str) -> None:
    """Log a room's temperature and humidity.

    \b
    Example: honeyledger room log "Hot room" --temperature 34 --humidity 45
    Undo: reverse the entry.
    """
    desk.record(
        RoomLog(
            name,
            None if temperature is None else parse_temperature(temperature),
            None if humidity is None else parse_percent(humidity, "a humidity", field="humidity"),
            note,
        )
    )


@room.command("show", cls=Asking)
@click.argument("name", metavar="ROOM")
@click.pass_obj
def show(desk: Desk, name: str) -> None:
    """Show a room's log, newest first.

    \b
    Example: honeyledger room show "Hot room"
    """
    air = desk.ask(lambda view: room_air(view, name))
    rows = [
        [
            format_moment(row.happened),
            "" if row.temperature is None else format_temperature(row.temperature),
            "" if row.humidity is None else format_moisture(row.humidity, 0),
            row.note,
            row.by,
        ]
        for row in air.log
    ]
    desk.answer_rows(
        _air_json(air),
        (
            Column("when"),
            Column("temperature", right=True),
            Column("humidity", right=True),
            Column("note", wraps=True),
            Column("by"),
        ),
        rows,
        f"Nothing was read in {air.name} yet.",
    )


def _air_json(air: RoomAir) -> dict[str, object]:
    return {
        "room": air.key,
        "name": air.name,
        "log": [
            {
                "entry": row.entry,
                "happened": format_iso(row.happened),
                "temperature": row.temperature,
                "humidity": row.humidity,
                "note": row.note,
                "by": row.by,
            }
            for row in air.log
        ],
    }


@click.command(cls=Recording)
@click.argument("what")
@click.option("--before", metavar="PERCENT", help="Moisture before; its last reading unless said.")
@click.option("--after", metavar="PERCENT", help="Moisture after.")
@click.option("--gross", metavar="WEIGHT", help="On the scale after drying.")
@click.option("--tare", metavar="WEIGHT", help="Pallet and lid (15 kg unless said), or the drum.")
@click.option("--net", metavar="WEIGHT", help="Honey alone, after drying.")
@click.option("--room", "where", default="", help="Where it dried.")
@click.option("--hours", metavar="COUNT", help="How long.")
@click.option(
    "--despite-reading", default="", metavar="WHY", help="Why BEFORE counts, if read otherwise."
)
@click.pass_obj
def dry(
    desk: Desk,
    what: str,
    before: str | None,
    after: str | None,
    gross: str | None,
    tare: str | None,
    net: str | None,
    where: str,
    hours: str | None,
    despite_reading: str,
) -> None:
    """Water leaves honey in the hot room, computed on its solids.

    WHAT is a pallet tag, a pull, a drum or a vessel. A weight besides both moistures tells water
    from a wrong estimate.

    \b
    Example: honeyledger dry G26-0012-F --before 19.3 --after 17.8 --room "Hot room" --hours 40
    Undo: reverse the entry, while nothing is built on it.
    """
    desk.record(
        Dry(
            what,
            desk.moisture(before),
            desk.moisture(after),
            Weight(
                desk.mass(net, "net_g"), desk.mass(gross, "gross_g"), desk.mass(tare, "tare_g")
            ),
            where,
            desk.count(hours, "hours", "hours"),
            despite_reading,
        )
    )


@click.command("set-aside", cls=Recording)
@click.argument("pallet")
@click.option("--supers", metavar="COUNT", help="How many supers.")
@click.option("--frames", metavar="COUNT", help="How many frames, out of supers that go on.")
@click.option("--why", default="", help="brood, set, green, left over or spoilt.")
@click.option(
    "--to", default="stays", help="stays (in the hot room; unless said), bees, or scrap."
)
@click.option("--yard", default="", help="Whose bees get it.")
@click.option("--pull", default="", metavar="CODE", help="Only of this pull.")
@click.option(
    "--loaded", is_flag=True, help="Of what was loaded, though more stands on the pallet."
)
@click.option("--note", default="", help="Anything worth knowing.")
@click.option(
    "--despite-hold", default="", metavar="WHY", help="Why bees get held honey, by name."
)
@click.pass_obj
def set_aside(
    desk: Desk,
    pallet: str,
    supers: str | None,
    frames: str | None,
    why: str,
    to: str,
    yard: str,
    pull: str,
    loaded: bool,
    note: str,
    despite_hold: str,
) -> None:
    """Supers or frames of a pallet do not go through.

    Found at the uncapper, when the pallet is in the line already, they go off its last load.

    \b
    Example: honeyledger set-aside G26-0012-F --supers 2 --why brood --to bees --yard "Mill Lane"
    Undo: reverse the entry, while nothing is built on it.
    """
    facts = SetAside(
        pallet,
        why,
        to,
        desk.count(supers, "a number of supers"),
        None if frames is None else parse_count(frames, "a number of frames", field="frames"),
        pull,
        loaded,
        yard,
        note,
        despite_hold,
    )
    desk.record(facts)
