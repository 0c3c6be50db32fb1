"""Why a command cannot run at all."""


class CannotRunError(Exception):
    """The command cannot do its work; the message is one sentence for the user. The program ends with exit code 2."""
