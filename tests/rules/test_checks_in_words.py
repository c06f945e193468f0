"""'N checks passed' is true, and says beside it what was not looked at: the counts make up all checks
that there are, counted here from the answers and not from the sentence.
"""

import re

from builder.pages.sections.at_a_glance import checks_line
from builder.pages.sections.not_judged import not_judged
from builder.pipeline.check import Checked
from builder.rules.find_rules import all_rules
from builder.rules.not_looked_at import checks_in_words, not_looked_at

SAID = re.compile(
    r"(\d+) checks passed, (\d+) found something, (\d+) could not be checked,"
    r" (\d+) had nothing to look at"
    r"(?:; (?:1 field is|(\d+) fields are) used by no check)?"
)


def test_the_counts_make_up_all_checks(demo: Checked) -> None:
    for name, sheet in demo.sheets.items():
        said = SAID.fullmatch(checks_in_words(sheet.build, sheet.verdict))
        assert said is not None, name
        passed, found, lacking, idle = (int(n) for n in said.groups()[:4])
        both = [a for a in sheet.verdict.answers if a.findings and a.not_judged]
        assert passed + found + lacking + idle - len(both) == len(all_rules()), name
        assert found == sum(bool(a.findings) for a in sheet.verdict.answers), name
        silent = [a for a in sheet.verdict.answers if not (a.findings or a.not_judged or a.passed)]
        assert idle == len(silent), name


def test_fields_that_nothing_reads_are_counted_beside_it(demo: Checked) -> None:
    for sheet in demo.sheets.values():
        said = checks_in_words(sheet.build, sheet.verdict)
        assert f"{len(not_looked_at(sheet.build))} fields are used by no check" in said


def test_the_sheet_says_it_in_both_places(demo: Checked) -> None:
    for sheet in demo.sheets.values():
        said = checks_in_words(sheet.build, sheet.verdict)
        first = str(checks_line(sheet).pieces[0])
        assert f"{said}. " in first
        assert said in str(not_judged(sheet).blocks[0])
