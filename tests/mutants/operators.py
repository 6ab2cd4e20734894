"""Small mistakes that a hand makes: a bound the wrong way round, a sign, a word left out."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

_COMPARED: dict[type[ast.cmpop], str] = {
    ast.Lt: "<=", ast.LtE: "<", ast.Gt: ">=", ast.GtE: ">", ast.Eq: "!=", ast.NotEq: "==",
    ast.In: "not in", ast.NotIn: "in", ast.Is: "is not", ast.IsNot: "is",
}  # fmt: skip
_WORKED: dict[type[ast.operator], str] = {
    ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*",
}  # fmt: skip


@dataclass(frozen=True)
class Mutant:
    """One mistake.

    Attributes:
        path: Of the file, below the tree's top.
        line: Where it is, from 1.
        start: Offset in the file's text at which the text that is replaced begins.
        before: That text.
        after: What takes its place.
        function: The function it is in.
    """

    path: str
    line: int
    start: int
    before: str
    after: str
    function: str

    @property
    def key(self) -> str:
        """What names it however the file moves: function, mistake, and the text about it."""
        return f"{self.path}::{self.function}: {self.before} -> {self.after}"

    def applied(self, text: str) -> str:
        """The file's text with the mistake in it."""
        end = self.start + len(self.before)
        assert text[self.start : end] == self.before
        return text[: self.start] + self.after + text[end:]


def mutants_of(top: Path, path: Path) -> Iterator[Mutant]:
    """Every mistake that the operators make in a file, in the order of its lines."""
    text = path.read_text(encoding="utf-8")
    tree = ast.parse(text)
    starts = [0]
    for row in text.splitlines(keepends=True):
        starts.append(starts[-1] + len(row))
    name = str(path.relative_to(top))
    for function, node in _nodes(tree):
        for piece, after in _mistakes(node):
            first = starts[piece.lineno - 1] + piece.col_offset
            last = starts[(piece.end_lineno or 0) - 1] + (piece.end_col_offset or 0)
            before = text[first:last]
            if text.isascii():  # columns count bytes
                yield Mutant(name, piece.lineno, first, before, after(before), function)


def _nodes(tree: ast.Module) -> Iterator[tuple[str, ast.AST]]:
    """The nodes inside functions, without the messages that they raise."""
    for function in ast.walk(tree):
        if isinstance(function, ast.FunctionDef):
            for statement in function.body:
                yield from ((function.name, node) for node in _walk(statement))


def _walk(node: ast.AST) -> Iterator[ast.AST]:
    if isinstance(node, ast.FunctionDef | ast.ClassDef | ast.Raise | ast.Assert | ast.JoinedStr):
        return
    yield node
    for child in ast.iter_child_nodes(node):
        yield from _walk(child)


class _Text:
    """The text of a mistake, made of the text it replaces."""

    def __init__(self, after: str) -> None:
        self._after = after

    def __call__(self, before: str) -> str:
        return self._after.replace("{}", before)


def _mistakes(node: ast.AST) -> Iterator[tuple[ast.expr | ast.stmt, _Text]]:
    if isinstance(node, ast.Compare) and len(node.ops) == 1:
        left, right = ast.unparse(node.left), ast.unparse(node.comparators[0])
        yield node, _Text(f"({left} {_COMPARED[type(node.ops[0])]} {right})")
    elif isinstance(node, ast.BinOp) and type(node.op) in _WORKED and not _is_text(node):
        left, right = ast.unparse(node.left), ast.unparse(node.right)
        yield node, _Text(f"(({left}) {_WORKED[type(node.op)]} ({right}))")
    elif isinstance(node, ast.BoolOp):
        other = " or " if isinstance(node.op, ast.And) else " and "
        yield node, _Text("(" + other.join(f"({ast.unparse(v)})" for v in node.values) + ")")
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node, _Text(f"({ast.unparse(node.operand)})")
    elif isinstance(node, ast.Constant) and type(node.value) in (int, float):
        yield node, _Text("({} + 1)")
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield node, _Text(str(not node.value))
    elif (isinstance(node, ast.Expr) and isinstance(node.value, ast.Call)) or isinstance(
        node, ast.Continue | ast.Break
    ):
        yield node, _Text("pass")


def _is_text(node: ast.BinOp) -> bool:
    sides = (node.left, node.right)
    return any(
        isinstance(side, ast.JoinedStr)
        or (isinstance(side, ast.Constant) and isinstance(side.value, str))
        for side in sides
    )


def _is_call(node: ast.AST) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Call)
