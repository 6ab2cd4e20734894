"""A form and its fields: text, choices, paths, and what each accepts."""
