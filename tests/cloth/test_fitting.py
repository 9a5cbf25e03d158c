import json
from pathlib import Path

import numpy as np
import pytest

from palette.cloth import correction, fitting
from palette.cloth.woven_colour import woven_colour
from palette.perception.difference import ciede2000

STORED = json.loads(
    (Path(correction.__file__).parent / correction.COEFFICIENTS_FILE).read_text("utf-8")
)


@pytest.fixture(scope="module")
def found(measured):
    """Everything fitted and cross-validated again from the measurements."""
    return fitting.document(measured)


def test_the_table_is_whole(measured):
    # doi:10.5281/zenodo.23205538, four of five looms: 5 warps x 25 wefts each.
    assert (len(measured.yarns), len(measured.looms), int(measured.flagged.sum())) == (25, 500, 29)
    assert {loom: measured.looms.count(loom) for loom in set(measured.looms)} == dict.fromkeys(
        ("L1", "L2", "L3", "L5"), 125
    )


@pytest.mark.parametrize("name", ["yarns_lab", "common", "own", "pairs"])
def test_fitting_again_gives_the_stored_coefficients(found, name):
    assert np.array(found[name]) == pytest.approx(np.array(STORED[name]), abs=2e-5)


def test_the_stored_errors_are_those_found_again(found):
    assert found["errors"].keys() == STORED["errors"].keys()
    for kind, figures in found["errors"].items():
        for name in ("mean", "median", "ninetieth"):
            assert figures[name] == pytest.approx(STORED["errors"][kind][name], abs=0.002)
        assert figures.get("means", {}) == pytest.approx(
            STORED["errors"][kind].get("means", {}), abs=0.002
        )


def test_a_loom_left_out_is_predicted(found):
    # Published models on this data, all five looms, a loom left out: best pure mixing law 4.8,
    # mixing law with a trained residual 3.5 to 3.6 (doi:10.5281/zenodo.23205538).
    figures = found["errors"]["one loom left out"]
    assert figures["mean"] <= 3.2
    assert max(figures["means"].values()) <= 3.2


def test_yarns_left_out_are_predicted(found):
    errors = found["errors"]
    assert errors["one yarn left out"]["mean"] <= 2.6
    assert errors["one loom and its yarns left out"]["mean"] <= 3.2
    assert errors["mixing law alone"]["mean"] > 4


def test_the_model_repeats_its_cloths(measured):
    woven = woven_colour(measured.warp_lab, measured.weft_lab)
    assert ciede2000(woven, measured.cloth_lab).mean() < 1.6


def test_pairs_are_symmetric():
    pairs = np.array(STORED["pairs"])
    assert pairs == pytest.approx(pairs.transpose(0, 2, 1), abs=1e-9)


def test_the_source_is_named():
    assert "doi:10.5281/zenodo.23205538" in STORED["source"]
    assert "CC BY 4.0" in STORED["source"]
    assert correction.coefficients().source == STORED["source"]


def test_the_command_writes_the_file(tmp_path, measured, monkeypatch):
    table, target = tmp_path / "cloths.csv", tmp_path / "coefficients.json"
    table.write_text("# source\nloom,warp,weft,L,a,b,flagged\nyarn,1,,50,0,0,\n", "utf-8")
    monkeypatch.setattr(fitting, "document", lambda cloths: {"yarns": list(cloths.yarns)})
    fitting.main([str(table), str(target)])
    assert json.loads(target.read_text("utf-8")) == {"yarns": ["1"]}
