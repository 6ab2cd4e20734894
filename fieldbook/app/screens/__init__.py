"""Screens of one job beside the walk, and help."""
