"""Days as they are written in files: 2026-05-04, and in no other way."""

from __future__ import annotations

import re
from datetime import date

DAY_IS = "write it as year-month-day, such as 2026-05-20"
DAYS_ARE = "write each day as year-month-day, several with a space between: 2026-05-20 2026-05-21"


def day(text: str) -> date | None:
    """The day that a text gives; None where it gives none (another order, the 31st of April)."""
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text.strip()):
        return None
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        return None
