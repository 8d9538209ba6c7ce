"""The program's own name and version."""

NAME = "strength"


def version() -> str:
    """Version of the installed program; of a copy that was never installed it is not known."""
    from importlib.metadata import PackageNotFoundError
    from importlib.metadata import version as installed

    try:
        return installed(NAME)
    except PackageNotFoundError:
        return "not installed"
