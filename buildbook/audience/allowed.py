"""What the public may see, type by type. What isn't named here is private.

A name followed by a switch in ``SWITCHED`` is copied only where the keeper turned that switch of
``share:`` on. Prices, serial numbers, registrations, coordinates, clock times and free notes have
no switch: they are in no list. Classes after section 6 of the record rules of this project.
"""

from collections.abc import Mapping

from buildbook.basis import counting
from buildbook.records import aircraft, entries, keeper, ledger, notices, parts, programmes
from buildbook.report import figure, history, state
from buildbook.report import reports as asked
from buildbook.report import work as row

_SAME = ("seq", "on", "uid")
_ENTRY = ("id", "on", "index", "aircraft", "by", "checked_by")

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
    aircraft.Aircraft: (
        "slug",
        "aircraft",
        "kind",
        "layout",
        "status",
        "in_service",
        "carried",
        "programme",
        "diagonal_m",
        "stations",
        "receiver",
        "radio",
        "wiring",
        "sundries",
        "positions",
        "wing",
        "bounds",
    ),
    aircraft.StationPlan: ("spin", "output", "at"),
    aircraft.Run: ("start", "end", "wire", "length_m", "plug"),
    aircraft.Sundry: ("what", "mass_kg", "at"),
    aircraft.Radio: ("memory", "mode", "reversed", "throttle_cut", "failsafe", "switches"),
    aircraft.Wing: ("area_m2", "span_m", "mean_chord_m", "leading_edge_m", "max_lift_coefficient"),
    aircraft.Bounds: (
        "max_mass_kg",
        "forward_cg_share",
        "aft_cg_share",
        "forward_cg_m",
        "aft_cg_m",
    ),
    # programmes as written
    programmes.Programme: (
        "name",
        "based_on",
        "built_in",
        "checks",
        "tasks",
        "life_limits",
        "drop",
    ),
    programmes.Trigger: ("event", "subject"),
    programmes.Follows: ("after", "flights"),
    counting.Interval: counting.Interval.__struct_fields__,
    programmes.CheckRule: tuple(
        name
        for name in programmes.CheckRule.__struct_fields__
        if name not in ("file", "line", "lines", "public")
    ),
    programmes.TaskRule: tuple(
        name
        for name in programmes.TaskRule.__struct_fields__
        if name not in ("file", "line", "lines", "public")
    ),
    programmes.LimitRule: tuple(
        name
        for name in programmes.LimitRule.__struct_fields__
        if name not in ("file", "line", "lines", "public")
    ),
    notices.Notice: (
        "notice",
        "specs",
        "what",
        "issued",
        "revision",
        "source",
        "link",
        "every",
        "grounds",
    ),
    # entries as written
    entries.Slot: ("station", "kind", "tags"),
    entries.FlightRow: ("duration_s", "packs", "used_ah", "landing"),
    entries.Volts: ("before_v", "lowest_v", "after_v"),
    entries.Until: ("on", "flights", "duration_s"),
    entries.Fit: (*_ENTRY, "slots", "instead_of", "serves"),
    entries.Remove: (*_ENTRY, "tags", "state"),
    entries.StateChange: (*_ENTRY, "states"),
    entries.Flight: (
        *_ENTRY,
        "rows",
        "volts",
        "temperature_k",
        "payload_kg",
        "where",
        "preflight",
        "purpose",
        "result",
        "motor_run_s",
        "timing",
        "gains",
    ),
    entries.Charge: (
        *_ENTRY,
        "packs",
        "put_in_ah",
        "resistance_ohm",
        "resting_v",
        "temperature_k",
        "to",
    ),
    entries.Capacity: (*_ENTRY, "pack", "measured_ah", "current_a", "temperature_k", "down_to_v"),
    entries.Check: (*_ENTRY, "checks", "result", "readings", "stations", "surface", "taught"),
    entries.Setting: (*_ENTRY, "settings", "of"),
    entries.Gains: (*_ENTRY, "name", "values", "base"),
    entries.Verdict: (*_ENTRY, "verdicts"),
    entries.Weigh: (*_ENTRY, "mass_kg", "pack", "without", "cg_m", "scales_kg"),
    entries.Incident: (*_ENTRY, "words", "severity", "touched", "cause"),
    entries.Repair: (*_ENTRY, "words", "touched"),
    entries.Inspection: (*_ENTRY, "tasks", "tags", "result"),
    entries.Defect: (*_ENTRY, "words", "item", "station", "severity", "deferred_until"),
    entries.Cleared: (*_ENTRY, "target"),
    entries.Firmware: (*_ENTRY, "versions"),
    entries.Alteration: (
        *_ENTRY,
        "words",
        "keys",
        "stations",
        "receiver",
        "radio",
        "wiring",
        "positions",
        "sundries",
        "bounds",
        "status",
        "mass_kg",
        "at",
    ),
    entries.Transport: (*_ENTRY,),
    entries.Water: (*_ENTRY,),
    entries.Note: (*_ENTRY,),
    entries.Correction: (*_ENTRY, "original", "becomes", "changed"),
    entries.Void: (*_ENTRY, "original"),
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
    (entries.Flight, "where"): "places",
    (history.FlightDone, "where"): "places",
    (entries.Incident, "words"): "incidents",
    (entries.Incident, "cause"): "incidents",
    (entries.Defect, "words"): "incidents",
}

OWNER_FIGURES = frozenset(("operating_cost",))
"""Figures that are made of prices: no switch shows them."""

SWITCHED_FIGURES: Mapping[tuple[str, str], str] = {("failure_rate", "cause "): "incidents"}
"""Figures by name and how their ``of`` begins, shown only where that switch of ``share:`` is on."""

PRIVATE_WORDS: Mapping[tuple[type, str], str] = {
    (keeper.Keeper, "keeper"): "the name of the keeper",
    (parts.Item, "serial"): "the serial number of an item",
    (aircraft.Aircraft, "registration"): "the registration of an aircraft",
}
"""Values that may not stand in any public text either, whoever wrote them there."""
