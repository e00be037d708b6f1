"""References as reference managers keep them: CSL-JSON, BibTeX and RIS, out and in.

Inside they are plain CSL-JSON records (the schema of the Citation Style Language), so that every
form is made from the same fields and read into them.
"""
