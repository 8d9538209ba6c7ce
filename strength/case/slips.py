"""What a slip of the pen in a case file most likely is: the parser only tells where it stopped."""

import re

# (what the parser says or the line looks like, what to do); the first that fits is told
_CURLY = re.compile("[\u201c\u201d\u201e\u2018\u2019]")
_TWICE = re.compile(r"Cannot (?:declare|mutate|overwrite)|[Dd]uplicate")
_LAST_COMMA = re.compile(r",\s*\}")
_NAMED = re.compile(r"\s*([\w.-]+(?:[ ,]+[\w.-]+)+)\s*=")
_BARE = re.compile(r"=\s*([^\s\"'\[{,}][^\s,}#]*(?: [^\s,}#]+)*)\s*(?:[,}#]|$)")
_PLAIN = re.compile(r"true|false|[-+]?[0-9]+(?:\.[0-9]+)?")


def advice(why: str, line: str) -> str:
    """What to do about a line that cannot be read; empty where nothing fits.

    why: the parser's own words.

    >>> advice("Expected newline", "cup = 30 mm  # from the ball")
    'what has a unit and what is a name stands in quotes: "30 mm"'
    """
    bare = _without_texts(line)
    if _CURLY.search(bare):
        return "write straight quotes, \" or ', not curly ones"
    if bare.count('"') or bare.count("'"):
        return "a quote is missing: a text begins and ends with one, on the same line"
    if _TWICE.search(why):
        return "this stands twice in the file: put the lines of both under the first, or rename one"
    if _LAST_COMMA.search(bare):
        return "leave out the comma before the }"
    if bare.count("{") > bare.count("}"):
        return "what begins with { ends with }, on the same line"
    if "=" not in bare and ":" in bare:
        return "write = between a name and its value, not :"
    if match := _NAMED.match(bare):
        return f'a name with a space or a comma stands in quotes: "{match[1].strip()}" = ...'
    for match in _BARE.finditer(bare):
        if not _PLAIN.fullmatch(match[1]):
            return f'what has a unit and what is a name stands in quotes: "{match[1]}"'
    return ""


def _without_texts(line: str) -> str:
    """The line without its whole texts in quotes and its comment; a quote left alone stays.

    >>> _without_texts("a = {b = 'c # d', e = f} # g")
    'a = {b = , e = f}'
    """
    rest = re.sub(r"\"[^\"]*\"|'[^']*'", "", line)
    return rest if "'" in rest.split("#")[0] or '"' in rest.split("#")[0] else rest.split("#")[0].rstrip()
