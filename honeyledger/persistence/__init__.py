"""The only package with SQL: the ledger on SQLite or PostgreSQL."""
