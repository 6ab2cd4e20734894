"""The company's own library: rigs, gauges, ropes, clamps and hoses with their ratings and dates."""
