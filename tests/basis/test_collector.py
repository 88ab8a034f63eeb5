"""When the garbage collector rests, and when it is at work."""

import gc

import pytest

from buildbook.basis.collector import collector_at_work, collector_paused


def test_the_collector_is_on_again_after_reading() -> None:
    """Also after an exception."""

    def fail() -> None:
        with collector_paused():
            assert not gc.isenabled()
            raise KeyError

    assert gc.isenabled()
    with pytest.raises(KeyError):
        fail()
    assert gc.isenabled()


def test_where_the_collector_works_it_passes_over_what_was_there_before() -> None:
    """Until the end of it, or an exception: nothing is kept from it for good."""

    def fail() -> None:
        with collector_at_work():
            assert gc.isenabled()
            assert gc.get_freeze_count() > before
            raise KeyError

    before = gc.get_freeze_count()
    with pytest.raises(KeyError):
        fail()
    assert 0 == gc.get_freeze_count()
    assert gc.isenabled()


def test_a_collector_that_was_off_is_off_again_after_its_work() -> None:
    """As in a process of the program's own."""
    with collector_paused():
        with collector_at_work():
            assert gc.isenabled()
        assert not gc.isenabled()
