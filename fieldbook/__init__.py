"""A pull-and-set logbook for water-well pump crews."""

__version__ = "0.1.0"
