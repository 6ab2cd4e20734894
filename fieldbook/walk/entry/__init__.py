"""A form of the walk: what it starts with, what its entry says, what looks wrong in it."""
