"""Wind, power lines and the dates of the gear."""
