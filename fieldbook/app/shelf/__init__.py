"""The shelf of jobs, what is due, and the wells."""
