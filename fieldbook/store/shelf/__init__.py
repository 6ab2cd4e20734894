"""The shelf: home, index, summaries, search and wells."""
