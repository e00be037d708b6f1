"""References for the tests: the shipped ones, and some that would break a careless writer."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import strategies as st

from app import resources
from app.exchange.bibliography.record import KINDS, kept, with_ids

SHIPPED: list[dict[str, Any]] = json.loads(resources.text("references.json"))
KEPT = [kept(record) for record in SHIPPED]

HOSTILE = (
    "Sets & reps: 50 % of $x_1$ #2 ~ ^ \\ {braces} and {one",
    "TY  - BOOK",
    '@article{x, title = "y"}',
    "Ünïcödé Łódź Ψυχή 訓練",
    "=HYPERLINK(1)",
    "a, b and c; d",
    "ER  -",
    "</script><b>x</b>",
)

plain_texts = st.text(st.characters(exclude_categories=["Cs", "Cc", "Cn", "Co"]), max_size=30)
texts = plain_texts.map(lambda text: " ".join(text.split())).filter(bool)
names = st.one_of(
    st.fixed_dictionaries({"family": texts, "given": texts}),
    st.fixed_dictionaries({"literal": texts}),
)


def record(**fields: Any) -> dict[str, Any]:
    """One reference with these fields."""
    usual: dict[str, Any] = {
        "id": "estvik2020",
        "type": "article-journal",
        "title": "Strength on a ridge",
        "author": [{"family": "Estvik", "given": "Runa"}],
        "issued": {"date-parts": [[2020]]},
    }
    return usual | fields


def identified(**fields: Any) -> dict[str, Any]:
    """One reference as it is kept, with its usual id."""
    (made,) = with_ids([kept(record(**fields))])
    return made


records = st.builds(
    record,
    type=st.sampled_from(KINDS),
    title=texts,
    author=st.lists(names, min_size=1, max_size=3),
    volume=st.integers(1, 999).map(str),
    page=st.sampled_from(["1-10", "e12", "178-188"]),
)
