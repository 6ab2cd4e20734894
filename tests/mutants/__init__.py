"""A mutation study: 200 small mistakes, and how many of them a test finds.

`python -m tests.mutants` makes them in a scratch copy of the tree, one at a time, and runs the
tests that pass over the changed line.
"""
