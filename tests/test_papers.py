from __future__ import annotations

from dataclasses import replace
from datetime import date
from io import BytesIO

import pikepdf
import pytest

from app import papers, resources
from app.booklet import Paper
from app.domain.errors import CoachError
from app.domain.work import Coach
from app.off_desk import issue_of
from app.papers import KINDS, Kind, Look, Order
from tests.ui.desks import PROGRAM, RUNA

COACH = Coach("Tavi Hellmark", "radio 4", "Ombrel Valley Mountain Rescue")
SHORT = replace(PROGRAM, weeks=PROGRAM.weeks[:3], blocks=(replace(PROGRAM.blocks[0], weeks=3),))


@pytest.fixture(scope="module")
def order() -> Order:
    catalogue = resources.catalogue()
    issue = issue_of(RUNA, SHORT, catalogue=catalogue, coach=COACH, on=date(2026, 11, 20))
    return Order(COACH, RUNA.name, issue, catalogue, resources.range_book())


@pytest.mark.parametrize("kind", KINDS, ids=[kind.key for kind in KINDS])
@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER])
@pytest.mark.parametrize("grey", [False, True])
def test_every_paper_is_printed_with_its_fonts(
    kind: Kind, paper: Paper, grey: bool, order: Order
) -> None:
    pdf = kind.make(order, Look(paper, grey, week=1))
    with pikepdf.open(BytesIO(pdf)) as document:
        assert document.check_pdf_syntax() == []
        assert len(document.pages) >= 1
        for page in document.pages:
            for name in page.resources.Font:
                assert "/FontDescriptor" in page.resources.Font[str(name)], name


@pytest.mark.parametrize("kind", KINDS, ids=[kind.key for kind in KINDS])
def test_a_paper_of_a_plan_says_that_it_needs_one(kind: Kind, order: Order) -> None:
    without = replace(order, issue=None)
    if not kind.planned:
        assert kind.make(without, Look()).startswith(b"%PDF")
        return
    with pytest.raises(CoachError, match="no program"):
        kind.make(without, Look())


def test_papers_have_names_of_their_own() -> None:
    assert len({kind.key for kind in papers.KINDS}) == len(papers.KINDS)
    assert len({kind.stem for kind in papers.KINDS}) == len(papers.KINDS)
