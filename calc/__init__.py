"""Engineering of a pump string: what hangs, what carries it, what it withstands, what it delivers.

Every public function takes and returns pint quantities of the one registry in `calc.units`, in any
unit of the right dimension. There are no hidden defaults: what a formula needs, its caller gives.
Outside a formula's or a table's range a function raises one of `calc.errors`.

Nothing here reads a file other than its own tables, asks the time or knows of a screen.
"""
