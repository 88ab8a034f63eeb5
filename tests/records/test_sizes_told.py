"""What is too long is told with the limit, at its line."""

from small_hangar import WriteHangar

from buildbook.records.reading.read import read_hangar


def told(write_hangar: WriteHangar, path: str, text: str) -> list[str]:
    """The problems of the small hangar with one file replaced."""
    problems = read_hangar(write_hangar({path: text}), None).problems
    return [f"{one} ({one.hint})" for one in problems if one.severity == "problem"]


def test_a_text_without_end(write_hangar: WriteHangar) -> None:
    """20,000 characters are a text, one more is not."""
    path = "aircraft/sedge/logbook.yaml"
    assert [] == told(write_hangar, path, f"- on: 2026-02-01\n  note: {'x' * 20_000}\n")
    reason = f"text of 20,001 characters, more than 20,000 @ {path}:2"
    assert [f"{reason} (a long text belongs in the write-up)"] == told(
        write_hangar, path, f"- on: 2026-02-01\n  note: {'x' * 20_001}\n"
    )


def test_a_link_without_end(write_hangar: WriteHangar) -> None:
    """2,000 characters are a link."""
    link = f"https://parts.example.org/{'x' * 1_974}"
    spec = "- {spec: x, kind: other, link: LINK}\n"
    path = "parts/specs/more.yaml"
    assert [] == told(write_hangar, path, spec.replace("LINK", link))
    (line,) = told(write_hangar, path, spec.replace("LINK", f"{link}x"))
    assert line.endswith(f"' is not a link @ {path}:1 (write https://…, http://… or mailto:…)")


def test_a_folder_of_an_aircraft_with_a_long_name(write_hangar: WriteHangar) -> None:
    """Names of files are made from it; 80 characters are a name."""
    aircraft = "aircraft: Rush\nkind: multirotor\nlayout: quad-x\n"
    assert [] == told(write_hangar, f"aircraft/{'a' * 80}/aircraft.yaml", aircraft)
    (line,) = told(write_hangar, f"aircraft/{'b' * 81}/aircraft.yaml", aircraft)
    assert line.endswith("(use a-z, 0-9 and hyphens, at most 80)")
