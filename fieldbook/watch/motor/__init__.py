"""Supply, amps, windings and insulation."""
