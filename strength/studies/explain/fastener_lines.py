"""What a bolt, screw or pin is made of, written down."""

from strength.joints.fastener import Fastener
from strength.library.sources import SURE, cite
from strength.studies.explain.sheet import Sheet
from strength.studies.explain.subject import keyed


def write_ultimate(sheet: Sheet, own: Fastener, path: str, name: str) -> None:
    """Tensile strength of the bolt's metal."""
    if "f_ub" in sheet:
        return
    sheet.given("f_ub", own.ultimate, "stress", "tensile strength of the bolt", class_origin(own, path, name))


def class_origin(own: Fastener, path: str, name: str) -> str:
    """Where the strengths of a class come from."""
    grade = own.grade
    told = "; ".join(text for text in (cite(grade.source), SURE.get(grade.sure, grade.sure)) if text)
    return f"{keyed(path, name, 'class')} {grade.name}, library ({told})"


def write_shear(sheet: Sheet, own: Fastener, path: str, name: str) -> None:
    """alpha_v, f_ub and the area of a shear plane."""
    write_ultimate(sheet, own, path, name)
    thread = own.thread
    if thread is not None and own.shear_area == thread.stress_area:
        what, source = "stress area: the thread lies in the shear plane", f"ISO 898-1, {thread.name}"
        _write_stress_area(sheet, own, "A_v", what, source)
    else:
        sheet.given(
            "d_v", own.diameter, "length", "diameter of the shank in the plane", keyed(path, name, "size")
        )
        sheet.step("A_v", "pi/4*d_v^2", "area", "area of the shank")
    source = "EN 1993-1-8 Table 3.10" if own.is_pin else "EN 1993-1-8 Table 3.4"
    sheet.given("alpha_v", own.shear_factor, "1", "shear strength over tensile strength", source)


def write_tension_area(sheet: Sheet, own: Fastener, path: str, name: str) -> None:
    """Area that the pull passes."""
    thread = own.thread
    if thread is not None and own.tension_area == thread.stress_area:
        _write_stress_area(sheet, own, "A_t", "stress area of the thread", f"ISO 898-1, {thread.name}")
        return
    area = own.tension_area or 0.0
    sheet.given(
        "A_t", area, "area", "area of the neck", f"library: ISO 7379 screw, {keyed(path, name, 'size')}"
    )


def _write_stress_area(sheet: Sheet, own: Fastener, symbol: str, what: str, source: str) -> None:
    thread = own.thread
    if thread is None:
        raise TypeError(f"{own.size.text} has no thread")
    if "d_2" not in sheet:
        sheet.given(
            "d_2", thread.pitch_diameter, "length", "pitch diameter of the thread", f"ISO 724, {thread.name}"
        )
        sheet.given("d_3", thread.root, "length", "root diameter of the thread", f"ISO 898-1, {thread.name}")
    sheet.step(symbol, "pi/4*((d_2 + d_3)/2)^2", "area", f"{what} ({source})")
