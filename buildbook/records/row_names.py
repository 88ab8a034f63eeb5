"""Names of checks and tasks that the program itself looks for or opens."""

CHECK_FLIGHT = "check-flight"
COMPASS = "compass"
ACCELEROMETER = "accelerometer"
SURFACE_SENSE = "surface-sense"
SURFACE_THROWS = "surface-throws"
START_SPREAD = "start-spread"
RECEIVER_NEUTRAL = "receiver-neutral"
RECEIVER_ORDER = "receiver-order"
LOW_VOLTAGE_ALARM = "low-voltage-alarm"
SPIN_DIRECTIONS = "spin-directions"
PROPELLER_FIT = "propeller-fit"
WEIGHING = "weighing"
RANGE = "range"
BALANCE_POINT = "balance-point"
FULL_INSPECTION = "full-inspection"

PACK_CAPACITY = "pack-capacity"
PACK_RESISTANCE = "pack-resistance"
PACK_RESTING = "pack-rest-voltage"
PACK_LOOK = "pack-look"
PACK_CELLS = "pack-cells"
PACK_AGE = "pack-age"
STORAGE_CHARGE = "pack-storage-charge"
SET_ASIDE = "set-aside"
USED_WHILE_ASIDE = "used-while-aside"

AIRCRAFT_DRIFT = "aircraft-drift"
PACK_DRIFT = "pack-drift"
ODD_CELL = "odd-cell"
END_OF_LIFE = "pack-end-of-life"
LOW_CELLS = "low-cells"
CELL_VOLTAGES = "cell-voltages"
FALLING_CELL = "falling-cell"
READ_AT_REST = "read-at-rest"
READ_AGAIN = "read-again"
FLOWN_LOW = "flown-low"
SAID_SWOLLEN = "said-swollen"
USED_TOO_MUCH = "used-too-much"
INTO_RESERVE = "flown-into-reserve"
CHARGED_WRONGLY = "charged-wrongly"
DRYING = "drying"

MOVE_TASKS = ("broadcast-check", "update-registration")
"""Tasks that a remote ID module opens when it goes to another aircraft."""

PART_LOOK = "part-look"
"""The task that a part opens which was at fault, or in a crash, and is fitted since."""

SIGNAL_TASKS = (
    *MOVE_TASKS,
    PART_LOOK,
    AIRCRAFT_DRIFT,
    CELL_VOLTAGES,
    CHARGED_WRONGLY,
    DRYING,
    FALLING_CELL,
    INTO_RESERVE,
    FLOWN_LOW,
    LOW_CELLS,
    PACK_AGE,
    PACK_CELLS,
    ODD_CELL,
    PACK_DRIFT,
    END_OF_LIFE,
    READ_AGAIN,
    READ_AT_REST,
    SAID_SWOLLEN,
    USED_TOO_MUCH,
    USED_WHILE_ASIDE,
)
"""Tasks that readings, figures and moves open by themselves, whatever the programme says."""


def is_check_of(check: str, kind: str) -> bool:
    """Whether the name of a check has the kind of part that it looks at: ``esc-endpoints``."""
    return kind in check.split("-")
