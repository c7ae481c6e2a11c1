"""Text into expression trees: a small Pratt parser (Pratt 1973, top down operator precedence).

How tightly things bind, loosest first: relations, + and −, × and ÷ (and a number before a
bracket), the minus that makes an opposite, the fraction slash. Two whole numbers with a slash
are one number: `12 ÷ 3/4` divides by three fourths.
"""

from __future__ import annotations

from contextlib import suppress

from narrate.errors import ExactError
from narrate.exact._scanner import GLYPHS, Token, scan
from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
    Frac,
    Group,
    Mixed,
    Neg,
    Op,
    Operation,
    Over,
    Relation,
    RelationSign,
    Whole,
    Writing,
    has_blank,
    value,
)

MAX_NESTING = 20

_SUM, _PRODUCT, _OPPOSITE, _FRACTION = 10, 20, 25, 30
_BINDS = {"+": _SUM, "−": _SUM, "×": _PRODUCT, "÷": _PRODUCT}


def parse(text: str) -> Writing:
    """The expression or relation a text writes. Raises ExactError with the column of the fault."""
    return _Parser(text).writing()


def parse_expr(text: str) -> Expr:
    """The expression a text writes; a relation is an ExactError."""
    parser = _Parser(text)
    tree = parser.writing()
    if isinstance(tree, Relation):
        sign = next(token for token in parser.read if token.kind == "relation")
        raise ExactError(f"a number or expression was expected, without '{sign.text}'", sign.column)
    return tree


def parse_start(text: str) -> tuple[Writing, int] | None:
    """The longest start of a text that is an expression or relation, with its length.

    None where no start is one, or it divides by zero. The text is read at most twice, however it is
    written.
    """
    parser = _Parser(text)
    with suppress(ExactError):
        parser.writing()
    end = parser.complete_to
    with suppress(ExactError):
        return (parse(text[:end]), end) if end else None
    return None


class _Parser:
    """One reading of one text: tokens are scanned as they are needed, into `read`.

    `complete_to` is how far the text is a complete expression or relation.
    """

    def __init__(self, text: str) -> None:
        self.coming = scan(text)
        self.read: list[Token] = []
        self.at = 0
        self.complete_to = 0
        self.brackets = 0
        self.nesting = 0

    # -- tokens

    @property
    def next(self) -> Token:
        return self.token(self.at)

    def token(self, at: int) -> Token:
        while len(self.read) <= at:
            self.read.append(next(self.coming))
        return self.read[at]

    def take(self) -> Token:
        token = self.next
        self.at += 1
        return token

    def is_fraction(self, at: int) -> bool:
        """Whether whole number, slash, whole number stand at `at`."""
        kinds = ("whole", "slash", "whole")
        return all(self.token(at + i).kind == kind for i, kind in enumerate(kinds))

    # -- rules

    def writing(self) -> Writing:
        sides = [self.expression(0)]
        sign = self.next
        while self.next.kind == "relation":
            if self.take().text != sign.text:
                self.at -= 1
                raise ExactError(
                    f"'{self.next.text}' can't follow '{sign.text}' in one line", self.next.column
                )
            sides.append(self.expression(0))
        if self.next.kind != "end":
            raise self.misplaced()
        return Relation(_relation(sign.text), tuple(sides)) if len(sides) > 1 else sides[0]

    def expression(self, binding: int) -> Expr:
        """An expression whose signs all bind tighter than `binding`."""
        left = self.operand()
        self.mark()
        while self.binds() > binding:
            left = self.extended(left)
            self.mark()
        return left

    def mark(self) -> None:
        if self.brackets == 0:
            self.complete_to = self.read[self.at - 1].end

    def binds(self) -> int:
        token = self.next
        if token.kind == "open" and not token.spaced:
            return _PRODUCT  # 3(4 + 1)
        return _FRACTION if token.kind == "slash" else _BINDS.get(token.text, 0)

    def extended(self, left: Expr) -> Expr:
        """`left` joined by the next sign to what follows it."""
        if self.next.kind == "open":
            right = self.expression(_PRODUCT)
            return Op("×", left, right, close=has_blank(right))
        sign = self.take()
        column = self.next.column
        if sign.kind == "slash":
            return _fraction(left, self.operand(bare=True), column)
        right = self.expression(_BINDS[sign.text])
        if sign.text == "÷":
            _refuse_zero(right, "the divisor is zero", column)
        return Op(_operation(sign.text), left, right)

    def operand(self, *, bare: bool = False) -> Expr:
        """A number, blank, bracket or opposite; below a slash `bare`: no fraction of its own."""
        token = self.next
        match token.kind:
            case "whole":
                return Whole(int(self.take().text)) if bare else self.number()
            case "decimal":
                whole, places = self.take().text.split(".")
                return Decimal(whole or "0", places)
            case "glyph":
                return Frac(*GLYPHS[self.take().text])
            case "blank":
                return Blank(self.take().text)
            case "open":
                return self.group()
            case "sign" if token.text == "−":
                return self.opposite(bare=bare)
            case _:
                raise self.missing()

    def number(self) -> Expr:
        """A fraction, mixed number or whole number."""
        if self.is_fraction(self.at):
            return Frac(*self.fraction())
        whole = int(self.take().text)
        if self.is_fraction(self.at):
            return Mixed(whole, *self.fraction())
        if self.next.kind == "glyph":
            return Mixed(whole, *GLYPHS[self.take().text])
        return Whole(whole)

    def fraction(self) -> tuple[int, int]:
        top, _, bottom = self.take(), self.take(), self.take()
        if int(bottom.text) == 0:
            raise ExactError("the denominator is zero", bottom.column)
        return int(top.text), int(bottom.text)

    def group(self) -> Expr:
        opening = self.take()
        self.deeper(opening)
        self.brackets += 1
        inner = self.expression(0)
        if self.next.kind != "close":
            raise ExactError(
                f"a closing bracket was expected for '(' in column {opening.column}",
                self.next.column,
            )
        self.take()
        self.brackets -= 1
        self.nesting -= 1
        return Group(inner)

    def opposite(self, *, bare: bool) -> Expr:
        self.deeper(self.take())
        inner = self.operand(bare=True) if bare else self.expression(_OPPOSITE)
        self.nesting -= 1
        return Neg(inner)

    def deeper(self, token: Token) -> None:
        self.nesting += 1
        if self.nesting > MAX_NESTING:
            raise ExactError(f"brackets are nested more than {MAX_NESTING} deep", token.column)

    # -- faults

    def missing(self) -> ExactError:
        """Something other than an operand stands where one must be."""
        if self.at:
            place = f" after '{self.read[self.at - 1].text}'"
        elif self.next.kind == "end":
            place = ", but there is none"
        else:
            place = f" before '{self.next.text}'"
        return ExactError(f"a number or expression was expected{place}", self.next.column)

    def misplaced(self) -> ExactError:
        """Something stands after a whole expression that doesn't go on from it."""
        token = self.next
        if token.kind == "close":
            return ExactError("')' has no opening bracket", token.column)
        return ExactError(f"an operation sign was expected before '{token.text}'", token.column)


def _fraction(top: Expr, bottom: Expr, column: int) -> Expr:
    top, bottom = _opened(top), _opened(bottom)
    _refuse_zero(bottom, "the denominator is zero", column)
    if isinstance(top, Whole) and isinstance(bottom, Whole):
        return Frac(top.number, bottom.number)
    return Over(top, bottom)


def _opened(tree: Expr) -> Expr:
    while isinstance(tree, Group):
        tree = tree.inner
    return tree


def _refuse_zero(tree: Expr, message: str, column: int) -> None:
    if not has_blank(tree) and value(tree) == 0:
        raise ExactError(message, column)


def _operation(text: str) -> Operation:
    return text  # type: ignore[return-value]  # the scanner lets no other sign through


def _relation(text: str) -> RelationSign:
    return text  # type: ignore[return-value]  # the scanner lets no other sign through
