"""Is a mark inside the digits a decimal comma or a thousands mark: never guess, ask."""

import re

from grillestack.units.quantity import CommaQuestionError, Dimension, QuantityError

_START = r"^(?P<sign>[+-]? ?)"
_GROUPED_BY_GAP = re.compile(
    _START + r"(?P<digits>[0-9]{1,3}(?P<gap>[ '_])[0-9]{3}(?:(?P=gap)[0-9]{3})*)(?![0-9_]| ?/)"
)
_DECIMAL_COMMA = re.compile(_START + r"(?P<whole>[0-9]*) ?, ?(?P<part>[0-9]+)(?![0-9,.]| ?/)(?!.*,)")
_THOUSANDS_COMMA = re.compile(_START + r"(?P<digits>[1-9][0-9]{0,2}(?:,[0-9]{3})+)(?P<part>\.[0-9]*)?(?![0-9,.])")
_POINTS_THEN_COMMA = re.compile(_START + r"(?P<digits>[0-9]{1,3}(?:\.[0-9]{3})+),(?P<part>[0-9]+)(?![0-9,.])")


def refuse_marks_in_digits(text: str, dimension: Dimension) -> None:
    """Nothing, if the digits of a plain text hold neither commas nor thousands marks.

    Raises
    ------
    QuantityError
        With a question that proposes what may have been meant.
    """
    grouped = _GROUPED_BY_GAP.match(text)
    if grouped:
        digits = re.sub("[ '_]", "", grouped["digits"])
        meant = _with_rest(grouped, digits)
        raise QuantityError(f"Did you mean {meant}? Write the digits of a number without gaps or marks between them.")
    if "," in text:
        sentence, answers = _comma_question(text, dimension)
        raise CommaQuestionError(sentence, answers) if answers else QuantityError(sentence)


def _comma_question(text: str, dimension: Dimension) -> tuple[str, tuple[str, ...]]:
    thousands = _THOUSANDS_COMMA.match(text)
    if thousands:
        as_thousands = _with_rest(thousands, thousands["digits"].replace(",", "") + (thousands["part"] or ""))
        if thousands["digits"].count(",") > 1 or thousands["part"]:
            return f"Did you mean {as_thousands}? Write thousands without a comma.", (as_thousands,)
        as_decimal = _with_rest(thousands, thousands["digits"].replace(",", "."))
        sentence = (
            f"Did you mean {as_thousands} or {as_decimal}? "
            "Write thousands without a comma, and use a point as the decimal mark."
        )
        return sentence, (as_decimal, as_thousands)
    both = _POINTS_THEN_COMMA.match(text)
    if both:
        meant = _with_rest(both, both["digits"].replace(".", "") + "." + both["part"])
        return f"Did you mean {meant}? Use a point as the decimal mark and nothing between thousands.", (meant,)
    decimal = _DECIMAL_COMMA.match(text)
    if decimal:
        meant = _with_rest(decimal, f"{decimal['whole'] or 0}.{decimal['part']}")
        slipped = _with_rest(decimal, f"{decimal['whole']}{decimal['part']}")
        answers = (meant, slipped) if decimal["whole"].strip("0") else (meant,)
        return f"Did you mean {meant}? Use a point as the decimal mark, not a comma.", answers
    return f"“{text}” has a comma in it: use a point as the decimal mark, for example {dimension.example}.", ()


def _with_rest(found: re.Match[str], number: str) -> str:
    return found["sign"].strip() + number + found.string[found.end() :]
