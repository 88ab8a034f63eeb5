"""Texts made at random: ones that betray their keeper, dressed up, and innocent ones of the trade.

Invented values in the usual notations: telephone numbers are of the ranges that the regulators of
the United Kingdom and North America keep free for drama, hosts are those of RFC 2606.
"""

import html
import random
from collections.abc import Callable

from tests.audience.betraying import (
    CODE,
    COORDINATES,
    DAY,
    GRID,
    MAIL,
    MAP,
    NETWORK,
    OPERATOR,
    PATH,
    PRICE,
    SECRET,
    TELEPHONE,
)

Chance = random.Random
Make = Callable[[Chance], str]
Dress = Callable[[str, Chance], str]

MONTHS = "January February March April May June July August September October November December"
WORDS = "the wing sat well rotor thistle after tape on a long lead while grass was wet"
OPEN_CODE = "23456789CFGHJMPQRVWX"  # of the published specification of open location codes


def _degrees(chance: Chance) -> tuple[float, float]:
    return chance.uniform(-89, 89), chance.uniform(-179, 179)


def coordinates(chance: Chance) -> str:
    """A place on earth in one of the usual notations."""
    lat, lon = _degrees(chance)
    north, east = "S" if lat < 0 else "N", "W" if lon < 0 else "E"
    minutes = [(int(abs(v)), abs(v) % 1 * 60) for v in (lat, lon)]
    (d1, m1), (d2, m2) = minutes
    s1, s2 = int(m1 % 1 * 60), int(m2 % 1 * 60)
    places = chance.randint(4, 7)
    return chance.choice(
        (
            f"{lat:.{places}f}, {lon:.{places}f}",
            f"{lat:.{places}f},{lon:.{places}f}",
            f"{lat:.{places}f} {lon:.{places}f}",
            f"{lat:.{places}f} / {lon:.{places}f}",
            f"{abs(lat):.{places}f}{north} {abs(lon):.{places}f}{east}",
            f"{north} {abs(lat):.{places}f} {east} {abs(lon):.{places}f}",
            f"{abs(lat):.{places}f}° {north}, {abs(lon):.{places}f}° {east}",
            f"lat {lat:.{places}f}, lon {lon:.{places}f}",
            f"latitude: {lat:.{places}f}",
            f"{abs(lat):.5f}; {abs(lon):.5f}".replace(".", ","),
            f"{d1}°{int(m1)}'{s1}\"{north} {d2}°{int(m2)}'{s2}\"{east}",
            f"{north} {d1}° {m1:.3f}' {east} {d2}° {m2:.3f}'",
            f"{north}{d1} {m1:.3f} {east}{d2:03d} {m2:.3f}",
        )
    )


def map_link(chance: Chance) -> str:
    """A link that leads to a place."""
    lat, lon = _degrees(chance)
    return chance.choice(
        (
            f"https://map.example.org/@{lat:.4f},{lon:.4f},17z",
            f"https://www.example.org/x?ll={lat:.5f}%2C{lon:.5f}",
            f"https://maps.example.com/?q={lat:.5f}+{lon:.5f}",
            f"https://example.net/#map=16/{lat:.4f}/{lon:.4f}",
            f"geo:{lat:.4f},{lon:.4f}",
        )
    )


def location_code(chance: Chance) -> str:
    """An open location code of eight signs and two or three."""
    signs = [chance.choice(OPEN_CODE) for _ in range(8 + chance.choice((2, 3)))]
    signs[chance.randrange(8)] = chance.choice("CFGHJMPQRVWX")
    signs[chance.randrange(4)] = chance.choice("23456789")
    return "".join(signs[:8]) + "+" + "".join(signs[8:])


def grid(chance: Chance) -> str:
    """A place on one of the grids."""
    north, east = chance.randint(5_000_000, 5_900_000), chance.randint(200_000, 800_000)
    zone = f"{chance.randint(1, 60)}{chance.choice('CDEFGHJKLMNPQRSTUVWX')}"
    square = chance.choice("ABCDEFGHJKLMNPQRSTUVWXYZ") + chance.choice("ABCDEFGHJKLMNPQRSTUV")
    sheet = chance.choice("HNOST") + chance.choice("ABCDEFGHJKLMNOPQRSTUVWXYZ")
    digits = chance.randint(3, 5)
    one, other = (f"{chance.randrange(10**digits):0{digits}d}" for _ in range(2))
    return chance.choice(
        (
            f"{zone} {square} {one} {other}",
            f"{zone}{square}{one}{other}",
            f"{zone} {east} {north}",
            f"{sheet} {one} {other}",
            f"{sheet}{one}{other}",
            f"2{chance.randint(480_000, 830_000)} / 1{chance.randint(75_000, 295_000):06d}",
            f"{chance.randint(2, 5)}{east} {north}",
        )
    )


def secret(chance: Chance) -> str:
    """A secret with its name before it."""
    value = "".join(chance.choice("abcdefghjkmnp23456789") for _ in range(chance.randint(4, 12)))
    name = chance.choice(
        ("password", "passphrase", "bind phrase", "ssid", "WiFi password", "wpa key", "psk")
    )
    shouted = chance.choice((name, name.title(), name.upper()))
    return shouted + chance.choice((": ", " = ", " is ", "=")) + value


def network(chance: Chance) -> str:
    """A MAC address."""
    sign = chance.choice(":-")
    digits = chance.choice(("0123456789abcdef", "0123456789ABCDEF"))
    pairs = ["".join(chance.choice(digits) for _ in range(2)) for _ in range(6)]
    return sign.join(pairs)


def operator(chance: Chance) -> str:
    """The shape of an operator number: three capitals, thirteen signs with a digit."""
    state = "".join(chance.choice("ABCDEFGHIJKLMNOPQRSTUVWXYZ") for _ in range(3))
    rest = "".join(chance.choice("abcdefghijklmnopqrstuvwxyz0123456789") for _ in range(12))
    return state + rest + chance.choice("0123456789")


def mail(chance: Chance) -> str:
    """An e-mail address, plain or spelt out."""
    who = chance.choice(("ida", "ida.quill", "i.quill+rc", "quill_77"))
    host, top = chance.choice(("example", "mail.example", "rc-shed.example")), "org"
    return chance.choice(
        (f"{who}@{host}.{top}", f"{who} [at] {host}.{top}", f"mailto:{who}@{host}.{top}")
    )


def telephone(chance: Chance) -> str:
    """A telephone number of a range for drama."""
    last = f"{chance.randrange(1000):03d}"
    short = f"{chance.randrange(100):02d}"
    return chance.choice(
        (
            f"+44 1632 960{last}",
            f"+44 (0)1632 960 {last}",
            f"0044 1632 960{last}",
            f"01632 960{last}",
            f"(01632) 960 {last}",
            f"01632/960{last}",
            f"01632960{last}",
            f"+1 555 010 01{short}",
            f"555-010-01{short}",
            f"(555) 010-01{short}",
            f"call me on 1632960{last}",
        )
    )


def path(chance: Chance) -> str:
    """A path of a file with a user's name."""
    return chance.choice(
        (
            "/home/ida/logs/x.csv",
            "/Users/quill/x.csv",
            "C:\\Users\\ida\\x.csv",
            "D:/Users/quill/log",
            "file:///home/quill/a",
            "/mnt/c/Users/ida/x",
        )
    )


def price(chance: Chance) -> str:
    """An amount of money."""
    whole, part = chance.randint(1, 900), f"{chance.randrange(100):02d}"
    return chance.choice(
        (
            f"{whole}.{part} EUR",
            f"EUR {whole}.{part}",
            f"{whole},{part} €",
            f"€{whole}",
            f"${whole}.{part}",
            f"£ {whole}",
            f"{whole} dollars",
            f"{whole} euros",
            f"{whole}.{part} CHF",
            f"SEK {whole}",
        )
    )


def exact_day(chance: Chance) -> str:
    """A day of a month of a year."""
    day, month, year = chance.randint(1, 28), chance.randint(1, 12), chance.randint(2019, 2029)
    name = MONTHS.split()[month - 1]
    return chance.choice(
        (
            f"{year}-{month:02d}-{day:02d}",
            f"{year}/{month:02d}/{day:02d}",
            f"{day} {name} {year}",
            f"{name} {day}, {year}",
            f"{day}th of {name}",
            f"{day}.{month}.{year}",
            f"{month:02d}/{day:02d}/{year}",
        )
    )


SUBJECTS: dict[str, Make] = {
    COORDINATES: coordinates,
    MAP: map_link,
    GRID: grid,
    CODE: location_code,
    SECRET: secret,
    NETWORK: network,
    OPERATOR: operator,
    MAIL: mail,
    TELEPHONE: telephone,
    PATH: path,
    PRICE: price,
    DAY: exact_day,
}
"""How each subject is made, by the reason that is told of it."""


def _wide(text: str, chance: Chance) -> str:
    return "".join(
        chr(ord(sign) + 0xFEE0) if sign.isdigit() and chance.random() < 0.5 else sign
        for sign in text
    )


def _dashed(text: str, chance: Chance) -> str:
    return text.replace("-", chance.choice("‐‑–−"))


def _spaced(text: str, chance: Chance) -> str:
    other = chance.choice(("\u00a0", "  ", "\u202f", "\n", "\n    ", "\u2009", " \t"))
    return text.replace(" ", other)


def _unseen(text: str, chance: Chance) -> str:
    sign = chance.choice("\u200b\u200c\u200d\u2060\u00ad\ufe0f\u034f")
    at = chance.randrange(len(text) + 1)
    return text[:at] + sign + text[at:]


def _references(text: str, chance: Chance) -> str:
    named = {"\u00a0": "&nbsp;", "\u00ad": "&shy;", "\u200c": "&zwnj;", "€": "&euro;"}

    def said(sign: str) -> str:
        if sign in " \n\t" or chance.random() < 0.6:
            return sign
        number = ord(sign)
        return named.get(sign) or chance.choice((f"&#{number};", f"&#x{number:x};"))

    return "".join(said(sign) for sign in text)


def _escaped(text: str, chance: Chance) -> str:
    if "\\" in text or "://" in text:
        return text
    signs = "_-.+#()[]:"
    return "".join(f"\\{s}" if s in signs and chance.random() < 0.5 else s for s in text)


def _marked(text: str, chance: Chance) -> str:
    mark = chance.choice(("**", "*", "`", "~~", "__", "_"))
    return f"{mark}{text}{mark}"


def _tagged(text: str, chance: Chance) -> str:
    tag = chance.choice(("b", "em", "span", "code"))
    return f"<{tag}>{text}</{tag}>"


def _linked(text: str, _chance: Chance) -> str:
    none = set("[]\n") & set(html.unescape(text))
    return text if none else f"[{text}](https://example.org/a)"


def _word(dress: Dress) -> Dress:
    def dressed(text: str, chance: Chance) -> str:
        words = text.split(" ")
        at = chance.randrange(len(words))
        words[at] = dress(words[at], chance)
        return " ".join(words)

    return dressed


DRESSINGS: tuple[tuple[Dress, ...], ...] = (
    (_wide,),
    (_dashed,),
    (_spaced,),
    (_unseen,),
    (_references, _escaped),
    (_marked, _tagged, _linked, _word(_marked), _word(_tagged), _word(_linked)),
)
"""One of each at most, in this order: a reference that is dressed again would be none."""

FRAMES = (
    *("{}", "It was {} all along.", "({})", "so: {}", "- {}", "> {}", "## {}", "{}.", "{}; then"),
    *("| a | {} |", '"{}"', "see {}, or not", "[{}](https://example.org/a)", "“{}”", "1. {}"),
    *("![{}](arm.jpg)", "Note:\n{}\n\nMore.", "{}\n", "\t{}", "<p>{}</p>", "— {} —", "**so** {}"),
)


def _neighbour(chance: Chance) -> str:
    return " ".join(chance.choice(WORDS.split()) for _ in range(chance.randint(1, 6)))


def dressed(text: str, chance: Chance) -> str:
    """The same for a reader of the page, in other signs; sometimes as it is."""
    for choices in DRESSINGS:
        if chance.random() < 0.3:
            text = chance.choice(choices)(text, chance)
    return text


def betraying(chance: Chance) -> tuple[str, str]:
    """A reason, and a text that betrays for it, in some dressings and among neighbours."""
    reason = chance.choice(list(SUBJECTS))
    text = dressed(SUBJECTS[reason](chance), chance)
    text = chance.choice(FRAMES).format(text)
    if chance.random() < 0.5:
        text = f"{_neighbour(chance)} {text}"
    if chance.random() < 0.5:
        text = f"{text} {_neighbour(chance)}"
    return reason, text


def innocent(chance: Chance) -> str:
    """Some words of the trade that tell nobody anything."""
    number, small = chance.randint(1, 2000), chance.randint(1, 12)
    cell = chance.uniform(3.2, 4.2)
    month = chance.choice(MONTHS.split())
    said = (
        f"{cell * 4:.2f} V at {number / 100:.1f} A",
        f"cells {cell:.3f}, {cell + 0.004:.3f}, {cell - 0.003:.3f} V",
        f"firmware {small}.{chance.randint(0, 9)}.{chance.randint(0, 20)}",
        f"gains {number % 90}/{small}/{number % 7}",
        f"{small}x{chance.choice((3, 4.5, 6))} propeller at {number} g",
        f"{chance.randint(3, 9)}:{chance.randint(0, 59):02d} and a {small} min hover",
        f"{small}S {number} mAh {small * 5}C",
        f"{number} rpm/V, {small * 2} AWG, M{small} x {number % 30}",
        f"channels 1-{small}, 1000-2000 us",
        f"in {month} 20{chance.randint(20, 29)}",
        f"20{chance.randint(20, 29)}-{small:02d}",
        f"{number / 10:.1f} mm apart, {small * 3} % throttle",
        f"P-{small:02d} and M-{small + 1:02d}, R-01..R-{small:02d}",
        f"tilted {small}° up and {number % 40}° left",
        f"{2 + small / 5:.1f} GHz at {number % 800} mW",
        f"resting {cell:.2f}, {cell:.2f}, {cell:.2f}, {cell:.2f}",
        f"thrust {number / 1000:.3f} kg, {number / 102:.2f} N",
        f"{number % 40} °C and {900 + number % 120} hPa",
        f"UART {small}, timer {small + 2}, pad {number % 20}",
    )
    joiner = chance.choice((", ", "; ", ". Then ", "\n", " and "))
    texts = chance.sample(said, chance.randint(1, 4))
    mixed = [f"{_neighbour(chance)} {text}" if chance.random() < 0.6 else text for text in texts]
    return joiner.join(mixed)
