"""Packed files that would burst, mislead or call for more: refused before they are unpacked."""

from __future__ import annotations

import zipfile
from io import BytesIO

import pytest

from app.exchange.sheets import packed
from app.exchange.sheets.packed import look_through
from app.exchange.sheets.sheet import SheetError

TYPES = ("[Content_Types].xml", b"<Types/>")
SHEET = "xl/worksheets/sheet1.xml"


def zipped(*parts: tuple[str | zipfile.ZipInfo, bytes], deflated: bool = True) -> bytes:
    data = BytesIO()
    how = zipfile.ZIP_DEFLATED if deflated else zipfile.ZIP_STORED
    with zipfile.ZipFile(data, "w", how) as file:
        for name, content in parts:
            file.writestr(name, content)
    return data.getvalue()


def refused(data: bytes) -> str:
    with pytest.raises(SheetError) as caught:
        look_through(data, source="plan.xlsx")
    assert caught.value.where == "plan.xlsx"
    return caught.value.sentence


def test_a_plain_one_is_let_through_and_its_merged_cells_are_told() -> None:
    sheet = b'<worksheet><mergeCells><mergeCell ref="A1:C1"/><x:mergeCell a="" ref="B2:B9"/>'
    looked = look_through(zipped(TYPES, (SHEET, sheet)), source="plan.xlsx")
    assert looked.merged == {SHEET: ("A1:C1", "B2:B9")}


def test_merged_cells_at_the_seam_of_two_pieces_are_told_once(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    sheet = b"<c/>" * 90 + b'<mergeCell ref="A1:C1"/>' + b" " * 400
    for size in (50, 377, 384, 1000):
        monkeypatch.setattr(packed, "CHUNK", size)
        looked = look_through(zipped(TYPES, (SHEET, sheet)), source="plan.xlsx")
        assert looked.merged == {SHEET: ("A1:C1",)}


@pytest.mark.parametrize(
    ("cell", "unworked"),
    [
        (b'<c r="B2"><f>A1+1</f></c>', True),
        (b'<c r="B2" s="4"><f>A1+1</f><v/></c>', True),
        (b'<c r="B2"><f>A1&lt;1</f><v></v></c>', True),
        (b'<x:c r="B2"><x:f t="shared" si="0"/><x:v /></x:c>', True),
        (b'<c r="B2"><f>A1+1</f><v>3</v></c>', False),
        (b'<c r="B2" t="str"><f>""</f><v></v></c>', False),
        (b'<c r="B2"><v>3</v></c>', False),
        (b'<c r="B2"/>', False),
    ],
)
def test_a_formula_without_its_result_is_told(cell: bytes, *, unworked: bool) -> None:
    looked = look_through(zipped(TYPES, (SHEET, b"<row>" + cell + b"</row>")), source="plan.xlsx")
    assert looked.unworked == ({SHEET: ("B2",)} if unworked else {})


def test_a_formula_at_the_seam_of_two_pieces_is_told_once(monkeypatch: pytest.MonkeyPatch) -> None:
    cell = b'<c r="B2"><f>' + b"A1+" * 200 + b"1</f><v/></c>"
    sheet = b"<c/>" * 90 + cell + b" " * 400
    for size in (50, 377, 384, 1000):
        monkeypatch.setattr(packed, "CHUNK", size)
        looked = look_through(zipped(TYPES, (SHEET, sheet)), source="plan.xlsx")
        assert looked.unworked == {SHEET: ("B2",)}


def test_a_bomb_of_zeros_is_refused_by_its_ratio() -> None:
    assert "times its size" in refused(zipped(TYPES, ("xl/a.bin", bytes(50_000_000))))


def test_more_than_the_unpacked_limit_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(packed, "MOST_UNPACKED", 1000)
    assert "at most 1,000" in refused(zipped(TYPES, ("a.bin", bytes(2000)), deflated=False))


def test_a_large_file_is_refused_before_it_is_looked_at() -> None:
    assert "at most 20,971,520" in refused(bytes(packed.MOST_PACKED + 1))


def test_too_many_parts_are_refused() -> None:
    parts = [(f"a{n}", b"") for n in range(packed.MOST_ENTRIES)]
    assert "1,001 parts" in refused(zipped(TYPES, *parts))


@pytest.mark.parametrize(
    "xml",
    [
        b'<?xml version="1.0"?><!DOCTYPE lolz [<!ENTITY a "ha">]><x>&a;</x>',
        b"<!--" + b"x" * 2_000_000 + b"--><!DOCTYPE a><x/>",
        '<?xml version="1.0" encoding="utf-16"?><!DOCTYPE a><x/>'.encode("utf-16"),
        b'<x><!ENTITY a SYSTEM "file:///etc/hostname"></x>',
    ],
    ids=["laughs", "late", "wide", "outside"],
)
def test_entities_are_refused(xml: bytes) -> None:
    noise = bytes(range(256)) * 200  # so that it is not its ratio that is refused
    assert "entities" in refused(zipped(TYPES, (SHEET, xml), ("a.bin", noise), deflated=False))


def test_more_cells_than_a_plan_has_are_refused() -> None:
    row = b'<c r="A1"><v>1</v></c>' * 1000
    noise = __import__("random").Random(1).randbytes(400_000)
    data = zipped(TYPES, (SHEET, row * 1001), ("a.bin", noise))
    assert "1,000,000 cells" in refused(data)


@pytest.mark.parametrize(
    "name", ["../../x", "/etc/passwd", "a\\..\\..\\x", "C:\\x.xml", "xl/../../x.xml"]
)
def test_a_name_that_leads_elsewhere_is_refused(name: str) -> None:
    assert "leads elsewhere" in refused(zipped(TYPES, (name, b"")))


def test_a_link_is_refused() -> None:
    link = zipfile.ZipInfo("xl/link")
    link.external_attr = 0o120777 << 16
    assert "leads elsewhere" in refused(zipped(TYPES, (link, b"/etc/passwd")))


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_two_parts_of_one_name_are_refused() -> None:
    assert "same name" in refused(zipped(TYPES, ("a", b""), ("A", b"")))


def test_what_is_packed_but_no_workbook_is_refused() -> None:
    assert "no workbook" in refused(zipped(("a.txt", b"hello")))


def test_parts_that_stand_in_memory_are_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(packed, "MOST_OF_OTHERS", 100)
    data = zipped(TYPES, ("xl/styles.xml", b"<a/>" * 50), deflated=False)
    assert "A part of it has 200 bytes" in refused(data)


@pytest.mark.parametrize("cut", [30, 100, 150])
def test_half_a_file_is_refused(cut: int) -> None:
    whole = zipped(TYPES, (SHEET, b"<worksheet/>"))
    assert "not whole" in refused(whole[:cut])


def test_a_header_that_lies_about_its_size_bursts_nothing() -> None:
    data = bytearray(zipped(TYPES, (SHEET, b"<c/>" * 100_000)))
    central = data.rfind(b"PK\x01\x02")
    data[central + 24 : central + 28] = (100).to_bytes(4, "little")
    assert "not whole" in refused(bytes(data))
