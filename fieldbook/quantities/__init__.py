"""What can be written down.

The one definition of each quantity and of each kind of entry, and the strict parser of typed text.
Screens, exports, checks and the command line all read these definitions. Reading them costs no
pint; only converting does.
"""
