"""Text or bytes to values and back, for everything that leaves Weekloom as a file.

Imports the domain alone: what the library holds and which schema a file must keep are handed in.
"""
