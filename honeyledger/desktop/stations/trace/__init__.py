"""The trace: from any code back to its yards, and forward to jars and customers."""
