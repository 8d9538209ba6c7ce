"""Questions to a person at a terminal."""

from collections.abc import Callable, Mapping

from strength.case.starter.answering import Answers, answered, read
from strength.case.starter.questions import KINDS, QUESTIONS, WHAT, Question, asked_of
from strength.errors import AnswerError

INTRODUCTION = """\
A few questions. Enter keeps what stands in [ ]; sizes and masses need units.
Guess what you do not know yet: everything can be changed in the file later.

"""
TOGETHER = ("tube", "axle", "plate", "plate-metal")  # answers that can be wrong only with each other


def ask(texts: Mapping[str, str], listen: Callable[[], str], tell: Callable[[str], None]) -> Answers:
    """Ask what `texts` (by key, given beforehand) leave open, again where an answer cannot be used.

    listen: the next line typed, empty at the end of the input. tell: shows a text as it is.
    Raises AnswerError where the input ends, or for a text given beforehand that cannot be used.
    """
    given = dict(texts)
    for question in QUESTIONS:
        if question.key in given:
            read(question, given[question.key])
    if WHAT.key in given:
        answered(given)
    tell(INTRODUCTION)
    if WHAT.key not in given:
        given[WHAT.key] = _one(WHAT, KINDS[0], listen, tell)
        answered(given)
    what = read(WHAT, given[WHAT.key]).value
    wanted = [question for question in asked_of(what) if question.key not in given]
    while wanted:
        for question in wanted:
            given[question.key] = _one(question, question.kept[what], listen, tell)
        try:
            return answered(given)
        except AnswerError as error:
            tell(f"  ! {error}\n")
            wanted = [question for question in wanted if question.key in TOGETHER]
    return answered(given)


def _one(question: Question, kept: str, listen: Callable[[], str], tell: Callable[[str], None]) -> str:
    """One answer that can be used by itself."""
    tell(f"{question.asks}\n")
    while True:
        tell(f"  {question.key} [{kept}]: ")
        line = listen()
        if not line:
            raise AnswerError(question.key, "no answer: the input has ended, nothing was written")
        typed = line.strip() or kept
        try:
            read(question, typed)
        except AnswerError as error:
            tell(f"  ! {error.why}\n")
        else:
            return typed
