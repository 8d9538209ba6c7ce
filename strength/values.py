"""Frozen values: what the stages hand to one another.

Classes are written as with attrs, and `attrs.evolve`, `attrs.fields` and `attrs.asdict` know them.
attrs compiles methods for each class; for two hundred classes that was a fifth of a whole run. Here
all classes share the few functions below.
"""

from collections.abc import Callable
from operator import attrgetter
from typing import Any, NamedTuple, NoReturn, TypeVar, dataclass_transform, overload

Value = TypeVar("Value")
NOTHING: Any = object()  # stands for no default


class Field(NamedTuple):
    """A field of a value; the names are those by which attrs knows them."""

    name: str = ""
    default: Any = NOTHING
    factory: Callable[[], Any] | None = None
    eq: bool = True
    init: bool = True

    @property
    def alias(self) -> str:
        """Its name as an argument."""
        return self.name


def field(*, default: Any = NOTHING, factory: Callable[[], Any] | None = None, eq: bool = True) -> Any:
    """A field with a default made anew for each value, or one that equality leaves out."""
    return Field(default=default, factory=factory, eq=eq)


@overload
def frozen(cls: type[Value], /) -> type[Value]: ...


@overload
def frozen(*, kw_only: bool = False, eq: bool = True) -> Callable[[type[Value]], type[Value]]: ...


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[Any] | None = None, /, *, kw_only: bool = False, eq: bool = True) -> Any:
    """Make a class of annotated fields a frozen value; eq=False: equal only to itself."""
    if cls is None:
        return lambda cls: _made(cls, kw_only, eq)
    return _made(cls, kw_only, eq)


def fields(cls: type[Any]) -> tuple[Field, ...]:
    """The fields of a class of values, in order."""
    found: tuple[Field, ...] = cls.__attrs_attrs__
    return found


def evolve(value: Value, /, **changes: Any) -> Value:
    """A copy with some fields changed."""
    cls = type(value)
    wanted = getattr(cls, "__wanted__", None)
    if wanted is not None:
        made = object.__new__(cls)
        held = made.__dict__
        held.update(value.__dict__)
        held.update(changes)
        if held.keys() == wanted:
            return made
    # Of a class of attrs, with figures kept from before, or with a field it does not have.
    kept = {field.name: getattr(value, field.name) for field in fields(cls)}
    return cls(**{**kept, **changes})


def asdict(value: Any) -> dict[str, Any]:
    """A value as a dictionary, and so all values inside its lists, tuples and dictionaries."""
    return {field.name: _plain(getattr(value, field.name)) for field in fields(type(value))}


def _plain(value: Any) -> Any:
    if isinstance(value, list | tuple):
        return type(value)(_plain(item) for item in value)
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    return asdict(value) if hasattr(value, "__attrs_attrs__") else value


def _made(cls: type[Any], kw_only: bool, eq: bool) -> type[Any]:
    """The class with its fields and the methods of a value."""
    names, said = tuple(cls.__annotations__), vars(cls)
    given = {name: said[name] for name in names if name in said}
    methods: dict[str, Any] = {
        "__attrs_attrs__": _Fields(given),
        "__wanted__": frozenset(names),
        "__match_args__": () if kw_only else names,
        "__init__": _initialiser(names, given, kw_only),
        "__repr__": _repr,
        "__setattr__": _refuse,
        "__delattr__": _refuse,
    }
    if eq:
        methods |= _comparison([name for name in names if name not in given or _field(name, given).eq])
    for name, what in methods.items():
        setattr(cls, name, what)
    return cls


class _Fields:
    """The fields of a class, described when first asked for: most never are."""

    def __init__(self, given: dict[str, Any]) -> None:
        self.given = given

    def __get__(self, _: Any, cls: type[Any]) -> tuple[Field, ...]:
        owner: Any = next(each for each in cls.__mro__ if vars(each).get("__attrs_attrs__") is self)
        found = tuple(_field(name, self.given) for name in owner.__annotations__)
        owner.__attrs_attrs__ = found
        return found


def _field(name: str, given: dict[str, Any]) -> Field:
    """The field of a name, with what the class says of it."""
    said = given.get(name, NOTHING)
    return said._replace(name=name) if isinstance(said, Field) else Field(name, said)


def _initialiser(names: tuple[str, ...], given: dict[str, Any], kw_only: bool) -> Callable[..., None]:
    """An `__init__` that takes the fields by name, or in their order."""
    wanted = frozenset(names)
    defaults = {}
    for name, said in given.items():
        default = said.default if isinstance(said, Field) else said
        if default is not NOTHING:
            defaults[name] = default
    in_order = [] if kw_only else list(names)

    def initialise(self: Any, *ordered: Any, **values: Any) -> None:
        if ordered:
            if len(ordered) > len(in_order) or not values.keys().isdisjoint(in_order[: len(ordered)]):
                raise TypeError(f"{type(self).__name__}: a field is given twice, or one too many")
            values.update(zip(in_order, ordered, strict=False))
        held = self.__dict__
        held.update(defaults)
        held.update(values)
        if held.keys() != wanted:
            _complete(type(self), held)

    return initialise


def _complete(cls: type[Any], held: dict[str, Any]) -> None:
    """Fill in what is made anew for each value; raises TypeError where a field is missing or unknown."""
    unknown = held.keys() - {field.name for field in fields(cls)}
    for field in fields(cls):
        if field.name not in held:
            if field.factory is None:
                raise TypeError(f"{cls.__name__}: {field.name} is missing")
            held[field.name] = field.factory()
    if unknown:
        raise TypeError(f"{cls.__name__} has no {', '.join(sorted(unknown))}")


def _refuse(self: Any, name: str, *_: Any) -> NoReturn:
    raise AttributeError(f"{type(self).__name__}.{name} is frozen: take a changed copy (evolve)")


def _repr(self: Any) -> str:
    shown = ", ".join(f"{field.name}={getattr(self, field.name)!r}" for field in fields(type(self)))
    return f"{type(self).__name__}({shown})"


def _comparison(names: list[str]) -> dict[str, Callable[..., Any]]:
    """An `__eq__` and a `__hash__` by the fields of these names."""
    compared = attrgetter(*names) if names else lambda _: ()

    def equal(self: Any, other: object) -> bool:
        return bool(compared(self) == compared(other)) if type(self) is type(other) else NotImplemented

    def hashed(self: Any) -> int:
        return hash((type(self), compared(self)))

    return {"__eq__": equal, "__hash__": hashed}
