"""The countries that a school may name are those whose holidays are known."""

import holidays

from lessonkit.rules.country_unknown import COUNTRIES


def test_every_country_with_known_holidays_is_there() -> None:
    """Source: the list of the holidays library, which follows ISO 3166-1 and adds XK."""
    assert set(holidays.list_supported_countries(include_aliases=False)) <= COUNTRIES


def test_there_are_as_many_as_the_standard_has() -> None:
    """ISO 3166-1 has 249 codes (source: the table iso3166.tab of the time zone database); XK is one of no standard."""
    assert 249 + 1 == len(COUNTRIES)
