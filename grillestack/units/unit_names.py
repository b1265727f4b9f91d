"""Which unit is meant by a spelling: one of a closed list, or one unit over another.

Closed on purpose: an open unit language reads F as farad, C as coulomb and the m in gal/m as metre.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from grillestack.units.quantity import Kind
from grillestack.units.unit_list import PLAIN_NUMBER, UNITS, Unit


@dataclass(frozen=True, slots=True)
class NamedUnit:
    """What a spelling stands for: a unit, or one unit over another, and the kind that makes."""

    kind: Kind
    over: Unit
    under: Unit | None = None


_SHORTHANDS: Mapping[str, str] = {
    "cfm": "ft3/min",
    "fpm": "ft/min",
    "fps": "ft/s",
    "gpm": "US gal/min",
    "us gpm": "US gal/min",
    "imp gpm": "imp gal/min",
    "kmh": "km/h",
    "kph": "km/h",
    "lpm": "L/min",
    "mph": "mi/h",
}

_OVER: Mapping[tuple[Kind, Kind], Kind] = {
    (Kind.LENGTH, Kind.TIME): Kind.SPEED,
    (Kind.VOLUME, Kind.TIME): Kind.VOLUME_FLOW,
    (Kind.MASS, Kind.TIME): Kind.MASS_FLOW,
    (Kind.ENERGY, Kind.TIME): Kind.POWER,
}

_GAUGE = (
    "“{}” says where the counting starts: see whether the field means pressure above the outside air or from vacuum, "
    "and type it in plain "
)
_TON = "“{}” has several meanings: type a weight in kg or t and cooling in kW or BTU/h."
_MBTU = "“{}” is used for a thousand BTU and for a million: type BTU/h or kBTU/h."
_QUESTIONABLE: Mapping[str, str] = {
    **dict.fromkeys(("psig", "psia"), _GAUGE + "psi."),
    **dict.fromkeys(("barg", "bara"), _GAUGE + "bar."),
    **dict.fromkeys(("ton", "tons"), _TON),
    **dict.fromkeys(("mbtu", "mbh"), _MBTU),
}

_BY_SPELLING: Mapping[str, Unit] = {name: unit for unit in UNITS for name in unit.spellings}


def tidy_unit(text: str) -> str:
    """Spelling of a unit without full stops, power signs and gaps that mean nothing."""
    spelled = re.sub(r"(?<=[A-Za-z])(?:\^|\*\*)(?=[23])", "", text.strip())
    spelled = re.sub(r"(?<=[A-Za-z])\.", " ", spelled)
    spelled = re.sub(r"(?<=\S) per (?!cent\b)", "/", spelled)
    return re.sub(r" ?/ ?", "/", " ".join(spelled.split()))


def unit_named(text: str) -> NamedUnit | None:
    """Meaning of the spelling of a unit, or None if it is not on the list."""
    spelled = tidy_unit(text)
    spelled = _SHORTHANDS.get(spelled.lower(), spelled)
    if not spelled:
        return NamedUnit(Kind.NUMBER, PLAIN_NUMBER)
    alone = _one_unit(spelled)
    if alone:
        return NamedUnit(alone.kind, alone)
    over, _, under = spelled.partition("/")
    first, second = _one_unit(over), _one_unit(under)
    if first and second and (first.kind, second.kind) in _OVER:
        return NamedUnit(_OVER[first.kind, second.kind], first, second)
    return None


def spellings_by_capitals(text: str) -> tuple[str, ...]:
    """Spellings on the list that differ from a text only in capitals."""
    small = tidy_unit(text).lower()
    return tuple(name for name in _BY_SPELLING if name.lower() == small)


def refusal_of_doubtful_unit(text: str) -> str | None:
    """Sentence for a spelling that is known to mean more than one thing, or None."""
    over, _, _ = tidy_unit(text).partition("/")
    sentence = _QUESTIONABLE.get(over.lower())
    return sentence and sentence.format(text)


def _one_unit(spelled: str) -> Unit | None:
    exact = _BY_SPELLING.get(spelled)
    if exact:
        return exact
    names = spellings_by_capitals(spelled)
    if len(names) != 1:
        return None
    # A thousandth and a million differ only by a capital: Mbar is not taken for mbar.
    perhaps_million = re.match("M[a-z]", spelled) and names[0].startswith("m") and names[0][1:] in _BY_SPELLING
    return None if perhaps_million else _BY_SPELLING[names[0]]
