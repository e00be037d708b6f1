"""Muscle activation as electromyography reported it, and what may be said of it.

Amplitude, % of maximal voluntary contraction, is not growth (vigotsky2018, vigotsky2022; a trial
went against the ranking: plotkin2023). Figures of different studies are never compared: the same
exercise has 29 % in one and 169 % in another.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from app.domain.exercise import Exercise, ExerciseKey, Muscle
from app.domain.wording import tr

HIGH_ABOVE = 40.0
"""% of maximal voluntary contraction above which an amplitude is high (digiovine1992)."""

REVIEWS = frozenset({"neto2020"})
"""Sources that gather many studies: their figures are not comparable among themselves."""

GLUTEAL_TO_TFL: Mapping[ExerciseKey, int] = MappingProxyType(
    {
        ExerciseKey("clam"): 115,
        ExerciseKey("lateral_band_walk"): 64,
        ExerciseKey("easy_lateral_walk"): 64,
        ExerciseKey("unilateral_bridge"): 59,
        ExerciseKey("quadruped_hip_extension"): 50,
        ExerciseKey("side_lying_abduction"): 38,
        ExerciseKey("glute_bridge"): 32,
        ExerciseKey("step_up"): 32,
        ExerciseKey("bodyweight_squat"): 28,
        ExerciseKey("hip_hike"): 28,
        ExerciseKey("lunge"): 18,
    }
)
"""Gluteal-to-TFL index: high where the gluteals work and the tensor fasciae latae does not.

Eleven exercises lay between 18 and 115 (selkowitz2013). The sidestep's figure stands with the band
walk and its drill, both with a band round the legs as there.
"""
FROM_MEMORY: frozenset[ExerciseKey] = frozenset(
    ExerciseKey(key)
    for key in (
        "side_lying_abduction",
        "glute_bridge",
        "step_up",
        "bodyweight_squat",
        "hip_hike",
        "lunge",
    )
)
"""Exercises whose index is a value from memory; the others were read in the paper."""
GLUTEAL_TO_TFL_RANGE = (18, 115)


def band_of_amplitude(percent: float) -> str:
    """'low', 'moderate', 'high' or 'very high', as the authors band amplitudes.

    Their bands are 0-20, 21-40, 41-60 and over 60 % (digiovine1992); what lies between two bands,
    20.5 for instance, belongs to the lower one.
    """
    if percent < 21:
        return tr("low")
    if percent < 41:
        return tr("moderate")
    return tr("high") if percent <= 60 else tr("very high")


def highest_amplitude(exercise: Exercise, muscle: Muscle) -> float | None:
    """The highest amplitude reported for the muscle, % MVIC; None if nobody reported one."""
    return max((a.high for a in exercise.activation if a.muscle is muscle), default=None)


def amplitude_ratio(old: Exercise, new: Exercise, muscle: Muscle) -> float | None:
    """The new exercise's amplitude over the old one's where one study measured both; else None.

    Several values of one study (parts of a muscle) are averaged first.
    """
    if not old.activation or not new.activation:
        return None
    before = _by_study(old, muscle)
    after = _by_study(new, muscle) if before else {}
    for study, amplitude in before.items():
        if study in after and amplitude > 0:
            return after[study] / amplitude
    return None


def _by_study(exercise: Exercise, muscle: Muscle) -> dict[str, float]:
    values: dict[str, list[float]] = {}
    for one in exercise.activation:
        if one.muscle is muscle and one.study not in REVIEWS:
            values.setdefault(one.study, []).append((one.low + one.high) / 2)
    from statistics import fmean

    return {study: fmean(amplitudes) for study, amplitudes in values.items()}
