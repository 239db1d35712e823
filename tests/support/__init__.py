"""Builders for tests: a real house on a real store, with short words for what happens in it."""
