"""Where the bundled files are: beside the package in a checkout, inside it in an installed program."""

from __future__ import annotations

from pathlib import Path

PROJECT_ENDING = ".grillestack"

_PACKAGE = Path(__file__).resolve().parent.parent


class MissingResourceError(FileNotFoundError):
    """A bundled file is not where it belongs; the message is a sentence with the remedy."""


def resource(*parts: str) -> Path:
    """Return the path of a bundled file or folder, as `resource("catalogue", "fans.json")`.

    Raises
    ------
    MissingResourceError
        If it is not there.
    """
    return _bundled(_PACKAGE, "resources", *parts)


def demo_projects() -> tuple[Path, ...]:
    """Return the demo projects in the order of their names."""
    return tuple(sorted(_bundled(_PACKAGE, "demo_projects").glob(f"*{PROJECT_ENDING}")))


def _bundled(package: Path, top: str, *parts: str) -> Path:
    installed = package / "_bundled" / top
    root = installed if installed.is_dir() else package.parent / top
    path = root.joinpath(*parts)
    if not path.exists():
        raise MissingResourceError(
            f"The bundled file “{'/'.join((top, *parts))}” is missing from {root.parent}: install grillestack again."
        )
    return path
