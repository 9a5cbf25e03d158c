"""Each stage may import only earlier stages: the folder order is the data flow."""

import ast
from pathlib import Path

import pytest

STAGES = (
    "photo",
    "perception",
    "clusters",
    "swatches",
    "stripes",
    "loom",
    "cloth",
    "yarn",
    "dyeing",
    "plans",
    "sheets",
)
LIBRARY = Path(__file__).parents[1] / "palette"
MODULES = sorted(LIBRARY.glob("*/**/*.py"))


def imported_modules(module: Path) -> set[str]:
    """Dotted names that one module imports, at any depth of the file."""
    names = set()
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            names.add("." * node.level + (node.module or ""))
        elif isinstance(node, ast.Import):
            names.update(alias.name for alias in node.names)
    return names


def imported_stages(module: Path) -> set[str]:
    """Stages that one module imports."""
    names = imported_modules(module)
    return {name.split(".")[1] for name in names if name.startswith("palette.")} & set(STAGES)


def test_every_folder_is_a_stage() -> None:
    folders = {path.parent.name for path in LIBRARY.glob("*/__init__.py")}
    assert folders == set(STAGES)


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.relative_to(LIBRARY)))
def test_stage_imports_only_earlier_stages(module: Path) -> None:
    stage = module.relative_to(LIBRARY).parts[0]
    later = {name for name in imported_stages(module) if STAGES.index(name) > STAGES.index(stage)}
    assert not later, f"{module.name} is in stage {stage!r} and must not import {sorted(later)}"


GATES = {
    "colour": {"perception"},
    "threadpoolctl": {"clusters"},
    "sklearn": {"clusters"},
    "matplotlib": {"perception", "sheets"},  # perception: the table of surveyed colour names
    "PIL": {"photo", "sheets"},
    "pi_heif": {"photo"},
    "tifffile": {"photo"},
    "imagecodecs": {"photo"},
    "jinja2": {"sheets"},
}


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.relative_to(LIBRARY)))
def test_outside_libraries_have_one_gate(module: Path) -> None:
    stage = module.relative_to(LIBRARY).parts[0]
    roots = {name.split(".")[0] for name in imported_modules(module)}
    for library, stages in GATES.items():
        assert library not in roots or stage in stages, f"{library} belongs in {sorted(stages)}"


@pytest.mark.parametrize(
    "module",
    sorted([*LIBRARY.rglob("*.py"), *LIBRARY.parent.glob("cli/**/*.py")]),
    ids=lambda path: str(path.relative_to(LIBRARY.parent)),
)
def test_module_has_at_most_300_lines(module: Path) -> None:
    assert len(module.read_text(encoding="utf-8").splitlines()) <= 300
