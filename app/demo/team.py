"""The whole team, and a store filled with it."""

from __future__ import annotations

from app import resources
from app.demo.member import Member, member_from
from app.domain.client import ClientId
from app.domain.exercise import Catalogue
from app.domain.work import Coach, Work
from db.store import Store

FOLDER = "demo"
TEAM = f"{FOLDER}/team.toml"


def coach() -> Coach:
    """Who looks after the team."""
    about = resources.read_toml(TEAM)
    return Coach(name=str(about["coach"]), contact=str(about["contact"]), team=str(about["team"]))


def members(catalogue: Catalogue) -> tuple[Member, ...]:
    """The six members in the order of the team's list."""
    names = resources.read_toml(TEAM)["members"]
    assert isinstance(names, list)
    ranges = resources.range_book()
    files = [f"{FOLDER}/{name}.toml" for name in names]
    return tuple(
        member_from(resources.read_toml(file), source=file, catalogue=catalogue, ranges=ranges)
        for file in files
    )


def fill(store: Store, catalogue: Catalogue) -> ClientId:
    """Puts the team into a store; the id of its first member, whose plan shows the most."""
    store.set_coach(coach())
    team = members(catalogue)
    for member in team:
        store.save(None, Work(member.client), label="Add client")
        if member.program is not None:
            before = Work(member.client)
            after = Work(member.client, member.program, member.diary)
            store.save(before, after, label=f"Add {member.program.name}")
    return team[0].client.id
