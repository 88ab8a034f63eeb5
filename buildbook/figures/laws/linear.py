"""Small dense linear algebra on tuples: rank, solution, vector at right angles. No numpy.

Matrices here have 4 rows and as many columns as there are rotors.
"""

from collections.abc import Sequence

Row = tuple[float, ...]
Matrix = tuple[Row, ...]

RANK_TOLERANCE = 1e-9  # of the largest element, after rows are scaled to 1


def scaled_rows(matrix: Sequence[Sequence[float]]) -> list[list[float]]:
    """The rows divided by their largest element, so that N and N·m weigh alike; 0 stays 0."""
    rows = []
    for row in matrix:
        largest = max((abs(value) for value in row), default=0.0)
        rows.append([value / largest if largest > 0 else 0.0 for value in row])
    return rows


def matrix_rank(matrix: Sequence[Sequence[float]]) -> int:
    """Number of independent rows. matrix: m rows of n values.

    Source: Gaussian elimination with full pivoting.
    """
    rows = scaled_rows(matrix)
    rank = 0
    while rank < len(rows):
        size, at, column = max(
            (abs(rows[i][j]), i, j) for i in range(rank, len(rows)) for j in range(len(rows[0]))
        )
        if size < RANK_TOLERANCE:
            break
        rows[rank], rows[at] = rows[at], rows[rank]
        pivot = rows[rank]
        for other in range(rank + 1, len(rows)):
            factor = rows[other][column] / pivot[column]
            rows[other] = [b - factor * p for b, p in zip(rows[other], pivot, strict=True)]
            rows[other][column] = 0.0
        rank += 1
    return rank


def determinant(matrix: Sequence[Sequence[float]]) -> float:
    """Determinant of n rows of n values. Source: elimination with partial pivoting."""
    rows = [list(row) for row in matrix]
    result = 1.0
    for column in range(len(rows)):
        at = max(range(column, len(rows)), key=lambda index: abs(rows[index][column]))
        if rows[at][column] == 0.0:
            return 0.0
        if at != column:
            rows[column], rows[at] = rows[at], rows[column]
            result = -result
        pivot = rows[column]
        result *= pivot[column]
        for other in range(column + 1, len(rows)):
            factor = rows[other][column] / pivot[column]
            rows[other] = [b - factor * p for b, p in zip(rows[other], pivot, strict=True)]
    return result


def solved(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> Row:
    """x of matrix · x = right. matrix: n rows of n values, of full rank; right: n values.

    ValueError: the matrix has no inverse. Source: Cramer's rule, exact enough for four rows.
    """
    whole = determinant(matrix)
    if whole == 0.0:
        raise ValueError("the matrix must have an inverse, got determinant 0")
    result = []
    for column in range(len(matrix)):
        swapped = [
            [right[i] if j == column else value for j, value in enumerate(row)]
            for i, row in enumerate(matrix)
        ]
        result.append(determinant(swapped) / whole)
    return tuple(result)


def right_angled(first: Row, second: Row, third: Row) -> Row | None:
    """Unit vector in four dimensions at right angles to three others; None if they leave several.

    Source: the generalised cross product.
    """
    values = []
    for left_out in range(4):
        minor = [
            [value for axis, value in enumerate(vector) if axis != left_out]
            for vector in (first, second, third)
        ]
        values.append((-1) ** left_out * determinant(minor))
    length = sum(value * value for value in values) ** 0.5
    sizes = [sum(value * value for value in vector) ** 0.5 for vector in (first, second, third)]
    if length <= RANK_TOLERANCE * sizes[0] * sizes[1] * sizes[2]:
        return None
    return tuple(value / length for value in values)
