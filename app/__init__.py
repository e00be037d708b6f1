"""Weekloom: week-by-week strength training plans, worked out, checked and printed."""

__version__ = "0.1.0"
