"""What a preview says beside its pages."""

PROBLEMS_HEAD = "Problems in the records"
PROBLEMS_BESIDE = (
    "The page below is the last one without them. It is renewed as soon as they are mended."
)
PROBLEMS_ONLY = "There is no page to show yet. This one reloads as soon as they are mended."
REFUSED_HOST = "This preview answers to the address of this machine only.\n"
