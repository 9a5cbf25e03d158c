"""Weaving information files: written, read back, and turned into plans.

Key names are from memory of the Weaving Information File Specification, version 1.1 (April 20,
1997); no text of it was at hand. The small file below is made up for these tests.
"""

import contextlib
import dataclasses
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.errors import ContractError, InputError
from palette.loom.chains import WarpStripe
from palette.loom.drafts import WEAVES, weave_named
from palette.sheets.wif import WeavingFile, significant
from palette.sheets.wif_plan import draft_of_wif, stripe_plan_of_wif
from palette.sheets.wif_reading import parse_wif, read_wif
from palette.sheets.wif_writing import weaving_file_of, wif_bytes

FOREIGN = b"""; written by hand
[wif]
Version=1.1
Date=April 20, 1997
Developers=wif@mhsoft.com
[contents]
Color Palette=yes
weaving=ON
private someone notes=true
[Weaving]
Shafts = 4
Treadles=6
Rising Shed=no
[WARP]
Threads=8
Color=2
Units=Inches
Spacing=0.05
[WEFT]
Threads=6
Color=1,999,0,0
Units=decipoints
Spacing=45
[COLOR PALETTE]
Entries=3
Form=RGB
Range=0,999
[COLOR TABLE]
1=999,0,0
2=0,999,999
3=499,500,999
[THREADING]
1=1
2=2
3=3
4=4
5=1
6=2
7=3
8=4
[TIEUP]
1=3,4
2=1,4
3=1,2
4=2,3
[TREADLING]
1=1
2=2
3=3
4=4
5=1
6=2
[WEFT COLORS]
3=3
4=3
[PRIVATE SOMEONE NOTES]
1=anything at all = even this
Bare line
"""

HEXES = st.from_regex(r"#[0-9a-f]{6}", fullmatch=True)
LINE = st.text(
    st.characters(exclude_categories=["Cs", "Cc", "Zl", "Zp", "Zs"]), min_size=1, max_size=12
)


@st.composite
def weaving_files(draw: st.DrawFn) -> WeavingFile:
    colours = draw(st.lists(HEXES, min_size=1, max_size=5))
    shaft = st.integers(1, 8)
    some = st.lists(shaft, min_size=1, max_size=4, unique=True).map(lambda r: tuple(sorted(r)))
    ends, picks = draw(st.integers(1, 30)), draw(st.integers(1, 30))
    tie_up = draw(st.lists(some, min_size=1, max_size=6))
    treadle = st.integers(1, len(tie_up)).map(lambda n: (n,))
    number = st.integers(1, len(colours))
    return WeavingFile(
        title=draw(LINE),
        rising=draw(st.booleans()),
        threading=tuple(draw(st.lists(shaft.map(lambda s: (s,)), min_size=ends, max_size=ends))),
        tie_up=tuple(tie_up),
        treadling=tuple(draw(st.lists(treadle, min_size=picks, max_size=picks))),
        colours=tuple(colours),
        names=tuple(draw(LINE) for _ in colours),
        warp_colours=tuple(draw(st.lists(number, min_size=ends, max_size=ends))),
        weft_colours=tuple(draw(st.lists(number, min_size=picks, max_size=picks))),
        ends_per_cm=significant(draw(st.floats(1, 40))),
        picks_per_cm=significant(draw(st.floats(1, 40))),
        others=(("PRIVATE OTHER NOTES", (("1", "kept as it is"),)),),
    )


@settings(max_examples=80, deadline=None)
@given(weaving_files())
def test_round_trip_is_identity(file: WeavingFile) -> None:
    assert parse_wif(wif_bytes(file)) == file


def test_what_another_tool_wrote_is_read_and_kept() -> None:
    file = parse_wif(FOREIGN)
    assert file.rising is False
    assert file.tie_up == ((3, 4), (1, 4), (1, 2), (2, 3), (), ())
    assert file.colours == ("#ff0000", "#00ffff", "#7f80ff")
    assert file.weft_colours == (1, 1, 3, 3, 1, 1)
    assert file.warp_colours == (2,) * 8
    assert file.ends_per_cm == pytest.approx(20 / 2.54)
    assert file.picks_per_cm == pytest.approx(16 / 2.54)
    assert file.others[0][0] == "PRIVATE SOMEONE NOTES"
    assert parse_wif(wif_bytes(file)) == file


def test_its_weft_colours_become_a_plan() -> None:
    plan = stripe_plan_of_wif(parse_wif(FOREIGN), shrinkage_length=0.1, source="hand.wif")
    assert [(stripe.hex, stripe.picks) for stripe in plan.stripes] == [
        ("#ff0000", 2),
        ("#7f80ff", 2),
        ("#ff0000", 2),
    ]
    assert [round(swatch.share, 4) for swatch in plan.palette.swatches] == [0.6667, 0.3333]
    assert plan.step == 2
    assert plan.true_finished_length_mm == pytest.approx(plan.finished_length_mm)
    assert plan.palette.source.photos == ("hand.wif",)


def test_a_sinking_tie_up_is_turned_over() -> None:
    draft = draft_of_wif(parse_wif(FOREIGN))
    assert draft.tie_up[:4] == ((1, 2), (2, 3), (3, 4), (1, 4))
    assert draft.threading == (1, 2, 3, 4)
    assert draft.treadling == (1, 2, 3, 4)


@pytest.mark.parametrize("weave", sorted(WEAVES))
def test_a_plan_comes_back(plan, weave: str) -> None:
    whole = dataclasses.replace(plan, draft=weave_named(weave))
    file = parse_wif(wif_bytes(whole))
    assert file == weaving_file_of(whole)
    back = stripe_plan_of_wif(file, shrinkage_length=0.1)
    before = [(s.colour, s.hex, s.picks) for s in plan.cloths[0].stripes]
    assert [(s.colour, s.hex, s.picks) for s in back.stripes] == before
    assert back.picks_per_cm == plan.cloths[0].picks_per_cm
    draft = draft_of_wif(file)
    assert draft.threading == whole.draft.threading
    assert draft.treadling == whole.draft.treadling
    assert draft.tie_up == whole.draft.tie_up


def test_hems_are_treadled_in_plain_weave(plan) -> None:
    (cloth,) = plan.cloths
    first, *body = cloth.stripes
    hemmed = dataclasses.replace(
        cloth, stripes=(dataclasses.replace(first, role="hem"), *body), step=1
    )
    twill = dataclasses.replace(plan, cloths=(hemmed,), draft=weave_named("2/2 twill"))
    treadles = [pick[0] for pick in parse_wif(wif_bytes(twill)).treadling]
    assert len(treadles) == cloth.total_picks
    assert set(treadles[: first.picks]) == {5, 6}
    assert treadles[first.picks : first.picks + 5] == [1, 2, 3, 4, 1]
    back = draft_of_wif(parse_wif(wif_bytes(twill)))
    assert back.treadling == tuple(treadles)


def test_a_striped_warp_is_written(plan) -> None:
    runs = (
        WarpStripe(colour="bark", hex="#6a4a33", ends=34),
        WarpStripe(colour="white", hex="#ece7db", ends=200),
    )
    file = weaving_file_of(dataclasses.replace(plan, warp_stripes=runs))
    assert file.warp_colours == (1,) * 34 + (2,) * 200


def test_doubled_selvedge_ends_share_a_shaft(plan) -> None:
    warp = dataclasses.replace(plan.warp, ends=10, doubled_ends=4)
    file = weaving_file_of(dataclasses.replace(plan, warp=warp))
    assert [row[0] for row in file.threading] == [1, 1, 2, 2, 1, 2, 1, 1, 2, 2]


def test_the_sections_that_the_format_asks_for(plan) -> None:
    text = wif_bytes(plan).decode()
    head = text.split("[CONTENTS]")[0]
    assert "Version=1.1" in head
    assert "Date=April 20, 1997" in head
    assert "Developers=" in head
    contents = text.split("[CONTENTS]")[1].split("[", 1)[0]
    sections = [line[1:-1] for line in text.split("\r\n") if line.startswith("[")]
    listed = [line.split("=")[0] for line in contents.split("\r\n") if "=" in line]
    assert listed == sections[2:]
    assert wif_bytes(plan) == wif_bytes(plan)


def test_several_treadles_and_lift_plans() -> None:
    pressed = WeavingFile(
        threading=((1,), (2,), (3,)),
        tie_up=((1,), (2,), (3,)),
        treadling=((1, 2), (3,), (1, 2)),
        colours=("#000000",),
    )
    assert draft_of_wif(pressed).tie_up == ((1, 2), (3,))
    lifted = dataclasses.replace(pressed, tie_up=(), treadling=(), lift_plan=((1, 3), (2,)))
    assert draft_of_wif(lifted).tie_up == ((1, 3), (2,))
    assert draft_of_wif(lifted).treadling == (1, 2)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", r"must begin with the section \[WIF\]; got no section"),
        (b"[TEXT]\nTitle=x\n", r"must begin with the section \[WIF\]; got \[TEXT\]"),
        (b"moss and bark\n", "must be sections"),
        (b"\x89PNG\0\0", "must be a text file; got binary data"),
        (b"[WIF]\n[COLOR TABLE]\n1=1,2\n", "line 1 must be red, green and blue"),
        (b"[WIF]\n[COLOR TABLE]\n1=1,2,300\n", "line 1 must lie in the range 0 to 255"),
        (b"[WIF]\n[COLOR TABLE]\n1=1,2,3\n3=1,2,3\n", "must have a line for each colour; got no 2"),
        (b"[WIF]\n[COLOR TABLE]\nx=1,2,3\n", "lines must be numbered from 1; got 'x'"),
        (
            b"[WIF]\n[COLOR PALETTE]\nRange=9,3\n[COLOR TABLE]\n1=1,2,3\n",
            "Range must be two rising",
        ),
        (
            b"[WIF]\n[WEFT]\nThreads=many\n[COLOR TABLE]\n1=1,2,3\n",
            "threads must be a whole number",
        ),
        (b"[WIF]\n[WEFT]\nThreads=99999999\n[COLOR TABLE]\n1=1,2,3\n", "at most 1000000"),
        (b"[WIF]\n[WEFT]\nThreads=2\nColor=4\n[COLOR TABLE]\n1=1,2,3\n", "colours go from 1 to 1"),
        (b"[WIF]\n[WEFT]\nUnits=ells\nSpacing=1\n", "Units must be decipoints, inches or"),
        (b"[WIF]\n[WEFT]\nUnits=inches\nSpacing=nan\n", "Spacing must be more than 0"),
        (b"[WIF]\n[THREADING]\n1=a\n", "line 1 must be whole numbers; got 'a'"),
        (b"[WIF]\n[WEAVING]\nRising Shed=perhaps\n", "rising shed must be true or false"),
    ],
)
def test_broken_files_are_refused_clearly(data: bytes, words: str) -> None:
    with pytest.raises(ContractError, match=words):
        parse_wif(data, thing="hedge.wif")


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=200), st.integers(0, len(FOREIGN)))
def test_damage_never_gives_anything_but_a_clear_error(junk: bytes, place: int) -> None:
    with contextlib.suppress(ContractError, InputError):
        file = parse_wif(FOREIGN[:place] + junk + FOREIGN[place:])
        assert all(1 <= colour <= len(file.colours) for colour in file.weft_colours)
        assert stripe_plan_of_wif(file, picks_per_cm=8).total_picks == len(file.weft_colours)
        draft_of_wif(file)


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    with pytest.raises(ContractError, match=r"must be a file; got nothing by that name\. Check"):
        read_wif(tmp_path / "none.wif")
    with pytest.raises(ContractError, match="must be a file; got a folder"):
        read_wif(tmp_path)
    place = tmp_path / "hedge.wif"
    place.write_bytes(FOREIGN)
    assert read_wif(place) == parse_wif(FOREIGN)


def test_a_file_without_what_a_plan_needs() -> None:
    with pytest.raises(ContractError, match="must hold weft colours"):
        stripe_plan_of_wif(parse_wif(b"[WIF]\nVersion=1.1\n"))
    bare = parse_wif(b"[WIF]\n[WEFT]\nThreads=4\n[COLOR TABLE]\n1=1,2,3\n")
    with pytest.raises(
        InputError, match=r"picks per cm: must be more than 0; got 0\. Give it with"
    ):
        stripe_plan_of_wif(bare)
    assert stripe_plan_of_wif(bare, picks_per_cm=8).total_picks == 4
    with pytest.raises(ContractError, match="must hold a threading"):
        draft_of_wif(bare)


def test_old_code_pages_are_read() -> None:
    file = parse_wif(b"[WIF]\n[TEXT]\nTitle=Fr\xfchling\n")
    assert file.title == "Frühling"


def test_only_cloths_that_are_there(plan) -> None:
    with pytest.raises(InputError, match="cloth: must be from 1 to 1; got 2"):
        weaving_file_of(plan, 1)


WHOLE = (
    "[WIF]\nVersion=1.1\n[CONTENTS]\nWEAVING=true\nWARP=true\nWEFT=true\nTHREADING=true\n"
    "TIEUP=true\nTREADLING=true\nCOLOR TABLE=1\nCOLOR PALETTE=yes\nNOTES=true\n"
    "[COLOR PALETTE]\nEntries=1\nRange=0,255\n[COLOR TABLE]\n1=93,115,58\n"
    "[WEAVING]\nShafts=2\nTreadles=2\n[WARP]\nThreads=2\n[WEFT]\nThreads=2\n"
    "[THREADING]\n1=1\n2=2\n[TIEUP]\n1=1\n2=2\n[TREADLING]\n1=1\n2=2\n"
)


def test_a_whole_file_is_read() -> None:
    assert parse_wif(WHOLE.encode()).treadling == ((1,), (2,))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("[WEFT]\nThreads=2\n", "", r"\[WEFT\]: must be there, as \[CONTENTS\] says; got no"),
        ("[TIEUP]\n1=1\n2=2\n", "", r"\[TIEUP\]: must be there, as \[CONTENTS\] says"),
        ("[TREADLING]\n1=1\n2=2\n", "", r"\[TREADLING\]: must be there, as \[CONTENTS\] says"),
        ("Shafts=2", "Shafts=0", r"\[WEAVING\]: Shafts must count what is there; got 0, and 2"),
        ("Shafts=2", "Shafts=x", r"\[WEAVING\]: shafts must be a whole number; got 'x'"),
        ("Shafts=2", "Shafts=99999999", r"\[WEAVING\]: shafts must be at most 1000000"),
        ("Treadles=2", "Treadles=1", r"\[WEAVING\]: Treadles must count what is there; got 1"),
        ("[WARP]\nThreads=2", "[WARP]\nThreads=0", r"\[WARP\]: Threads must count what is there"),
        ("[WEFT]\nThreads=2", "[WEFT]\nThreads=1", r"\[WEFT\]: Threads must count what is there"),
        ("Entries=1", "Entries=0", r"\[COLOR PALETTE\]: Entries must count what is there; got 0"),
        ("Entries=1", "Entries=999999", r"\[COLOR PALETTE\]: Entries must count what is there"),
        ("Entries=1", "Entries=x", r"\[COLOR PALETTE\]: entries must be a whole number; got 'x'"),
        ("WEFT=true\n", "WEFT=false\n", ""),
    ],
)
def test_files_that_contradict_themselves(old: str, new: str, said: str) -> None:
    text = WHOLE.replace(old, new, 1)
    assert text != WHOLE
    if not said:
        assert parse_wif(text.encode()).threading == ((1,), (2,))
        return
    with pytest.raises(ContractError, match=rf"half\.wif {said}"):
        parse_wif(text.encode(), thing="half.wif")


def test_a_file_cut_short_is_named() -> None:
    for length in range(len(WHOLE) // 2, WHOLE.index("[TREADLING]"), 7):
        with pytest.raises(ContractError, match=r"half\.wif"):
            parse_wif(WHOLE[:length].encode(), thing="half.wif")


def test_a_draft_without_its_threads() -> None:
    text = "[WIF]\n[WARP]\nThreads=1\n[THREADING]\n1=1\n[TREADLING]\n1=1\n"
    with pytest.raises(ContractError, match=r"\[WEFT\]: must be there beside the draft"):
        parse_wif(text.encode())
