"""When the garbage collector rests, and when it is at work."""

import gc
import weakref

import pytest

from buildbook.basis.collector import collector_at_work, collector_paused, rubbish_collected


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


def test_in_a_quiet_moment_what_was_frozen_is_collected_too() -> None:
    """A ring that nothing holds any more goes, though the collector was told to pass it over."""

    class Ring:
        pass

    ring = Ring()
    ring.own = ring  # type: ignore[attr-defined]
    gone = weakref.ref(ring)
    gc.freeze()
    del ring
    gc.collect()
    assert gone() is not None
    rubbish_collected()

    assert (None, True) == (gone(), gc.get_freeze_count() > 0)
    gc.unfreeze()
