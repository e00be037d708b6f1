"""Print every published figure beside what Weekloom gets.

python -m tests.literature [topic ...]
"""

from __future__ import annotations

import sys
from importlib import import_module
from pathlib import Path

from tests.literature.table import AnswerRow, all_rows


def all_answers() -> dict[str, AnswerRow]:
    """The answering function of every topic, gathered from the modules in this folder."""
    answers: dict[str, AnswerRow] = {}
    for path in sorted(Path(__file__).parent.glob("test_*.py")):
        module = import_module(f"tests.literature.{path.stem}")
        answers.update(getattr(module, "ANSWERS", {}))
    return answers


def main(topics: list[str]) -> int:
    """Print the table; the exit code is 1 if a row is wrong or unanswered."""
    answers = all_answers()
    wrong = 0
    shown = [row for row in all_rows() if not topics or row.topic in topics]
    for row in shown:
        answer = answers[row.topic](row) if row.topic in answers else None
        right = answer is not None and answer.right
        wrong += not right
        print(
            f"{'ok   ' if right else 'WRONG'} {row.topic:20.20} {row.inputs:64.64} "
            f"expected {row.expected:34.34} got {answer.got if answer else '-':34.34} "
            f"[{row.status}] {row.source}"
        )
    print(f"{len(shown)} figures, {len(shown) - wrong} as published, {wrong} not.")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
