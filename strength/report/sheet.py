"""The load sheet: what the road does to each wheel, and what the vehicle can stand. In plain words."""

from collections.abc import Sequence

from strength.case.model import Case
from strength.report.banners import missing
from strength.report.display import Display
from strength.report.document import Document, Items, Section, plain
from strength.report.limit_lines import limit_lines
from strength.report.load_words import load_words, note_words, wheel_words
from strength.report.mirrored import either, mirrored
from strength.report.sides import ALIKE
from strength.report.words import count
from strength.vehicle.sheet import Balanced, Limit


def sheet(
    case: Case, loads: Sequence[Balanced], limits: Sequence[Limit], missing_loads: Sequence[str]
) -> Document:
    """The limits first, then the greatest force on each wheel, then each load by itself."""
    display = Display(case.units)
    banner = missing(missing_loads)
    return Document(
        title=f"{plain(case.title)}: load sheet",
        subtitle=f"{count(len(loads), 'load')}, forces in {display.force_unit}",
        banners=(banner,) if banner else (),
        sections=(limit_lines(limits, display), *wheel_sections(case, loads, display)),
    )


def wheel_sections(case: Case, loads: Sequence[Balanced], display: Display) -> tuple[Section, ...]:
    """The greatest on each wheel, and the wheels of each load, the greatest force first."""
    if not any(load.wheels for load in loads):
        return (
            Section(
                title="Wheels",
                after=("No wheel stands on the road in this case: only forces put on by hand act.",),
            ),
        )
    told = _told(loads)
    return (_greatest(case, loads, display), *(_load(case, load, name, display) for load, name in told))


def _greatest(case: Case, loads: Sequence[Balanced], display: Display) -> Section:
    """Per wheel: the greatest push up, along and across, each with its load."""
    items = []
    for wheel in case.wheels:
        pushes = [(w.force, load.name) for load in loads for w in load.wheels if w.name == wheel.name]
        lines = []
        for axis in (2, 0, 1):
            force, load_name = max(pushes, key=lambda pair: abs(pair[0][axis]))
            alone = tuple(value if n == axis else 0.0 for n, value in enumerate(force))
            if abs(force[axis]) > 0.5:
                lines.append(f"{wheel_words(case, wheel.name, alone, display)} ({plain(load_name)})")
        items.append((plain(wheel.name), "\n".join(lines) or "carries nothing"))
    return Section(
        title="The greatest on each wheel",
        lead=("The road pushes the tyre where it touches the ground.",),
        body=(Items(items=tuple(items)),),
    )


def _load(case: Case, load: Balanced, name: str, display: Display) -> Section:
    """One load: its words, each wheel's force, and what tips, slides or lifts."""
    given = next((one for one in case.loads if one.name == load.name), None)
    items = []
    for wheel in sorted(load.wheels, key=lambda w: -max(map(abs, w.force))):
        text = wheel_words(case, wheel.name, wheel.force, display)
        if wheel.lifts:
            text = "lifts off: carries nothing"
        elif wheel.slides:
            text += "; SLIDES: more than its grip"
        items.append((plain(wheel.name), text))
    items += [(plain(tow.name), wheel_words(case, tow.name, tow.force, display)) for tow in load.tows]
    return Section(
        title=plain(name),
        lead=(f"{load.severity}: {load_words(load, given, display)}",),
        body=(Items(items=tuple(items)),) if items else (),
        after=tuple(f"Note: {plain(note_words(note))}." for note in dict.fromkeys(load.notes)),
    )


def _told(loads: Sequence[Balanced]) -> list[tuple[Balanced, str]]:
    """Each load with its heading; of a mirrored pair that pushes alike only the first."""
    by_name = {load.name: load for load in loads}
    found: list[tuple[Balanced, str]] = []
    done: set[str] = set()
    for load in loads:
        if load.name in done:
            continue
        other = by_name.get(mirrored(load.name))
        if other is not None and other is not load and _alike(load, other):
            done.add(other.name)
            found.append((load, f"{either(load.name)} (told for {_side(load.name)})"))
        else:
            found.append((load, load.name))
    return found


def _side(name: str) -> str:
    """The last words of a sided load: "the left turn"."""
    return f"the {name.rsplit(', ', 1)[-1]}"


def _alike(one: Balanced, other: Balanced) -> bool:
    """Whether the other load pushes the mirrored wheels the mirrored way."""
    forces = {wheel.name: wheel for wheel in other.wheels}
    for wheel in one.wheels:
        twin = forces.get(mirrored(wheel.name))
        if twin is None or (twin.slides, twin.lifts) != (wheel.slides, wheel.lifts):
            return False
        x, y, z = twin.force
        least = ALIKE * max(map(abs, wheel.force))
        if any(abs(a - b) > least for a, b in zip(wheel.force, (x, -y, z), strict=True)):
            return False
    return len(one.notes) == len(other.notes)
