"""Rules with one comparison, constant or word of logic changed: how many of them their cases notice.

Each rule file is changed in one place at a time, and asked for the cases of its own file in
tests/rules, for the faults that are seeded for it in tests/seeded, and for the demo builds; all were
computed once. A limit that the rule takes from builder/assumed.toml is changed as a constant is. A
mutant that answers all of them as the rule does survives, and is printed with its line.

    python -m tests.benchmarks.rule_mutants                # all rules
    python -m tests.benchmarks.rule_mutants wiring power   # some families or rules
"""

import ast
import sys
from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from types import ModuleType

import builder
from builder.compute.compute import compute
from builder.diagnostics.sentence import pieces_of
from builder.load.files import load
from builder.model.read.workspace import read_workspace
from builder.rules.find_rules import all_rules
from builder.rules.judge import judge
from builder.rules.rule import Case, Rule
from tests.benchmarks.measured import Line
from tests.rules.rule_files import RuleCase, case_of, rule_cases
from tests.seeded.seeds import case_with, seeds

RULES = Path(builder.__file__).parent / "rules"
WANTED = 0.9
_LIMITS = ("assumed", "assumed_list")  # how a rule takes a limit of builder/assumed.toml
_SWAPPED: Mapping[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.GtE,
    ast.LtE: ast.Gt,
    ast.Gt: ast.LtE,
    ast.GtE: ast.Lt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}


@dataclass(frozen=True)
class Mutant:
    """A rule's tree with one place changed, and the line of it."""

    tree: ast.Module
    line: int
    what: str


def _places(tree: ast.Module) -> Iterator[tuple[int, str]]:
    """Places that can be changed, by their number in a walk of the tree."""
    for at, node in enumerate(ast.walk(tree)):
        if isinstance(node, ast.Compare) and type(node.ops[0]) in _SWAPPED:
            yield at, "comparison"
        elif isinstance(node, ast.BoolOp):
            yield at, "and or or"
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            yield at, "not"
        elif isinstance(node, ast.Constant) and type(node.value) in (int, float) and node.value:
            yield at, "constant"
        elif isinstance(node, ast.Call) and getattr(node.func, "id", "") in _LIMITS:
            yield at, "limit"


def more(limit: float | tuple[float, ...]) -> float | tuple[float, ...]:
    """What a mutant takes in place of a limit of builder/assumed.toml."""
    return tuple(1.5 * v for v in limit) if isinstance(limit, tuple) else 1.5 * limit


def _change(node: ast.AST) -> None:
    if isinstance(node, ast.Call):
        plain = ast.Call(node.func, node.args, node.keywords)
        node.func, node.args, node.keywords = ast.Name("_more", ast.Load()), [plain], []
    if isinstance(node, ast.Compare):
        node.ops[0] = _SWAPPED[type(node.ops[0])]()
    elif isinstance(node, ast.BoolOp):
        node.op = ast.Or() if isinstance(node.op, ast.And) else ast.And()
    elif isinstance(node, ast.UnaryOp):
        node.op = ast.UAdd()
        node.operand = ast.Call(ast.Name("bool", ast.Load()), [node.operand], [])
    elif isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        node.value = node.value * 1.5 if isinstance(node.value, float) else node.value + 1


def mutants(source: str) -> Iterator[Mutant]:
    """Every mutant of a rule's file."""
    whole = ast.parse(source)
    for at, what in _places(whole):
        tree = deepcopy(whole)
        node = list(ast.walk(tree))[at]
        line = getattr(node, "lineno", 0)
        _change(node)
        yield Mutant(ast.fix_missing_locations(tree), line, what)


def _file(rule: Rule) -> Path:
    return RULES / f"{rule.code.replace('-', '_')}.py"


def _mutated(rule: Rule, mutant: Mutant) -> Rule | None:
    """The rule as the mutant has it; None for one that cannot be loaded, which is noticed."""
    family = rule.family
    module = ModuleType(f"builder.rules.{family}.mutant")
    module.__package__ = f"builder.rules.{family}"
    sys.modules[module.__name__] = module
    vars(module)["_more"] = more
    try:
        exec(compile(mutant.tree, str(_file(rule)), "exec"), vars(module))  # our own code
    except Exception:  # noqa: BLE001 - whatever a mutant does is noticed
        return None
    return replace(rule, check=module.check)


def what_it_says(rule: Rule, case: Case) -> object:
    """All that a rule answers, in words."""
    try:
        (said,) = judge(case, [rule]).answers
    except Exception as error:  # noqa: BLE001 - as above
        return type(error).__name__
    found = [
        (pieces_of(f.message), f.hint, f.severity, f.signal, f.where, f.see) for f in said.findings
    ]
    return said.answer, said.passed, found, [(n.missing, n.where) for n in said.not_judged]


def survivors(rule: Rule, cases: list[Case]) -> tuple[list[Mutant], int]:
    """Mutants that no case notices, and how many were made."""
    right = [what_it_says(rule, case) for case in cases]
    left, made = [], 0
    for mutant in mutants(_file(rule).read_text("utf-8")):
        made += 1
        changed = _mutated(rule, mutant)
        if changed is None:
            continue
        if all(what_it_says(changed, c) == r for c, r in zip(cases, right, strict=True)):
            left.append(mutant)
    return left, made


def demo_cases() -> list[Case]:
    model = read_workspace(load(RULES.parents[1]))
    return [Case(b, compute(b)) for b in (model.builds[n] for n in model.builds)]


def seeded_cases(rule: Rule) -> Iterator[Case]:
    """The demo builds with a fault that this rule finds, or that it is found beside."""
    for seed in seeds():
        if rule.code == seed.finds or rule.code in seed.companions:
            with TemporaryDirectory() as folder:
                case = case_with(seed, Path(folder))
            if case is not None:
                yield case


def line_of(what: str, left: list[Mutant], made: int) -> Line:
    """The share of the mutants of something that is noticed, and each survivor."""
    share = 1.0 - len(left) / made if made else 1.0
    words = "; ".join(f"line {m.line}: {m.what}" for m in left)
    value = f"{100 * share:.0f} % of {made}" + (f"; left {words}" if words else "")
    return Line(f"mutants of {what}", value, f"{100 * WANTED:.0f} %", share >= WANTED)


def killed(only: list[str]) -> Iterator[Line]:
    """One line a rule with the share that its cases notice, and each survivor."""
    demo, by_rule = demo_cases(), dict[str, list[RuleCase]]()
    for each in rule_cases():
        by_rule.setdefault(each.rule, []).append(each)
    for rule in all_rules():
        if only and rule.code not in only and rule.family not in only:
            continue
        own = [case_of(c.given) for c in by_rule.get(rule.code, [])]
        left, made = survivors(rule, [*own, *seeded_cases(rule), *demo])
        yield line_of(rule.code, left, made)


if __name__ == "__main__":
    for line in killed(sys.argv[1:]):
        print(line, flush=True)
