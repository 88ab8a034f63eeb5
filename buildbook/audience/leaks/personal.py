"""What else a text may give away: secrets, how the keeper is reached, prices, exact days.

Telephone numbers have at most 15 digits (ITU-T E.164); the shapes of national ones are common
practice, no source.
"""

import re
from collections.abc import Iterator

from buildbook.audience.leaks.pattern import Leak, words

_PARTS = re.compile(r"[A-Z]{1,40}(?![a-z])|[A-Z]?[a-zà-ÿ]{1,60}|\d{1,40}")
_WHOLE = words(
    "password passwords passwd pwd passphrase passcode phrase key keys token tokens pin pins "
    "puk psk wpa bind binding uid uuid guid ssid bssid mac serial serials sn imei imsi iccid "
    "secret secrets credential credentials licence license registration operator lat latitude "
    "lon lng longitude coordinate coordinates coords geo waypoint waypoints address phone "
    "telephone mobile mail email owner callsign"
)
"""Words in the name of a setting or reading that make its value private."""
_WITHIN = ("password", "passphrase", "passwd", "passcode", "secret", "ssid", "token", "serial")
"""The same, also as a part of a longer word: ``wifipassword``, ``serialnumber``."""


def is_private_name(name: str) -> bool:
    """Whether the name of a setting says that its value is a secret, a serial or a place.

    ``bind_phrase``, ``apiKey``, ``WiFi-SSID``, ``gps.home.lat``.
    """
    lower = name.lower()
    if any(part in lower for part in _WITHIN):
        return True
    return any(part.lower() in _WHOLE for part in _PARTS.findall(name))


_SAYS = re.compile(
    r"(?<![\w-])(?:"
    r"(?:pass(?:word|phrase|code|wd)s?|pwd|psk|ssid|(?:bind(?:ing)?|wi-?fi|wpa|network) ?-?"
    r"(?:phrase|password|key|name|u?id|code))(?: is|:| ?=) ?\S"
    r"|(?:(?:api|access|licen[cs]e|encryption|private|secret)[ _-]?key|token|secret|uid"
    r"|(?<!allen )(?<!hex )key"
    r"|imei|mac(?: address)?|serial(?: ?(?:no|nr|number|num)\b\.?)?|s/n|sn)(?: ?[:=#]) ?[\w\"'<]"
    r"|(?:pin|puk)(?: (?:code|no\.?|number))?(?: is|:| ?[=#]) ?[\"'<]?\d[ -]?\d[ -]?\d[ -]?\d"
    r"|serial (?:no\b\.?|nr\b\.?|number) ?(?:is )?[\w\"'<]"
    r")",
    re.IGNORECASE,
)
_MAC = re.compile(
    r"(?<![\w:-])(?:[0-9A-Fa-f]{2}(?P<sign>[:-]))(?:[0-9A-Fa-f]{2}(?P=sign)){4}[0-9A-Fa-f]{2}"
    r"(?:(?P=sign)[0-9A-Fa-f]{2}){0,2}(?![\w:-])"
    r"|(?<![\w.])[0-9A-Fa-f]{4}\.[0-9A-Fa-f]{4}\.[0-9A-Fa-f]{4}(?![\w.]\w)(?!\w)"
)
# Three capitals for the state, thirteen signs; source as in records/checking/secrets.py.
_OPERATOR = re.compile(r"(?<![A-Za-z0-9])[A-Z]{3}[ -]?[0-9a-z]{13}(?![0-9A-Za-z])")


def _said(text: str) -> Iterator[int]:
    return (found.start() for found in _SAYS.finditer(text))


def _network(text: str) -> Iterator[int]:
    return (found.start() for found in _MAC.finditer(text))


def _operators(text: str) -> Iterator[int]:
    for found in _OPERATOR.finditer(text):
        if any(sign.isdigit() for sign in found.group()):
            yield found.start()


_MAIL = re.compile(r"(?<![\w.+-])[\w.+-]{1,64} ?@ ?[\w-]{1,63}(?:\.[\w-]{1,63}){1,8}")
_SPELT_MAIL = re.compile(
    r"(?<![\w.+-])[\w.+-]{1,64} ?[\[({] ?at ?[\])}] ?[\w-]{1,63}"
    r"|(?<![\w.+-])[\w.+-]{1,64} at [\w-]{1,63} (?:\[|\()?dot(?:\]|\))? [a-z]{2,20}",
    re.IGNORECASE,
)
_ABROAD = re.compile(r"(?<![\w+])(?:\+ ?|00)[1-9]\d{0,2}(?:[ ./()-]{0,3}\d){6,13}(?!\d)")
_AT_HOME = re.compile(
    r"(?<![\w.,:/+-])\(?0\d{1,5}\)?(?:[ -]{0,2}[/ -] ?\d{2,8}){1,5}(?!\d)(?![.,:/]\d)"
    r"|(?<![\w.,:/+-])0\d(?:\.\d\d){4}(?!\.?\d)"
    r"|(?<![\w.,:/+-])0[1-9]\d{8,10}(?![\w.,:/]\w)(?!\d)"
    r"|(?<![\w.,:/+-])\(?[2-9]\d{2}\)?[ .-]\d{3}[ .-]\d{4}(?!\.?\d)"
)
_CALLED = re.compile(
    r"\b(?:tel|phone|telephone|mobile|cell|call|ring|whatsapp|sms|fax)\b[.:]? ?"
    r"(?:me |us |on |at |no\.? ?|number ){0,3}\(?\+?\d(?:[ ./()-]{0,2}\d){5,14}(?!\d)",
    re.IGNORECASE,
)
_DATE = re.compile(r"\d\d[-/ ]\d\d[-/ ](?:19|20)?\d\d|0\d{2,3}(?: \d{2,4}){0,1}")
_FEWEST_DIGITS = 8
_MOST_DIGITS = 14
_PATH = re.compile(
    r"(?<![\w.])(?:/(?:mnt/[a-z]/|var/|export/|media/[^/\s]{1,40}/|cygdrive/[a-z]/)?"
    r"(?:home|Users|users)/[^\s/\"']{1,60}"
    r"|(?:[A-Za-z]:)?[\\/]{1,2}(?:Users|Documents and Settings)[\\/]{1,2}[^\s/\\\"']{1,60}"
    r"|/root/[^\s/\"']{1,60})",
    re.IGNORECASE,
)
_LINK_BEFORE = re.compile(r"https?:/{0,2}[^\s]{0,200}$", re.IGNORECASE)


def _mail(text: str) -> Iterator[int]:
    for pattern in (_MAIL, _SPELT_MAIL):
        for found in pattern.finditer(text):
            yield found.start()


def _telephone(text: str) -> Iterator[int]:
    for pattern in (_ABROAD, _CALLED):
        for found in pattern.finditer(text):
            yield found.start()
    for found in _AT_HOME.finditer(text):
        digits = sum(sign.isdigit() for sign in found.group())
        if _FEWEST_DIGITS <= digits <= _MOST_DIGITS and not _DATE.fullmatch(found.group()):
            yield found.start()


def _user_folder(text: str) -> Iterator[int]:
    for found in _PATH.finditer(text):
        if not _LINK_BEFORE.search(text[max(0, found.start() - 200) : found.start()]):
            yield found.start()


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


MONTHS = words(
    "january february march april may june july august september october november december "
    "jan feb mar apr jun jul aug sept sep oct nov dec januar jänner februar märz maerz mai "
    "juni juli oktober dezember dez okt janvier février fevrier mars avril juin juillet août "
    "aout septembre octobre novembre décembre enero febrero marzo abril mayo junio julio "
    "agosto septiembre octubre noviembre diciembre gennaio febbraio aprile maggio giugno "
    "luglio settembre ottobre dicembre januari februari maart april mei augustus"
)
"""Names of months in English, German, French, Spanish, Italian and Dutch, and short ones."""

_ALSO_WORDS = frozenset(
    ("may", "march", "mars", "mar", "mai", "dec", "sept", "jan", "mei", "jun", "sep")
)
"""Months that are words, names or units too: alone with a number they need a capital."""

_NAME = "|".join(sorted({*MONTHS}, key=lambda name: (-len(name), name)))
_DAY_FIRST = re.compile(
    rf"(?<![\w.,:/-])(?P<day>\d{{1,2}})(?P<mark>st|nd|rd|th|\.|er|º|°)? ?(?:of |de |- ?)?"
    rf"(?P<month>{_NAME})\b\.?(?P<year>(?: |, | de |-)(?:19|20)\d\d(?!\d))?",
    re.IGNORECASE,
)
_MONTH_FIRST = re.compile(
    rf"(?<!\w)(?P<month>{_NAME})\b\.? ?(?:the )?(?P<day>\d{{1,2}})(?P<mark>st|nd|rd|th)?"
    rf"(?![\w.:/]\d)(?!\w)(?P<year>,? (?:19|20)\d\d(?!\d))?",
    re.IGNORECASE,
)
_YEAR_FIRST = re.compile(
    r"(?<![\w.,-])(?:19|20)\d\d(?P<sign>[-/. ]|)(?P<month>\d{1,2})(?P=sign)(?P<day>\d{1,2})"
    r"(?:T\d\d:\d\d\S{0,20})?(?![\w-])(?![.,/]\d)"
)
_YEAR_LAST = re.compile(
    r"(?<![\w.,/-])(?P<one>\d{1,2})(?P<sign>[./-]) ?(?P<other>\d{1,2})(?P=sign) ?(?:19|20)\d\d"
    r"(?![\w/-])(?!\.\d)"
)
_SHORT_YEAR = re.compile(
    r"(?<![\w.,/-])(?P<one>\d\d)(?P<sign>[./])(?P<other>\d\d)(?P=sign)\d\d(?![\w./-])"
)
_AFTER_A_NUMBER = re.compile(r" ?(?:of|times|%|V\b|A\b|g\b|mm\b)")


def _in_words(text: str) -> Iterator[int]:
    for pattern in (_DAY_FIRST, _MONTH_FIRST):
        for found in pattern.finditer(text):
            name = found["month"]
            sure = found["mark"] not in (None, "°") or found["year"]
            if not 1 <= int(found["day"]) <= 31:
                continue
            if not sure and name.lower() in _ALSO_WORDS and not name[0].isupper():
                continue
            if not sure and name.isupper():  # an abbreviation: MAR 3
                continue
            if pattern is _MONTH_FIRST and _AFTER_A_NUMBER.match(text, found.end()):
                continue
            yield found.start()


def _in_figures(text: str) -> Iterator[int]:
    for found in _YEAR_FIRST.finditer(text):
        packed = not found["sign"] and len(found["month"] + found["day"]) != 4
        if _is_day(found["day"], found["month"]) and not packed:
            yield found.start()
    for found in _YEAR_LAST.finditer(text):
        if _is_day(found["one"], found["other"]) or _is_day(found["other"], found["one"]):
            yield found.start()
    for found in _SHORT_YEAR.finditer(text):  # with a nought in front: 12.10.25 may be a version
        padded = "0" in (found["one"][0], found["other"][0])
        if padded and (
            _is_day(found["one"], found["other"]) or _is_day(found["other"], found["one"])
        ):
            yield found.start()


def _is_day(day: str, month: str) -> bool:
    return 1 <= int(day) <= 31 and 1 <= int(month) <= 12


PERSONAL = (
    Leak("looks like a password, a key or a serial number", _said, "anything"),
    Leak("looks like the address of a network device", _network),
    Leak("looks like an operator number", _operators),
    Leak("looks like an e-mail address", _mail, "anything"),
    Leak("looks like a telephone number", _telephone),
    Leak("the path of a file with the name of a user", _user_folder, "anything"),
    Leak("looks like a price", _signs),
    Leak("looks like a price", _codes),
    Leak("an exact day", _in_words, dated=True),
    Leak("an exact day", _in_figures, dated=True),
)
PATTERNS = (
    *(_PARTS, _SAYS, _MAC, _OPERATOR),
    *(_MAIL, _SPELT_MAIL, _ABROAD, _AT_HOME, _CALLED, _DATE, _PATH, _LINK_BEFORE),
    *(_SIGN, _BEFORE, _AFTER, _NAMED, _DASHED, _HUNDREDTHS),
    *(_DAY_FIRST, _MONTH_FIRST, _YEAR_FIRST, _YEAR_LAST, _SHORT_YEAR, _AFTER_A_NUMBER),
)
