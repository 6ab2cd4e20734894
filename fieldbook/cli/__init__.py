"""The command line. Importing it loads neither Textual nor pint; each command loads what it needs.

Exit codes: 0 done; 1 the answer itself is bad (a stop or unknown verdict, a refused line, damage, a
clash); 2 bad usage or unreadable input, with one line that says what is wrong and how to mend it.
"""

from fieldbook.cli.main import main

__all__ = ["main"]
