"""Seeded damage to the files of a hangar: what slips of a hand or a disk do to them."""

import datetime
import random
import re
from collections.abc import Callable
from pathlib import Path

Damage = Callable[[bytes, random.Random], bytes]

ODD = [
    *("", "~", "null", "[]", "{}", "[[]]", "{a: b}", "- x", "0", "-1", "1e999", "nan", "inf"),
    *("-0", "0 g", "1e-300 g", "99999999999999999999", "true", "no", "on", "12:60", "1:30"),
    *("7:20", "0:00", "2026-02-30", "0000-00-00", "1950-01-01", "2199-12-31"),
    *("2026-03-01T25:00", "2026-03-01 9:00", "10x4.5", "0x0", "3S", "0S", "2S-1S", "28S99P"),
    *("25C", "16 AWG", "40 AWG", "14.50 EUR", "ida", "crash", "hard", "pass", "fail", "P-01"),
    *("M-01", "R-01..R-99", "front-left", "nowhere", "pack", "[0, 0, 0]", "[1 m, 1 m]"),
    *("{on: 1}", "'", '"', "&a", "*a", "!!x", "|", ">", "? a", "# c", "%", "é", "\u202e", "٣"),
    *("𝟛", "a" * 300, "x: y: z", "[", "{", "]", "}", ",", "---", "...", "\t", "<script>"),
    *("{{ x }}", "../../x", "100 %", "-5 %", "1000 %", "-40 °C", "0 K", "24 h", "1 s"),
]
_VALUE = re.compile(rb"(?<=: )[^,{}\[\]\n]+")
_KEY = re.compile(rb"[a-z_]+(?=: )")


def flipped(data: bytes, chance: random.Random) -> bytes:
    """Some bytes are others."""
    changed = bytearray(data)
    for _ in range(chance.choice((1, 1, 2, 5, 20))):
        changed[chance.randrange(len(changed))] = chance.randrange(256)
    return bytes(changed)


def cut(data: bytes, chance: random.Random) -> bytes:
    """The end is missing, or a piece from the middle."""
    at = chance.randrange(len(data))
    return data[:at] if chance.random() < 0.5 else data[:at] + data[at + chance.randrange(200) :]


def _lines(change: Callable[[list[bytes], int, random.Random], None]) -> Damage:
    def damaged(data: bytes, chance: random.Random) -> bytes:
        lines = data.split(b"\n")
        for _ in range(chance.choice((1, 1, 1, 3))):
            change(lines, chance.randrange(len(lines)), chance)
            if not lines:
                break
        return b"\n".join(lines)

    return damaged


def _delete(lines: list[bytes], at: int, _chance: random.Random) -> None:
    del lines[at]


def _double(lines: list[bytes], at: int, chance: random.Random) -> None:
    lines.insert(chance.randrange(len(lines)), lines[at])


def _indent(lines: list[bytes], at: int, chance: random.Random) -> None:
    lines[at] = chance.choice((b"  ", b" ", b"\t", b"    - ")) + lines[at]


def _outdent(lines: list[bytes], at: int, _chance: random.Random) -> None:
    lines[at] = lines[at].lstrip()


def _swap(lines: list[bytes], at: int, chance: random.Random) -> None:
    other = chance.randrange(len(lines))
    lines[at], lines[other] = lines[other], lines[at]


def _join(lines: list[bytes], at: int, _chance: random.Random) -> None:
    lines[at : at + 2] = [b" ".join(lines[at : at + 2])]


def odd_values(data: bytes, chance: random.Random) -> bytes:
    """Values are others, odd ones or those of other keys."""
    found = list(_VALUE.finditer(data))
    for _ in range(chance.choice((1, 1, 2, 4))):
        if not found:
            return data
        one = chance.choice(found)
        other = chance.choice(found).group() if chance.random() < 0.5 else None
        put = other if other is not None else chance.choice(ODD).encode()
        data = data[: one.start()] + put + data[one.end() :]
        found = list(_VALUE.finditer(data))
    return data


def odd_keys(data: bytes, chance: random.Random) -> bytes:
    """A key is another of the file."""
    found = list(_KEY.finditer(data))
    if not found:
        return data
    one, other = chance.choice(found), chance.choice(found)
    return data[: one.start()] + other.group() + data[one.end() :]


_NUMBER = re.compile(rb"(?<![\w.-])\d+(?:\.\d+)?(?![\w-]*[.:]?\d)")
_DAY = re.compile(rb"20\d\d-\d\d-\d\d")
_PAIR = re.compile(rb"([a-z_]+): ([^,{}\[\]\n]+)")


def borrowed(data: bytes, chance: random.Random) -> bytes:
    """A value is another one of the same key: what still reads well, and is wrong."""
    for _ in range(chance.choice((1, 2, 5))):
        pairs = list(_PAIR.finditer(data))
        if not pairs:
            return data
        one = chance.choice(pairs)
        other = chance.choice([pair for pair in pairs if pair[1] == one[1]])
        data = data[: one.start(2)] + other[2] + data[one.end(2) :]
    return data


def other_numbers(data: bytes, chance: random.Random) -> bytes:
    """Numbers are larger, smaller, nothing or one."""
    for _ in range(chance.choice((1, 2, 5, 20))):
        found = list(_NUMBER.finditer(data))
        if not found:
            return data
        one = chance.choice(found)
        value = float(one.group()) * chance.choice((0, 0.01, 0.1, 0.5, 0.99, 1.01, 2, 10, 100))
        data = data[: one.start()] + f"{value:.6g}".encode() + data[one.end() :]
    return data


def other_days(data: bytes, chance: random.Random) -> bytes:
    """Days lie some days, months or years off."""
    for _ in range(chance.choice((1, 2, 5, 20))):
        found = list(_DAY.finditer(data))
        if not found:
            return data
        one = chance.choice(found)
        day = datetime.date.fromisoformat(one.group().decode())
        away = datetime.timedelta(days=chance.choice((-400, -40, -1, 1, 2, 40, 400, 4000)))
        data = data[: one.start()] + (day + away).isoformat().encode() + data[one.end() :]
    return data


def entries_gone(data: bytes, chance: random.Random) -> bytes:
    """Some members of the list at the top are missing, or stand elsewhere."""
    members = re.split(rb"(?m)^(?=- )", data)
    for _ in range(chance.choice((1, 3, 10, 30))):
        if len(members) > 2:
            member = members.pop(chance.randrange(1, len(members)))
            if chance.random() < 0.5:
                members.insert(chance.randrange(1, len(members) + 1), member)
    return b"".join(members)


DAMAGES: dict[str, Damage] = {
    "flipped": flipped,
    "cut": cut,
    "deleted": _lines(_delete),
    "doubled": _lines(_double),
    "indented": _lines(_indent),
    "outdented": _lines(_outdent),
    "swapped": _lines(_swap),
    "joined": _lines(_join),
    "odd values": odd_values,
    "odd keys": odd_keys,
    "borrowed": borrowed,
    "numbers": other_numbers,
    "days": other_days,
    "entries": entries_gone,
}
WEIGHTS = {"odd values": 4, "odd keys": 2, "borrowed": 6, "numbers": 6, "days": 4, "entries": 4}


def damage(folder: Path, seed: str) -> str:
    """Damage one to three files of a hangar; gives what was done, so that it can be repeated."""
    chance = random.Random(seed)
    files = sorted(
        path
        for path in folder.rglob("*")
        if path.suffix in (".yaml", ".csv", ".md") and path.is_file()
    )
    names = list(DAMAGES)
    weights = [WEIGHTS.get(name, 1) for name in names]
    done = []
    for _ in range(chance.choice((1, 1, 2, 3))):
        path = chance.choice(files)
        name = chance.choices(names, weights)[0]
        data = path.read_bytes()
        if data:
            path.write_bytes(DAMAGES[name](data, chance))
            done.append(f"{name} {path.relative_to(folder).as_posix()}")
    return ", ".join(done)
