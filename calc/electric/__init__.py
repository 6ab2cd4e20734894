"""The motor's supply: unbalance, cable, wire and insulation."""
