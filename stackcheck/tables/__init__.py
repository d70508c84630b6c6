"""Standard parts by designation, and ISO 286 limits by size and class: figures as data, with a source on every row.

    resolve("6204-2RS C3")      one row, or UnknownStandard with the nearest designations
    tables(), rows("iso-7089")  what there is
    fit_limits(25, "H7")        lower and upper deviation [mm], or UnknownFit

Only the file a designation needs is opened, once.
"""

from stackcheck.tables.fits import UnknownFit, fit_limits
from stackcheck.tables.lookup import UnknownStandard, figures, resolve, rows, tables

__all__ = ["UnknownFit", "UnknownStandard", "figures", "fit_limits", "resolve", "rows", "tables"]
