"""What the checks say and a booklet would print, for plans that are not on the desk."""

from __future__ import annotations

from datetime import date

from app import resources
from app.domain import checks
from app.domain.client import Client
from app.domain.exercise import Catalogue
from app.domain.loads import printed_loads
from app.domain.program import Program
from app.domain.work import Coach, Issue, IssueId
from app.exchange.report import Checked


def look_over(client: Client, program: Program, *, catalogue: Catalogue) -> Checked:
    """The program with everything that the shipped ranges say of it."""
    findings = checks.check(program, client, catalogue, resources.range_book())
    shorts = {key: reference.short for key, reference in resources.references().items()}
    return Checked(client, program, findings, shorts)


def issue_of(
    client: Client, program: Program, *, catalogue: Catalogue, coach: Coach, on: date
) -> Issue:
    """The issue of a plan as it would be handed out on that day; nothing is kept."""
    loads = printed_loads(program, client, catalogue)
    return Issue(IssueId(f"{program.id}/{on}"), on, coach, client, program, loads)
