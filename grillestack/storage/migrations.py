"""How a file of an earlier format becomes one of today: one pure step from each format to the next.

To change the format: raise `PROJECT_FORMAT` here and the `format` of `ProjectFile` and `RecoveryFile`, add the step, and
keep a file of the new format among the tests; the tests name whatever was forgotten.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

Contents = dict[str, Any]
Step = Callable[[Contents], Contents]

PROJECT_FORMAT = 1
CATALOGUE_FORMAT = 1

# The key is the format a step starts from. A step gets the whole file but its `kind` and `format`.
PROJECT_STEPS: Mapping[int, Step] = MappingProxyType({})
CATALOGUE_STEPS: Mapping[int, Step] = MappingProxyType({})


class MigrationError(ValueError):
    """The contents of an old file are not what its format promises."""


def migrated(contents: Contents, from_format: int, to_format: int, steps: Mapping[int, Step]) -> Contents:
    """Return the contents in the later format.

    Raises
    ------
    MigrationError
        If a step does not find what it needs.
    """
    for number in range(from_format, to_format):
        try:
            contents = steps[number](contents)
        except (LookupError, TypeError, AttributeError, ValueError) as error:
            raise MigrationError(f"format {number} does not hold what it should") from error
    return contents
