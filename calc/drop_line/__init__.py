"""The hanging string: weights, strengths, stretch and length."""
