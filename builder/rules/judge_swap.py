"""A build with one part or battery swapped, judged by the rules that say whether it fits.

Left out are the families `data` and `law`: they judge the one aircraft that was weighed, priced and
flown, and no answer about a swap hears them. Of them only the rules of each part are asked: a part
that says two things of itself is no sound part wherever it stands. Left out too are the rules that read the order of
work: they judge the lines that the builder wrote about steps, never how parts go together, and
these lines are written anew with the part, as alarms are with another battery. So no order of work,
gate, price or limit is worked out for a swap.
"""

import inspect
import sys
from functools import cache

from builder.compute.compute import assemble
from builder.compute.flight.style import FlyingStyle
from builder.compute.results import Assembly
from builder.compute.weight.mass import MassTable
from builder.model.build import Build
from builder.rules.find_rules import all_rules
from builder.rules.judge import Verdict, judge
from builder.rules.rule import Case, Rule
from builder.rules.swap_facts import OF_PAPERS


def _reads_order(rule: Rule) -> bool:
    """Whether a rule asks for the whole results: order of work, money and limits."""
    return ".whole" in inspect.getsource(sys.modules[rule.check.__module__])


@cache
def rules_of_swaps() -> tuple[Rule, ...]:
    """The rules that a swap is judged by: all but those of papers and those that read the order."""
    fitting = (r for r in all_rules() if r.family not in OF_PAPERS)
    return tuple(r for r in fitting if not _reads_order(r))


@cache
def rules_of_parts() -> tuple[Rule, ...]:
    """The rules of papers that judge what a part says of itself. They never say that it fits."""
    return tuple(r for r in all_rules() if r.of_each_part)


def judge_swap(
    build: Build, lent: FlyingStyle | None = None, of_base: MassTable | None = None
) -> tuple[Assembly, Verdict]:
    """How the parts of a swap go together, and what the rules say of it. `of_base` are the weights
    of the build in which it is made.
    """
    made = assemble(build, lent, of_base)
    return made, judge(Case(build, made), (*rules_of_swaps(), *rules_of_parts()))
