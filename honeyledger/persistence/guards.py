"""Guards inside the database: what is written once is refused to any client that would change it.

The four tables refuse update, delete, replace and truncate. An entry's own row is written last
and seals it: its guard checks the order, the balance and the wholeness of made lots, and moves
the head. Rows for any entry but the next are refused, which stops INSERT OR REPLACE, for that
walks past guards on update and delete. Guards are verified at every start, and installed only
when a house is made, upgraded, or its owner says so.
"""

from sqlalchemy import Connection

from honeyledger.ledger.entry import SOURCE_KINDS
from honeyledger.persistence.tables import WRITTEN_ONCE

_SOURCES = ", ".join(f"'{kind}'" for kind in SOURCE_KINDS)
_HEAD_ENTRY = "(SELECT entry FROM head)"

# Each pair: what is wrong, and how a guard on insert sees it in the new row.
_LOT_RULES = (
    ("this entry is sealed", f"NEW.made_by <> {_HEAD_ENTRY} + 1"),
    ("this id is taken", "NEW.id <= (SELECT lot FROM head)"),
)
_POSTING_RULES = (("this entry is sealed", f"NEW.entry <> {_HEAD_ENTRY} + 1"),)
_ORIGIN_RULES = (
    ("this entry is sealed", f"NEW.entry <> {_HEAD_ENTRY} + 1"),
    (
        "a lot never changes its make-up",
        "NEW.grams <> 0 AND NEW.child <= (SELECT lot FROM head)",
    ),
)
_ENTRY_RULES = (
    ("entries are written in order, without gaps", f"NEW.id <> {_HEAD_ENTRY} + 1"),
    ("the digest before is another", "NEW.previous <> (SELECT digest FROM head)"),
    (
        "the entry is out of balance",
        "(SELECT coalesce(sum(grams), 0) FROM posting WHERE entry = NEW.id) <> 0",
    ),
    (
        "a made lot is not whole",
        "EXISTS (SELECT 1 FROM lot WHERE made_by = NEW.id AND"
        " (SELECT coalesce(sum(grams), 0) FROM origin WHERE child = lot.id)"
        f" <> CASE WHEN kind IN ({_SOURCES}) THEN 0 ELSE made_g END)",
    ),
    (
        "lots are numbered without gaps",
        "(SELECT max(id) - count(*) FROM lot WHERE made_by = NEW.id) <> (SELECT lot FROM head)",
    ),
)
_INSERT_RULES = {
    "lot": _LOT_RULES,
    "posting": _POSTING_RULES,
    "origin": _ORIGIN_RULES,
    "entry": _ENTRY_RULES,
}
# REPLACE takes away the row in the way before any guard on delete sees it.
_REPLACE_RULES = {
    "lot": (("this code is taken", "EXISTS (SELECT 1 FROM lot WHERE code = NEW.code)"),),
    "entry": (
        (
            "this command was written already",
            "EXISTS (SELECT 1 FROM entry WHERE command = NEW.command AND part = NEW.part)",
        ),
    ),
}
_MOVE_HEAD = (
    "UPDATE head SET entry = NEW.id, digest = NEW.digest,"
    " lot = coalesce((SELECT max(id) FROM lot WHERE made_by = NEW.id), lot)"
)
_HEAD_STRAYS = (
    "NEW.id <> OLD.id OR NEW.ledger_id <> OLD.ledger_id OR NEW.entry <> OLD.entry + 1"
    " OR NOT EXISTS (SELECT 1 FROM entry WHERE id = NEW.entry AND digest = NEW.digest)"
)


def _sqlite_guard(
    name: str, when: str, table: str, *rules: tuple[str, str], then: str = ""
) -> str:
    lines = [
        f"  SELECT RAISE(ABORT, '{table}: {what}') WHERE {condition};" for what, condition in rules
    ]
    if then:
        lines.append(f"  {then};")
    body = "\n".join(lines)
    return f"CREATE TRIGGER {name} {when} ON {table}\nBEGIN\n{body}\nEND"


def _sqlite_guards() -> dict[str, str]:
    guards = {}
    for table, rules in _INSERT_RULES.items():
        name = f"{table}_insert_guard"
        more = _REPLACE_RULES.get(table, ())
        guards[name] = _sqlite_guard(name, "BEFORE INSERT", table, *rules, *more)
    for table in (one.name for one in WRITTEN_ONCE):
        for verb in ("update", "delete"):
            name = f"{table}_{verb}_guard"
            rule = ("rows are written once", "1")
            guards[name] = _sqlite_guard(name, f"BEFORE {verb.upper()}", table, rule)
    guards["entry_seal"] = _sqlite_guard("entry_seal", "AFTER INSERT", "entry", then=_MOVE_HEAD)
    head_rules = {
        "insert": ("there is one head", "EXISTS (SELECT 1 FROM head)"),
        "update": ("only a new entry moves it", _HEAD_STRAYS),
        "delete": ("there is one head", "1"),
    }
    for verb, rule in head_rules.items():
        name = f"head_{verb}_guard"
        guards[name] = _sqlite_guard(name, f"BEFORE {verb.upper()}", "head", rule)
    return guards


def _function(name: str, body: str, *, returns: str) -> str:
    return (
        f"CREATE FUNCTION {name}() RETURNS trigger LANGUAGE plpgsql AS $guard$\n"
        f"BEGIN\n{body}\n  RETURN {returns};\nEND\n$guard$"
    )


def _refuse(table: str, what: str, condition: str = "") -> str:
    refusal = f"RAISE EXCEPTION '{table}: {what}' USING ERRCODE = 'restrict_violation';"
    return f"  IF {condition} THEN {refusal} END IF;" if condition else f"  {refusal}"


def _over_rows(table: str, rules: tuple[tuple[str, str], ...]) -> str:
    """Rules over all rows of one statement at once: a look at each would cost more."""
    return "\n".join(
        _refuse(
            table,
            what,
            f"EXISTS (SELECT 1 FROM fresh WHERE {condition.replace('NEW.', 'fresh.')})",
        )
        for what, condition in rules
    )


def _postgresql_guards() -> dict[str, tuple[str, str]]:
    """By name: the function, and the trigger that calls it."""
    guards = {}
    for table, rules in _INSERT_RULES.items():
        name = f"{table}_insert_guard"
        if table == "entry":
            checks = "\n".join(_refuse(table, *rule) for rule in rules)
            function = _function(name, checks, returns="NEW")
            when = "BEFORE INSERT ON entry FOR EACH ROW"
        else:
            function = _function(name, _over_rows(table, rules), returns="NULL")
            when = f"AFTER INSERT ON {table} REFERENCING NEW TABLE AS fresh FOR EACH STATEMENT"
        guards[name] = (function, f"CREATE TRIGGER {name} {when} EXECUTE FUNCTION {name}()")
    for table in (*(one.name for one in WRITTEN_ONCE), "head"):
        verbs = ["delete", "truncate"] if table == "head" else ["update", "delete", "truncate"]
        for verb in verbs:
            name = f"{table}_{verb}_guard"
            what = "there is one head" if table == "head" else "rows are written once"
            function = _function(name, _refuse(table, what), returns="NULL")
            when = f"BEFORE {verb.upper()} ON {table} FOR EACH STATEMENT"
            guards[name] = (function, f"CREATE TRIGGER {name} {when} EXECUTE FUNCTION {name}()")
    for name, when, body, returns in (
        ("entry_seal", "AFTER INSERT ON entry", f"  {_MOVE_HEAD};", "NULL"),
        (
            "head_update_guard",
            "BEFORE UPDATE ON head",
            _refuse("head", "only a new entry moves it", _HEAD_STRAYS),
            "NEW",
        ),
        (
            "head_insert_guard",
            "BEFORE INSERT ON head",
            _refuse("head", "there is one head", "EXISTS (SELECT 1 FROM head)"),
            "NEW",
        ),
    ):
        trigger = f"CREATE TRIGGER {name} {when} FOR EACH ROW EXECUTE FUNCTION {name}()"
        guards[name] = (_function(name, body, returns=returns), trigger)
    return guards


SQLITE_GUARDS = _sqlite_guards()
POSTGRESQL_GUARDS = _postgresql_guards()


def install(connection: Connection) -> None:
    """Put every guard in place; none may be there yet (see `drop`)."""
    if connection.dialect.name == "sqlite":
        for sql in SQLITE_GUARDS.values():
            connection.exec_driver_sql(sql)
        return
    for name, (function, trigger) in POSTGRESQL_GUARDS.items():
        connection.exec_driver_sql(function)
        connection.exec_driver_sql(trigger)
        # ALWAYS: also where a client calls itself a replica, which skips ordinary triggers.
        table = name.partition("_")[0]
        connection.exec_driver_sql(f"ALTER TABLE {table} ENABLE ALWAYS TRIGGER {name}")
    # The owner keeps UPDATE, which PostgreSQL itself needs to check foreign keys.
    for written in WRITTEN_ONCE:
        revoke = f"REVOKE {{}} ON {written.name} FROM {{}}"
        connection.exec_driver_sql(revoke.format("UPDATE, DELETE, TRUNCATE", "PUBLIC"))
        connection.exec_driver_sql(revoke.format("DELETE, TRUNCATE", "CURRENT_USER"))


def drop(connection: Connection) -> None:
    """Take every guard away: only for an upgrade, which puts them back before it ends."""
    if connection.dialect.name == "sqlite":
        for name in SQLITE_GUARDS:
            connection.exec_driver_sql(f"DROP TRIGGER IF EXISTS {name}")
        return
    for name in POSTGRESQL_GUARDS:
        table = name.partition("_")[0]
        connection.exec_driver_sql(f"DROP TRIGGER IF EXISTS {name} ON {table}")
        connection.exec_driver_sql(f"DROP FUNCTION IF EXISTS {name}()")


def missing(connection: Connection) -> tuple[str, ...]:
    """Names of guards that are gone, changed, or switched off."""
    if connection.dialect.name == "sqlite":
        rows = connection.exec_driver_sql(
            "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"
        )
        found = {str(row[0]): str(row[1]) for row in rows}
        return tuple(name for name, sql in SQLITE_GUARDS.items() if found.get(name) != sql)
    rows = connection.exec_driver_sql(
        "SELECT t.tgname, t.tgenabled, p.prosrc, pg_get_triggerdef(t.oid, true)"
        " FROM pg_trigger t JOIN pg_proc p ON p.oid = t.tgfoid"
        " JOIN pg_class c ON c.oid = t.tgrelid"
        " WHERE NOT t.tgisinternal AND c.relnamespace = current_schema()::regnamespace"
    )
    standing = {
        str(name): (str(body), _plain(str(trigger)))
        for name, enabled, body, trigger in rows
        if (enabled.decode() if isinstance(enabled, bytes) else enabled) == "A"
    }
    return tuple(
        name
        for name, (function, trigger) in POSTGRESQL_GUARDS.items()
        if standing.get(name) != (function.split("$guard$")[1], _plain(trigger))
    )


def _plain(trigger: str) -> str:
    """A trigger's definition without the server's line breaks and letter case."""
    return " ".join(trigger.lower().split())
