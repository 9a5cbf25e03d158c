"""The part of README.md in this folder that says what is in each picture."""

from __future__ import annotations

import json
from pathlib import Path

START, END = "<!-- truth -->\n", "<!-- /truth -->"


def truth_as_text(truth: dict[str, dict[str, object]]) -> str:
    """Markdown that lists every picture's SHA-256 and true colours."""
    parts = []
    for name, facts in truth.items():
        megabytes = int(str(facts["bytes"])) / 1e6
        parts.append(
            f"\n### {name}\n\n{megabytes:.2f} MB, SHA-256 `{facts['sha256']}`\n\n"
            "| true colour | sRGB | CIELAB | share |\n|---|---|---|---|"
        )
        for colour in facts["colours"]:  # type: ignore[attr-defined]
            lab = ", ".join(f"{value:.1f}" for value in colour["lab"])
            parts.append(
                f"| {colour['name']} | `{colour['hex']}` | {lab} | {100 * colour['share']:.1f} % |"
            )
    stripes = truth["striped-cloth.jpg"]["cloth"]["stripes"]  # type: ignore[index]
    listed = ", ".join(f"{stripe['colour']} {stripe['picks']}" for stripe in stripes)
    parts.append(f"\nStripes from the top, in picks: {listed}.")
    return "\n".join(parts) + "\n\n"


def update_readme(folder: Path) -> None:
    """Bring README.md in line with truth.json."""
    truth = json.loads((folder / "truth.json").read_text(encoding="utf-8"))
    readme = folder / "README.md"
    text = readme.read_text(encoding="utf-8")
    before, rest = text.split(START)
    _, after = rest.split(END)
    readme.write_text(before + START + truth_as_text(truth) + END + after, encoding="utf-8")
