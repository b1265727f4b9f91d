"""Where the program begins: a file or `picture` goes to the window, every other verb to the terminal answers."""

from __future__ import annotations

import gc
import re
import sys
from collections.abc import Sequence
from pathlib import Path

_HELP = """\
grillestack: lay out the cooling pack in a vehicle's nose and see at once whether the heat goes away.

  grillestack                      open the window with the first demo
  grillestack FILE                 open the window with this project (.grillestack)
  grillestack assess FILE          say in the terminal what the pack does
  grillestack explain FILE [--case NAME] [--no-search]
                                   say why, and what to change first
  grillestack compare FILE [--with NAME]
                                   put two layouts of the project side by side
  grillestack fit FILE [--kind cac] [--slot N]
                                   say which parts of the catalogue fit, which way round, and what each costs
  grillestack sheet FILE --out X.pdf|X.svg|X.dxf [--view NAMES] [--paper SIZE] [--full-size] [--report]
                                   draw the pack on paper, with its dimensions
  grillestack picture FILE --out X.png [--size 1600x1000]
                                   draw the window with this project into a picture
  grillestack --version            say which version this is
  grillestack --help               say this

Figures are estimates for choosing and building, not a proof: verify by test, follow the engine maker's limits and local codes.
"""
_USUAL_SIZE = (1600, 1000)
_SMALLEST, _LARGEST = 320, 8000
_SHARED_LIBRARY = re.compile(r"(lib\S+\.so[.\d]*): cannot open shared object file")
_SIZE = re.compile(r"(\d{1,6})[xX×](\d{1,6})")


class _BadArgumentError(Exception):
    """What was typed cannot be done; the message is the one sentence to say."""


def main(argv: Sequence[str] | None = None) -> int:
    """Return the exit code: 0 done, 2 for what was typed wrongly, else what the part that took over says."""
    words = list(sys.argv[1:] if argv is None else argv)
    try:
        return _run(words)
    except _BadArgumentError as bad:
        sys.stderr.write(f"{bad}\n")
        return 2
    except ImportError as missing:
        library = _SHARED_LIBRARY.match(str(missing))
        if library is None:
            raise
        sys.stderr.write(
            f"The window needs the system library {library[1]}, which is missing here: README.md names the packages to install.\n"
        )
        return 1


def _run(words: list[str]) -> int:
    match words:
        case []:
            return _open_window(None)
        case ["--help" | "-h" | "help"]:
            sys.stdout.write(_HELP)
            return 0
        case ["--version"]:
            sys.stdout.write(f"grillestack {_version()}\n")
            return 0
        case ["picture", *rest]:
            return _draw_picture(rest)
        case [first, *rest] if _is_file_name(first):
            if rest:
                raise _BadArgumentError(f"The window opens one project at a time: leave out “{' '.join(rest)}”.")
            return _open_window(_existing(first))
        case [first, *_] if first.startswith("-"):
            raise _BadArgumentError(f"There is no option “{first}”: type grillestack --help to see what there is.")
        case _:
            return _answer(words)


def _is_file_name(word: str) -> bool:
    """Return whether the word can only be a file: verbs are bare words."""
    return not word.startswith("-") and ("." in word or "/" in word or "\\" in word)


def _existing(name: str) -> Path:
    path = Path(name)
    if path.is_dir():
        raise _BadArgumentError(f"{name} is a folder: name a project file in it.")
    if not path.is_file():
        raise _BadArgumentError(f"There is no file {name}: check its name and folder.")
    return path


def _draw_picture(words: list[str]) -> int:
    names: list[str] = []
    out: str | None = None
    width_px, height_px = _USUAL_SIZE
    rest = iter(words)
    for word in rest:
        option, equals, joined = word.partition("=")
        if option in ("--out", "--size"):
            given = joined if equals else next(rest, "")
            if not given:
                raise _BadArgumentError(f"{option} needs a value after it, such as {_example(option)}.")
            if option == "--out":
                out = given
            else:
                width_px, height_px = _size(given)
        elif word.startswith("-"):
            raise _BadArgumentError(f"The verb “picture” has no option “{word}”: it knows --out and --size.")
        else:
            names.append(word)
    if len(names) != 1:
        raise _BadArgumentError("Name one project to draw: grillestack picture FILE --out X.png")
    if out is None:
        raise _BadArgumentError("Say where the picture goes: add --out and a file name that ends in .png.")
    return _write_picture(_existing(names[0]), _picture_path(out), width_px, height_px)


def _example(option: str) -> str:
    return "--out window.png" if option == "--out" else "--size {}x{}".format(*_USUAL_SIZE)


def _size(text: str) -> tuple[int, int]:
    found = _SIZE.fullmatch(text)
    if found is None:
        raise _BadArgumentError(f"“{text}” is no size: give width and height in pixels, such as --size 1600x1000.")
    width_px, height_px = int(found[1]), int(found[2])
    if not (_SMALLEST <= width_px <= _LARGEST and _SMALLEST <= height_px <= _LARGEST):
        raise _BadArgumentError(
            f"A picture of {width_px} × {height_px} pixels cannot be drawn: stay between {_SMALLEST} and {_LARGEST} each way."
        )
    return width_px, height_px


def _picture_path(name: str) -> Path:
    path = Path(name)
    if path.suffix.lower() != ".png":
        raise _BadArgumentError(f"The picture is written as PNG: let “{name}” end in .png.")
    if not path.absolute().parent.is_dir():
        raise _BadArgumentError(f"There is no folder {path.parent}: make it first, or write the picture elsewhere.")
    return path


# Qt is loaded only by those who open a window or draw one, the rest of the program only by those who need it.


def _version() -> str:
    import importlib.metadata  # it reads e-mail headers, and brings all that is needed for them

    return importlib.metadata.version("grillestack")


def _open_window(path: Path | None) -> int:
    gc.disable()  # a start makes much and drops little: looking for rubbish all along only holds it up
    try:
        from grillestack.app.start import run_window

        return run_window(path)
    finally:
        gc.enable()


def _write_picture(path: Path, out: Path, width_px: int, height_px: int) -> int:
    from grillestack.app.picture import write_picture

    return write_picture(path, out, width_px, height_px)


def _answer(words: list[str]) -> int:
    from grillestack.cli.main import run

    return run(words)


if __name__ == "__main__":
    sys.exit(main())
