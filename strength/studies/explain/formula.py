"""Formulas as text that is printed and worked out alike, so that what is read is what was computed."""

import ast
import math
import re
from collections.abc import Callable, Mapping
from functools import lru_cache

FUNCTIONS: dict[str, Callable[..., float]] = {
    "sqrt": math.sqrt,
    "hypot": math.hypot,
    "exp": math.exp,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "atan": math.atan,
    "atan2": math.atan2,
    "abs": abs,
    "min": min,
    "max": max,
}
CONSTANTS = {"pi": math.pi}
NOTHING = 1e-13  # a factor this near to 0 or 1 is what rounding leaves of it
WORD = re.compile(r"(?<![\w.])[A-Za-z]\w*")


class FormulaError(ValueError):
    """A formula that cannot be worked out: a fault of this program, never of a case."""

    def __init__(self, formula: str, why: str) -> None:
        super().__init__(formula, why)

    def __str__(self) -> str:
        return f"{self.args[0]!r}: {self.args[1]}"


def value_of(formula: str, symbols: Mapping[str, float]) -> float:
    """The value of a formula: numbers, symbols, + - * / ^, brackets and the functions above.

    Angles in rad. Raises FormulaError for anything else.

    >>> value_of("M*r/I + 2^3", {"M": 6.0, "r": 2.0, "I": 4.0})
    11.0
    """
    try:
        return float(_value(_read(formula).body, symbols))
    except (KeyError, SyntaxError, TypeError, ValueError, ZeroDivisionError, OverflowError) as error:
        raise FormulaError(formula, f"{type(error).__name__} {error}") from error


@lru_cache(maxsize=256)
def _read(formula: str) -> ast.Expression:
    """The formula as a tree; a table works one out for hundreds of rows."""
    return ast.parse(formula.replace("^", "**"), mode="eval")


def _value(node: ast.expr, symbols: Mapping[str, float]) -> float:
    match node:
        case ast.Constant(value=int() | float() as number):
            return number
        case ast.Name(id=name):
            return CONSTANTS[name] if name in CONSTANTS else symbols[name]
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return -_value(inner, symbols)
        case ast.BinOp(left=left, op=operator, right=right):
            return _combined(_value(left, symbols), operator, _value(right, symbols))
        case ast.Call(func=ast.Name(id=name), args=arguments, keywords=[]):
            return FUNCTIONS[name](*(_value(part, symbols) for part in arguments))
        case _:
            raise SyntaxError(type(node).__name__)


def _combined(left: float, operator: ast.operator, right: float) -> float:
    match operator:
        case ast.Add():
            return left + right
        case ast.Sub():
            return left - right
        case ast.Mult():
            return left * right
        case ast.Div():
            return left / right
        case ast.Pow():
            found: float = left**right
            return found
        case _:
            raise SyntaxError(type(operator).__name__)


def with_numbers(formula: str, shown: Mapping[str, str]) -> str:
    """The formula with each symbol as the number it stands for; negative ones in brackets.

    >>> with_numbers("N/A - M", {"N": "12", "A": "3", "M": "-5"})
    '12/3 - (-5)'
    """

    def number(match: re.Match[str]) -> str:
        text = shown.get(match[0])
        if text is None:
            return match[0]
        return f"({text})" if text.startswith("-") else text

    return WORD.sub(number, formula)


def total(*terms: tuple[float, str, str]) -> str:
    """A sum of factors times symbols: (the factor's value, its symbol, the symbol it multiplies).

    What is nothing falls out, and ones are not written.

    >>> total((1.0, "a", "N"), (0.0, "b", "V"), (-0.5, "c", "T"))
    'N + c*T'
    """
    text = ""
    for factor, name, symbol in terms:
        if abs(factor) < NOTHING:
            continue
        minus = is_plain(factor) and factor < 0.0
        term = symbol if is_plain(factor) else f"{name}*{symbol}"
        text += f" {'-' if minus else '+'} {term}" if text else f"{'-' if minus else ''}{term}"
    return text or "0"


def is_plain(factor: float) -> bool:
    """A factor of 0, 1 or -1 needs no symbol."""
    return min(abs(factor), abs(abs(factor) - 1.0)) < NOTHING
