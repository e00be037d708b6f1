"""What all tables share is what a migration can rely on."""

from __future__ import annotations

from sqlalchemy import Double, Text

from db.columns import CLUSTERED, NAMING, Model, law
from db.models import ClientTagRow, PlateRow, ProgramEmphasisRow
from db.rows import table_of


def test_a_law_is_named_for_its_table():
    assert NAMING["ck"] % {"table_name": "plates", "constraint_name": "size"} == "ck_plates_size"
    assert law("size", "size_kg > 0").name == "size"


def test_keys_begin_with_whom_a_row_belongs_to_and_end_with_its_place():
    assert [c.name for c in PlateRow.__table__.primary_key] == ["client_id", "position"]
    assert [c.name for c in ProgramEmphasisRow.__table__.primary_key] == ["program_id", "position"]
    (owner,) = ClientTagRow.__table__.c.client_id.foreign_keys
    assert (owner.target_fullname, owner.ondelete) == ("clients.id", "CASCADE")


def test_types_of_fields_are_types_of_columns_and_rows_lie_in_key_order():
    assert isinstance(PlateRow.__table__.c.size_kg.type, Double)
    assert isinstance(PlateRow.__table__.c.client_id.type, Text)
    assert table_of(PlateRow).dialect_options["sqlite"]["with_rowid"] is False
    assert CLUSTERED == {"sqlite_with_rowid": False}
    assert "plates" in Model.metadata.tables
