"""Readings that ask for a look."""

import pytest
from programmes import on, programme, rows, told, work
from written_logs import Log, aircraft

PLANE = aircraft("a", programme="club", kind="aeroplane", layout="aeroplane")


@pytest.mark.parametrize(
    ("cells", "expected"),
    [
        ((3.84, 3.82, 3.85, 3.84), []),
        ((3.84, 3.81, 3.85, 3.84), ["40 mV"]),
        ((4.20,), []),
    ],
)
def test_D15_cells_at_rest_more_than_30_mv_apart(
    cells: tuple[float, ...], expected: list[str]
) -> None:
    """Common practice, no source: a spread of 0.03 V is ok, 0.04 V is not; in whole mV."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.charge("01-02", "P-1", resting_v=cells)

    listed = work([log], [programme()], items=["P-1"], fleet=[PLANE])

    found = rows(listed, "cell-voltages")
    assert expected == [row.because.detail["found"] for row in found]


def test_a_signal_names_what_to_look_at_until_somebody_did() -> None:
    """Or until the cells lie together again."""
    log = Log("aircraft/a")
    log.flight("01-01", packs="P-1")
    log.charge("01-02", "P-1", resting_v=(3.84, 3.80))

    listed = work([log], [programme()], items=["P-1"], fleet=[PLANE])
    assert (
        "due soon",
        ["cell-voltages of P-1 is due: cells 40 mV apart at rest, more than 30 mV"],
    ) == (listed.packs[0].state, told(listed.packs[0]))
    assert "nothing open" == on(listed, "a").state

    log.inspection("01-03", "cell-voltages", "P-1")
    assert "nothing open" == work([log], [programme()], items=["P-1"], fleet=[PLANE]).packs[0].state

    log.charge("01-04", "P-1", resting_v=(3.84, 3.80))
    assert "due soon" == work([log], [programme()], items=["P-1"], fleet=[PLANE]).packs[0].state

    log.charge("01-05", "P-1", resting_v=(3.84, 3.83))
    assert "nothing open" == work([log], [programme()], items=["P-1"], fleet=[PLANE]).packs[0].state
