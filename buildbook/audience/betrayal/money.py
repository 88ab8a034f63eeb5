"""Prices: an amount beside a sign, a code of ISO 4217, or the name of a currency."""

import re
from collections.abc import Iterator

from buildbook.audience.betrayal.pattern import Betrayal, words

# The codes of ISO 4217 in use (list one), without those of funds, metals and tests.
CODES = words(
    "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN "
    "BWP BYN BZD CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD "
    "FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY "
    "KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP "
    "MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR "
    "RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT "
    "TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XOF XPF YER ZAR ZMW "
    "ZWG"
)
AMBIGUOUS = words("ALL ANG AWG BAM CAD COP CUP GEL MAD MOP PEN RON SOS STN TOP TRY")
"""Codes that are words or abbreviations too: an amount with hundredths must stand beside them."""

_SIGN = re.compile(r"[€$£¥₹₽₩₺₫₴₪฿₱₦₡₲₵₸₼₾] ?\d|\d(?:[.,]-{1,2})? ?[€$£¥₹₽₩₺₫₴₪฿₱₦₡₲₵₸₼₾]")
_BEFORE = re.compile(r"(?<![A-Za-z0-9])(?P<code>[A-Z]{3}) ?(?P<amount>\d{1,9}(?:[.,]\d{1,9})?)")
_AFTER = re.compile(
    r"(?<![\w.])(?P<amount>\d{1,9}(?:[.,'](?:\d{1,9}|-{1,2}))?(?:[.,]\d{2})?)"
    r" ?(?P<code>[A-Z]{3})(?![A-Za-z0-9])"
)
_NAMED = re.compile(
    r"\d(?:[.,]-{1,2})? ?(?:eur|usd|gbp|chf|euros?|dollars?|cents?|bucks|quid|pence|sterling"
    r"|francs?|kroner|kronor|yen|rupees?|z[lł]oty(?:ch|s)?)\b|(?<!\w)(?:eur|usd|gbp|chf) ?\d",
    re.IGNORECASE,
)
_DASHED = re.compile(r"(?<![\d.,])\d{1,6}[.,]-{1,2}(?![\w-])")
_HUNDREDTHS = re.compile(r"\d[.,]\d\d$")


def _signs(text: str) -> Iterator[int]:
    for pattern in (_SIGN, _NAMED, _DASHED):
        for found in pattern.finditer(text):
            yield found.start()


def _codes(text: str) -> Iterator[int]:
    for pattern in (_BEFORE, _AFTER):
        for found in pattern.finditer(text):
            code = found["code"]
            if code in CODES and (code not in AMBIGUOUS or _HUNDREDTHS.search(found["amount"])):
                yield found.start()


MONEY = (
    Betrayal("looks like a price", _signs),
    Betrayal("looks like a price", _codes),
)
PATTERNS = (_SIGN, _BEFORE, _AFTER, _NAMED, _DASHED, _HUNDREDTHS)
