"""Steps of the work as HTML, with what to take care of before each; notices."""

from builder.diagnostics.finding import Signal
from builder.pages import blocks as b
from builder.pages.rule_address import rule_address
from builder.render.html.drawn_once import ALERT, TRIANGLE
from builder.render.html.escaped import attribute, bound, text
from builder.render.html.inline_html import HtmlContext, inline_pieces, tick
from builder.render.html.picture_html import TAG, XML_NAME, on_screen, picture_html
from builder.render.html.svg import svg


def _code(code: str, w: HtmlContext) -> str:
    """The way from a finding to the rule that made it. Its code is for whoever writes builds; it
    stands on the page of the rules, and on paper, which leads nowhere.
    """
    if not code:
        return ""
    if w.paper:
        return f" <code class=code>{text(code)}</code>"
    link = f"{w.root}{rule_address(code)}"
    return f" <a class=code{attribute('href', link)}>about this check</a>"


def _alert(signal: Signal, w: HtmlContext) -> str:
    """The safety alert symbol before a signal word. ANSI Z535.6 keeps it for what can hurt people:
    NOTICE has none.
    """
    if signal is Signal.NOTICE:
        return ""
    if w.paper:
        return (
            f'<svg class="alert"{XML_NAME} viewBox="0 0 24 22"><title>Safety'
            f" alert</title>{TRIANGLE}</svg>"
        )
    return ALERT


def notice_html(n: b.Notice, w: HtmlContext) -> str:
    """A notice: signal word, title, what is to be known."""
    signal = n.signal.value if n.signal else ""
    name = f"notice sig-{signal.casefold()}" if signal else "notice"
    name += f" t-{n.tone}" if n.tone else ""
    word = f"<strong class=signal>{_alert(n.signal, w)}{signal}</strong> " if n.signal else ""
    body = f"<p>{inline_pieces(n.pieces, w)}</p>" if n.pieces else ""
    said = inline_pieces(n.said, w) if n.said else bound(n.title)
    title = f"<p class=title>{word}<span>{said}</span>{_code(n.code, w)}</p>"
    apart = " " if w.paper else ""  # where both run on in one line
    return f"<div{attribute('class', name)}{attribute('id', n.anchor)}>{title}{apart}{body}</div>"


def _facts_of_step(s: b.Step, w: HtmlContext) -> str:
    said = [f"{f'<b>{text(k)}</b> ' if k else ''}{inline_pieces(v, w)}" for k, v in s.facts]
    if w.paper:
        return "".join([f"<span>{fact}</span>" for fact in said])
    return " ".join(said)


def _parts_of_step(s: b.Step, w: HtmlContext) -> str:
    """What a step is made of, each with its own box."""
    if not s.parts:
        return ""
    rows = "".join([_step(part, w) for part in s.parts])
    return f"<ol class=parts>{rows}</ol>"


def _step(s: b.Step, w: HtmlContext) -> str:
    """A step. On screens its number is a link to itself, so that its address can be copied. A part
    of one has no number. What to take care of is read before what is done (ANSI Z535.6).
    """
    facts = f"<p class=facts>{_facts_of_step(s, w)}" if s.facts else ""
    reason = f"<p class=why>{bound(s.reason)}" if s.reason else ""
    writes = f"<p class=writes>{inline_pieces(s.write_ins, w)}" if s.write_ins else ""
    caution = "".join([notice_html(told, w) for told in s.cautions])
    picture = picture_html(s.picture, w) if s.picture else ""
    taken = "" if w.paper else "".join([picture_html(p, w) for p in s.photos])
    built = "".join([f"<p class=built>{bound(line)}" for line in s.built])
    parts = _parts_of_step(s, w)
    shown = ""
    if s.drawing and not w.paper:  # the element around it ends the paragraph before it
        shown = f"<div>{on_screen(svg(s.drawing, build=w.build, root=w.root))}</div>"
    rest = f"{facts}{reason}{shown}{parts}{writes}{built}{picture}{taken}"
    words = inline_pieces(s.text, w)
    if w.paper:
        number = f"<span class=no>{text(s.number)}</span> " if s.number else ""
        body = f"<div><p class=do>{number}{words}{rest}</div>"
        paper_box = "" if s.parts else tick(b.Tick(s.key), w)
        boxed = f"<div class=boxed>{paper_box}{body}</div>" if caution else f"{paper_box}{body}"
        return f"<li class=step{attribute('id', s.anchor)}>{caution}{boxed}"
    key = "" if s.anchor == s.key else s.key
    if not s.number and not s.parts and "<" not in words and not caution:
        named = f"<label><input type=checkbox{attribute('data-tick', key)}>{words}</label>"
        return f"<li{attribute('id', s.anchor)}>{named}{rest}"
    name = f"step {s.number}" if s.number else TAG.sub("", words)
    box = "" if s.parts else tick(b.Tick(key, name), w)
    return f"<li{attribute('id', s.anchor)}>{box}{caution}{_number_of_step(s)}{words}{rest}"


def _number_of_step(s: b.Step) -> str:
    """The number of a step, which leads to itself; a part has none."""
    if not s.number:
        return ""
    if s.anchor:
        return f"<a{attribute('href', '#' + s.anchor)}>{text(s.number)}</a> "
    return f"<b>{text(s.number)}</b> "


def steps_html(x: b.Steps, w: HtmlContext) -> str:
    """Steps and gates in their order."""
    out = []
    for item in x.items:
        if isinstance(item, b.GateBar):
            out.append(
                f"<li class=gate{attribute('id', item.anchor)}><strong>{text(item.title)}</strong>"
                f" {bound(item.text)}"
            )
        else:
            out.append(_step(item, w))
    return f"<ol class=steps>{''.join(out)}</ol>"
