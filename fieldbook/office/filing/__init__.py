"""The regulator's facts, by locality."""
