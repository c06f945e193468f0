"""JSON within a script: what JSON allows and a script does not is escaped."""


def in_script(text: str) -> str:
    """JSON text in which `<` and the two line separators are escapes."""
    for letter in "<\u2028\u2029":
        text = text.replace(letter, f"\\u{ord(letter):04x}")
    return text
