"""What a starter case is made from: each question, its sensible range and what Enter keeps.

Ranges and kept answers are a designer's choice: sizes that such vehicles are commonly built with, from
no standard.
"""

from collections.abc import Callable, Mapping
from typing import Any

import attrs

from strength.case.starter import answers
from strength.case.starter.answers import Answer

KINDS = ("trike", "cart", "arm", "plate")


@attrs.frozen(kw_only=True)
class Question:
    """One question. key: its option without the dashes. kept: kind of case -> what Enter keeps.

    A kind that `kept` leaves out is not asked. read: the text typed -> answer; raises RefusedError or
    QuantityError.
    """

    key: str
    asks: str
    read: Callable[[str], Answer[Any]]
    kept: Mapping[str, str]


def _same(text: str, *kinds: str) -> dict[str, str]:
    return dict.fromkeys(kinds, text)


WHAT = Question(
    key="what",
    asks="What is it?\n"
    "  trike   two wheels in front on wishbones, leaning or not\n"
    "  cart    one axle, drawn by hand\n"
    "  arm     one wishbone on the bench\n"
    "  plate   one knuckle on the bench",
    read=answers.choice(*KINDS),
    kept=dict.fromkeys(KINDS, "trike"),
)
QUESTIONS: tuple[Question, ...] = (
    WHAT,
    Question(
        key="lean",
        asks="Greatest lean; 0 deg for a body that stays upright",
        read=answers.quantity("angle", 0.0, 40.0),
        kept={"trike": "20 deg"},
    ),
    Question(
        key="track",
        asks="Track: between the middles of the two front (cart: both) tyres, on the ground",
        read=answers.quantity("length", 500.0, 1200.0),
        kept=_same("780 mm", *KINDS),
    ),
    Question(
        key="wheelbase",
        asks="Wheelbase: front hub to rear hub; of a cart: axle to hand grip",
        read=answers.quantity("length", 900.0, 2000.0),
        kept={"trike": "1250 mm", "cart": "1300 mm"},
    ),
    Question(
        key="wheel-radius",
        asks="Wheel radius: ground to the middle of the axle, laden",
        read=answers.quantity("length", 150.0, 370.0),
        kept=_same("254 mm", *KINDS),
    ),
    Question(
        key="rider",
        asks="Rider's mass, dressed and with a bag",
        read=answers.quantity("mass", 30.0, 150.0),
        kept={"trike": "85 kg"},
    ),
    Question(
        key="saddle",
        asks="Saddle height: ground to where the rider sits",
        read=answers.quantity("length", 200.0, 800.0),
        kept={"trike": "360 mm"},
    ),
    Question(
        key="cargo",
        asks="Cargo; 0 kg for none",
        read=answers.quantity("mass", 0.0, 200.0),
        kept={"trike": "35 kg", "cart": "90 kg"},
    ),
    Question(
        key="own",
        asks="Own mass of the vehicle, wheels included",
        read=answers.quantity("mass", 8.0, 100.0),
        kept={"trike": "24 kg", "cart": "18 kg"},
    ),
    Question(
        key="on-wheel",
        asks="What its wheel carries, standing (bathroom scales under the tyre)",
        read=answers.quantity("mass", 5.0, 200.0),
        kept={"arm": "50 kg", "plate": "50 kg"},
    ),
    Question(
        key="tube",
        asks="Tube of the wishbones; of a cart: of its frame",
        read=answers.tube(15.0, 60.0, least_wall=1.0),
        kept={"trike": "tube 25 x 2 mm", "arm": "tube 25 x 2 mm", "cart": "square 35 x 2 mm"},
    ),
    Question(
        key="axle",
        asks="Stub axle (a cart's whole axle)",
        read=answers.bar(10.0, 40.0),
        kept=_same("bar 22 mm", "trike", "plate") | {"cart": "bar 20 mm"},
    ),
    Question(
        key="plate",
        asks="Plate of the knuckle; of a cart: the two that hold its axle",
        read=answers.plate((50.0, 120.0), (4.0, 30.0)),
        kept=_same("flat 70 x 12 mm", "trike", "plate") | {"cart": "flat 70 x 10 mm"},
    ),
    Question(
        key="plate-metal",
        asks="Metal of that plate, such as S235JR or 6082-T651",
        read=answers.metal,
        kept=_same("S235JR", "trike", "cart", "plate"),
    ),
    Question(
        key="process",
        asks="How you weld: mig, tig, stick or braze",
        read=answers.choice("mig", "tig", "stick", "braze"),
        kept=_same("mig", *KINDS),
    ),
)


def asked_of(what: str) -> tuple[Question, ...]:
    """The questions that a kind of case needs, after `what`."""
    return tuple(question for question in QUESTIONS if question is not WHAT and what in question.kept)
