"""Widgets that know nothing of wells: rows, lines, lists, bars and keys."""
