"""Words of stories as tables: verbs by what they do to an amount, and words that are no thing.

A verb's class says what happens to who is spoken of: `gain` more comes, `lose` some goes, `own` and
`be` say what there is, `do` says what was done and leaves amounts alone. A class alone decides
nothing: rows of `rows.py` look at who has what, and at what is asked.
"""

from __future__ import annotations

from functools import lru_cache

from narrate.reading.words.plain import word_set

_IRREGULAR = """
    be:is are was were am been being; have:has had having; do:does did done doing
    get:gets got gotten getting; buy:buys bought buying; find:finds found finding
    win:wins won winning; come:comes came coming; grow:grows grew grown growing
    catch:catches caught catching; make:makes made making; take:takes took taken taking
    put:puts putting; hold:holds held holding; keep:keeps kept keeping; lose:loses lost losing
    eat:eats ate eaten eating; sell:sells sold selling; spend:spends spent spending
    give:gives gave given giving; leave:leaves left leaving; fly:flies flew flown flying
    die:dies died dying; break:breaks broke broken breaking; drink:drinks drank drunk drinking
    pay:pays paid paying; throw:throws threw thrown throwing; cut:cuts cutting
    lend:lends lent lending; send:sends sent sending; run:runs ran running; read:reads reading
    swim:swims swam swum swimming; drive:drives drove driven driving; ride:rides rode ridden riding
    write:writes wrote written writing; draw:draws drew drawn drawing; build:builds built building
    saw:saws sawed sawn sawing; see:sees saw seen seeing; sing:sings sang sung singing
    go:goes went gone going
    feed:feeds fed feeding; tell:tells told telling; say:says said saying; know:knows knew known
    think:thinks thought thinking; bring:brings brought bringing; sit:sits sat sitting
    stand:stands stood standing; swing:swings swung; choose:chooses chose chosen choosing
    let:lets; need:needs needed needing; want:wants wanted wanting; rise:rises rose risen rising
    fall:falls fell fallen falling; split:splits splitting; cost:costs costing; begin:begins began
    sew:sews sewed sewn sewing; teach:teaches taught; wear:wears wore worn wearing; dig:digs dug
    sleep:sleeps slept sleeping; weigh:weighs weighed weighing; show:shows showed shown showing
    hit:hits hitting; lay:lays laid laying; shoot:shoots shot; hide:hides hid hidden; bite:bites bit
    steal:steals stole stolen; forget:forgets forgot forgotten; set:sets setting; spill:spills
    hear:hears heard; meet:meets met; burn:burns burned burnt burning; shrink:shrinks shrank
    ring:rings rang; become:becomes became; blow:blows blew blown; lead:leads led; bend:bends bent
    tie:ties tied; hang:hangs hung hanging; sow:sows sowed sown sowing
"""

_CLASSES = {
    "be": "be sit stand live lie stay remain",
    "own": "have own count possess hold contain keep carry store include",
    "gain": """get receive buy purchase find pick collect earn win add join come arrive hop gather
        catch grow save borrow make bake plant pour put gain deposit harvest download order fill
        raise obtain acquire land enter board move park pack adopt rise hatch load knit sew produce
        create unpack check sow""",
    "lose": """lose eat sell use spend give donate leave fly die break remove delete drink pay throw
        return discard burn drop spill lend mail send hand withdraw leak pop rot melt
        graduate escape
        consume trade fall wilt finish waste feed erase cut swim depart cancel quit exit sink drain
        chew pass saw trim snip shorten tear rip shave spoil ruin nibble""",
    "take": "take",
    "do": """do run walk jump drive score read draw paint write play see sing go tell say know think
        bring choose let need want begin sew wear dig sleep weigh show hit lay ride travel
        work study cook invite jog climb practice watch build visit answer complete solve
        mow wash cross
        clean serve learn type swing call organize put place stack arrange divide split share
        distribute separate pack cost charge last fit attend decide like prefer help plan start
        stop cover measure live tie count scored teach hike bike row skate knit ask order require
        stretch drip water plow fence carve wrap bounce park appear become equal estimate
        hang deliver print fold string mix prepare snow rain film record exercise volunteer miss
        shoot steal hide forget hear meet bite swim pick believe feel try happen contribute recycle
        compare suggest participate sprout bloom germinate
        cycle sign stir crawl wander rush dash scurry gallop trot hurry
        ripen survive harvest discard decorate push tip double triple halve seat
        repeat rent peel stretch stroll""",
}

_DETERMINERS = "a an the this that these those his her its their my our your some any no both all"
_PREPOSITIONS = """of in on at to for from with by into onto over under about between among around
    during through across near beside behind after before until since within without off down up out
    along inside outside toward towards against per as than like"""
_LINKS = "and but or then so while if when because since who which that whose where although though"
_PRONOUNS = "he she it they him her them his hers its their theirs we us our i me my you your"
_ADVERBS = """also only just still now then later today yesterday tomorrow already more less fewer
    extra additional another other others altogether together total combined too very exactly about
    left remaining each every same equally equal evenly apiece again initially originally first
    next later soon so far however there here not almost nearly away back ago once twice already
    currently usually always never instead ahead finally most least enough such initial"""
_MODALS = "will would can could should may might must shall 'll does did do"


DETERMINERS, PREPOSITIONS, LINKS = word_set(_DETERMINERS), word_set(_PREPOSITIONS), word_set(_LINKS)
PRONOUNS, ADVERBS, MODALS = word_set(_PRONOUNS), word_set(_ADVERBS), word_set(_MODALS)
ORDINALS = word_set("first second third fourth fifth sixth last")
NO_THING = DETERMINERS | PREPOSITIONS | LINKS | PRONOUNS | ADVERBS | MODALS
"""Words that end the name of a thing."""


def _regular(base: str) -> list[str]:
    stem = base[:-1] if base.endswith("e") else base
    if base.endswith("y") and base[-2] not in "aeiou":
        return [base, f"{base[:-1]}ies", f"{base[:-1]}ied", f"{base}ing"]
    third = f"{base}es" if base.endswith(("s", "x", "ch", "sh", "o")) else f"{base}s"
    doubled = [f"{base}{base[-1]}ed", f"{base}{base[-1]}ing"]
    return [base, third, f"{stem}ed", f"{stem}ing", *doubled]


def _forms() -> dict[str, str]:
    """Every form of every verb, with the verb it belongs to."""
    irregular = dict(
        row.strip().split(":") for row in _IRREGULAR.replace("\n", ";").split(";") if row.strip()
    )
    forms: dict[str, str] = {}
    for base in {base for row in _CLASSES.values() for base in row.split()}:
        for form in () if base in irregular else _regular(base):
            forms.setdefault(form, base)
    for base, row in irregular.items():
        forms |= dict.fromkeys([base, *row.split()], base)
    return forms


VERBS = _forms()
"""The verb of a form: `ate` is of `eat`."""

NAMES_NOTHING = NO_THING | VERBS.keys()
"""Words that are no thing, and verbs in all their forms."""

CLASS_OF = {base: name for name, row in reversed(_CLASSES.items()) for base in row.split()}
"""What a verb does: see the top of this file."""

NOUNS_FIRST = word_set(
    "row fence water land park stop plant plow film record load check order pack fold string snow "
    "rain ring show share walk jump play help cost measure answer visit work charge cover print "
    "plan need name light drink cut run ride catch "
    "cycle sign count stir hike bike skate swim drive paint type stack wash "
    "cook draw call use trade waste feed drop spill "
    "burn pass try count fit place split scream move "
    "bite sleep start mix seat hit book board pop study bring score drain pick cross"
)
"""Verbs whose plain forms more often name a thing: the water, 3 rows, two drinks."""

PAST = frozenset(
    form for form in VERBS if form.endswith("ed") or form in word_set(
        "was were had did got bought found won came grew caught made took held kept lost ate sold "
        "spent gave left flew broke drank paid threw ran swam drove rode wrote drew built saw sang "
        "went fed told said brought sat stood chose rose fell began wore dug slept met stole "
        "sent lent"
    )
)  # fmt: skip

_ONE = {
    "children": "child", "people": "person", "men": "man", "women": "woman", "feet": "foot",
    "mice": "mouse", "geese": "goose", "teeth": "tooth", "leaves": "leaf", "loaves": "loaf",
    "halves": "half", "knives": "knife", "shelves": "shelf", "boxes": "box", "inches": "inch",
    "potatoes": "potato", "tomatoes": "tomato",
    "dollars": "dollar", "cents": "cent", "fish": "fish",
    "buses": "bus", "glasses": "glass", "classes": "class", "dishes": "dish", "bunches": "bunch",
    "pennies": "penny", "cookies": "cookie",
    "movies": "movie", "pies": "pie", "brownies": "brownie",
    "ties": "tie", "goldfish": "goldfish", "scarves": "scarf", "wolves": "wolf", "calves": "calf",
    "heroes": "hero", "oxen": "ox", "kilos": "kilogram", "kg": "kilogram", "lbs": "pound",
    "lb": "pound", "ft": "foot", "cm": "centimeter", "km": "kilometer", "oz": "ounce",
    "metre": "meter", "metres": "meter", "litre": "liter", "litres": "liter",
    "kilometre": "kilometer", "kilometres": "kilometer", "centimetre": "centimeter",
    "centimetres": "centimeter", "millimetre": "millimeter", "millimetres": "millimeter",
    "millilitre": "milliliter", "millilitres": "milliliter", "gramme": "gram", "grammes": "gram",
    "kilogramme": "kilogram", "kilogrammes": "kilogram", "tonne": "ton", "tonnes": "ton",
    "hr": "hour",
    "hrs": "hour", "min": "minute", "mins": "minute", "gal": "gallon", "yd": "yard", "mi": "mile",
    "calories": "calorie", "prairies": "prairie",
    "m": "meter", "g": "gram", "ml": "milliliter", "qt": "quart", "pt": "pint",
    "series": "series", "calf": "calf", "mm": "millimeter",
}  # fmt: skip


@lru_cache(maxsize=4096)
def one(word: str) -> str:
    """A word of one thing: `boxes` is `box`, `children` `child`."""
    low = word.lower().removesuffix("'s").rstrip("'")
    if low in _ONE:
        return _ONE[low]
    if len(low) < 4 or low.endswith(("ss", "us", "is")) or not low.endswith("s"):
        return low
    if low.endswith("ies"):
        return f"{low[:-3]}y"
    if low.endswith(("ches", "shes", "sses", "xes", "zes")):
        return low[:-2]
    return low[:-1]


SAID_ALIKE = {
    "spend": "buy cost pay purchase", "pay": "buy cost", "cost": "buy", "need": "take use",
    "use": "need take get", "make": "earn sell bake", "earn": "make sell",
    "get": "receive give buy earn",
    "fall": "rain snow", "collect": "find pick get", "receive": "give get", "buy": "pay cost get",
}  # fmt: skip
"""Verbs of a question that ask for what other verbs told."""

DATES = word_set(
    "monday tuesday wednesday thursday friday saturday sunday january february march april june "
    "july august september october november december"
)
SPANS = word_set("year month week season spring summer autumn fall winter")
TOLD_DAYS = frozenset(f"{which}-{span}" for which in ("this", "last") for span in SPANS) | word_set(
    "today-day yesterday-day"
)
"""Days and years that a story tells apart, as names: this year, last year, today."""
DATES |= TOLD_DAYS
TIMES = DATES | word_set(
    "morning afternoon evening night noon yesterday today tomorrow week weekend month year day"
)
"""Words that tell when."""

COLOURS = word_set(
    "red green blue yellow black white orange purple pink brown big small large little "
    "ripe unripe old new"
)
"""Words that tell things of one name apart."""

UNITS = word_set(
    "inch foot yard mile meter centimeter kilometer millimeter gram kilogram pound ounce ton liter "
    "milliliter gallon quart pint cup tablespoon teaspoon second minute hour day week month year "
    "dollar cent degree point calorie acre percent milligram penny decade"
)
"""Names of measures: what is counted is said after "of", or not at all."""
