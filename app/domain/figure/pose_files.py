"""The poses of parsed pose files: each is read when it is first asked for.

A pose may be like another and say only what differs, so that a variant is a few lines.
"""

from collections.abc import Iterator, Mapping

from app.domain.errors import ResourceError
from app.domain.figure.pose import Pose, PosePair, Poses, Trace
from app.domain.figure.reading import ASK, PAIRED, read_pose, read_trace

Table = Mapping[str, object]
PHASES = ("start", "end")
PARTS_OF_A_POSE = {"like", "both", *PHASES}
NOTHING = "none"  # takes away what another pose, or both positions, would have given
# A field for both sides, and the fields for one side that it sets aside.
SIDED = {"hands": "hand", "feet": "foot", "elbow_pole": "elbow_pole"}


def _laid_over(under: Table, own: Table) -> dict[str, object]:
    """`under` with the fields of `own` in their place; `more` adds to the things."""
    merged = dict(under)
    for name in own:
        if name in PAIRED or name in SIDED:
            for side in "RL":
                merged.pop(SIDED.get(name, name) + side, None)
    merged.update({name: value for name, value in own.items() if name != "more"})
    if "more" in own:
        merged["things"] = [*_lines(merged.get("things", [])), *_lines(own["more"])]
    return {name: value for name, value in merged.items() if value != NOTHING}


def _lines(value: object) -> list[object]:
    return list(value) if isinstance(value, list) else [value]


class PoseFile(Mapping[str, PosePair]):
    """Poses by key, each read on first asking and then kept.

    Asking raises ResourceError naming the pose and the field; going through all asks for all.
    """

    def __init__(self, tables: Table) -> None:
        self._tables = tables
        self._read: dict[str, PosePair] = {}

    def __getitem__(self, key: str) -> PosePair:
        if key not in self._read:
            if key not in self._tables:
                raise KeyError(key)
            self._read[key] = self._pair(key)
        return self._read[key]

    def __contains__(self, key: object) -> bool:
        return key in self._tables

    def __iter__(self) -> Iterator[str]:
        return iter(self._tables)

    def __len__(self) -> int:
        return len(self._tables)

    def _pair(self, key: str) -> PosePair:
        line = self._line_of(key)
        poses: list[Pose] = []
        trace: Trace | None = None
        for phase in PHASES:
            merged = self._merged(line, phase)
            where = f"pose {key}, {phase}"
            trace = read_trace(merged.pop("path", None), where=where) or trace
            poses.append(read_pose(merged, where=where))
        return PosePair(key, poses[0], poses[1], trace)

    def _entry(self, key: str) -> Table:
        """One pose's tables, refused when they are none or have others among them."""
        entry = self._tables[key]
        where = f"pose {key}"
        if not isinstance(entry, Mapping):
            raise ResourceError(
                "a pose is a pair of tables.", where=where, mend="Write [key.start]."
            )
        strange = [name for name in entry if name not in PARTS_OF_A_POSE]
        if strange:
            raise ResourceError(f'a pose has no table "{strange[0]}".', where=where, mend=ASK)
        return entry

    def _line_of(self, key: str) -> tuple[str, ...]:
        """The pose and those it is like, nearest first."""
        line = [key]
        while "like" in (entry := self._entry(line[-1])):
            other = str(entry["like"])
            if other not in self._tables:
                what = f'it is like "{other}", which is no pose.'
                raise ResourceError(
                    what, where=f"pose {line[-1]}", mend="Name a pose that is there."
                )
            if other in line:
                what = f"it is like itself, by way of {', '.join(line[1:]) or other}."
                raise ResourceError(
                    what, where=f"pose {key}", mend="Give one of them its own angles."
                )
            line.append(other)
        return tuple(line)

    def _merged(self, line: tuple[str, ...], phase: str) -> dict[str, object]:
        merged: dict[str, object] = {}
        entries = [self._entry(key) for key in reversed(line)]
        if not any(phase in entry for entry in entries):
            raise ResourceError(
                f"the {phase} position is missing.",
                where=f"pose {line[0]}",
                mend=f"Add a table [{line[0]}.{phase}].",
            )
        for entry in entries:
            for table in (entry.get("both", {}), entry.get(phase, {})):
                if not isinstance(table, Mapping):
                    raise ResourceError(
                        "a position is a table.", where=f"pose {line[0]}", mend="Write [key.start]."
                    )
                merged = _laid_over(merged, table)
        return merged


def poses_from_mapping(data: Table) -> Poses:
    """All poses of parsed pose files, by key, each read when it is first asked for.

    Each key holds tables `start` and `end`, and perhaps `both` with what they share, or `like`
    with the key of another pose and only what differs. Asking for a pose with a mistake raises
    ResourceError naming the pose and the field; `dict(...)` of the answer reads every pose.
    """
    return PoseFile(data)
