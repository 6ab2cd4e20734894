"""How deep the pump hangs, by every way the record allows."""
