"""Reports over many jobs: what is due, and each well over the years."""
