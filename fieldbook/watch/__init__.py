"""Binds a job to the engineering: the live checks, the expected load, the reading never to pass."""
