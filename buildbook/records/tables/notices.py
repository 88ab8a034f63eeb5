"""The keys of notices/*.yaml."""

from buildbook.records.fields import PUBLIC_OK, Fields, key, table
from buildbook.records.shapes import Several
from buildbook.records.tables.programmes import INTERVAL_VALUE
from buildbook.records.values import DAY, NAME, TEXT, TRUTH

NOTICE: Fields = table(
    key("notice", NAME, "Its number or name, unique in the hangar", "sb-7", required=True),
    key(
        "spec",
        Several(TEXT, single=True, least=1),
        "The kinds of part that it is about",
        "esc-30a",
        "specs",
        required=True,
    ),
    key("issued", DAY, "Day of this revision", "2026-04-02", required=True),
    key("what", TEXT, "What it asks for", "Look for a cracked joint at the lead.", required=True),
    key("revision", TEXT, "Which revision this is", "2"),
    key("source", TEXT, "Who issued it", "the maker"),
    key("link", TEXT, "Where it can be read", "https://parts.example.org/sb-7"),
    key("every", INTERVAL_VALUE, "How it comes round, where it does", "{flights: 50}"),
    key("grounds", TRUTH, "Whether it grounds while it is open; false unless said", "true"),
    PUBLIC_OK,
)
