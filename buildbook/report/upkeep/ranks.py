"""How bad a thing is: the order in which reasons and rows are told, worst first."""

GROUNDING_DEFECT = 0
LIMIT_REACHED = 1
ITEM_OUT_OF_SERVICE = 2
EMPTY_STATION = 3
FAILED_CHECK = 4
STALE_CHECK = 5
OVERDUE_TASK = 6
# Nothing grounds from here on.
CHECK_FLIGHT = 7
OVERDUE = 8
IN_TOLERANCE = 9
DUE = 10
DUE_SOON = 11
NOT_RECORDED = 12
NOTED = 13
# Nothing is open from here on.
FINE = 20
NOT_APPLICABLE = 21

NOT_DUE = (DUE_SOON, NOTED, FINE)
"""What flying may yet bring to due."""
