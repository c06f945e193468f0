"""Validators of the source are made when they are first needed, and once.

In a process of its own, for in this one others have read the same classes. `__pydantic_complete__`
is pydantic's own word for a class whose validator is made.
"""

import subprocess
import sys

_SAYS = """
from builder.diagnostics.where import Origins, Where
from builder.model.kinds import KINDS
from builder.model.trees.reading import read_as
from builder.model.trees.validators import groups_in

def within(model, seen):
    for field in model.model_fields.values():
        for group in groups_in(field.annotation):
            if group not in seen:
                seen.add(group)
                within(group, seen)
    return seen

first, second = KINDS["motor"], KINDS["receiver"]
shared = sorted(within(first, set()) & within(second, set()), key=lambda c: c.__name__)
print(len(shared), sum(c.__pydantic_complete__ for c in shared), first.__pydantic_complete__)
read_as(first, {"kind": "motor", "name": "M"}, Origins(Where("shelf/m.yaml")))
made = [c.__pydantic_validator__ for c in shared]
print(all(c.__pydantic_complete__ for c in shared), second.__pydantic_complete__)
read_as(second, {"kind": "receiver", "name": "R"}, Origins(Where("shelf/r.yaml")))
print(all(a is c.__pydantic_validator__ for a, c in zip(made, shared)), second.__pydantic_complete__)
"""


def test_groups_that_kinds_share_are_made_once_and_none_before_it_is_needed() -> None:
    run = subprocess.run(
        [sys.executable, "-c", _SAYS], capture_output=True, text=True, check=False, timeout=120
    )
    assert not run.stderr
    before, after_one, after_two = run.stdout.splitlines()
    shared, already, first = before.split()
    assert int(shared) >= 5 and int(already) < int(shared) and first == "False"
    assert after_one == "True False"
    assert after_two == "True True"
