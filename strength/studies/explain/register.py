"""Which file explains which kind of check."""

from importlib import import_module

from strength.case.shape import Bar, Box, Flat, Tube
from strength.checks.context import Context
from strength.checks.verdict import Row
from strength.errors import NotByHandError
from strength.studies.explain.sheet import Explained, Sheet, Told
from strength.studies.explain.subject import Subject

# kind -> module of this package whose `explain(subject, sheet)` works it out
KINDS = {
    "yielding": "yielding",
    "rupture": "yielding",
    "stability": "stability",
    "wall": "wall",
    "frame-buckling": "frame_buckling",
    "weld-throat": "weld_throat",
    "weld-toe": "weld_toe",
    "chord-wall": "chord_wall",
    "chord-punching": "chord_punching",
    "tab-wall": "tab_wall",
    "plate-bending": "plate_bending",
    "bolt-shear": "bolt_shear",
    "bolt-tension": "bolt_tension",
    "bolt-combined": "bolt_combined",
    "lug": "lug",
    "pull-through": "pull_through",
    "bearing": "bearing",
    "tear-out": "tear_out",
    "net-section": "net_section",
    "bolt-bending": "bolt_bending",
    "stud-bending": "stud_bending",
    "stud-rocking": "stud_rocking",
    "thread-strip": "thread_strip",
    "rod-end": "rod_end",
    "sleeve-bearing": "sleeve_bearing",
    "sleeve-wall": "sleeve_wall",
    "clamp-slip": "clamp_slip",
    "dropout": "dropout",
}
NOUNS = ((Tube, "tube"), (Bar, "bar"), (Box, "box"), (Flat, "plate"))


def explain_row(context: Context, row: Row) -> Explained:
    """A row worked out again from its inputs. Raises NotByHandError for a kind without a sheet."""
    if row.kind not in KINDS:
        raise NotByHandError(row.id, row.kind)
    subject = Subject(context=context, row=row, load=context.load_names.index(row.load))
    sheet = Sheet()
    module = import_module(f"strength.studies.explain.{KINDS[row.kind]}")
    told: Told = module.explain(subject, sheet)
    return Explained(
        row=row,
        asks=told.asks,
        lines=sheet.lines,
        demand=sheet[told.demand],
        limit=sheet[told.limit] if told.limit else 1.0,
        utilisation=sheet["u"],
        close=told.close,
        units=context.case.units,
        noun=_noun(context, row),
    )


def _noun(context: Context, row: Row) -> str:
    """What the part is, for what would help."""
    if row.part not in context.bars.names:
        return ""
    shape = context.bars.shapes[context.bars.names.index(row.part)]
    return next((noun for kind, noun in NOUNS if isinstance(shape, kind)), "strut")
