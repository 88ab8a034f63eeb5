"""The pictures of the README can be taken anew by the command that the documents show."""

from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser

from . import preview


def test_pictures_are_taken_and_light(
    browser: Browser, owner_site: Path, tmp_path: Path, monkeypatch
):
    """Both have the size that the README needs and few colours, under 150 kB (our own bar)."""
    monkeypatch.setattr(preview, "PREVIEW", tmp_path)
    preview.keep(preview.hangar(browser, owner_site), "hangar.png")
    preview.keep(preview.layout(browser, owner_site), "layout.png")
    front, drawing = tmp_path / "hangar.png", tmp_path / "layout.png"

    with Image.open(front) as desk, Image.open(drawing) as alone:
        assert (1280, 900) == desk.size
        assert 600 < alone.size[0]
    assert 150_000 > max(front.stat().st_size, drawing.stat().st_size)
