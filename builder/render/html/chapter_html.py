"""A piece of a chapter as HTML: what the parser gives, with our own elements for figures, links,
pictures and tables. No address is written that the page did not know.
"""

from collections.abc import Callable, Iterable
from urllib.parse import unquote

from markdown_it.token import Token

from builder.model.guide.markdown_parser import FIGURE, chapter_parser
from builder.model.guide.web_address import is_full_address
from builder.pages import blocks as b
from builder.render.html.escaped import attribute, text
from builder.render.html.inline_html import HtmlContext, inline_pieces
from builder.render.html.markdown import joined_units

DrawPicture = Callable[[b.Picture, HtmlContext], str]
_TABLE = "<div class=scroll role=group aria-label=Table tabindex=0><table>"


def _raw(html: str, *, inline: bool = False) -> Token:
    """HTML of ours, which the renderer writes as it is."""
    token = Token("html_inline" if inline else "html_block", "", 0)
    token.content = html
    return token


def _address(written: str, c: b.ChapterText, w: HtmlContext) -> str:
    """Where a link leads; '' for what leads nowhere."""
    plain = unquote(written)
    there = c.links.get(plain)
    if there is not None:
        return w.href(there)
    return written if is_full_address(plain) else ""


def _children(token: Token, c: b.ChapterText, w: HtmlContext) -> list[Token]:
    """What a line of text is made of. On paper a link leads nowhere, so an address of the web is
    written out behind its words.
    """
    made: list[Token] = []
    begun, address = 0, ""
    for child in token.children or []:
        if child.type == "link_open":
            begun, address = len(made), _address(str(child.attrs.get("href", "")), c, w)
        if child.type == "link_close" and w.paper:
            said = "".join([each.content for each in made[begun:] if each.type == "text"])
            made.append(_raw(_on_paper(said, address), inline=True))
        else:
            made.append(_child(child, c, w, address))
    return made


def _on_paper(said: str, address: str) -> str:
    """What stands behind the words of a link."""
    is_of_the_web = is_full_address(address) and said not in address
    return f" ({text(address)})" if is_of_the_web else ""


def _child(token: Token, c: b.ChapterText, w: HtmlContext, address: str) -> Token:
    if token.type == FIGURE:
        figure = c.figures.get(token.content, b.Number("unknown"))
        return _raw(inline_pieces((figure,), w), inline=True)
    if token.type == "link_open":
        if w.paper:
            return _raw("", inline=True)
        return _raw(f"<a{attribute('href', address)}>" if address else "<a>", inline=True)
    if token.type == "image":  # one in the middle of a text, which no chapter has
        return _raw(text(token.content), inline=True)
    return token


def _alone(token: Token, c: b.ChapterText) -> b.Picture | None:
    """The picture that a paragraph consists of."""
    children = [x for x in token.children or [] if x.type != "softbreak"]
    if len(children) != 1 or children[0].type != "image":
        return None
    return c.pictures.get(unquote(str(children[0].attrs.get("src", ""))))


def _cell(token: Token) -> Token:
    """A cell aligned by a class, for no page has styles of its own."""
    to_the_right = "right" in str(token.attrs.get("style", ""))
    scope = " scope=col" if token.tag == "th" else ""
    return _raw(f"<{token.tag}{scope}{' class=num' if to_the_right else ''}>", inline=True)


def _code(token: Token) -> Token:
    """Lines to be copied as they are; they scroll within their own frame."""
    return _raw(f"<pre tabindex=0><code>{text(token.content)}</code></pre>\n")


def _ours(
    tokens: Iterable[Token], c: b.ChapterText, w: HtmlContext, draw: DrawPicture
) -> list[Token]:
    """The tokens with our elements in place of the parser's."""
    out: list[Token] = []
    for token in tokens:
        if token.type == "inline" and (picture := _alone(token, c)) is not None:
            out[-1] = _raw(draw(picture, w) + "\n")  # in place of the paragraph that was begun
            out.append(_raw(""))
            continue
        if token.type == "paragraph_close" and out[-1].type == "html_block" and not out[-1].content:
            continue
        if token.type == "inline":
            token.children = _children(token, c, w)
        out.append(_block(token))
    return out


def _block(token: Token) -> Token:
    match token.type:
        case "th_open" | "td_open":
            return _cell(token)
        case "fence" | "code_block":
            return _code(token)
        case "table_open":
            return _raw(_TABLE)
        case "table_close":
            return _raw("</table></div>\n")
    return token


def chapter_html(c: b.ChapterText, w: HtmlContext, draw: DrawPicture) -> str:
    """The piece as HTML; `draw` makes a picture as other pages show it."""
    parser = chapter_parser()
    known = {label: {"href": to, "title": title} for label, to, title in c.definitions}
    env: dict[str, object] = {"references": known}
    tokens = _ours(parser.parse(c.text, env), c, w, draw)
    html: str = parser.renderer.render(tokens, parser.options, env)
    return str(joined_units(html))
