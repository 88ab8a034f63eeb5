"""Cells that name their column."""

from buildbook.pages.theme import labelled


def test_each_data_cell_names_its_column() -> None:
    """The heading of a row stays bare."""
    row = '<tr><th scope="row">P-01</th><td>full</td><td class="num">96 %</td></tr>'

    assert labelled(row, ("pack", "charge", "health")) == (
        '<tr><th scope="row">P-01</th><td data-label="charge">full</td>'
        '<td class="num" data-label="health">96 %</td></tr>'
    )


def test_a_heading_of_several_rows_keeps_its_column() -> None:
    """Rows below it have a cell less, and still name the right columns."""
    rows = '<tr><th rowspan="2">nose</th><td>ESC</td></tr>\n<tr><td>servo</td></tr>'

    assert labelled(rows, ("station", "kind")) == (
        '<tr><th rowspan="2">nose</th><td data-label="kind">ESC</td></tr>\n'
        '<tr><td data-label="kind">servo</td></tr>'
    )


def test_names_of_columns_are_escaped() -> None:
    """A name with a quotation mark ends no attribute."""
    assert 'data-label="a &#34;b&#34; &amp; c"' in labelled(
        "<tr><th>x</th><td>1</td></tr>", ("", 'a "b" & c')
    )


def test_an_empty_cell_names_no_column() -> None:
    """It is left out on a phone, and its name with it."""
    row = "<tr><th>P-01</th><td></td><td>97 %</td></tr>"

    assert labelled(row, ("pack", "charge", "health")) == (
        '<tr><th>P-01</th><td></td><td data-label="health">97 %</td></tr>'
    )
