"""How a page of derivations is laid out before any of it is shown: which figures stand together, and
by which anchors they lead to each other.
"""

from collections.abc import Mapping, Sequence

from builder.compute.figures.figure import Figure
from builder.model.build import Build
from builder.pages.derivations.formulas_opened import Formulas
from builder.pages.derivations.leaf_groups import Leaves, leaves_of, names_of_shelf
from builder.pages.derivations.likes import Likes, like_by_key, likes_of_topic
from builder.pages.derivations.opened import Opened, short_anchors, sums_listed
from builder.pages.derivations.topics import by_topic

Topics = Mapping[str, Sequence[Likes]]


def laid_out(
    build: Build, given: Sequence[Figure], constants: frozenset[str]
) -> tuple[Topics, Leaves, Opened]:
    """The figures that have a formula by their topics, those that were read, and the page. The keys
    of counts and `constants` have no row.
    """
    name, formulas = build.name, Formulas()
    made = by_topic(name, [f for f in reversed(given) if f.formula is not None])
    topics = {t: likes_of_topic(t, figures, name, formulas) for t, figures in made.items()}
    likes = like_by_key(name, topics)
    read = [f for f in given if f.formula is None and f.key not in constants]
    leaves = leaves_of(read, names_of_shelf(build), name)
    inputs = dict.fromkeys(i.key for f in given for i in f.inputs if i.key not in constants)
    rows = {k: likes[k].key if k in likes and likes[k].beside else k for k in inputs}
    headed = [*(like.key for like in likes.values()), *(g.key for g in leaves.groups)]
    anchors = short_anchors([*rows.values(), *headed])
    page = Opened(
        name,
        constants,
        {key: anchors[row] for key, row in rows.items()},
        formulas,
        listed=sums_listed(given),
        likes=likes,
        heads={key: anchors[key] for key in headed},
        formula_anchors={f: f"f-{a}" for f, a in short_anchors(formulas).items()},
        read={f.key: g for g in leaves.groups if g.title for f in g.figures},
    )
    return topics, leaves, page
