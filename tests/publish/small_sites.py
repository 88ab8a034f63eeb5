"""A small hangar in two states whose sites differ: pages changed, gone and new."""

from pathlib import Path

COMMON = {
    "hangar.yaml": "format: 1\nhangar: Loft\nas_of: 2026-11-20\nprogramme: shop\n",
    "programmes/shop.yaml": (
        "programme: shop\nchecks:\n  - check: spin-directions\n    what: Run each motor up alone.\n"
        "    per: motor station\n    stale_after: [fit motor]\ntasks: []\nlife_limits: []\n"
    ),
    "parts/specs.yaml": "- {spec: m, kind: motor, mass: 50 g, kv: 900 rpm/V}\n",
    "parts/items.yaml": "- {tag: M-1, spec: m, acquired: 2026-01-02}\n",
}
CRAFT = "kind: aeroplane\nlayout: aeroplane\nprogramme: shop\nstations:\n  nose: {spin: cw}\n"
LOG = "- on: 2026-02-01\n  fit: {nose: {motor: M-1}}\n"


def loft(folder: Path, craft: str, log: str = LOG) -> Path:
    """A hangar of one aircraft of that name."""
    home = f"aircraft/{craft.lower()}"
    files = {
        **COMMON,
        f"{home}/aircraft.yaml": f"aircraft: {craft}\n{CRAFT}",
        f"{home}/logbook.yaml": log,
    }
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder
