"""Settings and firmware in force."""

from buildbook.hangar.drafts import Draft, Moment
from buildbook.hangar.touching import EVERYTHING, Touch, happen, named, stations_of
from buildbook.records.entries import Firmware, Setting
from buildbook.report.history import InForce


def set_to(draft: Draft, moment: Moment, entry: Setting) -> None:
    """``setting``: by name and by what it is of; the last one written is in force."""
    aircraft = draft.home(entry)
    if aircraft is None:
        return
    touch = EVERYTHING if entry.of is None else named(draft, aircraft, (entry.of,))
    for name, value in entry.settings.items():
        in_force = InForce(
            seq=moment.seq,
            on=moment.on,
            uid=moment.uid,
            place=entry.place(f"setting.{name}"),
            name=name,
            value=value,
            of=entry.of,
            because=entry.because,
        )
        aircraft.settings[entry.of, name] = in_force
        aircraft.setting_log.append(in_force)
        happen(draft, moment, aircraft, "setting", name, touch)


def load_firmware(draft: Draft, moment: Moment, entry: Firmware) -> None:
    """``firmware``: by tag, with the item wherever it goes; an event on the aircraft it sits on."""
    for tag, version in entry.versions.items():
        item = draft.used(moment, tag, entry.place(f"firmware.{tag}"), entry.aircraft)
        if item is None:
            continue
        item.firmware = version
        carrier = None if item.aircraft is None else draft.aircraft[item.aircraft]
        stations = stations_of(draft, carrier, tag)
        if carrier is not None:
            carrier.firmware = None
        happen(draft, moment, carrier, "firmware", item.spec.kind, Touch(stations, (tag,)))
