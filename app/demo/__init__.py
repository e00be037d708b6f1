"""The demo: a volunteer mountain-rescue team in an invented valley, with its plans.

People, numbers and texts are made up for Weekloom. The plans are made by the same edits and
progressions as a coach would use, so they keep every law; they are not all perfect, so that the
checks have something to say.
"""

from app.demo.team import fill, members
from app.demo.writing import write_to

__all__ = ["fill", "members", "write_to"]
