"""Water: pressure, friction, pump, well, tank and chlorine."""
