"""Take the two pictures of the README anew, from a site that was rendered from the demo.

    python tests/browser/preview.py SITE

Writes ``hangar.png`` and ``layout.png`` beside the theme, with few colours, as they are drawn.
"""

import argparse
import io
import shutil
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, sync_playwright

PREVIEW = Path(__file__).resolve().parents[2] / "themes" / "fieldbook" / "preview"
COLOURS = 64
WIDTH, HEIGHT = 1280, 900
DRAWN_ON = "burdock"


def hangar(browser: Browser, site: Path) -> bytes:
    """The top of the front page, as on a desk."""
    page = browser.new_page(viewport={"width": WIDTH, "height": HEIGHT}, java_script_enabled=False)
    page.goto((site / "index.html").as_uri())
    return page.screenshot()


def layout(browser: Browser, site: Path) -> bytes:
    """The layout drawing of one aircraft alone, at twice its size."""
    page = browser.new_page(
        viewport={"width": WIDTH, "height": HEIGHT},
        java_script_enabled=False,
        device_scale_factor=2,
    )
    page.goto((site / "aircraft" / DRAWN_ON / "layout.html").as_uri())
    return page.locator("section[aria-labelledby=layout] svg.d").first.screenshot()


def keep(taken: bytes, name: str) -> None:
    """Write a picture with a palette of its own."""
    PREVIEW.mkdir(exist_ok=True)
    picture = Image.open(io.BytesIO(taken)).convert("RGB")
    few = picture.quantize(COLOURS, dither=Image.Dither.NONE)
    few.save(PREVIEW / name, optimize=True)


def main() -> None:
    """Both pictures."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("site", type=Path, help="a site rendered from the demo")
    site = parser.parse_args().site.resolve()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
        )
        keep(hangar(browser, site), "hangar.png")
        keep(layout(browser, site), "layout.png")
        browser.close()


if __name__ == "__main__":
    main()
