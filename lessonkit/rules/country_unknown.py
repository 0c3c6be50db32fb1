"""A school takes its public holidays from a country that there is not.

Then no holiday would be kept free, and lessons would be planned on all of them.

Fails:

    calendar:
      first_day: 2026-08-31
      last_day: 2027-06-11
      holidays:
        country: UK

Passes:

    calendar:
      first_day: 2026-08-31
      last_day: 2027-06-11
      holidays:
        country: GB
"""

from collections.abc import Iterator
from typing import Final

from lessonkit.records.record import Record
from lessonkit.records.school import School
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK226", "country-unknown", Level.ERROR), (School,))
_CODES: Final = (
    "AD AE AF AG AI AL AM AO AQ AR AS AT AU AW AX AZ BA BB BD BE BF BG BH BI BJ BL BM BN BO BQ BR BS BT "
    "BV BW BY BZ CA CC CD CF CG CH CI CK CL CM CN CO CR CU CV CW CX CY CZ DE DJ DK DM DO DZ EC EE EG EH "
    "ER ES ET FI FJ FK FM FO FR GA GB GD GE GF GG GH GI GL GM GN GP GQ GR GS GT GU GW GY HK HM HN HR HT "
    "HU ID IE IL IM IN IO IQ IR IS IT JE JM JO JP KE KG KH KI KM KN KP KR KW KY KZ LA LB LC LI LK LR LS "
    "LT LU LV LY MA MC MD ME MF MG MH MK ML MM MN MO MP MQ MR MS MT MU MV MW MX MY MZ NA NC NE NF NG NI "
    "NL NO NP NR NU NZ OM PA PE PF PG PH PK PL PM PN PR PS PT PW PY QA RE RO RS RU RW SA SB SC SD SE SG "
    "SH SI SJ SK SL SM SN SO SR SS ST SV SX SY SZ TC TD TF TG TH TJ TK TL TM TN TO TR TT TV TW TZ UA UG "
    "UM US UY UZ VA VC VE VG VI VN VU WF WS XK YE YT ZA ZM ZW"
)
COUNTRIES: Final = frozenset(_CODES.split())
"""The codes of ISO 3166-1, and XK; a test compares them with the library that knows the holidays."""
_MEANT: Final = {"UK": "GB", "EN": "GB", "SP": "ES", "JA": "JP"}
"""Codes that are written for another."""


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for a country whose code there is not."""
    assert isinstance(record, School)
    holidays = record.calendar.holidays
    if holidays is not None and holidays.country not in COUNTRIES:
        meant = _MEANT.get(holidays.country)
        hint = f"Did you mean {meant!r}?" if meant else "Write the two-letter code of ISO 3166, such as US."
        says = f"There is no country {holidays.country}, so its holidays are not known."
        yield Fault(("calendar", "holidays", "country"), says, hint)
