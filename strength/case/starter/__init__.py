"""A starter case of the user's own: a few questions, rules that guess every place, a short case file.

`questions` (what is asked), `answering` (answers checked), `asking` (a person at a terminal), `places`
(the rules), `writing` (one template a kind, `*.toml`, filled in).
"""

from strength.case.starter.answering import Answers, answered
from strength.case.starter.asking import ask
from strength.case.starter.questions import KINDS, QUESTIONS, Question
from strength.case.starter.writing import SCHEMA_FILE, starter

__all__ = ["KINDS", "QUESTIONS", "SCHEMA_FILE", "Answers", "Question", "answered", "ask", "starter"]
