"""The exercise library: search, narrowing, the list with figures, and the source of drags."""
