"""All answers of one starter case, checked one by one and together."""

from collections.abc import Mapping
from typing import Any

import attrs

from strength.case.faults import RefusedError
from strength.case.shape import Tube
from strength.case.starter.answers import Answer
from strength.case.starter.questions import KINDS, QUESTIONS, WHAT, Question, asked_of
from strength.errors import AnswerError, QuantityError, RangeError


@attrs.frozen(eq=False)
class Answers:
    """Answers by the key of their question; what a kind is not asked is left out."""

    what: str
    given: Mapping[str, Answer[Any]]

    @property
    def texts(self) -> dict[str, str]:
        """All answers as text by key, what it is first."""
        return {WHAT.key: self.what} | {key: answer.text for key, answer in self.given.items()}

    def text(self, key: str) -> str:
        """An answer as it is written into the file."""
        return self.given[key].text

    def value(self, key: str) -> Any:
        """Its value [mm, kg, deg, or a shape, a metal, a word]."""
        return self.given[key].value


def read(question: Question, text: str) -> Answer[Any]:
    """One answer; raises AnswerError."""
    try:
        return question.read(text)
    except (RefusedError, QuantityError) as error:
        raise AnswerError(question.key, str(error)) from None


def answered(texts: Mapping[str, str]) -> Answers:
    """All answers, from texts by key; those left out are kept as they stand.

    Raises AnswerError for an answer that cannot be used, or to a question that this kind is not asked.
    """
    what = read(WHAT, texts.get(WHAT.key, KINDS[0])).value
    wanted = asked_of(what)
    for question in QUESTIONS:
        if question.key in texts and question not in (WHAT, *wanted):
            others = " and ".join(kind for kind in KINDS if kind in question.kept)
            raise AnswerError(
                question.key,
                f"is not asked of {'an' if what == 'arm' else 'a'} {what}, only of {others}: leave it out",
            )
    given = {each.key: read(each, texts.get(each.key, each.kept[what])) for each in wanted}
    answers = Answers(what, given)
    check_together(answers)
    return answers


def check_together(answers: Answers) -> None:
    """Raise AnswerError for answers that do not go with each other."""
    given = answers.given
    if "plate-metal" in given:
        metal, plate = given["plate-metal"].value, given["plate"].value
        try:
            metal.strength(plate.thickness)
        except RangeError as error:
            raise AnswerError(
                "plate-metal", str(error).split(":", maxsplit=1)[0] + f"; {_held(error)}"
            ) from None
    if answers.what == "cart" and isinstance(given["tube"].value, Tube):
        why = "is round: the plates that hold a cart's axle are bolted flat to it; take 'square 35 x 2 mm'"
        raise AnswerError("tube", f"{given['tube'].text!r} {why}")
    if "axle" in given and "plate" in given:
        axle, plate = given["axle"].value, given["plate"].value
        if axle.diameter > plate.width / 2:
            why = f"is more than half as thick as the plate is wide ({plate.width:g} mm): take a wider plate"
            raise AnswerError("axle", f"{given['axle'].text!r} {why}")


def _held(error: RangeError) -> str:
    ranges = ", ".join(f"over {a:g} to {b:g} mm" for a, b in error.ranges)
    return f"it is held for {ranges}: take another thickness or metal"
