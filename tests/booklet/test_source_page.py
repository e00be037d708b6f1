"""Sources: numbered in the order of use, with the pages that lean on them."""

from __future__ import annotations

import re

from app.booklet import Options, make
from app.booklet.bind import open_book
from app.booklet.book import Cite, Topic
from app.booklet.source_page import numbers, pages
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import SOURCES, Source, content, issue, season

BOOK = open_book(issue(season(1)), content(), Options())
EFFORT = Cite("zourdos2016", Topic.TRAINING, "effort")
SAFETY = Cite("riebe2015", Topic.SAFETY, "who asks")
UNKNOWN = Cite("nobody1900", Topic.TRAINING, "nothing")


def test_sources_are_numbered_by_topic_then_by_first_use():
    found = numbers(BOOK, {SAFETY: (2,), EFFORT: (3,), UNKNOWN: (4,)})
    assert found == {"zourdos2016": 1, "riebe2015": 2}


def test_without_a_listed_source_there_is_no_page():
    assert list(pages(BOOK, {UNKNOWN: (1,)})) == []


def test_long_lists_go_on_on_further_pages():
    long = {f"k{n}": Source(f"K {n}", "A long title of a paper. " * 12) for n in range(40)}
    book = open_book(BOOK.issue, content(references=long), Options())
    cites = {Cite(key, Topic.TRAINING, "sets"): (n,) for n, key in enumerate(long, start=1)}
    assert len(list(pages(book, cites))) > 1


def test_each_printed_citation_number_leads_to_its_source():
    booklet = Printed(make(issue(season(6)), content()))
    listed = booklet.text(booklet.pages_with("used for")[0])
    order = [key for _, key in re.findall(r"(\d+) (\w[\w-]+) \(a source made up", listed)]
    glance = booklet.text(booklet.pages_with("The program at a glance")[-1])
    number = int(re.search(r"12 to 20: a published range \[(\d+)\]", glance)[1])
    assert order[number - 1] == "bazvalle2022"
    fraction = int(re.search(r"one that helps \[(\d+)\]", glance)[1])
    assert order[fraction - 1] == "pelland2024"


def test_used_for_names_the_pages():
    booklet = Printed(make(issue(season(6)), content()))
    page = booklet.pages_with("12 to 20: a published range")[0]
    assert f"weekly sets, page {page}" in booklet.text(booklet.pages_with("used for")[0])
    assert set(SOURCES) >= {"bazvalle2022", "riebe2015"}
