"""Names of files: readable, safe on any file system, and never shared by two names."""

import re
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildbook.basis.naming import alike, distinct, file_name, first_alike

SAFE = re.compile(r"[A-Za-z0-9_](?:[A-Za-z0-9._~-]*[A-Za-z0-9_])?").fullmatch
# Microsoft, "Naming Files, Paths, and Namespaces": reserved with any extension.
DEVICES = {"con", "prn", "aux", "nul"} | {
    f"{port}{n}" for port in ("com", "lpt") for n in range(10)
}
NAMES = st.one_of(
    st.text(min_size=1, max_size=120),
    st.text(st.sampled_from("AaBbÄäÖö1-+.~_МмТтИι"), min_size=1, max_size=6),
    st.sampled_from(sorted(DEVICES)).map(lambda name: f"{name}.1"),
)


@pytest.mark.parametrize("name", ["M-01", "b_2", "prop-11x45-cw", "1.5", "B" * 80, "CONE"])
def test_a_plain_name_is_its_own(name: str) -> None:
    """Addresses of plain tags stay as they were."""
    assert name == file_name(name)


@pytest.mark.parametrize(
    ("readable", "name"),
    [
        ("A-1", "Ä-1"),
        ("O-1", "Ö-1"),
        ("Motor", "Мотор"),
        ("Vint", "Винт"),
        ("B-plus-1", "B+1"),
        ("strasse", "straße"),
        ("Oe", "Œ"),
        ("x", "電池"),
        ("CON", "CON"),
        ("nul-1", "nul.1"),
        ("C" * 40, "C" * 81),
    ],
)
def test_any_other_name_is_spelt_in_plain_letters(readable: str, name: str) -> None:
    """Transliterated where it can be, with a short digest after the tilde."""
    found = file_name(name)
    assert readable == found.partition("~")[0]
    assert re.fullmatch("[a-z2-7]{8}", found.partition("~")[2])


@given(NAMES)
def test_a_name_is_safe_everywhere(name: str) -> None:
    """No percent sign in a link, no device of Windows, no dot at the end, not too long."""
    found = file_name(name)
    assert SAFE(found)
    assert len(found) <= 80
    assert found.partition(".")[0].lower() not in DEVICES
    assert found == unicodedata.normalize("NFC", found) == unicodedata.normalize("NFD", found)


@given(st.lists(NAMES, max_size=40))
def test_no_two_names_share_a_file(names: list[str]) -> None:
    """Names that differ in more than capitals and accents' storage differ in any file system."""
    apart = {alike(name): name for name in names}.values()
    assert len(apart) == len({file_name(name).lower() for name in apart})


def test_names_that_are_one_on_a_memory_stick() -> None:
    """Capitals, and an accent of its own against one on its letter."""
    names = ("B-1", "b-1", "C", "\u00c4", "A\u0308")
    assert [("B-1", "b-1"), ("\u00c4", "A\u0308")] == list(first_alike(names))


def test_what_wants_one_name_gets_its_own() -> None:
    """Only the two that clash get a digest."""
    found = distinct({"a/x#1": "x-1", "b/x#1": "X-1", "c/y#1": "y-1"})
    assert "y-1" == found["c/y#1"]
    assert 3 == len({name.lower() for name in found.values()})
    assert all(found[key].partition("~")[2] for key in ("a/x#1", "b/x#1"))
