"""The measures of the drawn person: lengths, thickness, legal joint angles, masses.

All lengths are fractions of stature. Every table says where it comes from; "ours" is a choice made
for a clear drawing, not a finding.
"""

from dataclasses import dataclass

LENGTH_SOURCE = "Drillis & Contini 1966, value from memory"
LENGTHS: dict[str, float] = {
    "head": 0.130,
    "neck": 0.052,
    "trunk": 0.288,
    "upper_arm": 0.186,
    "forearm": 0.146,
    "hand": 0.108,
    "thigh": 0.245,
    "shank": 0.246,
    "foot": 0.152,
    "foot_height": 0.039,
    "shoulder_breadth": 0.259,
    "hip_breadth": 0.191,
}

OUR_SOURCE = "chosen for a clear drawing"
WAIST = 0.100  # above the hip line
SHOULDER_OFF = 0.108  # shoulder joint off the middle
HIP_OFF = 0.052  # hip joint off the middle
GRIP = 0.040  # wrist to the middle of the fist
BALL = 0.072  # ball of the foot before the ankle
HEEL = 0.040  # heel behind the ankle
TOE = LENGTHS["foot"] - HEEL
CHEST = LENGTHS["trunk"] - WAIST
SHOULDER_RISE = 0.030  # how far the shoulder joint rises with the arm overhead

LIMIT_SOURCE = "AAOS 1965 and AMA guides, rounded, ankle under load; value from memory"
LIMITS: dict[str, tuple[float, float]] = {
    "spine": (-25, 70),
    "neck": (-50, 50),
    "bend": (-35, 35),
    "twist": (-45, 45),
    "hip": (-20, 125),
    "hip_out": (-25, 45),
    "hip_turn": (-40, 45),
    "knee": (0, 145),
    "ankle": (-50, 35),
    "shoulder": (-60, 180),
    "shoulder_out": (-20, 180),
    "elbow": (0, 150),
    "wrist": (-70, 80),
}

MASS_SOURCE = "Dempster 1955, value from memory"
# Share of body mass; where the mass centre lies between the segment's start and its end.
MASSES: dict[str, tuple[float, float]] = {
    "head": (0.081, 0.50),
    "trunk": (0.497, 0.50),
    "upper_arm": (0.028, 0.436),
    "forearm": (0.016, 0.430),
    "hand": (0.006, 0.506),
    "thigh": (0.100, 0.433),
    "shank": (0.0465, 0.433),
    "foot": (0.0145, 0.50),
}


@dataclass(frozen=True, slots=True)
class Station:
    """Half widths of a segment at one place: `at` is a fraction of its length from its start."""

    at: float
    front: float
    back: float
    side: float


def _stations(*rows: tuple[float, float, float, float]) -> tuple[Station, ...]:
    return tuple(Station(*row) for row in rows)


# Thickness is ours throughout.
THICKNESS: dict[str, tuple[Station, ...]] = {
    "pelvis": _stations(
        (-0.36, 0.044, 0.046, 0.072),
        (0.00, 0.055, 0.062, 0.093),
        (0.35, 0.056, 0.060, 0.092),
        (0.75, 0.053, 0.051, 0.080),
    ),
    "chest": _stations(
        (0.02, 0.051, 0.049, 0.075),
        (0.35, 0.056, 0.056, 0.079),
        (0.65, 0.062, 0.064, 0.092),
        (0.88, 0.057, 0.064, 0.101),
        (1.02, 0.043, 0.055, 0.090),
        (1.13, 0.026, 0.040, 0.048),
    ),
    "neck": _stations(
        (-0.30, 0.030, 0.036, 0.034), (0.40, 0.028, 0.031, 0.030), (1.30, 0.026, 0.036, 0.030)
    ),
    "thigh": _stations(
        (0.00, 0.047, 0.046, 0.046),
        (0.22, 0.055, 0.053, 0.049),
        (0.52, 0.048, 0.045, 0.043),
        (0.80, 0.037, 0.034, 0.035),
        (1.00, 0.034, 0.031, 0.032),
    ),
    "shank": _stations(
        (0.00, 0.033, 0.032, 0.031),
        (0.26, 0.030, 0.043, 0.034),
        (0.52, 0.026, 0.035, 0.029),
        (0.80, 0.020, 0.022, 0.020),
        (1.00, 0.019, 0.021, 0.019),
    ),
    "upper_arm": _stations(
        (0.00, 0.031, 0.031, 0.030),
        (0.30, 0.031, 0.030, 0.028),
        (0.66, 0.026, 0.027, 0.024),
        (1.00, 0.022, 0.022, 0.021),
    ),
    "forearm": _stations(
        (0.00, 0.022, 0.023, 0.022),
        (0.25, 0.026, 0.025, 0.025),
        (0.70, 0.020, 0.019, 0.019),
        (1.00, 0.0155, 0.0155, 0.017),
    ),
    "head": _stations(
        (0.02, 0.040, 0.010, 0.021),
        (0.09, 0.046, 0.020, 0.029),
        (0.20, 0.0455, 0.034, 0.035),
        (0.30, 0.0455, 0.045, 0.038),
        (0.36, 0.0575, 0.048, 0.040),
        (0.46, 0.0475, 0.052, 0.042),
        (0.62, 0.0490, 0.055, 0.043),
        (0.78, 0.0430, 0.049, 0.038),
        (0.90, 0.0290, 0.034, 0.027),
    ),
}
