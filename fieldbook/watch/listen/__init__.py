"""What the gauge is telling: explanations of its readings, weighed against each other."""
