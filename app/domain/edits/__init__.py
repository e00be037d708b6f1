"""Every edit of a program: pure functions `Program -> Program` that share what did not change.

An edit that cannot be applied raises `EditError` with a sentence a coach understands. Edits are
told where to act by a slot's or session's id, or by a `Spot`, and how far by a `Span`.
"""
