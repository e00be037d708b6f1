"""Exercise figures drawn from joint angles: a pose as data in, a list of primitives out.

One description serves the screen, the icon and the print. Nothing here knows a colour, a paint
library or a file.
"""

from app.domain.figure.body import Body
from app.domain.figure.draw import Detail, Phase, draw, primitives
from app.domain.figure.pose import Pose, PosePair, Poses, Side, mirror
from app.domain.figure.pose_files import poses_from_mapping
from app.domain.figure.primitive import Bounds, Circle, Path, Primitive, Role, bounds
from app.domain.figure.reading import read_pose
from app.domain.figure.solve import solve

__all__ = [
    "Body",
    "Bounds",
    "Circle",
    "Detail",
    "Path",
    "Phase",
    "Pose",
    "PosePair",
    "Poses",
    "Primitive",
    "Role",
    "Side",
    "bounds",
    "draw",
    "mirror",
    "poses_from_mapping",
    "primitives",
    "read_pose",
    "solve",
]
