"""Look for a word in all that a site holds, in whatever dress it stands there."""

import base64
import html
import io
import re
import urllib.parse
import zipfile
import zlib
from collections.abc import Iterator, Mapping

_CANARY = re.compile(rb"zq[0-9a-z]{1,40}?xw|[0-9]{4}\.37")
_BASE64 = re.compile(rb"[A-Za-z0-9+/_-]{16,}={0,2}")


def haystacks(files: Mapping[str, bytes]) -> Iterator[tuple[str, bytes]]:
    """Each file by its address: its name, its bytes, and what these say once they are read.

    References resolved, percent signs decoded, base64 decoded, archives and packed text of
    pictures unpacked; all in lower case.
    """
    for address, content in files.items():
        yield f"name of {address}", urllib.parse.unquote(address).lower().encode()
        for how, dress in _dresses(address, content):
            yield f"{address} ({how})", dress.lower()


def _dresses(address: str, content: bytes) -> Iterator[tuple[str, bytes]]:
    yield "raw", content
    if content[:4] == b"PK\x03\x04":
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            for name in archive.namelist():
                yield f"archived {name}", name.encode() + b"\n" + archive.read(name)
    if content[:2] == b"\x1f\x8b":
        yield "gzip", zlib.decompress(content, 31)
    if content[:4] == b"\x89PNG":
        yield from _packed_texts(content)
    elif not address.endswith((".jpg", ".jpeg", ".webp")):
        text = content.decode("utf-8", "ignore")
        yield "references", html.unescape(html.unescape(text)).encode()
        yield "percent", urllib.parse.unquote_plus(text).encode()
        yield "escapes", re.sub(r"\\u([0-9a-fA-F]{4})", _sign, text).encode()
    for shift in range(4):
        for found in _BASE64.findall(content):
            yield "base64", _decoded(found[shift:])


def _sign(found: re.Match[str]) -> str:
    return chr(int(found.group(1), 16))


def _packed_texts(png: bytes) -> Iterator[tuple[str, bytes]]:
    at = 8
    while at + 8 <= len(png):
        size, kind = int.from_bytes(png[at : at + 4]), png[at + 4 : at + 8]
        data = png[at + 8 : at + 8 + size]
        if kind in (b"zTXt", b"iTXt", b"tEXt"):
            yield "text of a picture", data
            for start in range(len(data)):
                if data[start : start + 1] == b"\x78":
                    try:
                        yield "packed text of a picture", zlib.decompress(data[start:])
                    except zlib.error:
                        continue
        at += 12 + size


def _decoded(text: bytes) -> bytes:
    plain = text.rstrip(b"=").replace(b"-", b"+").replace(b"_", b"/")
    plain = plain[: len(plain) // 4 * 4]
    return base64.b64decode(plain)


def sightings(words: Mapping[str, str], files: Mapping[str, bytes]) -> list[str]:
    """Where any of the words stands; the values say what each word is.

    Words have the form of a canary, ``Zq1flightXw`` or ``1301.37``.
    """
    assert all(_CANARY.fullmatch(word.lower().encode()) for word in words)
    named = {word.lower(): what for word, what in words.items()}
    return sorted(
        {
            f"{named[found.decode()]} in {where}"
            for where, dress in haystacks(files)
            for found in _CANARY.findall(dress)
            if found.decode() in named
        }
    )
