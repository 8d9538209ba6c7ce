"""What a report must own up to: not checked, warnings, assumed, and how the file was read."""

from collections.abc import Iterable

from strength.report.document import Items, Section, plain
from strength.report.mirrored import left_hand, mirrored
from strength.report.view import View
from strength.report.words import kind_name, listed


def not_checked(view: View) -> Section:
    """All that was read but not checked, by its reason."""
    found = _gathered((f"{kind_name(s.kind)}: {s.why}", s.part) for s in view.outcome.not_checked)
    items = tuple((listed(parts), reason) for reason, parts in found.items())
    missing = view.outcome.missing_loads
    after = (f"No load stands for {listed(list(missing))}.",) if missing else ()
    return Section(
        title="Not checked",
        body=(Items(items=items),) if items else (),
        after=after if items or after else ("Nothing that was read was left unchecked.",),
    )


def warnings(view: View) -> Section | None:
    """Warnings, equal ones told once."""
    found = _gathered((w.text, w.part) for w in view.outcome.warnings)
    if not found:
        return None
    most = 0 if view.everything else 6
    items = tuple((listed(parts, most), text) for text, parts in found.items())
    return Section(title="Warnings", body=(Items(items=items),))


def assumed(view: View) -> Section | None:
    """Values that the file left out and the program filled in."""
    found = _gathered((f"{a.key}: {a.value}", a.part) for a in view.outcome.case.assumed)
    if not found:
        return None
    most = 0 if view.everything else 6
    items = tuple((text, listed(parts, most)) for text, parts in found.items())
    return Section(
        title="Assumed",
        lead=("The file leaves these out; each is a default to confirm or to write down.",),
        body=(Items(items=items),),
    )


def read_as(view: View) -> Section | None:
    """How flats, boxes and hand forces were read, in words."""
    found = _gathered((read.text, read.part) for read in view.outcome.read_as)
    if not found:
        return None
    return Section(
        title="Read as",
        lead=("Compare with your drawing: a plate read the wrong way round is weak.",),
        body=(Items(items=tuple((listed(parts), text) for text, parts in found.items())),),
    )


def _gathered(pairs: Iterable[tuple[str, str]]) -> dict[str, list[str]]:
    """Names by their text, in order of first mention; both sides of a part told as one."""
    given = [(plain(text), name) for text, name in pairs]
    texts = {(name, text) for text, name in given}
    found: dict[str, dict[str, None]] = {}
    for text, name in given:
        left = left_hand(text)  # one text for both sides, told of the left
        twin = name.endswith(".right") and (mirrored(name), left) in texts
        found.setdefault(left if twin else text, {})[name] = None
    return {text: _sides(list(names)) for text, names in found.items()}


def _sides(names: list[str]) -> list[str]:
    """Names with ".left" and ".right" of one part joined.

    >>> _sides(["hub.left", "bar", "hub.right", "eye.left"])
    ['hub (both sides)', 'bar', 'eye.left']
    """
    told = []
    for name in names:
        pair = name.endswith((".left", ".right")) and mirrored(name) in names
        if pair and name.endswith(".right"):
            continue
        told.append(plain(f"{name.removesuffix('.left')} (both sides)" if pair else name))
    return told
