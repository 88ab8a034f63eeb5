"""Pages of parts and packs: their life, and quarantine before everything else."""

import re

from buildbook.pages.stock import item, stock
from buildbook.pages.theme import Press, theme_folders
from tests.pages.sites import as_read


def html_of(reports, tag):
    return as_read(Press(reports, theme_folders(None)).compose(item.page(reports, tag)))


def test_r11_the_life_of_a_part_follows_it(owner):
    """Fitted since the first of February, flown 1 h 15 min 50 s there in eleven flights."""
    html = html_of(owner, "M-1")

    assert "at front-left of" in html
    assert '<time datetime="2026-02-01">1 February 2026</time>' in html
    assert (
        '<td data-label="flown there">1.3 h</td><td class="num" data-label="flights">11</td>'
        in html
    )


def test_quarantine_stands_before_health(owner):
    """The caution and the word come before the bar, the forecast and the charges."""
    html = html_of(owner, "P-1")

    assert "swollen corner" in html
    first = html.index("In quarantine. Nothing below clears it for use")
    assert html.index("Smell, hiss, heat") < first < html.index('id="stands"')
    assert first < html.index('id="outlook"')


def test_every_pack_page_has_the_cautions(owner, public):
    """SW3, SW4 and SW5, for the public too."""
    for reports in (owner, public):
        html = html_of(reports, "P-2")
        for words in ("Set chemistry, cell count", "Smell, hiss, heat", "Store part-charged, cool"):
            assert words in html


def test_too_early_to_say_is_said(owner):
    """Without measured capacities there is no forecast, and no number pretends to be one."""
    html = html_of(owner, "P-2")

    assert "Expected to fall below" not in html
    outlook = html.partition('id="outlook"')[2].partition("</section>")[0]
    assert "<p>No capacity of P-2 was measured: write a &#39;capacity&#39; entry" in outlook


def test_a_forecast_is_an_interval_in_months(demo_reports):
    """The demo's oldest pack in use: a charge number with its interval, months for the day."""
    html = html_of(demo_reports, "P-01")

    assert "Expected to fall below 80 % of its rated capacity at about charge" in html
    assert "By charging as of late, and by age, that is not within 4 years at this rate." in html
    assert "<title" in html.partition('id="trends"')[2]
    assert "Capacity: the readings as a table" in html


def test_an_end_is_expected_only_of_what_has_not_come_to_it(demo_reports):
    """What has stayed below, or seems to have, is told as that."""
    expected = set()
    for tag in (tag for tag, one in demo_reports.hangar.items.items() if one.is_pack):
        end = demo_reports.figures_of_item(tag).find("pack_end_of_life")
        html = html_of(demo_reports, tag)

        assert ("Expected to fall below" in html) == (end is not None and end.judged is None), tag
        expected |= {end.judged} if end is not None else set()
    assert {None} < expected


def test_the_odd_cell_is_marked_in_the_chart(demo_reports):
    """Cell 2 of the retired pack stands out, as its figure says."""
    series = demo_reports.resistance_trend("P-04")

    assert series is not None
    assert 2 == series.odd_cell
    assert 3 == len(series.cells)


def test_r26_past_lives_of_a_kind(demo_reports):
    """How many came to their end, and after how long, by the median."""
    facts = item.page(demo_reports, "M-01").facts

    assert "3 came to their end, median 9.2 h" == facts["siblings_ended"]
    assert "M-01" in [one.tag for one in facts["siblings"].items]


def test_r16_unknown_life_is_at_least(demo_reports):
    """A pack of unknown age: every total is at least."""
    facts = item.page(demo_reports, "P-33").facts

    assert "at least 0.25 h" == next(one.words for one in facts["lived"] if one.label == "flown")
    assert ("Earlier life unknown: every total is a minimum.",) == facts["first"]


def test_a_life_without_hours_makes_the_time_at_least(demo_reports):
    """95 flights and 74 cycles before the log, their hours unwritten; the flights are a guess."""
    facts = item.page(demo_reports, "P-04").facts
    lived = {one.label: one.words for one in facts["lived"]}

    assert ("at least 1.5 h", "about 103") == (lived["flown"], lived["flights"])
    assert "1 came to its end, after at least 1.5 h" == facts["siblings_ended"]
    kinds = {life.title: life.at_least for life in demo_reports.stock().past_lives}
    assert (True, False) == (kinds["3S 2650 mAh LiPo"], kinds["2213 motor, 840 rpm/V"])


def test_private_facts_are_for_the_owner(open_changed):
    """Serial and price stand on the owner's page and on no other."""
    changed = {
        "parts/items.yaml": """\
- {tags: M-2..M-5, spec: m-1, acquired: 2026-01-01}
- {tag: M-1, spec: m-1, acquired: 2026-01-01, serial: K7731, price: 14.50 EUR, note: Odd one}
- {tags: E-1..E-4, spec: e-1, acquired: 2026-01-01}
- {tags: R-1..R-3, spec: p-cw, acquired: 2026-01-01}
- {tags: L-1..L-4, spec: p-ccw, acquired: 2026-01-01}
- {tag: P-1, spec: b-3s, acquired: 2026-01-01}
- {tag: P-2, spec: b-3s, acquired: 2026-01-01}
"""
    }
    private = ("K7731", "14.50 EUR", "Odd one")
    owners, publics = (
        html_of(open_changed(changed, audience), "M-1") for audience in ("owner", "public")
    )

    assert [True] * 3 == [word in owners for word in private]
    assert [False] * 3 == [word in publics for word in private]


def test_the_public_reads_the_months_of_the_owner(demo_reports, demo_public):
    """The end of a pack lies between the same months, though the day of the record is a month."""
    packs = [line.tag for line in demo_reports.packs() if line.at_hand]
    told = [item.page(demo_reports, tag).facts["outlook"].months for tag in packs]

    assert "not within 4 years at this rate" in told
    assert told == [item.page(demo_public, tag).facts["outlook"].months for tag in packs]


def test_a_pack_that_is_gone_is_at_no_charge(open_changed):
    """A last storage charge says nothing of a pack that was handed in since."""
    log = """\
- {on: 2026-06-24, charge: P-1, to: storage}
- {on: 2026-06-25, state: {P-1: retired}, because: handed in}
- {on: 2026-06-25, charge: P-2, to: storage}
"""
    reports = open_changed({"stores/packs.yaml": log})
    html = Press(reports, theme_folders(None)).compose(stock.page(reports, ""))
    lines = html[html.index("those in quarantine first") :].split("</tr>")

    told = {
        tag: next(line for line in lines if f">{tag}</a></th>" in line) for tag in ("P-1", "P-2")
    }
    assert "retired" in told["P-1"]
    assert "at storage charge" not in told["P-1"]
    assert "at storage charge" in told["P-2"]


def test_a_trend_of_the_cells_is_told_once_and_in_milliohms(demo_reports):
    """Its sentence says the change a charge, or that none is seen; no ohms with seven digits."""
    html = html_of(demo_reports, "P-02")

    assert "No trend to be seen" in html
    assert "of the first" in html
    assert "0.0000" not in html


def test_a_pack_that_is_gone_has_no_forecast(demo_reports):
    """Handed in on 14 March 2026; its last reading, of 11 March, was the first below the limit."""
    html = re.sub("<[^>]+>", "", html_of(demo_reports, "P-04"))

    assert (
        "It is retired: no forecast. Its capacity was below 80 % of the rated one from"
        " 11 March 2026 on."
    ) in html
    assert "Expected to fall below" not in html
    assert "one more reading" not in html


def test_a_spare_says_where_it_fits_and_what_to_look_at_before_it_goes_on(demo_reports):
    """Stations of its kind by aircraft, with the drawing; looks with no pack in; then its sheet."""
    spare = demo_reports.part_life("R-43").spare
    html = html_of(demo_reports, "R-43")

    assert [("burdock", ("front-left", "rear-right"))] == [
        (one.slug, one.stations) for one in spare.fits
    ]
    assert ["propeller-balance", "propeller-touch"] == [one.name for one in spare.looks]
    assert ("propeller-fit", "check-flight") == spare.reopens
    assert "<p>at front-left, rear-right</p>" in html
    assert '<div class="thumb"><svg' in html
    assert "Do these set-up checks again: propeller fit, check flight." in html
    order = [f'id="{name}"' for name in ("fits", "before", "part", "lived", "same")]
    assert order == sorted(order, key=html.index)
    assert html.index("Take the propellers off") < html.index("Set the propeller on a balancer")
    assert "<p>Not flown yet.</p>" in html


def test_what_is_fitted_set_aside_or_a_pack_is_no_spare(demo_reports):
    """Nor is what goes on no aircraft; of one of whose kind none is fitted the looks are told."""
    for tag in ("R-41", "E-13", "P-01", "B-01", "N-01"):
        assert None is demo_reports.part_life(tag).spare, tag
    lone = demo_reports.part_life("R-81").spare
    assert ((), ["propeller-balance", "propeller-touch"]) == (
        lone.fits,
        [one.name for one in lone.looks],
    )


def test_what_to_do_with_a_spare_is_said_once(demo_reports):
    """Its row stands before it is fitted; how it is done, where all is that comes before."""
    html = html_of(demo_reports, "R-02")

    assert '<h2 id="stands">Before it is fitted</h2>' in html
    assert 1 == html.count("Run a finger along each blade edge and round the hub.")


def test_a_part_with_an_open_defect_is_called_so_and_not_serviceable(demo_reports):
    """One cracked, one with play that may wait: no badge stands against what is to be done."""
    for tag, said, advice in (
        ("F-31", "defect open", "Do not fly it"),
        ("F-11", "defect deferred", "Look at it before each flight"),
    ):
        html = as_read(html_of(demo_reports, tag))
        head, _, rest = html[html.index("<main") :].partition("</header>")

        assert said in head
        assert "serviceable" not in head
        assert advice in rest
