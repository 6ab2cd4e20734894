"""One log file: its lines, checksums, writing and reading."""
