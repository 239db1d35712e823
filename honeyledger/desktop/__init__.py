"""The window: Qt Widgets, and the only package that imports Qt."""
