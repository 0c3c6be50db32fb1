"""PyYAML's parser in plain Python, brought to the answers of the fast one, for systems where that is missing.

It differs from PyYAML's own in two things: a question mark may stand in a text inside brackets, and a tab may stand
between words and at the end of a line.
"""

import yaml

_BREAKS = "\r\n"
_BLANKS = "\0 \t\r\n"
_IN_BRACKETS = ",[]{}"
_HERE = "while scanning a plain scalar"


class PlainParser(yaml.reader.Reader, yaml.scanner.Scanner, yaml.parser.Parser, yaml.composer.Composer):
    """Reads the text of one file; ``get_single_node`` gives its top node."""

    def __init__(self, text: str) -> None:
        yaml.reader.Reader.__init__(self, text)
        yaml.scanner.Scanner.__init__(self)
        yaml.parser.Parser.__init__(self)
        yaml.composer.Composer.__init__(self)

    def scan_to_next_token(self) -> None:
        """Pass over blanks, comments and line ends. A tab may not stand where a field could begin."""
        while True:
            tab_may_stand = self.flow_level or not self.allow_simple_key
            while self.peek() == " " or (tab_may_stand and self.peek() == "\t"):
                self.forward()
            if self.peek() == "#":
                while self.peek() not in _BREAKS + "\0":
                    self.forward()
            if not self._line_break():
                return
            if not self.flow_level:
                self.allow_simple_key = True

    def scan_plain(self) -> yaml.ScalarToken:
        """Read a text without quotes, over as many lines as it has."""
        start = end = self.get_mark()
        indent = self.indent + 1
        pieces: list[str] = []
        gap = ""
        while self.peek() != "#" and not self._is_document_sign():
            length = self._plain_length(start)
            if not length:
                break
            self.allow_simple_key = False
            pieces += [gap, self.prefix(length)]
            self.forward(length)
            end = self.get_mark()
            gap = self._gap(indent, start)
            if not gap or (not self.flow_level and self.column < indent):
                break
        return yaml.ScalarToken("".join(pieces), True, start, end)

    def _plain_length(self, start: yaml.Mark) -> int:
        ends = _BLANKS + (_IN_BRACKETS if self.flow_level else "")
        length = 0
        while True:
            sign = self.peek(length)
            after = self.peek(length + 1) if sign == ":" else ""
            if after and self.flow_level and after in _IN_BRACKETS + "?":
                self.forward(length)
                raise yaml.scanner.ScannerError(_HERE, start, "found unexpected ':'", self.get_mark())
            if sign in ends or (after and after in _BLANKS):
                return length
            length += 1

    def _gap(self, indent: int, start: yaml.Mark) -> str:
        """Read the blanks and line ends inside a text: one line end is a space, more are one fewer line ends."""
        blanks = ""
        breaks = 0
        while self.peek() in " \t" + _BREAKS:
            if self.peek() in _BREAKS:
                self._line_break()
                breaks += 1
                self.allow_simple_key = True
                continue
            if breaks and self.peek() == "\t" and self.column < indent:
                problem = "found a tab character that violates indentation"
                raise yaml.scanner.ScannerError(_HERE, start, problem, self.get_mark())
            blanks += self.peek()
            self.forward()
        if not breaks:
            return blanks
        return "\n" * (breaks - 1) or " "

    def _line_break(self) -> str:
        broken: str = self.scan_line_break()  # type: ignore[no-untyped-call]  # PyYAML's stubs leave it open
        return broken

    def _is_document_sign(self) -> bool:
        return self.column == 0 and self.prefix(3) in ("---", "...") and self.peek(3) in _BLANKS
