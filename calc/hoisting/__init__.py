"""The lift path, its gauge and ropes, and the power lines near it."""
