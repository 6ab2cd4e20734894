"""Whether the line is proved drained, and what else lets the load fall."""
