"""The program's own name and version."""

NAME = "strength"


def version() -> str:
    """Version of the installed program."""
    from importlib.metadata import version as installed

    return installed(NAME)
