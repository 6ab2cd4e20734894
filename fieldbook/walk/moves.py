"""The kinds of entry that say that the string moves."""

MOVES = frozenset({"joint", "footage", "pump_out"})
