"""What a command raises where it is called in a way that it doesn't take."""


class WrongUse(Exception):
    """The command was called in a way that it doesn't take; exit status 2."""
