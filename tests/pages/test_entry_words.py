"""Each kind of entry in one line, as its keeper reads it and as the public does."""

from typing import get_args

from buildbook.records.entries import AnyEntry
from buildbook.words.logbook.entries import LINES, NOUNS, entry_kind, entry_line

LOG = """\
- on: 2026-02-01
  fit: {front-left: {motor: M-1, esc: E-1}, centre: {propeller: R-3}}
- on: 2026-02-01
  fit: {front-right: {motor: M-2}, rear-right: {motor: M-3}, rear-left: {motor: M-4, esc: E-2},
        tail: {esc: E-3}}
- on: 2026-02-02
  remove: [R-3]
  because: nick
- on: 2026-02-03
  calibration: spin-directions
  result: pass
  stations: [front-left]
- on: 2026-02-03
  inspection: screws
  result: fail
  findings: Two loose
- on: 2026-02-04
  flight: 7:20
  pack: P-1
  landing: hard
  purpose: check
  result: pass
- on: 2026-02-05
  flights: [[6:00, P-1], [6:30, P-2]]
- on: 2026-02-05
  setting: {start_throttle: 12 %}
  of: front-left
- on: 2026-02-06
  gains: soft
  values: {roll: {p: 38}}
- on: 2026-02-07
  gains: firm
  from: soft
  values: {roll: {p: 40}}
- on: 2026-02-08
  gains: soft
- on: 2026-02-08
  verdict: {firm: nervous}
- on: 2026-02-09
  weigh: 1030 g
  pack: P-1
- on: 2026-02-10
  defect: Crack in the rear arm
  id: crack
- on: 2026-02-11
  cleared: crack
  how: new arm
- on: 2026-02-12
  transport: To the coast and back
- on: 2026-02-13
  corrects: 2026-02-04-1
  set: {landing: normal}
  because: it was soft
"""

OWNER = [
    ("fit", "fitted M-1 and E-1 at front-left; R-3 at centre"),
    ("fit", "fitted 5 items at 4 stations"),
    ("removal", "took out R-3: nick"),
    ("calibration", "spin directions at front-left: pass"),
    ("inspection", "screws: fail. Two loose"),
    ("flight", "7 min 20 s with P-1, hard landing, check flight: pass"),
    ("flights", "2 flights, 12 min 30 s with P-1 and P-2"),
    ("setting", "start throttle 12 % of front-left"),
    ("gain set", "now soft"),
    ("gain set", "now firm, from soft"),
    ("gain set", "back to soft"),
    ("verdict", "of firm: nervous"),
    ("weighing", "1030 g on the scales with P-1"),
    ("defect", "Crack in the rear arm"),
    ("cleared", "defect cleared: new arm"),
    ("transport", "To the coast and back"),
    ("correction", "corrects an earlier entry: it was soft"),
]


def lines(reports):
    """Kind and line of each entry of the aircraft, oldest first."""
    return [
        (entry_kind(line.entry), entry_line(line.entry))
        for line in reports.hangar.aircraft["sedge"].log
    ]


def test_each_kind_is_told_in_one_line(open_changed):
    """As the owner reads it."""
    assert OWNER == lines(open_changed({"aircraft/sedge/logbook.yaml": LOG}))


def test_the_public_line_says_what_is_not_shared(open_changed):
    """No reason, finding or incident word; the facts stay."""
    public = lines(open_changed({"aircraft/sedge/logbook.yaml": LOG}, "public"))

    assert ("removal", "took out R-3") == public[2]
    assert ("inspection", "screws: fail") == public[4]
    assert ("defect", "details not shared") == public[13]
    assert ("cleared", "defect cleared") == public[14]
    assert ("transport", "transported") == public[15]
    assert ("correction", "corrects an earlier entry") == public[16]


def test_every_kind_of_entry_has_its_words():
    """A new kind without a line would break the logbook."""
    kinds = set(get_args(AnyEntry))

    assert set() == set(NOUNS) - kinds
    assert set() == {kind for kind in kinds if "words" not in kind.__struct_fields__} - set(LINES)
