"""Weeks, tally and results as tables, and tables as CSV and XLSX files that any program opens."""
