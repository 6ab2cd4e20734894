"""Setting, capacity, pressure, tank and chlorine."""
