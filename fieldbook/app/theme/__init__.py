"""Colours, state marks and screen sizes."""
