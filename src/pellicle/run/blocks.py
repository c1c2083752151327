"""Linear algebra of the stepper: LU of a block-tridiagonal matrix whose block size is known when compiling.

No pivoting: the matrix is that of an implicit step of diffusion, and scaling its rows or columns changes nothing.
"""

from __future__ import annotations

from typing import Any

BEFORE, OWN, AFTER = 0, 1, 2


def fold(fields: Any, blocks: Any, by_memory: Any, by_state: Any, memory: Any, inverse: float, matrix: Any) -> None:
    """Fill ``matrix`` with ``inverse`` I minus the blocks, the memory of each node folded into its columns."""
    many = len(fields)
    count = blocks.shape[0]
    for i in range(count):
        for b in range(3):
            for r in range(many):
                for v in range(many):
                    matrix[i, b, r, v] = -blocks[i, b, r, v]
        for r in range(many):
            matrix[i, OWN, r, r] += inverse
    for i in range(count):
        if memory[i, 0] != 0.0:
            follows = memory[i, 0] / (inverse - memory[i, 1])
            for v in range(many):
                by = follows * by_state[i, 0, v]
                for r in range(many):
                    matrix[i, OWN, r, v] -= by_memory[i, OWN, r] * by
                    if i > 0:
                        matrix[i - 1, AFTER, r, v] -= by_memory[i, BEFORE, r] * by
                    if i + 1 < count:
                        matrix[i + 1, BEFORE, r, v] -= by_memory[i, AFTER, r] * by


def factor(fields: Any, matrix: Any) -> bool:
    """Factor in place: unit lower blocks BEFORE and LU of OWN; False where a pivot vanishes or is no number."""
    many = len(fields)
    count = matrix.shape[0]
    for i in range(count):
        if i > 0:
            # BEFORE becomes L = B U^-1 Lo^-1 with the factors of the node before, row by row
            for r in range(many):
                for v in range(many):
                    total = matrix[i, BEFORE, r, v]
                    for k in range(v):
                        total -= matrix[i, BEFORE, r, k] * matrix[i - 1, OWN, k, v]
                    matrix[i, BEFORE, r, v] = total * matrix[i - 1, OWN, v, v]
            for r in range(many):
                for v in range(many - 2, -1, -1):
                    total = matrix[i, BEFORE, r, v]
                    for k in range(v + 1, many):
                        total -= matrix[i, BEFORE, r, k] * matrix[i - 1, OWN, k, v]
                    matrix[i, BEFORE, r, v] = total
            for r in range(many):
                for k in range(many):
                    by = matrix[i, BEFORE, r, k]
                    for v in range(many):
                        matrix[i, OWN, r, v] -= by * matrix[i - 1, AFTER, k, v]
        for k in range(many):
            pivot = matrix[i, OWN, k, k]
            if not abs(pivot) > 0.0:
                return False
            inverse = 1.0 / pivot
            matrix[i, OWN, k, k] = inverse
            for r in range(k + 1, many):
                by = matrix[i, OWN, r, k] * inverse
                matrix[i, OWN, r, k] = by
                for v in range(k + 1, many):
                    matrix[i, OWN, r, v] -= by * matrix[i, OWN, k, v]
    return True


def solve(fields: Any, matrix: Any, right: Any) -> None:
    """Replace ``right`` (n, f) by the solution; the pivots are kept inverted."""
    many = len(fields)
    count = matrix.shape[0]
    for i in range(count):
        if i > 0:
            for r in range(many):
                total = right[i, r]
                for v in range(many):
                    total -= matrix[i, BEFORE, r, v] * right[i - 1, v]
                right[i, r] = total
    for i in range(count - 1, -1, -1):
        if i + 1 < count:
            for r in range(many):
                total = right[i, r]
                for v in range(many):
                    total -= matrix[i, AFTER, r, v] * right[i + 1, v]
                right[i, r] = total
        for r in range(many):
            total = right[i, r]
            for k in range(r):
                total -= matrix[i, OWN, r, k] * right[i, k]
            right[i, r] = total
        for r in range(many - 1, -1, -1):
            total = right[i, r]
            for v in range(r + 1, many):
                total -= matrix[i, OWN, r, v] * right[i, v]
            right[i, r] = total * matrix[i, OWN, r, r]


COMPILABLE = (fold, factor, solve)
