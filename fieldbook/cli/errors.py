"""How a command gives up."""


class CannotGoOn(Exception):
    """The input cannot be used; the message says what is wrong and how to mend it."""
