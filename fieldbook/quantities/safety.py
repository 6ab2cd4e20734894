"""The safety words, in one place for the screen, the command line and the sheet."""

SAFETY = (
    "This book supports the work; makers' instructions, local codes and licensed people rule it.",
    "Ratings are for sound, undamaged gear that was inspected.",
    "A gauge, and a person watching it with a hand on the brake, stops the lift, not a screen.",
)
"""Shown at first start, on every lift check and at the foot of every sheet."""
