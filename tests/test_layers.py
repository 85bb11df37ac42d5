"""Imports point one way: each floor stands only on those before it."""

import ast
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent / "structcheck"

FLOORS = [
    {"errors", "quantities", "maths", "record", "showing", "__init__"},
    {"formula", "findings"},
    {"materials", "shapes"},
    {"standards", "analysis"},
    {"checks"},
    {"press"},
    {"questions"},
    {"sizing"},
    {"report"},
    {"cli", "__main__"},
]
FLOOR = {name: height for height, names in enumerate(FLOORS) for name in names}
# errors < quantities, formula < findings and the like are arrows within one floor; circles are looked for below.


def _modules() -> dict[str, Path]:
    return {
        ".".join(("structcheck", *path.relative_to(PACKAGE).with_suffix("").parts)).removesuffix(".__init__"): path
        for path in PACKAGE.rglob("*.py")
    }


def _imports(path: Path) -> set[str]:
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("structcheck"):
            names |= {node.module} | {f"{node.module}.{alias.name}" for alias in node.names}
        elif isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names if alias.name.startswith("structcheck")}
    return names


def _floor(module: str) -> int:
    pieces = module.split(".")
    return FLOOR[pieces[1]] if len(pieces) > 1 else 0


def _room(module: str) -> str:
    return module.split(".")[1] if "." in module else ""


def test_no_import_points_up():
    """A lower floor never knows a higher one."""
    modules = _modules()
    wrong = [
        f"{module} -> {target}"
        for module, path in modules.items()
        for target in _imports(path)
        if target in modules and _floor(target) > _floor(module)
    ]
    assert wrong == []


def test_standards_and_analysis_do_not_know_each_other():
    """Formulas know no mechanics and mechanics no standard."""
    modules = _modules()
    pairs = {("standards", "analysis"), ("analysis", "standards"), ("materials", "shapes")}
    wrong = [
        f"{module} -> {target}"
        for module, path in modules.items()
        for target in _imports(path)
        if target in modules and (_room(module), _room(target)) in pairs
    ]
    assert wrong == []


def test_there_is_no_circle():
    """No module imports itself through others."""
    modules = _modules()
    arrows = {m: {t for t in _imports(p) if t in modules and t != m and t != "structcheck"} for m, p in modules.items()}
    done: set[str] = set()

    def walk(module: str, trail: tuple[str, ...]) -> None:
        assert module not in trail, " -> ".join((*trail, module))
        if module not in done:
            for target in arrows[module]:
                walk(target, (*trail, module))
            done.add(module)

    for module in modules:
        walk(module, ())


def test_nothing_but_the_command_line_prints():
    """A library that prints cannot be used by another program."""
    talkers = [
        name
        for name, path in _modules().items()
        if not name.startswith("structcheck.cli")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "print"
    ]
    assert talkers == []


def test_files_stay_short():
    """A file is one idea; 400 lines is where an idea has become two."""
    long = {name: n for name, p in _modules().items() if (n := len(p.read_text(encoding="utf-8").splitlines())) > 420}
    assert long == {}


FOREIGN = {"parser.commands", "parser.epilog", "lines.fieldnames"}
"""Attributes of argparse's and csv's own objects."""


def _written(node: ast.AST) -> list[str]:
    targets = node.targets if isinstance(node, ast.Assign) else [node.target]
    parts = [part for target in targets for part in ast.walk(target)]
    return [ast.unparse(p) for p in parts if isinstance(p, ast.Attribute) and isinstance(p.ctx, ast.Store)]


def _is_record(node: ast.ClassDef) -> bool:
    return any(ast.unparse(d).startswith("record") for d in node.decorator_list)


def test_nothing_writes_to_a_record():
    """Records are not frozen, for speed: an attribute is set on `self` alone, and never in a record."""
    assigned = ast.Assign | ast.AugAssign | ast.AnnAssign
    wrong = []
    for path in PACKAGE.rglob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        stores = {
            (node.lineno, name) for node in ast.walk(tree) if isinstance(node, assigned) for name in _written(node)
        }
        wrong += [(path.name, *s) for s in stores if not s[1].startswith("self.") and s[1] not in FOREIGN]
        for record in (node for node in ast.walk(tree) if isinstance(node, ast.ClassDef) and _is_record(node)):
            inside = (node for node in ast.walk(record) if isinstance(node, assigned))
            wrong += [(path.name, node.lineno, name) for node in inside for name in _written(node)]
    assert [place for place in wrong if place[0] != "record.py"] == []
