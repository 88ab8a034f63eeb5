"""What the public may see, type by type. What isn't named here is private.

A name followed by a switch in ``SWITCHED`` is copied only where the keeper turned that switch of
``share:`` on. Prices, serial numbers, registrations, coordinates, clock times and free notes have
no switch: they are in no list. Classes after section 6 of the record rules of this project.
"""

from collections.abc import Mapping

from buildbook.records import ledger
from buildbook.report import figure, history, snapshots, state
from buildbook.report import reports as asked
from buildbook.report import work as row

_SAME = ("seq", "on", "uid")

ALLOWED: Mapping[type, tuple[str, ...]] = {
    ledger.Ledger: (
        "keeper",
        "specs",
        "items",
        "aircraft",
        "programmes",
        "write_ups",
        "photos",
        "notices",
    ),
    ledger.WriteUp: ("text",),
    # the hangar
    history.FlightDone: (
        *_SAME,
        "aircraft",
        "row",
        "row_index",
        "gains",
        "volts",
        "temperature_k",
        "payload_kg",
        "where",
        "preflight",
        "purpose",
        "result",
        "motor_run_s",
        "timing",
        "firmware",
    ),
    history.Event: (*_SAME, "event", "subject", "aircraft", "stations", "tags", "everything"),
    history.CheckDone: (
        *_SAME,
        "check",
        "aircraft",
        "result",
        "readings",
        "stations",
        "surface",
        "taught",
        "by",
        "checked_by",
    ),
    history.TaskDone: (*_SAME, "task", "aircraft", "tags", "result", "by", "checked_by"),
    history.ChargeDone: (
        *_SAME,
        "pack",
        "put_in_ah",
        "resistance_ohm",
        "resting_v",
        "temperature_k",
        "to",
        "packs_together",
    ),
    history.CapacityDone: (
        *_SAME,
        "pack",
        "measured_ah",
        "current_a",
        "temperature_k",
        "down_to_v",
        "charges",
        "cycles",
    ),
    history.Weighing: (
        *_SAME,
        "mass_kg",
        "pack",
        "without",
        "cg_m",
        "scales_kg",
        "fitted",
        "alterations_kg",
    ),
    history.MassChange: (*_SAME, "words", "mass_kg", "at"),
    history.InForce: (*_SAME, "name", "value", "of"),
    history.GainSet: (*_SAME, "name", "values", "base"),
    history.GainsPeriod: (*_SAME, "name", "until", "until_seq"),
    history.GainsVerdict: (*_SAME, "name", "words"),
    history.DefectState: (
        *_SAME,
        "defect",
        "aircraft",
        "open",
        "cleared_on",
        "cleared_uid",
        "cleared_seq",
        "flights_since",
        "duration_since_s",
    ),
    history.IncidentDone: (
        *_SAME,
        "aircraft",
        "severity",
        "incident",
        "flight_uid",
        "stations",
        "tags",
    ),
    history.RepairDone: (*_SAME, "aircraft", "repair", "after_uid"),
    history.Stay: (
        "aircraft",
        "station",
        "kind",
        "since",
        "since_seq",
        "until",
        "until_seq",
        "duration_s",
        "flights",
    ),
    history.StateSince: ("state", "on"),
    history.LogLine: (
        "seq",
        "entry",
        "stands",
        "words_on",
        "corrected_later",
        "total_s",
        "total_flights",
    ),
    state.Fitted: ("tag", "station", "kind", "since", "since_seq"),
    state.Counters: state.Counters.__struct_fields__,
    state.ItemNow: (
        "tag",
        "item",
        "spec",
        "state",
        "fitted",
        "aircraft",
        "stays",
        "counters",
        "firmware",
        "inspections",
        "defects",
        "flights",
        "flown_on",
        "charges",
        "capacities",
    ),
    state.AircraftNow: tuple(
        name for name in state.AircraftNow.__struct_fields__ if name not in ("places", "tally")
    ),
    snapshots.Snapshot: snapshots.Snapshot.__struct_fields__,
    state.Hangar: ("as_of", "ledger", "aircraft", "items", "store_log", "left_out"),
    # upkeep: words come from the programme and from parts of ``because``, not from entries
    row.Because: ("why", "unit", "trigger", "entry", "on", "tag", "station", "detail"),
    row.Row: (
        "aircraft",
        "kind",
        "name",
        "tag",
        "station",
        "state",
        "first_by",
        "left",
        "due_on",
        "expected",
        "because",
        "what",
        "grounds",
        "counted_from",
        "done_on",
        "done_uid",
        "by",
        "checked_by",
        "readings",
        "rule",
        "usual",
        "looser",
        "unknown",
        "rank",
    ),
    row.Reason: ("what", "rank", "grounding", "because", "row"),
    row.Standing: ("slug", "name", "state", "reasons", "rows", "programme"),
    row.PackStanding: ("tag", "state", "reasons", "rows"),
    row.WorkList: ("as_of", "aircraft", "packs", "rows"),
    asked.EntryName: ("uid",),
    # figures
    figure.Input: ("name", "value", "unit", "basis"),
    figure.Table: ("columns", "rows"),
    figure.Sensitivity: ("input", "share_per_percent"),
    figure.Figure: figure.Figure.__struct_fields__,
    figure.CannotSay: ("name", "of", "because"),
    figure.Answers: ("figures", "cannot_say"),
}

SWITCHED: Mapping[tuple[type, str], str] = {
    (ledger.Ledger, "photos"): "photos",
    (history.FlightDone, "where"): "places",
}

OWNER_FIGURES = frozenset(("operating_cost",))
"""Figures that are made of prices: no switch shows them."""

SWITCHED_FIGURES: Mapping[tuple[str, str], str] = {("failure_rate", "cause "): "incidents"}
"""Figures by name and how their ``of`` begins, shown only where that switch of ``share:`` is on."""
