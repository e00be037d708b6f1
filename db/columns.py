"""What all tables share: names of constraints, kinds of columns, and the keys they start with."""

from __future__ import annotations

from datetime import date
from typing import Any, ClassVar

from sqlalchemy import CheckConstraint, Date, Double, ForeignKey, Integer, MetaData, Text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

NAMING = {
    "pk": "pk_%(table_name)s",
    "fk": "fk_%(table_name)s_%(referred_table_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
}
"""Without names a constraint cannot be changed by a later migration."""

CLUSTERED = {"sqlite_with_rowid": False}
"""Rows lie in the order of their key: all of a program's rows together."""


class Model(DeclarativeBase):
    """What all tables share: names of constraints and types of columns."""

    metadata = MetaData(naming_convention=NAMING)
    type_annotation_map: ClassVar[dict[Any, Any]] = {
        str: Text,
        int: Integer,
        float: Double,
        date: Date,
    }


def law(name: str, condition: str) -> CheckConstraint:
    """A check named for what it holds."""
    return CheckConstraint(condition, name=name)


def client_key() -> Mapped[str]:
    """The client a row belongs to, as the first part of its key."""
    return mapped_column(ForeignKey("clients.id", ondelete="CASCADE"), primary_key=True)


def program_key() -> Mapped[str]:
    """The program a row belongs to, as the first part of its key."""
    return mapped_column(ForeignKey("programs.id", ondelete="CASCADE"), primary_key=True)


def place_in_order() -> Mapped[int]:
    """Where a row stands in its list, from 0, as the last part of its key."""
    return mapped_column(primary_key=True, autoincrement=False)
