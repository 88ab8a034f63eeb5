"""Control surfaces as a table."""

from buildbook.records.surfaces import Surface
from buildbook.words.surfaces import surface_rows


def test_a_column_without_values_is_left_out_and_an_empty_cell_says_so():
    """What nobody wrote is not shown as nothing."""
    surfaces = {
        "elevator": Surface(up="12 mm", down="10 mm", chord_m=0.04),
        "rudder": Surface(left="20°", right="20°"),
        "flap": Surface(servos=("S-1",)),
    }

    assert surface_rows(surfaces) == (
        ("surface", "throw", "hinge to trailing edge"),
        (
            ("elevator", "up 12 mm, down 10 mm", "40 mm"),
            ("rudder", "left 20°, right 20°", "not recorded"),
            ("flap", "not recorded", "not recorded"),
        ),
    )
