"""What a job says of string, rig, water and position, as the checks read it."""
