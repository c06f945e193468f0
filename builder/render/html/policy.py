"""What a page may load and run: the one source for pages, headers and the recipes of the README."""

# The same policy stands in every page's head; only a header can forbid others to frame a page.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'"
    " data:; connect-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'"
)
