"""Draw the pictures of the demo's stories anew, with Chromium.

python -m tests.browser.bench_sheets
"""

from playwright.sync_api import sync_playwright

from ..conftest import FLAGS, _chromium
from .drawn import CONTENT, SHEETS, taken


def main() -> None:
    """Each beside the story that shows it."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=_chromium(), args=FLAGS)
        for (slug, name), data in taken(browser, SHEETS).items():
            (CONTENT / "aircraft" / slug / "photos").mkdir(exist_ok=True)
            (CONTENT / "aircraft" / slug / "photos" / name).write_bytes(data)
        browser.close()


if __name__ == "__main__":
    main()
