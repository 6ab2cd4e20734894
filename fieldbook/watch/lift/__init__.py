"""The lift: hook load, load path, the one verdict, and the trace."""
