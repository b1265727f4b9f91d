"""How one question stands: worked at, answered, or without an answer and why."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.app.workers.answers import Result


class Stage(enum.Enum):
    """Whether the answer is that of what is shown."""

    WORKING = "working"
    CURRENT = "current"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """One question now; while it is worked at, `result` is the answer from before the last change, if there was one.

    `share_frac` is how much is worked out, `None` before it has begun; `reason` says in a sentence why nothing is known.
    """

    stage: Stage
    result: Result = None
    share_frac: float | None = None
    reason: str = ""

    @property
    def is_current(self) -> bool:
        """Return whether the result belongs to what is shown."""
        return self.stage is Stage.CURRENT


NOT_ASKED = Standing(stage=Stage.NOT_KNOWN)
