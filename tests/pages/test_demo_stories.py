"""The numbers that the demo's stories tell in their own words are those of its records."""

import itertools
import math
import re

import pytest

from buildbook.drawings.layout.wing_shape import taper_ratio
from buildbook.pages.aircraft import layout
from buildbook.records.entries import Weigh
from buildbook.words.public import parts_total
from tests.browser.bench_sheets import burdock
from tests.browser.bench_sheets import hogweed as hexa_sheet
from tests.browser.bench_sheets import hogweed_ends as hexa_ends
from tests.browser.bench_sheets import thistledown as glider
from tests.browser.bench_sheets import thistledown_along as lengthways
from tests.browser.bench_sheets import thistledown_ends as ends
from tests.browser.bench_sheets import thistledown_inside as inside
from tests.browser.bench_sheets import trefoil as y6_sheet


def told(reports, slug):
    """The story of an aircraft on one line."""
    return " ".join(reports.hangar.ledger.write_ups[slug].text.split())


def test_an_aeroplanes_layout_page_has_its_throws(demo_public):
    """Beside the layout, for visitors too; a quad has no such table."""
    glider, quad = (layout.page(demo_public, slug) for slug in ("thistledown", "burdock"))

    assert [row[0] for row in glider.facts["surfaces"][1]] == [
        "aileron-left",
        "aileron-right",
        "elevator",
        "rudder",
    ]
    assert quad.facts["surfaces"] is None


def test_burdock_tells_the_lengths_of_its_record(demo_reports):
    """Diagonal, side and what is left between the tips (plane geometry); where the pack is."""
    aircraft = demo_reports.hangar.aircraft["burdock"]
    diagonal = aircraft.record.diagonal_m * 1000
    (propeller,) = {
        round(one.propeller_m * 1000) for one in demo_reports.layout("burdock").stations
    }
    side = diagonal / math.sqrt(2)
    text = told(demo_reports, "burdock")

    assert f"The *diagonal* of {diagonal:.0f} mm goes" in text
    assert f"The *side* of {side:.0f} mm goes" in text
    assert f"inches, {propeller} mm, there are {side - propeller:.0f} mm left" in text
    assert f"Both diagonals {diagonal:.0f} mm, all four sides {side:.0f} mm" in text
    pack = aircraft.positions["pack"]
    assert f"its middle {pack[2] * 1000:.0f} mm under the tubes and {pack[0] * 1000:.0f} mm" in text


def test_burdock_is_balanced_by_its_last_weighing(demo_reports):
    """The moments of four scales below the motors, about the middle."""
    aircraft = demo_reports.hangar.aircraft["burdock"]
    weighed = [one.stands for one in aircraft.log if isinstance(one.stands, Weigh)][-1]
    grams = {name: round(kg * 1000) for name, kg in weighed.scales_kg.items()}
    front, rear = (
        sum(mass for name, mass in grams.items() if name.startswith(end))
        for end in ("front", "rear")
    )
    ahead = aircraft.record.diagonal_m * 1000 / math.sqrt(8)
    text = told(demo_reports, "burdock")

    assert f"The front pair read {front} g and the rear pair {rear} g of {front + rear} g" in text
    assert f"({front} - {rear}) / {front + rear} x {ahead:.0f} mm, not quite 2 mm" in text
    assert 1.5 < (front - rear) / (front + rear) * ahead < 2


def test_thistledown_tells_where_it_balances(demo_reports):
    """As weighed first and last, behind the nose and behind the edge of a straight wing."""
    aircraft = demo_reports.hangar.aircraft["thistledown"]
    weighed = [one.stands for one in aircraft.log if isinstance(one.stands, Weigh)]
    first, last = (round(-one.cg_m[0] * 1000) for one in (weighed[0], weighed[-1]))
    text = told(demo_reports, "thistledown")

    assert f"it balanced at {first} mm behind the nose" in text
    assert f"that is {last} mm behind the nose" in text
    assert f"Balance it at {last} mm from the first day" in text
    wing = aircraft.record.wing
    root, tip = 225, 195
    assert (
        f"{wing.span_m * 500:.0f} long each, {root} deep at the root and {tip} at the tip" in text
    )
    out = (root + 2 * tip) / (3 * (root + tip))  # of the mean chord, in half spans (geometry)
    edge = wing.leading_edge_m * 1000 - (root - tip) / 4 * out
    assert f"one under each root, {last - edge:.0f} mm behind its leading edge" in text
    assert 0.01 > abs((root + tip) / 2000 * wing.span_m - wing.area_m2) / wing.area_m2


SAW = 2
"""Lost with each piece, in mm (common practice, no source)."""
PIECES, STOCK, SMALL = (
    ("pieces", "what", "size", "from"),
    ("letter", "stock", "as sold"),
    "small parts",
)


def table(reports, slug, *head):
    """The rows of all tables of a story that begin with these headings."""
    lines = iter(reports.hangar.ledger.write_ups[slug].text.splitlines())
    cells = [tuple(cell.strip() for cell in line.strip("|").split("|")) for line in lines]
    begins = [at for at, found in enumerate(cells) if found[: len(head)] == head]
    assert begins
    rows = (itertools.takewhile(lambda row: len(row) > 1, cells[at + 2 :]) for at in begins)
    return list(itertools.chain.from_iterable(rows))


def sides(size):
    """Long and wide, in mm; a length is 1 wide."""
    numbers = [int(part) for part in size.split(" x ")]
    return max(numbers), min(numbers) if len(numbers) > 1 else 1


def left_over(pieces, long, wide, sheets):
    """Pieces that find no place: in rows, the widest first, each cut lost; none is turned."""
    rows = []  # of each: the length that is left, and its width
    saw = SAW if wide > 1 else 0
    free = [wide + saw] * sheets
    unplaced = []
    for piece in sorted(pieces, key=lambda one: (-one[1], -one[0])):
        need, deep = piece[0] + SAW, piece[1] + saw
        row = next((row for row in rows if row[1] >= deep and row[0] >= need), None)
        if row is None:
            sheet = next((n for n, left in enumerate(free) if left >= deep), None)
            if sheet is None or need > long + SAW:
                unplaced.append(piece)
                continue
            free[sheet] -= deep
            row = [long + SAW, deep]
            rows.append(row)
        row[0] -= need
    return unplaced


def test_pieces_are_laid_into_rows():
    """Two of 60 and 40 fit 102 with its cut, three do not; a length is no sheet."""
    assert [] == left_over([(60, 1), (40, 1)], 102, 1, 1)
    assert [(40, 1)] == left_over([(60, 1), (40, 1)], 101, 1, 1)
    assert [] == left_over([(60, 30), (40, 30), (60, 20)], 102, 52, 1)
    assert [(60, 20)] == left_over([(60, 30), (40, 30), (60, 20)], 102, 51, 1)
    assert [] == left_over([(60, 30), (40, 30), (60, 20)], 102, 51, 2)


@pytest.mark.parametrize("slug", ["burdock", "hogweed", "thistledown", "trefoil"])
def test_a_cut_list_fits_the_stock_that_it_names(demo_reports, slug):
    """Each stock is used, each piece has one, and all of them can be cut from it with a saw."""
    pieces = table(demo_reports, slug, *PIECES)
    stock = table(demo_reports, slug, *STOCK)

    assert {row[0] for row in stock} == {row[3] for row in pieces}
    assert len(stock) == len({row[0] for row in stock})
    lacking = {}
    for letter, _what, sold in stock:
        count, _, size = sold.rpartition(" of ")
        cut = [sides(row[2]) for row in pieces for _ in range(int(row[0])) if row[3] == letter]
        unplaced = left_over(cut, *sides(size), int(count or 1))
        lacking |= {letter: unplaced} if unplaced else {}
    assert {} == lacking


def test_burdocks_frame_weighs_what_its_pieces_weigh(demo_reports):
    """Densities in g/cm³: bamboo and its ply 0.7, glass fibre 1.9, steel 7.85 (from memory)."""
    sheet = {"B": 4, "C": 3, "D": 1.5}
    section = {"A": 12**2 - 10**2, "E": 8 * 12.2, "F": 12 * 11, "G": 12 * 5, "H": 10 * 7.5}
    density = dict.fromkeys("BCEFGH", 0.7) | dict.fromkeys("AD", 1.9) | {"I": 7.85}
    grams = 0.0
    for count, _, size, letter in table(demo_reports, "burdock", *PIECES):
        if letter not in density:
            continue
        long, wide = sides(size)
        area = math.pi * 1.5**2 if letter == "I" else section.get(letter)
        cm3 = (long * wide * sheet[letter] if letter in sheet else long * area) / 1000
        number = 4 if letter == "A" else int(count)  # the fifth is on the shelf
        grams += number * cm3 * density[letter]
    frame = demo_reports.hangar.ledger.items["F-01"].mass_kg * 1000

    assert f"weighed {frame:.0f} g" in told(demo_reports, "burdock")
    assert frame == pytest.approx(grams, rel=0.05)


def test_burdocks_leads_are_cut_as_its_wiring_says(demo_reports):
    """The lead of the pack, four pairs to the speed controllers; rings with their overlap."""
    wires = demo_reports.hangar.aircraft["burdock"].wiring
    long = {(run.start, run.end): f"{run.length_m * 1000:.0f}" for run in wires}
    cut = {row[1]: row for row in table(demo_reports, "burdock", *PIECES)}
    text = told(demo_reports, "burdock")

    for pole in ("plus", "minus"):
        assert ("1", long["pack", "distribution"]) == cut[f"pack lead, {pole}"][::2]
        assert ("4", long["distribution", "each esc"]) == (
            cut[f"{pole} lead of a speed controller"][::2]
        )
    assert f"three wires are cut to {long['each esc', 'each motor']} mm" in text
    for ring, across in (("inner ring, plus", 78), ("outer ring, minus", 90)):
        assert f"{math.pi * across + 15:.0f}" == cut[ring][2]


def test_burdocks_small_parts_add_up(demo_reports):
    """What holds four motors, four bolts, four pins' pairs and two straps, each counted."""
    many = {row[0]: row[1] for row in table(demo_reports, "burdock", SMALL, "pieces", "where")}
    arms = len(demo_reports.layout("burdock").stations)
    bolts = [int(count) for what, count in many.items() if "bolt M3" in what]

    assert 4 * arms == int(many["motor screw M3 x 6"])
    assert 2 * 2 * arms == int(many["washer M3, 6 across, 0.5 thick"])
    assert 3 * arms == int(many["bullet plug 3 mm, pair"])
    assert arms == int(many["rubber ring 12 x 2"])
    assert sum(bolts) == int(many["locking nut M3"])
    assert sum(bolts) + 2 == int(many["washer M3, 7 across"])
    assert len(demo_reports.hangar.aircraft["burdock"].record.receiver) == int(
        many["lead with servo plugs, 100 long"]
    )


def test_burdocks_bolts_reach_through_what_they_hold():
    """Plates, what is between them, packers and tray, washer and nut of 4 mm (ISO 7040)."""
    plates = 2 * burdock.PLATE + burdock.CLEAR
    tray = 2 * burdock.TRAY

    assert 30 > plates + 2 * 0.5 + 4
    assert 35 > plates + tray + 0.5 + 4 > 30
    assert 20 > burdock.PLATE + burdock.UNDER + 1.5 + 2.4
    assert 12 > 1.5 + burdock.ABOVE + 1.6 + 2.4


def test_burdocks_sheets_agree_with_its_text(demo_reports):
    """Plates, tray, packers, skids and the pack, as drawn and as written."""
    text = told(demo_reports, "burdock")
    cut = {row[1]: row[2] for row in table(demo_reports, "burdock", *PIECES)}
    pack = demo_reports.hangar.aircraft["burdock"].positions["pack"]
    above = burdock.CLEAR / 2 + burdock.PLATE + 2 * burdock.TRAY

    assert (
        f"{burdock.SIDE:.0f} x {burdock.SIDE:.0f}"
        == (cut[f"plate, top and bottom; corners off by {burdock.CUT:.0f}"])
    )
    assert f"{burdock.LONG:.0f}" == cut["tube, one of them for the shelf"]
    assert burdock.LONG == 215 - burdock.STOP + burdock.BEYOND
    assert f"{burdock.TRAY_LONG:.0f} x {burdock.TRAY_WIDE:.0f}" == cut["pack tray"]
    assert ["28", "34", "18"] == [f"{long:.0f}" for _, long in burdock.PACKERS]
    assert ["28", "34", "18"] == [
        cut[name].removeprefix(f"{burdock.PACKERS_WIDE:.0f} x ")
        for name in ("packer, rear", "packer between tray and plate, middle", "packer, front")
    ]
    assert f"the runner ends {burdock.foot():.0f} mm beside it" in text
    assert f"{burdock.RAIL[2]:.0f}" == cut["skid rail"]
    assert burdock.RAIL[2] / 2 < burdock.PINS[1] / math.sqrt(2) - 1.5  # the pin comes out beside it
    assert float(cut["skid leg, trimmed when glued"]) > burdock.leg_long() + 2 * 2.5
    assert 0 < pack[2] * 1000 - burdock.PACK_HIGH / 2 - above <= 1  # the mat lies there


def test_burdocks_straps_find_their_way_round(demo_reports):
    """No packer, bolt or pin stands in a slot; the strap passes over the tray between packers."""
    edges = [(place - long / 2, place + long / 2) for place, long in burdock.PACKERS]
    half = burdock.SLOT[1] / 2
    ahead = demo_reports.hangar.aircraft["burdock"].positions["pack"][0] * 1000
    bolts = [way * burdock.BOLTS / math.sqrt(2) - ahead for way in (-1, 1)]

    for slot in (-burdock.SLOTS[1], burdock.SLOTS[1]):
        assert all(high <= slot - half or low >= slot + half for low, high in edges)
        assert all(abs(bolt - slot) > half + 3 for bolt in bolts)
    assert bolts
    (rear, _), _, (front, _) = burdock.PACKERS
    text = told(demo_reports, "burdock")
    assert f"the rear one {-rear:.0f} behind it, the front one {front:.0f} before it" in text
    for bolt in bolts:
        assert any(low + 3 < bolt < high - 3 for low, high in edges)


def test_burdocks_receiver_rings_and_aerial_keep_off_each_other(demo_reports):
    """The pad of the receiver, a grommet 9 across, the rings with their sleeve, pins and bolts.

    The grommet, and a washer of 7: from memory. Places: forward, right of the middle.
    """
    text = told(demo_reports, "burdock")
    cut = {row[1]: row[2] for row in table(demo_reports, "burdock", *PIECES)}
    long, wide, beside, ahead = burdock.PAD
    behind, right = burdock.AERIAL
    grommet, half = 9 / 2, 1.8 / 2 + 0.5
    inner, outer = 39.0, 45.0
    pins = [(pin / math.sqrt(2),) * 2 for pin in burdock.PINS]

    assert f"{long:.0f} x {wide:.0f}" == cut["pad under receiver and buzzer"]
    assert f"its middle {beside:.0f} beside that of the plates and {ahead:.0f} ahead of it" in text
    assert -behind + grommet < ahead - long / 2
    assert math.hypot(behind, right) - grommet > outer + half
    assert (right - behind) / math.sqrt(2) - grommet > burdock.CLEAR / 2 + 8  # the strips
    assert behind + right + grommet * math.sqrt(2) < burdock.SIDE / math.sqrt(2)
    assert beside - wide / 2 < inner < outer < beside + wide / 2  # over both rings
    assert beside + wide / 2 < burdock.BOLTS / math.sqrt(2) - 7 / 2
    for forward, out in pins:
        beyond = max(0, forward - (ahead + long / 2)), max(0, beside - wide / 2 - out)
        assert math.hypot(*beyond) > 3 + 3  # its ring, 6 inside, turned away
    sewn = burdock.SEWN
    assert sewn[0] + 0.75 < inner - half
    assert inner + half < sewn[1] - 0.75 < sewn[1] + 0.75 < outer - half
    assert outer + half < sewn[2] - 0.75
    assert sewn[2] + 0.75 < burdock.BOLTS / math.sqrt(2) - 7 / 2
    assert burdock.ASIDE > 15 / 2 + 1  # of the joint, where the ends overlap
    assert f"{sewn[0]:.0f}, {sewn[1]:.0f} and {sewn[2]:.0f} from the middle" in text
    assert 12 == len(burdock.sewing_holes())
    drilled = re.search(r"drill stand with ([\d., and]+) mm", text)[1]
    assert "1.5" in drilled
    assert "10" not in drilled


def numbers(reports, *head):
    """The rows of a table of Thistledown's story as numbers."""
    rows = table(reports, "thistledown", *head)
    return [tuple(float(cell) for cell in row) for row in rows]


def test_thistledowns_sheets_agree_with_its_text(demo_reports):
    """The section of the wing, the sections of the body, fin, rudder, angles, joiners."""
    text = told(demo_reports, "thistledown")
    cut = {row[1]: row[2] for row in table(demo_reports, "thistledown", *PIECES)}
    outside = [row for row in glider.BODY if row[1]]  # the seat of the wing is cut out of it

    assert list(glider.SECTION[1:]) == numbers(demo_reports, "behind the edge")
    assert [(486.0 if aft == 492 else aft, *rest) for aft, *rest in outside] == numbers(
        demo_reports, "behind the nose"
    )
    assert f"{ends.DOWN_DEG:g}° down and {ends.RIGHT_DEG:g}° to the right" in text
    for behind, across, up, deep in glider.JOINERS:
        assert f"one of {across:.0f} mm {behind:.0f} mm behind it" in text or (
            f"a tube of {across:.0f} mm {behind:.0f} mm behind the edge" in text
        )
        end = up - deep * math.tan(math.asin(40 / 950))
        assert f"{up:g}" in text
        assert f"{end:.1f}".removesuffix(".0") in text
        above, below = glider.section_at(behind)
        narrower = 1 - (1 - glider.TIP / glider.ROOT) * deep / 950  # the section at the inner end
        skin = glider.VENEER + (glider.STRIP if behind == 68 else 0)
        bored = across + 2 * (glider.SLEEVE if behind == 68 else glider.SLEEVE / 2) + 2 * 0.25
        assert f"in holes of {bored:g}, {deep:.0f} deep" in text  # 0.25 all round for glue
        need = bored / 2
        scribed = 0.05  # places are set out to no less
        assert end - need > skin - below * narrower - scribed
        assert up + need < above - skin + scribed
    for name, (_, _, _, deep) in zip(("front", "rear"), glider.JOINERS, strict=True):
        assert f"{2 * deep:.0f}" == cut[f"{name} joiner"]
    servo = demo_reports.hangar.aircraft["thistledown"].positions["wing-right"]
    wing_edge = glider.root_edge(demo_reports.hangar.aircraft["thistledown"]) + 7.5 * 480 / 950
    assert (
        f"pocket {servo[1] * 1000:.0f} out, its middle {-servo[0] * 1000 - wing_edge:.0f}" in text
    )
    high = glider.RUDDER[0][1] - glider.RUDDER[3][1]
    rudder = demo_reports.hangar.aircraft["thistledown"].surfaces["rudder"]
    assert (190, 68) == (high, rudder.chord_m * 1000) == sides(cut["rudder"])
    assert (450, 41 + 64) == (ends.SPAN, glider.TAIL_CHORD)


BEARER = "bearer under the pack tray, across the body, cut to it"
TAIL_WALL = "wall above the seat, behind the wing, cut to the body"


def test_thistledowns_pack_tray_seat_and_wall_fit_its_body(demo_reports):
    """What holds the tray, where the wing's seat is sawn, what closes the tail above it.

    A layer of glass cloth of 160 g/m² lies 0.2 thick (from memory).
    """
    text = told(demo_reports, "thistledown")
    cut = {row[1]: row for row in table(demo_reports, "thistledown", *PIECES)}
    now = demo_reports.hangar.aircraft["thistledown"]
    under = now.positions["pack"][2] * 1000 + inside.PACK[2] / 2
    low = under + inside.PACK_TRAY[2]
    ends_at = lengthways.TRAY_FROM + inside.PACK_TRAY[0]

    assert f"from {lengthways.TRAY_FROM:.0f} to {ends_at:.0f}. It stands on two bearers" in text
    assert "at {:.0f} and {:.0f}, cut to the bottom".format(*lengthways.BEARERS) in text
    assert str(len(lengthways.BEARERS)) == cut[BEARER][0]
    wide, high = sides(cut[BEARER][2])
    for at in lengthways.BEARERS:
        half = lengthways.PLY / 2
        assert lengthways.TRAY_FROM + half <= at <= ends_at - half
        assert 0 < wide - 2 * inside.half_inside(at, low) < 12  # to cut off
        assert 0 < high - (inside.body_at(at)[1] - inside.GLASS - low) < 10
    first = inside.half_inside(lengthways.TRAY_FROM, low) - inside.PACK_TRAY[1] / 2
    assert 0 < first < 1  # its edges meet the sides in front
    seats = numbers(demo_reports, "seat, behind the nose")
    assert len(seats) > 5
    for behind, up in seats:
        assert up == pytest.approx(inside.seat_at(now, behind), abs=0.06)
    lines = demo_reports.hangar.ledger.write_ups["thistledown"].text.splitlines()
    heads = [at for at, line in enumerate(lines) if re.match(r"\|[ |-]+\|$", line)]
    assert len(heads) > 5
    assert {""} == {lines[at - 2].strip() for at in heads}  # else it would be no table
    begins = glider.root_edge(now)
    assert f"From {begins:.0f} to {begins + glider.ROOT:.0f} the wing takes the place" in text
    assert f"Saw out the top from {begins:.0f} to {begins + glider.ROOT:.0f}" in text
    assert f"**Wall** at {lengthways.WALL:.0f}, from the seat up" in text
    assert lengthways.WALL - lengthways.PLY / 2 > begins + glider.ROOT
    wide, high = sides(cut[TAIL_WALL][2])
    up, _, half = inside.body_at(lengthways.WALL)
    seat = inside.seat_at(now, 486)
    assert 0 <= wide - 2 * half < 4
    assert 0 <= high - (up - seat) < 4
    for name in ("rod to the bellcrank", "rod to the rudder"):
        rod = inside.rods(now)[name]
        assert inside.along_rod(rod, lengthways.WALL)[1] - inside.TUBE > -seat  # it passes below
    steps = ("Glass.", "Canopy.", "Seat.", "Foam out.", "Former", "Wing on.")
    at = [text.index(f"**{step}**") for step in steps]
    assert at == sorted(at)


def test_thistledowns_wing_rises_from_its_seat_and_its_core_ends_under_its_skins(demo_reports):
    """What the tips rising adds at the sides of the body; where two veneers meet (geometry)."""
    text = told(demo_reports, "thistledown")
    rise = 40 / 950
    sides_up = [inside.body_at(behind)[2] * rise for behind in (261, 486)]
    behind_core = float(re.search(r"and (\d+) before the trailing edge", text)[1])
    (aft, above, below), (end, up, low) = glider.SECTION[-2:]
    slope = (above + below - up - low) / (end - aft)
    thin = 2 * glider.VENEER

    assert "At both sides of the body add 1:" in text
    assert [1, 1] == [round(one) for one in sides_up]
    for share in (1, glider.TIP / glider.ROOT):  # as thick as both skins, or less
        assert 2 <= (thin - share * (up + low)) / slope <= behind_core + 0.4
    assert "to 0.4 at the edge, so that it ends 0.8 thick" in text
    assert up + low == 2 * 0.4


def test_thistledowns_plug_is_thinner_than_its_body_by_its_glass(demo_reports):
    """The bulkhead goes into the skin, which is 38 across; a layer is 0.2 thick (from memory)."""
    text = told(demo_reports, "thistledown")
    front = glider.BODY[0][3] - 2 * inside.GLASS

    assert f"but {inside.GLASS} smaller all round to 500 and {inside.GLASS / 2} smaller" in text
    assert 0 <= front - ends.BULKHEAD < 1


def test_thistledowns_aileron_rods_are_a_threaded_rod_with_two_clevises(demo_reports):
    """From the arm's pin to the horn's, at the servo's place; the section there is the root's."""
    now = demo_reports.hangar.aircraft["thistledown"]
    text = told(demo_reports, "thistledown")
    aileron, servo = now.surfaces["aileron-right"], now.positions["wing-right"]
    chord = glider.ROOT - (glider.ROOT - glider.TIP) * glider.mm(servo[1]) / 950
    share = chord / glider.ROOT
    lean = math.radians(float(re.search(r"(\d+) degrees out of square", text)[1]))
    arm = glider.mm(aileron.servo_arm_m)
    hinge = chord - glider.mm(aileron.chord_m)
    shaft = 97 - inside.SHAFT
    pocket, thick = 10, 9
    skin = glider.section_at(97 / share)[1] * share
    pin = shaft - arm * math.sin(lean), -skin + pocket - thick / 2 - arm * math.cos(lean)
    top = glider.section_at(hinge / share)[0] * share
    horn = hinge, top - glider.mm(aileron.horn_m)

    assert pocket - thick / 2 < arm * math.cos(lean)  # its pin is outside
    long = math.dist(pin, horn)
    assert f"The rod is {long:.0f} from pin to pin: 60 of thread" in text
    assert 60 < long <= 60 + 2 * inside.CLEVIS + 0.5
    assert glider.section_at(97 / share)[0] * share + skin > pocket + 2 * glider.VENEER
    assert 15 < inside.half_inside(glider.root_edge(now) + 95, 0)
    assert glider.root_edge(now) + 95 + 5 < glider.BOLT_PLATE - glider.PLATE[0] / 2
    assert 68 + 13.5 / 2 < 95 - 5 < 95 + 5 < 130 - 40 / 2  # off the front joiner and the block


def test_thistledown_tells_what_its_motor_is_asked_for(demo_reports):
    """On a full pack, as the figures have it, beside the climb."""
    margin = demo_reports.figures_of_aircraft("thistledown").find("motor_margin", None)
    over = re.search(r"([\d.]+ %) over its rating", margin.verdict)[1]
    text = told(demo_reports, "thistledown")

    assert f"On a full pack the motor is {over} over its rating" in text
    assert text.index("count to fifty") < text.index(over) < text.index("@ figure motor_endurance")


def test_thistledowns_elevator_horn_is_as_long_as_its_record_says(demo_reports):
    """Seat and tailplane on the fin; the hinge is the tape along the top of the tailplane."""
    now = demo_reports.hangar.aircraft["thistledown"]
    text = told(demo_reports, "thistledown")
    horn = now.surfaces["elevator"].horn_m * 1000
    pin = 200 + 3 + 6 - horn

    assert "its top 200 above the thrust line" in text
    assert f"Its pin is {horn:.0f} below the hinge, {pin:.0f} above the thrust line" in text
    assert pin == inside.elevator_pin(now)
    assert pin > glider.RUDDER[0][1]  # above the top of the rudder, the rod goes down beside it


def test_thistledowns_limits_have_their_middle_where_it_balances(demo_reports):
    """What the figures aim at is what the story tells to aim at, to a millimetre."""
    aircraft = demo_reports.hangar.aircraft["thistledown"]
    wing, bounds = aircraft.record.wing, aircraft.record.bounds
    middle = (bounds.forward_cg_share + bounds.aft_cg_share) / 2
    wanted = (wing.leading_edge_m + middle * wing.mean_chord_m) * 1000

    assert wanted == pytest.approx(322, abs=1)
    assert "Balance it at 322 mm from the first day" in told(demo_reports, "thistledown")


def test_thistledowns_wing_is_drawn_as_tapered_as_it_is(demo_reports):
    """Area and mean aerodynamic chord of a trapezoid of 225 and 195 (plane geometry)."""
    wing = demo_reports.hangar.aircraft["thistledown"].record.wing
    taper = glider.TIP / glider.ROOT
    mean = 2 / 3 * glider.ROOT * (1 + taper + taper**2) / (1 + taper)

    assert wing.mean_chord_m * 1000 == pytest.approx(mean, abs=0.05)
    assert wing.area_m2 == pytest.approx((glider.ROOT + glider.TIP) / 2000 * wing.span_m, abs=1e-6)
    drawn = taper_ratio(wing.span_m, wing.area_m2, wing.mean_chord_m)
    assert drawn == pytest.approx(taper, abs=0.02)


def test_thistledowns_elevator_horn_clears_its_rudder(demo_reports):
    """At full rudder the top of it, as thick as the fin, passes 5 mm beside the horn or more."""
    rudder = demo_reports.hangar.aircraft["thistledown"].surfaces["rudder"]
    behind = glider.TAILPLANE + ends.HINGE - glider.FIN[2][0]
    swings = glider.throw(rudder.left) * behind / glider.mm(rudder.chord_m)
    text = told(demo_reports, "thistledown")

    assert ends.HORN_BESIDE - swings - 12 / 2 > 5
    assert f"horn {ends.HORN_BESIDE:.0f} left of the middle" in text
    assert "at full left rudder there are 5 mm of clearance between the two" in text


def test_what_sits_in_thistledowns_body_has_room_there(demo_reports):
    """Pack and tray, servos, receiver, plate, nuts and bolts between four layers of glass.

    A nut M5 is 8 across its flats and 4 high; glass cloth of 160 g/m² lies 0.2 thick (from memory).
    """
    text = told(demo_reports, "thistledown")
    cut = {row[1]: sides(row[2]) for row in table(demo_reports, "thistledown", *PIECES)}
    now = demo_reports.hangar.aircraft["thistledown"]
    pack, tray = (now.positions[name] for name in ("pack", "servo-tray"))
    long, wide, high = inside.PACK
    under = pack[2] * 1000 + high / 2
    ends_at = -pack[0] * 1000 + long / 2

    assert f"Pack,** {long:.0f} x {wide:.0f} x {high:.0f}, so that it ends at {ends_at:.0f}" in text
    assert f"its upper side {under:.0f} below the thrust line, from 84 to 204" in text
    assert cut["pack tray"] == inside.PACK_TRAY[:2]
    for behind in (84, 204):
        low = under + inside.PACK_TRAY[2]
        assert 2 * inside.half_inside(behind, low) >= inside.PACK_TRAY[1]
    for behind in (ends_at - long - 20, ends_at):  # it can go 20 further forward
        for below in (under, under - high):
            assert 2 * inside.half_inside(behind, below) > wide
    assert ends_at - long - 20 > 60 + 45 / 2  # behind a controller 45 long
    behind, low = -tray[0] * 1000, tray[2] * 1000
    servo_long, servo_wide, foot, case, _ = inside.SERVO
    assert f"its middle {behind:.0f} behind the nose, its upper side {low:.0f} below" in text
    assert behind - glider.TRAY_LONG / 2 > ends_at
    assert behind + glider.TRAY_LONG / 2 < glider.CANOPY[1] < inside.FORMER
    for end in (-1, 1):
        at = behind + end * glider.TRAY_LONG / 2
        assert 2 * inside.half_inside(at, low + inside.TRAY_THICK) >= ends.TRAY_WIDE
    outer = inside.SERVO_BESIDE + servo_wide / 2
    assert outer + 3 < ends.TRAY_WIDE / 2
    assert (servo_long, servo_wide, 2 * inside.SERVO_BESIDE) == ends.SERVOS
    for side in (low + case, low - foot):
        assert outer < inside.half_inside(behind, side)
    assert f"mine are {foot:.0f} high to the bottom of the case, {case:.0f} to its top" in text
    assert f"the bottoms stand {foot - low:.0f} above the thrust line" in text
    receiver = now.positions["receiver"]
    top = receiver[2] * 1000 - inside.RECEIVER[2] / 2
    assert receiver[2] * 1000 + inside.RECEIVER[2] / 2 == low - foot
    assert inside.RECEIVER[0] / 2 < inside.half_inside(-receiver[0] * 1000, top)
    servo = now.positions["wing-right"]
    way = servo[1] * 1000 + (-servo[0] * 1000 - behind)
    assert f"150 long, to the receiver: {way:.0f} to go" in text
    assert way < 600 + 150
    plug = cut["half of the plug of the body, left and right"]
    assert plug[0] >= glider.BODY[-1][0]
    assert plug[1] >= max(row[1] for row in glider.BODY) + max(row[2] for row in glider.BODY)
    assert 2 * 30 >= max(row[3] for row in glider.BODY)


def test_thistledowns_wing_is_held_by_what_its_story_says(demo_reports):
    """Plate, nuts, bolts and dowels; the former's opening lets rods and leads pass.

    A nut M5 is 8 across its flats and 4 high, a servo plug 8 by 3 (from memory).
    """
    text = told(demo_reports, "thistledown")
    cut = {row[1]: sides(row[2]) for row in table(demo_reports, "thistledown", *PIECES)}
    now = demo_reports.hangar.aircraft["thistledown"]
    seat = inside.seat_at(now, glider.BOLT_PLATE)
    nut = 6 + 4 - seat  # its lower side, below the thrust line
    room = inside.half_inside(glider.BOLT_PLATE, nut)
    plate = cut["plate for the wing bolts, across the body, cut to it"]

    assert plate == (glider.PLATE[1], glider.PLATE[0])
    assert 0 <= plate[0] - 2 * inside.half_inside(glider.BOLT_PLATE, 0) < 3  # to sand off
    assert f"{glider.BOLTS_BESIDE:.0f} beside the middle" in text
    assert glider.BOLTS_BESIDE + 8 / math.sqrt(3) < room
    assert f"nylon bolt M5 x {inside.BOLT_LONG:.0f}, with nut" in text
    assert inside.BOLT_LONG >= inside.BLOCK + 6 + 4
    assert inside.BLOCK < sum(glider.section_at(130))
    wide, top, low = inside.OPENING
    assert f"Its opening, {wide:.0f} wide, goes from {top:.0f} to {low:.0f} below" in text
    assert wide / 2 + 4 < inside.half_inside(inside.FORMER, low)
    beside, above, across = inside.DOWEL
    assert f"{beside:.0f} beside the middle" in text
    assert above == glider.CHORD_LINE + 1
    assert beside + across < inside.half_inside(inside.FORMER, -above)
    for name, rod in inside.rods(now).items():
        if "up" in name:
            continue
        right, below = inside.along_rod(rod, inside.FORMER)
        assert abs(right) + inside.TUBE < wide / 2
        assert top + inside.TUBE < below < low - inside.TUBE
        right, below = inside.along_rod(rod, glider.BOLT_PLATE)
        bolt_end = inside.BOLT_LONG - inside.BLOCK - seat
        assert below > 6 - seat + inside.TUBE  # under the plate
        assert glider.BOLTS_BESIDE - 4.7 - abs(right) > inside.TUBE or below > bolt_end


def test_thistledowns_rods_are_as_long_as_their_ways(demo_reports):
    """From pin to pin less two clevises; in the body as far as said, and free of each other."""
    text = told(demo_reports, "thistledown")
    cut = {row[1]: row[2] for row in table(demo_reports, "thistledown", *PIECES)}
    now = demo_reports.hangar.aircraft["thistledown"]
    found = inside.rods(now)

    assert f"{inside.CLEVIS:.0f} from the rod to the pin" in text
    for name, rod in found.items():
        assert f"{math.dist(*rod) - 2 * inside.CLEVIS:.0f}" == cut[name]
    crank, rudder = (found[f"rod to the {end}"] for end in ("bellcrank", "rudder"))
    for rod, side, tube in ((crank, "left", "bellcrank's"), (rudder, "right", "rudder's")):
        out = inside.leaves_at(rod)
        assert f"comes out of the {side} side at {out}" in text
        assert f"{out + 36 - 262}" == cut[f"tube of the {tube} rod"]
        inner = [inside.along_rod(rod, behind) for behind in range(262, 620)]
        rooms = [inside.half_inside(behind, low) for behind, (_, low) in enumerate(inner, 262)]
        assert all(
            abs(right) + inside.TUBE < room for (right, _), room in zip(inner, rooms, strict=True)
        )
    apart = [
        math.dist(inside.along_rod(crank, behind), inside.along_rod(rudder, behind))
        for behind in range(240, 800)
    ]
    assert min(apart) > inside.TUBE
    arm = rudder[0]  # the elevator's rod goes by the end of the rudder's arm
    assert abs(inside.along_rod(crank, arm[0])[0] - arm[1]) > 5
    bore = float(re.search(r"plastic tube 3, bore ([\d.]+)", text)[1])
    assert 2 < bore < inside.TUBE
    swing = glider.mm(now.surfaces["rudder"].servo_arm_m)
    assert rudder[0][0] + swing + inside.CLEVIS < 262
    foot = inside.body_at(inside.BELLCRANK[0])[0]
    assert inside.BELLCRANK[1] - inside.CRANK_ARM > foot + 2
    assert inside.CRANK_BESIDE > 12 / 2 + 2
    wide, deep = inside.POCKET
    assert 15 - 6 - 3 < deep  # a bolt M3 x 15 through tailplane and seat
    assert all(glider.FIN[1][0] + wide / 2 < at < 1062 - wide / 2 for at in inside.TAIL_BOLTS)
    beside = [at - glider.TAILPLANE for at in inside.TAIL_BOLTS]
    assert f"{beside[0]:.0f} and {beside[1]:.0f} behind its edge" in text


def test_what_weighs_where_balances_thistledown(demo_reports):
    """The moments of the story's table make the balance that was measured, to 2 mm.

    Carbon 1.55 and plastic 0.95 g/cm³, a clevis M2 0.6 g, a servo lead 7 g/m, tape 0.06 thick and
    1 g/cm³ (from memory).
    """
    now = demo_reports.hangar.aircraft["thistledown"]
    text = told(demo_reports, "thistledown")
    loads = {one.name: one for one in demo_reports.balance("thistledown").drawn.loads}
    weighed = [one.stands for one in now.log if isinstance(one.stands, Weigh)][-1]
    mass = sum(one.mass_kg for one in loads.values())
    moment = sum(-one.mass_kg * one.forward_m for one in loads.values())
    last = -weighed.cg_m[0]

    assert mass == pytest.approx(weighed.mass_kg, abs=0.003)
    assert moment / mass == pytest.approx(last, abs=0.002)
    items = demo_reports.hangar.items
    places = {"motor": 15, "esc": 60, "regulator": 60, "propeller": -13}
    grams = {
        kind: items[tag].mass_kg * 1000
        for kind, tag in zip(places, ("M-41", "E-41", "G-41", "R-92"), strict=True)
    }
    assert (
        "the motor, its middle 15 behind the nose, speed controller and regulator, theirs at 60"
        in text
    )
    nose = sum(grams[kind] * at for kind, at in places.items()) / sum(grams.values())
    assert -now.record.stations["nose"].at[0] * 1000 == pytest.approx(nose, abs=0.5)
    rods, leads = now.sundries
    ways = inside.rods(now).values()
    carbon = [
        (math.pi * (math.dist(*way) - 30) / 1000 * 1.55, (way[0][0] + way[1][0]) / 2)
        for way in ways
    ]
    tubes = [
        (length * math.pi * (1.5**2 - 1.15**2) / 1000 * 0.95, 262 + length / 2)
        for length in (580, 630)
    ]
    ends_of = [(0.6, way[end][0]) for way in ways for end in (0, 1)]
    ailerons = [(4 * 0.6 + 2 * 1.5, 440)]  # clevises and rods, behind their servos
    others = [(1.0, 450), (1.0, 1070), (1.5, 1030)]  # horns, bellcrank
    _about(rods, [*carbon, *tubes, *ends_of, *ailerons, *others])
    tape = 4000 * 25 * 0.06 / 1000
    cut = [(2.5, 391), (0.6, 1041), (tape, 490), (2 * 0.6 * 7 + 3, 300)]  # bolts, tape, leads
    _about(leads, cut)
    saved = 0.015 - 0.005
    ahead = moment - 149e-3 * 0.02 - saved * 0.017
    assert "go 20 mm further forward before it meets the speed controller; then five grams" in text
    assert ahead / (mass - saved) == pytest.approx(last, abs=0.0003)  # four would miss


def _about(sundry, pieces):
    """A sundry weighs what its pieces weigh, to a quarter, and lies where they do, to 6 cm."""
    grams = sum(mass for mass, _ in pieces)

    assert sundry.mass_kg * 1000 == pytest.approx(grams, rel=0.25)
    assert -sundry.at[0] * 1000 == pytest.approx(sum(m * at for m, at in pieces) / grams, abs=60)


def test_thistledowns_body_weighs_what_its_pieces_weigh(demo_reports):
    """A layer 0.40 kg/m², laid by hand; ply 0.68, balsa 0.12 g/cm³ (from memory).

    Up to a half more is filler, paint, strips and what laps over, in front as much as behind.
    """
    cut = {row[1]: sides(row[2]) for row in table(demo_reports, "thistledown", *PIECES)}
    body = demo_reports.hangar.items["F-41"]
    place = -demo_reports.hangar.aircraft["thistledown"].positions["fuselage"][0] * 1000
    pieces = []
    for behind in range(0, 1062, 2):
        up, down, half = inside.body_at(behind)
        around = _half_round(half, down)
        around += 0 if 261 < behind < 486 else _half_round(half, up)
        pieces.append((around * 2 / 1e6 * 400 * (4 if behind < 500 else 2), behind))
    plies = (
        ("servo tray", 222),
        ("pack tray", 144),
        *((BEARER, at) for at in lengthways.BEARERS),
        ("former before the wing, cut to the body, with its opening", 258),
        (TAIL_WALL, lengthways.WALL),
    )
    pieces += [(cut[name][0] * cut[name][1] * 3 / 1000 * 0.68, at) for name, at in plies]
    pieces += [(50 * 30 * 6 / 1000 * 0.68, 391), (area(glider.FIN) * 12 / 1000 * 0.12, 1026)]
    grams = sum(mass for mass, _ in pieces)

    assert 1.1 * grams < body.mass_kg * 1000 < 1.5 * grams
    assert place == pytest.approx(sum(m * at for m, at in pieces) / grams, abs=25)


def _half_round(half, reach):
    """Half the way round an ellipse (Ramanujan's approximation)."""
    return math.pi / 2 * (3 * (half + reach) - math.sqrt((3 * half + reach) * (half + 3 * reach)))


def area(outline):
    """Of a polygon (shoelace formula), in mm²."""
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return abs(sum(x * v - u * y for (x, y), (u, v) in pairs)) / 2


def test_thistledown_holds_together_on_paper(demo_reports):
    """Volumes of the tail, load on the wing, bending of an elliptical load (from memory).

    The lift of a half acts 4/(3 pi) of it out; what the wing itself weighs does not bend it.
    """
    aircraft = demo_reports.hangar.aircraft["thistledown"]
    wing, text = aircraft.record.wing, told(demo_reports, "thistledown")
    mass = [one.stands for one in aircraft.log if isinstance(one.stands, Weigh)][-1].mass_kg
    quarter = wing.leading_edge_m + wing.mean_chord_m / 4
    elevator = aircraft.surfaces["elevator"]
    tail_m2 = (ends.SPAN + ends.EDGE) / 2 * ends.HINGE / 1e6 + elevator.chord_m * elevator.length_m
    arm_m = (glider.TAILPLANE + glider.TAIL_CHORD / 4) / 1000 - quarter
    fin_m2 = (area(glider.FIN) + area(glider.RUDDER)) / 1e6
    fin_arm_m = 1.026 - quarter  # a quarter of the mean depth of fin and rudder
    stall_m_s = math.sqrt(2 * mass * 9.81 / (1.225 * wing.area_m2 * wing.max_lift_coefficient))
    times = (wing.fastest_m_s / stall_m_s) ** 2
    carried = mass - 0.341 - 2 * 0.0135
    bending = times * 9.81 * carried / 2 * 4 / (3 * math.pi) * wing.span_m / 2
    apart = 21.9 - 2 * 0.6 - 1
    modulus = math.pi / 32 * (12**4 - 10**4) / 12

    assert f"wing loading is {mass / wing.area_m2 * 10:.0f} g/dm²" in text
    assert f"volume is {tail_m2 * arm_m / wing.area_m2 / wing.mean_chord_m:.2f} and" in text
    assert f"the fin's {fin_m2 * fin_arm_m / wing.area_m2 / wing.span_m:.3f}," in text
    assert 14 == round(times)
    assert f"bending moment of {bending:.0f} N·m" in text
    strips, joiner = (round(n, -1) for n in (bending * 1e3 / apart / 8, bending * 1e3 / modulus))
    assert f"strips {strips:.0f} N/mm² and the front joiner {joiner:.0f}," in text


def test_thistledowns_servos_turn_as_far_as_servos_do(demo_reports):
    """The way of the horn over the arm of the servo: between 15 and 40 degrees to a side."""
    assert demo_reports.hangar.aircraft["thistledown"].surfaces
    for name, one in demo_reports.hangar.aircraft["thistledown"].surfaces.items():
        for throw in (one.up, one.down, one.left, one.right):
            if throw is None:
                continue
            turn = float(throw.removesuffix(" mm")) / 1000 / one.chord_m
            arm = turn * one.horn_m / one.servo_arm_m
            assert 15 <= math.degrees(math.asin(arm)) <= 40, name


def test_thistledowns_wing_weighs_what_its_pieces_weigh(demo_reports):
    """Foam, obeche 0.38 g/cm³ (from memory), carbon 1.55 g/cm³, glue not counted: a tenth less."""
    pairs = list(itertools.pairwise(glider.SECTION))
    root = sum((b[0] - a[0]) * (a[1] + a[2] + b[1] + b[2]) / 2 for a, b in pairs)
    round_it = sum(math.hypot(b[0] - a[0], b[n] - a[n]) for a, b in pairs for n in (1, 2))
    taper = glider.TIP / glider.ROOT
    foam = 2 * 950 * root * (1 + taper + taper**2) / 3 / 1e6 * 15
    veneer = 2 * 950 * round_it * (1 + taper) / 2 * 0.6 / 1e3 * 0.38
    tubes = 240 * (12**2 - 10**2) + 120 * (6**2 - 4**2)
    carbon = (4 * 700 * 8 + math.pi / 4 * tubes) / 1e3 * 1.55
    weighed = demo_reports.hangar.ledger.items["W-41"].mass_kg * 1000

    assert 0.9 * weighed < foam + veneer + carbon < weighed


@pytest.mark.parametrize(
    ("slug", "run"),
    [("hogweed", "current sensor"), ("trefoil", "distribution"), ("burdock", "distribution")],
)
def test_a_lead_too_thin_is_told_beside_its_wiring(demo_reports, slug, run):
    """The current and the load of the copper as the figures have them, before the drawing."""
    figures = demo_reports.figures_of_aircraft(slug)
    load = figures.find("wire_load", f"pack to {run}, full throttle")
    before, *_ = told(demo_reports, slug).split("@ wiring")
    margin = figures.find("wire_margin", f"pack to {run}, full throttle")
    instead = margin.verdict + " ".join(margin.notes)

    assert f"carries {load.value:.0f} A" in before
    assert f"{round(float(load.verdict.split()[0]))} A to the square millimetre" in before
    for gauge in re.findall(r"I would take (\d+ AWG)", before):
        assert f"such as {gauge}" in instead
    assert "Now I would take" in before


def test_hogweed_tells_what_a_full_pack_drives(demo_reports):
    """Beside the current at the nominal voltage, which its wiring shows."""
    peaks = [
        figure.value
        for figure in demo_reports.figures_of_aircraft("hogweed").figures
        if figure.name == "peak_current"
    ]

    text = told(demo_reports, "hogweed")
    margin = demo_reports.figures_of_aircraft("hogweed").find("motor_margin", None)
    over = re.search(r"([\d.]+ %) over its rating", margin.verdict)[1]
    assert f"on a full pack it is {max(peaks):.0f} A" in text
    assert f"a motor on a full pack stands {over} over its power" in text


@pytest.mark.parametrize("slug", ["hogweed", "trefoil"])
def test_a_feed_too_thin_is_told_and_a_thicker_one_is_on_the_list(demo_reports, slug):
    """Current, load and instead of them as the figures have them; the stock is what to buy."""
    figures = demo_reports.figures_of_aircraft(slug)
    load, margin = (
        figures.find(name, "distribution to each esc, full throttle")
        for name in ("wire_load", "wire_margin")
    )
    before, *_ = told(demo_reports, slug).split("@ wiring")
    thin = demo_reports.hangar.aircraft[slug].wiring[-1].wire.written
    instead = re.search(r"(\d+ AWG) for the feeds", before)[1]
    amps, squared = load.value, f"{float(load.verdict.split()[0]):g}"
    sold = [row[1] for row in table(demo_reports, slug, *STOCK)]

    assert f"The feeds are over, too: {amps:.0f} A in {thin}, {squared} A to the square" in before
    assert f"such as {instead}" in margin.verdict
    for pole in ("red", "black"):
        assert f"silicone wire {instead}, {pole}" in sold
        assert f"silicone wire {re.search(r'I would take (.+?) for', before)[1]}, {pole}" in sold


def test_trefoil_tells_what_its_parts_do_not_account_for(demo_reports):
    """With the pack whose sum its page has."""
    figures = demo_reports.figures_of_aircraft("trefoil")
    grams = [int(found) for found in re.findall(r"(\d+)\sg", parts_total(figures))]
    summed, weighed = grams[-2:]

    assert "four of them are left" in told(demo_reports, "trefoil")
    assert 4 == weighed - summed


@pytest.mark.parametrize(("slug", "inner", "outer"), [("trefoil", 46, 70), ("hogweed", 74, 84)])
def test_rings_are_as_long_as_their_circles(demo_reports, slug, inner, outer):
    """Pi times the breadth, and 15 mm where the ends lie on each other."""
    cut = {row[1]: row[2] for row in table(demo_reports, slug, *PIECES)}

    assert f"{inner} and {outer} across" in told(demo_reports, slug)
    assert f"{math.pi * inner + 15:.0f}" == cut["inner ring, plus"]
    assert f"{math.pi * outer + 15:.0f}" == cut["outer ring, minus"]


def test_trefoils_pieces_are_those_of_its_drawings(demo_reports):
    """Plates, arms and motor plates; the pack hangs as low as the record says."""
    cut = {row[1]: row[2] for row in table(demo_reports, "trefoil", *PIECES)}
    aircraft = demo_reports.hangar.aircraft["trefoil"]
    forwards, rights = zip(*y6_sheet.OUTLINE, strict=True)
    (besides,) = table(demo_reports, "trefoil", "forward", *map(str, forwards))
    below = 16.2 / 2 + y6_sheet.PLATE + 5 + 3 + 23 / 2

    assert ("beside", *map(str, rights)) == besides
    assert f"{max(forwards) - min(forwards)} x {2 * max(rights)}" == cut["plate, top and bottom"]
    shaft = aircraft.record.diagonal_m * 500 - y6_sheet.INNER
    assert f"{shaft + y6_sheet.BEYOND:.0f}" == cut["arm"]
    assert " x ".join(map(str, y6_sheet.MOTOR_PLATE)) == cut["motor plate"]
    assert " x ".join(map(str, y6_sheet.TRAY)) == cut["pack tray"]
    text = told(demo_reports, "trefoil")
    front = aircraft.positions["pack"][0] * 1000 + y6_sheet.TRAY[0] / 2
    rear = aircraft.record.diagonal_m * 500 + y6_sheet.BEYOND
    assert f"Folded, its propellers off, it is {front + rear:.0f} long" in text
    assert f"stands with its plates {y6_sheet.stands():.0f} above the ground" in text
    assert f"block of a skid, {y6_sheet.BLOCK[1]} high, {y6_sheet.BLOCK[0]} along the arm" in cut
    assert aircraft.positions["pack"][2] * 1000 == pytest.approx(below, abs=0.5)


HEAD, WIRE_SLEEVED = 5.7 / 2, {"trefoil": 3.2, "hogweed": 3.8}
"""Half the breadth of a flat round head M3 (ISO 7380, from memory); wire with its sleeve, in mm."""


def off_boom(ahead, right):
    """How far beside the middle line of the nearest boom of Hogweed, beyond its inner end."""
    apart = []
    for bearing in map(math.radians, range(30, 360, 60)):
        cos, sin = math.cos(bearing), math.sin(bearing)
        along = ahead * cos + right * sin
        beside = abs(right * cos - ahead * sin)
        short = max(0.0, hexa_sheet.INNER - along)
        apart.append(math.hypot(beside, short) if along > 0 else math.inf)
    return min(apart)


def test_trefoils_bolts_have_room(demo_reports):
    """Packers and rings keep off the heads of the posts' bolts; a sunk head stays in its plate."""
    inner, outer = (across / 2 for across in y6_sheet.RINGS)
    half = WIRE_SLEEVED["trefoil"] / 2
    cut = {row[1]: row[2] for row in table(demo_reports, "trefoil", *PIECES)}
    text = told(demo_reports, "trefoil")

    assert f"{y6_sheet.PACKER_WIDE} x 12" == cut["packer under the plate, across"]
    assert all(right - HEAD > y6_sheet.PACKER_WIDE / 2 for _, right in y6_sheet.POSTS)
    for post in y6_sheet.POSTS:
        out = math.hypot(*post)
        assert out + HEAD < inner - half or inner + half < out - HEAD
        assert out + HEAD < outer - half or outer + half < out - HEAD
    near = math.hypot(*y6_sheet.POSTS[1])
    off = (near - HEAD - inner - half, outer - half - near - HEAD)
    assert "they are {:.1f} off the inner ring and {:.1f} off the outer".format(*off) in text
    assert outer + half < y6_sheet.PINS[0] - 9 / 2  # a washer M4 is 9 across (ISO 7089)
    assert math.hypot(28, 28) / 2 < inner - half  # the pad
    assert 1.65 < y6_sheet.PLATE  # countersunk head M3 (ISO 7046, from memory)
    assert "head 1.65 high" in text
    stack = 2 * y6_sheet.PLATE + 16.2
    assert "steel pin 4, 21 between head and clip" in text
    assert stack < 21
    assert 0.8 + 2.9 < 5  # washer and head of a bolt M4, in the gap above the tray
    folded = math.sin(math.radians(60)) * y6_sheet.PINS[0] - y6_sheet.TUBE / 2
    beside = folded - y6_sheet.POSTS[1][1]
    corner = 5.5 / 2 / math.cos(math.radians(30))
    assert 5.5 / 2 < beside - 7 < corner  # a speed controller passes a flat, not a corner
    assert "hexagonal ones with a flat outward" in text
    longest = float(re.search(r"below and no longer than (\d+): two of them meet", text)[1])
    assert 2 * longest < y6_sheet.TUBE + 2 * y6_sheet.PLATE


def test_trefoils_straps_pads_and_leads_find_their_way(demo_reports):
    """Straps between packers; stitches beside rings, pad and posts; pads behind; leads in front."""
    text = told(demo_reports, "trefoil")
    inner, outer = (across / 2 for across in y6_sheet.RINGS)
    half, hole = WIRE_SLEEVED["trefoil"] / 2, 1.5 / 2
    front, rear = (packer + way * 6 for packer, way in zip(y6_sheet.PACKERS, (-1, 1), strict=True))
    near, between, far = y6_sheet.SEWN
    pack = demo_reports.hangar.aircraft["trefoil"].positions["pack"]
    level = y6_sheet.APART / 2 + y6_sheet.PLATE
    edge = max(ahead for ahead, _ in y6_sheet.OUTLINE)
    face = pack[0] * 1000 + y6_sheet.PACK[0] / 2
    way = edge - outer + level + pack[2] * 1000 + face - edge
    beside, behind = 17, 49

    one, other = y6_sheet.STRAPS
    assert one + y6_sheet.STRAP / 2 <= front
    assert other - y6_sheet.STRAP / 2 >= rear
    assert one - other >= y6_sheet.STRAP
    assert f"{one} and {other} ahead of the middle of the plates, round tray" in text
    assert 14 / math.cos(math.radians(30)) + hole < near < inner - half - hole
    assert inner + half + hole < between < outer - half - hole
    assert outer + half + hole < far
    for bearing in map(math.radians, (30, 90, 150)):
        for out in y6_sheet.SEWN:
            for post in y6_sheet.POSTS:
                at = (out * math.cos(bearing), out * math.sin(bearing))
                assert math.dist(at, post) > HEAD + hole
    assert f"its middle {behind} behind that of the plate and {beside} beside it" in text
    positions = demo_reports.hangar.aircraft["trefoil"].positions
    for station, side in (("receiver", -1), ("buzzer", 1)):
        assert positions[station][:2] == pytest.approx((-behind / 1e3, side * beside / 1e3))
    assert math.hypot(behind - 10, beside - 10) > outer + half
    assert math.hypot(behind + 10 - y6_sheet.PINS[0], beside - 10) > 9 / 2
    assert behind + 10 < -y6_sheet.POSTS[2][0] - HEAD
    assert f"down to the pack: {way:.0f} of its 130" in text


def test_hogweeds_bolts_straps_and_mast_have_room(demo_reports):
    """What is bolted to its plates keeps off booms, rings, posts and edges."""
    text = told(demo_reports, "hogweed")
    nut = 6.4 / 2  # M3 over its corners (ISO 10511, from memory)
    ring = 84 / 2 + WIRE_SLEEVED["hogweed"] / 2
    flat = hexa_sheet.CORNER * math.cos(math.pi / 6)
    tray = (-22 - hexa_sheet.PACK[0] / 2, -22 + hexa_sheet.PACK[0] / 2)
    boom_bolt = hexa_sheet.BOLT * math.cos(math.pi / 6)

    assert ring < hexa_sheet.INNER
    for ahead, right in hexa_sheet.TRAY_BOLTS:
        assert math.hypot(ahead, right) - nut > ring
        assert off_boom(ahead, right) > hexa_sheet.BOOM / 2 + nut
        assert math.dist((ahead, right), (math.copysign(hexa_sheet.POSTS, ahead), 0)) > 2 * nut
        assert abs(ahead) + 5 < flat
        assert tray[0] < ahead - 5
        assert ahead + 5 <= tray[1]
    for slot in (-40 - 22, 40 - 22):
        spans = (slot - 11, slot + 11)
        for head in (boom_bolt, -boom_bolt, -hexa_sheet.POSTS):
            assert not spans[0] < head + HEAD or not head - HEAD < spans[1]
        for ahead, _ in hexa_sheet.TRAY_BOLTS:
            assert abs(ahead - slot) > 11 + 5
    assert 1.65 < min(hexa_sheet.STRIP, hexa_sheet.TRAY)
    cut = {row[1]: row[2] for row in table(demo_reports, "hogweed", *PIECES)}
    for end, strip, (at, _) in zip(
        ("front", "rear"), hexa_sheet.STRIPS, hexa_sheet.TRAY_BOLTS, strict=True
    ):
        said = cut[f"strip under the tray, across, {end}"]
        assert f"{strip:.0f} x {hexa_sheet.STRIP_WIDE:.0f}" == said
        for bearing in range(30, 360, 60):
            for ahead, right in hexa_sheet.clamp_bolts(bearing):
                along = abs(ahead - at) - hexa_sheet.STRIP_WIDE / 2
                assert max(along, abs(right) - strip / 2) > HEAD + 1
    near = min(abs(right) for _, right in hexa_sheet.clamp_bolts(150))
    assert f"clamp bolts stand {near:.0f} to either side there" in text
    back, right = hexa_sheet.MAST_AT
    assert right - 10 > 76 / 2  # its foot, beside the tray
    assert f"{-back:.0f} behind the middle and {right:.0f} to the right" in text
    assert -back + 5 <= flat
    post = [hexa_sheet.POSTS * way(math.radians(60)) for way in (math.cos, math.sin)]
    for bolt in hexa_sheet.socket_bolts():
        assert math.dist(bolt, post) > 3 * nut
        assert off_boom(*bolt) > hexa_sheet.BOOM / 2 + nut
        edge = bolt[0] * math.sin(math.pi / 6) + bolt[1] * math.cos(math.pi / 6)
        assert flat - edge > nut
    assert 2 * 3 + hexa_sheet.BOOM == hexa_sheet.GAP  # the saddles
    assert f"The clamps are bored {hexa_ends.BORE:g}:" in text
    assert 0 < hexa_sheet.BOOM - hexa_ends.BORE < hexa_ends.SAW  # else no plate would close it
    assert f"leaves only {(hexa_ends.CLAMP_THICK - 3.2) / 2:.1f} of nylon" in text
    order = [text.index(step) for step in ("solder the six pairs", "*Then* lay in", "top plate on")]
    assert order == sorted(order)
    assert 2 * hexa_ends.SADDLE_HIGH < hexa_sheet.GAP
    for out, way in zip(hexa_sheet.SEWN, (1, -1), strict=True):
        middle = hexa_sheet.RINGS[(1 - way) // 2] / 2
        assert way * (middle - out) >= (1.5 + WIRE_SLEEVED["hogweed"]) / 2
    for right in (hexa_sheet.MAST_AT[1] + way * hexa_sheet.MAST_BOLTS for way in (-1, 1)):
        beside = abs(right * math.cos(math.radians(150)) - back * math.sin(math.radians(150)))
        boom = math.sqrt((hexa_sheet.BOOM / 2) ** 2 - beside**2)
        assert 1.65 < hexa_sheet.GAP / 2 - boom  # the head between plate and boom


def test_hogweeds_motor_mounts_can_be_made(demo_reports):
    """Bolts beside boom and motor, with room for their nuts; screws as deep as a motor takes.

    From memory: locking nut M3 4 high, head of an M3 5.7 across and 1.65 high. A motor takes 2 to
    4 mm of a screw (common practice, no source).
    """
    text = told(demo_reports, "hogweed")
    parts = table(demo_reports, "hogweed", SMALL, "pieces", "where")
    (upper, hollow), (lower, under) = hexa_ends.UPPER, hexa_ends.LOWER
    radius, sunk = hexa_sheet.BOOM / 2, hexa_ends.POCKET / 2
    along, across = hexa_ends.BOLTS
    crown = upper - hollow
    apart = 2 * radius - hollow - under
    long, bolt = (
        next(float(re.search(r"M3 x (\d+)", row[0])[1]) for row in parts if row[2] == where)
        for where in ("four per motor", "four per motor mount, round the boom, heads up")
    )

    assert 2 <= long - hexa_ends.LEFT <= 4
    assert f"an M3 x {long:.0f} that leaves {long - hexa_ends.LEFT:.0f} for the motor" in text
    clear = crown - hexa_ends.LEFT - 1.65  # of the heads that stand over the boom
    assert f"in line with the boom clear it by {clear:.2f}" in text
    assert f"the shaft must not stand out more than {crown:.0f} below" in text
    assert f"The halves stay {apart:.0f} apart" in text
    assert bolt > upper + apart + lower + 0.5 + 4
    assert across - 1.6 > radius + 1.5
    assert min(hexa_ends.MOUNT[0] / 2 - along, hexa_ends.MOUNT[1] / 2 - across) >= 3.5
    assert math.hypot(along, across) - HEAD > 36 / 2
    assert "no more than 36 across" in text
    assert sunk > HEAD
    assert hexa_ends.MOTOR[1] + sunk < hexa_ends.MOUNT[1] / 2 - 2
    assert min(hexa_ends.MOTOR) - sunk > hexa_ends.CENTRE / 2
    assert hexa_ends.BEYOND == hexa_ends.MOUNT[0] / 2  # held all along


def test_hogweeds_small_parts_add_up(demo_reports):
    """Two bolts a clamp and one a boom, four a mount, four screws a motor, two ends of a post."""
    many = {row[0]: row[1] for row in table(demo_reports, "hogweed", SMALL, "pieces", "where")}
    cut = {row[1].split(",")[0]: int(row[0]) for row in table(demo_reports, "hogweed", *PIECES)}
    arms = len(demo_reports.layout("hogweed").stations)

    def count(begins):
        (found,) = (int(number) for name, number in many.items() if name.startswith(begins))
        return found

    assert 3 * arms == count("bolt M3 x 35")
    assert 4 * arms == count("bolt M3 x 30") == count("motor screw M3 x 6")
    assert arms == cut["boom"] == count("post M3")
    assert 2 * count("post M3") == count("bolt M3 x 8")
    assert 2 * arms == cut["saddle"] == cut["clamp"]
    assert 4 == cut["leg of the skids"] == count("leg socket") == count("T-piece")
    outputs = {plan.output for plan in demo_reports.hangar.aircraft["hogweed"].stations.values()}
    assert 5 not in outputs
    assert "output 5 of the controller, which no motor has" in told(demo_reports, "hogweed")


def test_hogweeds_frame_weighs_what_its_pieces_weigh(demo_reports):
    """Densities in g/cm³ from memory: carbon 1.55, nylon 1.15, glass fibre 1.9, birch ply 0.68."""
    cut = table(demo_reports, "hogweed", *PIECES)
    carbon = 2 * 1.5 * math.sqrt(3) * hexa_sheet.CORNER**2 * hexa_sheet.PLATE
    tube = math.pi * (8**2 - (8 - hexa_ends.WALL) ** 2)
    carbon += tube * sum(int(row[0]) * float(row[2]) for row in cut if row[3] == "B")
    halves = 0.0
    for high, deep in (hexa_ends.UPPER, hexa_ends.LOWER):
        half = math.acos(1 - deep / 8)
        groove = 64 * (half - math.sin(half) * math.cos(half))
        halves += hexa_ends.MOUNT[0] * (hexa_ends.MOUNT[1] * high - groove)
    saddles = 12 * 16 * (14 * 7 - 41)
    tray = math.prod(sides("160 x 76")) * hexa_sheet.TRAY
    strips = sum(hexa_sheet.STRIPS) * hexa_sheet.STRIP_WIDE * hexa_sheet.STRIP
    bolts = 24 * 1.9 + 6 * 2.4 + 12 * 0.6 + 24 * 0.45 + 6 * 1.1 + 4 * 1.1
    grams = (
        bolts + (carbon * 1.55 + (6 * halves + saddles) * 1.15 + tray * 1.9 + strips * 0.68) / 1000
    )
    frame = demo_reports.hangar.ledger.items["F-31"].mass_kg * 1000

    assert f"posts weigh {frame:.0f} g" in told(demo_reports, "hogweed")
    assert frame == pytest.approx(grams, rel=0.05)


def test_hogweed_stands_level_by_its_parts_as_by_its_scales(demo_reports):
    """What sits away from the middle, by mass and place; camera and regulator came later."""
    aircraft = demo_reports.hangar.aircraft["hogweed"]
    items = demo_reports.hangar.items
    weighed = [
        one.stands for one in aircraft.log if isinstance(one.stands, Weigh) and one.stands.scales_kg
    ]
    pack = items["P-21"].mass_kg * aircraft.record.positions["pack"][0]
    moments = {
        part.station: items[part.tag].mass_kg * aircraft.positions[part.station][0]
        for part in aircraft.items()
        if part.station in aircraft.positions and part.station != "camera"
    }
    camera = [items[part.tag].mass_kg for part in aircraft.items() if part.station == "camera"]
    ahead = [pack + sum(moments.values())]
    ahead += [ahead[0] + sum(camera) * aircraft.positions["camera"][0]]

    assert {"mast", "supply", "receiver", "regulator"} <= set(moments)
    for one, moment in zip(weighed[:2], ahead, strict=True):
        front = sum(kg for name, kg in one.scales_kg.items() if name.startswith("front"))
        lever = aircraft.record.diagonal_m / 2 * math.cos(math.radians(30))
        level = (2 * front - one.mass_kg) * lever / one.mass_kg
        assert moment / one.mass_kg == pytest.approx(level, abs=0.0005)


def test_thistledowns_aileron_arms_lean_as_its_story_says(demo_reports):
    """One turn of the servo to either side makes both ways of the horn (plane geometry)."""
    aileron = demo_reports.hangar.aircraft["thistledown"].surfaces["aileron-right"]
    text = told(demo_reports, "thistledown")
    lean, turn = (
        math.radians(float(re.search(rf"(\d+) degrees {word}", text)[1]))
        for word in ("out of square", "of the servo")
    )
    per_way = aileron.servo_arm_m * aileron.chord_m / aileron.horn_m * 1000
    up = per_way * (math.sin(lean) - math.sin(lean - turn))
    down = per_way * (math.sin(lean + turn) - math.sin(lean))

    assert [float(way.removesuffix(" mm")) for way in (aileron.up, aileron.down)] == pytest.approx(
        [up, down], abs=0.2
    )


def y6_plate_mm2():
    """Both halves of a plate together, by its corners (Gauss)."""
    half = y6_sheet.OUTLINE
    whole = (*half, *((forward, -right) for forward, right in reversed(half)), half[0])
    return abs(sum(a * d - b * c for (a, b), (c, d) in itertools.pairwise(whole))) / 2


def test_trefoils_frame_weighs_what_its_pieces_weigh(demo_reports):
    """Densities in g/cm³ from memory: carbon 1.55, aluminium 2.7, brass 8.5, birch ply 0.68."""
    sheet = {"A": 2 * 1.55, "D": 3 * 0.68, "E": 5 * 0.68}
    section = {"B": 60 * 2.7, "C": math.pi * (9 - 4) * 8.5}
    grams = 12 * 2.0 + 3 * 4.5 + 6 * 1.2 + 14 * 1.0  # bolts with their nuts, posts
    for count, what, size, letter in table(demo_reports, "trefoil", *PIECES):
        long, wide = sides(size)
        area = y6_plate_mm2() if what.startswith("plate") else long * wide
        if letter in sheet:
            grams += int(count) * area * sheet[letter] / 1000
        elif letter in section:
            grams += int(count) * long * section[letter] / 1000
    frame = demo_reports.hangar.ledger.specs["frame-tri-520"].mass_kg * 1000

    assert f"it weighs {frame:.0f} g" in told(demo_reports, "trefoil")
    assert frame == pytest.approx(grams, rel=0.05)


def test_hogweeds_sizes_are_those_of_its_drawings(demo_reports):
    """Plates, booms, clamps; the pack lies as high as the record says; the camera as it weighed."""
    size = {row[1].split(",")[0]: row[2] for row in table(demo_reports, "hogweed", *PIECES)}
    text = told(demo_reports, "hogweed")
    aircraft = demo_reports.hangar.aircraft["hogweed"]
    shaft = aircraft.record.diagonal_m * 500 - hexa_sheet.INNER
    leg = float(size["leg of the skids"]) * math.cos(math.atan(0.5))
    under = hexa_sheet.GAP / 2 + hexa_sheet.PLATE + hexa_sheet.STRIP + hexa_sheet.TRAY
    up = under + hexa_sheet.PACK[2] / 2
    first, second = [
        one.stands for one in aircraft.log if isinstance(one.stands, Weigh) and one.stands.scales_kg
    ][:2]
    nose = second.scales_kg["front-left"] + second.scales_kg["front-right"]
    moment = (2 * nose - second.mass_kg) * 690 / 2 * math.cos(math.radians(30))

    across = 2 * hexa_sheet.CORNER * math.cos(math.pi / 6)
    assert f"{2 * hexa_sheet.CORNER:.0f} x {across:.0f}" == size["plate"]
    assert f"{shaft + hexa_ends.BEYOND:.0f}" == size["boom"]
    assert f"{hexa_ends.CLAMP_LONG:.0f} x {hexa_sheet.GAP:.0f}" == size["clamp"]
    assert " x ".join(f"{one:.0f}" for one in hexa_ends.MOUNT) == size["motor mount"]
    assert f"{hexa_sheet.PACK[0]:.0f} x {hexa_sheet.TRAY_WIDE:.0f}" == size["pack tray"]
    assert (
        f"Its own middle and that of the pack are {-aircraft.positions['pack'][0] * 1000:.0f}"
        in (text)
    )
    assert f"{hexa_sheet.RAIL:.0f}" == size["rail"]
    ground = hexa_sheet.GAP / 2 + hexa_sheet.PLATE + leg + 10
    assert ground == pytest.approx(hexa_sheet.GROUND, abs=0.5)
    assert -aircraft.positions["pack"][2] * 1000 == pytest.approx(up, abs=0.1)
    assert hexa_sheet.CAMERA == pytest.approx(moment / (second.mass_kg - first.mass_kg), abs=1.5)


def test_hogweed_and_trefoil_tell_what_was_recorded(demo_reports):
    """Lengths of plane geometry, weighings, readings; wires as the record has them."""
    hexa, y6 = (demo_reports.hangar.aircraft[slug] for slug in ("hogweed", "trefoil"))
    large, small = (told(demo_reports, slug) for slug in ("hogweed", "trefoil"))
    weighed = [one.stands for one in hexa.log if isinstance(one.stands, Weigh)]
    scales = {name: round(kg * 1000) for name, kg in weighed[1].scales_kg.items()}
    nose = scales["front-left"] + scales["front-right"]
    stand = hexa.record.diagonal_m * 1000 / 2
    shafts = y6.record.diagonal_m * 1000 / 2
    tray = hexa.positions["pack"][0] * 1000

    assert f"shaft stands {stand:.0f} mm out" in large
    assert f"305 mm, there are {stand - 12 * 25.4:.0f} mm between the tips" in large
    assert f"it weighed {weighed[0].mass_kg * 1000:.0f} g and stood level" in large
    assert f"{weighed[1].mass_kg * 1000:.0f} g, and the front pair of scales read " in large
    assert f"{2 * nose - sum(scales.values())} g more than the rear pair" in large
    assert f"the middle of the pack lay {-tray:.0f} mm behind" in large
    assert f"twice the {shafts:.0f} mm from its middle to each shaft" in small
    assert f"it is {shafts * math.sqrt(3):.0f} mm, and with ten-inch" in small
    for aircraft, slug in ((hexa, "hogweed"), (y6, "trefoil")):
        wires = {row[0] for row in table(demo_reports, slug, *STOCK) if "AWG" in row[1]}
        pieces = table(demo_reports, slug, *PIECES)
        cut = {
            (row[0], row[2])
            for row in pieces
            if row[3] in wires and not row[1].startswith("feed of")
        }
        arms = str(len(demo_reports.layout(slug).stations))
        assert cut == {
            (arms if run.end == "each esc" else "1", f"{run.length_m * 1000:.0f}")
            for run in aircraft.wiring
        }
