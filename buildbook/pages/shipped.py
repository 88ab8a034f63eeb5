"""Where the themes and the demo hangar are: beside the package when it is installed for editing,
inside it when it came as a wheel."""

from pathlib import Path

import buildbook


def shipped(name: str) -> Path:
    """The folder ``themes`` or ``content`` that came with the program."""
    package = Path(buildbook.__file__).resolve().parent
    inside = package / "_shipped" / name
    return inside if inside.is_dir() else package.parent / name
