"""Plans as coaches keep them in tables: columns guessed, lines read, names matched, a plan built.

Nothing here reads files or decides for the coach: every guess is a value that can be changed, and
what is not understood is told with its place.
"""
