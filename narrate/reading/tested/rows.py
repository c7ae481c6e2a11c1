"""The questions whose choices are tested one by one, each a whole question with its test."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from narrate.reading.demands import Tested
from narrate.reading.tested import lists, properties, scientific, sides
from narrate.reading.tested.said import Asked


@dataclass(frozen=True, slots=True)
class Row:
    """A whole question in small letters, `{NOT}` where it may deny, and the test of its choices."""

    question: str
    test: Callable[[Asked], Tested | None]


_WORK = (
    r"(?:(?:(?:mathematical|math|number|addition|subtraction|multiplication|division) )?"
    r"(?:equations?|number sentences?|sentences?|statements?|inequalit(?:y|ies)|comparisons?|facts?"
    r"|problems?|expressions?|choices?|answers?|numbers?|fractions?|decimals?|ratios?|products?"
    r"|sums?))"
)
_OF = (
    rf"(?: one)?(?: of (?:these|the following|the)(?: {_WORK})?)?(?: {_WORK})?"
    r"(?: (?:below|here))?"
)
_WHICH = rf"(?:which|what){_OF}"
_SAME = "(?:which|what)(?: of (?:these|the following))?"
_N = r"(?P<n>.+?)"
_NUMBERS = r"(?:numbers|fractions|decimals|integers|amounts|values)"
_LEAST = r"(?:least|smallest|lowest|shortest|lightest)"
_GREATEST = r"(?:greatest|largest|highest|biggest|longest|heaviest)"
_FROM = rf"from (?:the )?(?P<first>{_LEAST}|{_GREATEST}) to (?:the )?(?:{_LEAST}|{_GREATEST})"
_IN_ORDER = (
    r"(?:(?:is|are) )?(?:(?:written|listed|arranged|ordered|put|placed|shown) )?(?:in order,? )?"
    rf"{_FROM}"
)
_GIVEN = r"(?P<list>[\d/., −-]+)"
_LIST = rf"(?:(?:list|set|group|row|order)s?(?: of {_NUMBERS})?)"
_HAS = r"(?:shows?|lists?|names?|gives?|is|are|has|have|contains?|includes?)(?: a list of)?"
_PROPERTY = (
    r"(?:the )?(?P<property>associative|commutative|distributive|identity|zero) property"
    r"(?: (?:of|for) (?P<of>addition|multiplication))?"
)
_SHOWS = (
    r"(?:shows?|illustrates?|demonstrates?|represents?|uses?|models?|describes?"
    r"|is an? (?:example|illustration|use) of)"
)
_SHOWN = r"(?:shown|illustrated|demonstrated|used|represented)"
_OPERATIONS = r"(?: of (?:addition|multiplication|operations))?"
_THE_EQUATION = r"(?:the )?(?:(?:equation|number sentence|statement)(?: below)?[:.]? )?"
_REL = r"(?P<rel>[^?:]*=[^?:]*?)"
_UNEQUAL = r"(?:the )?(?:inequality:? )?(?P<rel>[^?:]*[<>≤≥][^?:]*?)"
_WRITTEN = r"(?: (?:written|expressed|shown))?"
_FORM = (
    r"(?:expanded form|expanded notation|standard form|word form|words|numerals|digits|number form)"
)
_WRITE = r"how (?:is|(?:do|would|can|could) you write)"
_SIGN = r"(?:(?:comparison |inequality |relation )?(?:symbol|sign))"
_BOX = r"(?:[□▢☐○◯]|_+|\?|blank|box)"
_ONE_LETTER = r"(?P<rel>[^?:=a-z]*[a-z][^?:=a-z]*=[^?:=a-z]+)"
_SIDE = r"[^□▢☐○◯_?a-z]+?"
_CAN = r"(?:(?:can|could|will|would) )?"
_DIGIT = r"(?:(?:the )?digit |an? |the )?(?P<digit>\d)"
_PLACES = r"ten|hundred|thousand|million|one|tenth|hundredth|thousandth"
_PLACE = rf"(?P<place>(?:(?:ten|hundred) )?(?:{_PLACES})s)(?: |-)place"
_ROOT = r"(?:the (?:value of the )?square root of|√) ?(?P<n>\d+)"
_IN_WORDS = r"[\"'“”‘’]?(?P<n>(?:[a-z]+[ ,-]+)+[a-z]+),?[\"'“”‘’]?"
_IN_WHICH = rf"in {_SAME}(?: numbers?)? (?:does|is|has) {_DIGIT}"
_WORTH = r"(?:(?:have|has) a value of|worth|(?:have|has) the value|represents?|a value of)"

ROWS = (
    Row(rf"{_WHICH} (?:is|are) {{NOT}}(?:true|correct)", sides.is_true),
    Row(r"which (?:statement|sentence|symbol)? ?correctly compares .+", sides.is_true),
    Row(
        rf"{_WHICH} (?:(?P<same>(?:is|are) {{NOT}}(?:equal|equivalent) (?:in value )?to)|makes?"
        r"|(?:does|do) {NOT}(?:equal|make|have a (?:value|sum|product|difference|quotient) of)"
        r"|(?:has|have) a (?:value|sum|product|difference|quotient|total) of"
        rf"|(?:has|have) the same value as) {_N}",
        sides.makes_of_work,
    ),
    Row(
        r"(?:which|what) ratio is {NOT}(?:(?:equal|equivalent) to|the same as)(?: the ratio)? "
        rf"{_N}",
        sides.ratios,
    ),
    Row(
        rf"(?:(?:by|using) the distributive property,? )?(?:{_WHICH}|what) (?:is|are) {{NOT}}"
        rf"(?:equivalent to|equal to|the same as) {_N}",
        sides.same_for_every,
    ),
    Row(
        rf"(?:by|using) the distributive property,? {_N} (?:is|are) "
        r"(?:equal to|equivalent to|the same as)",
        sides.same_for_every,
    ),
    Row(
        rf"(?:(?:how do you )?(?:simplify|simplified form of)(?: the expression)?|combine (?:the )?"
        rf"like terms(?: in)?(?: the expression)?|what is the simplified form of)[:.]? {_N}",
        sides.same_for_every,
    ),
    Row(rf"{_WHICH} (?:shows|is) {_N},? (?:simplified|in simplest form)", sides.same_for_every),
    Row(rf"{_WHICH} (?:shows|is|represents) {_N},?{_WRITTEN} in {_FORM}", sides.makes),
    Row(rf"{_WHICH} (?:is|shows|names|means|represents) {_IN_WORDS}", sides.makes_of_words),
    Row(
        rf"(?:write|what is|how (?:do you|would you) write) (?:the number )?{_IN_WORDS},?{_WRITTEN}"
        r" (?:as|in|using) (?:an? )?(?:decimal|number|numeral|digits|numerals|standard form)",
        sides.makes_of_words,
    ),
    Row(
        r"between (?:which|what)(?: two)?(?: consecutive)?(?: (?:whole )?(?:numbers|integers))? "
        rf"(?:is|does|will|would) {_ROOT}(?: (?:lie|fall|be|located|found))?",
        lists.roots,
    ),
    Row(
        rf"{_ROOT} (?:is|lies|falls) between (?:which|what)(?: of these)?(?: two)?(?: consecutive)?"
        r"(?: (?:whole )?(?:numbers|integers))?",
        lists.roots,
    ),
    Row(rf"{_WHICH} (?:shows|is|represents) the {_FORM} (?:of|for) {_N}", sides.makes),
    Row(rf"what is the {_FORM} (?:of|for) (?:the number )?{_N}", sides.makes),
    Row(rf"{_WRITE} (?:the number )?{_N}{_WRITTEN} in {_FORM}", sides.makes),
    Row(
        rf"{_WHICH} (?:is|shows) {{NOT}}(?:another|a different) way "
        rf"(?:to write|of writing|to name) {_N}",
        sides.makes,
    ),
    Row(
        rf"{_WHICH} (?:is {{NOT}}a solution (?:of|to|for)|could be a solution (?:of|to|for)"
        rf"|is {{NOT}}in the solution set of|(?:does {{NOT}})?(?:satisfy|satisfies|makes?)) "
        rf"{_UNEQUAL}(?: true| a true statement)?",
        sides.solves,
    ),
    Row(
        rf"{_SAME} (?:value|number)s? (?:of|for) (?P<x>[a-z]) "
        rf"(?:makes|satisfies|would make|will make) {_UNEQUAL}(?: true)?",
        sides.solves,
    ),
    Row(
        rf"{_SAME} (?:value|number)s? could (?P<x>[a-z]) be (?:in|if|so that) {_UNEQUAL}",
        sides.solves,
    ),
    Row(
        rf"{_WHICH} is {{NOT}}true (?:when|if|for) (?P<x>[a-z]) (?:=|is|equals) {_N}",
        sides.solved_by,
    ),
    Row(rf"{_WHICH} has (?:a solution of|the solution) (?P<x>[a-z]) = {_N}", sides.solved_by),
    Row(
        rf"{_SAME} {_SIGN} (?:(?:will |would )?makes?|should replace|belongs in|goes in"
        rf"|can be used)(?: [a-z -]+?)?[:.?]? ?(?P<a>{_SIDE}) ?{_BOX} ?(?P<b>{_SIDE})(?: true)?",
        sides.signs,
    ),
    Row(
        rf"(?:compare|write|choose)(?: (?:<, >, or =|the correct symbol|the (?:numbers|fractions"
        rf"|decimals)))?[.:]? (?P<a>{_SIDE}) ?{_BOX} ?(?P<b>{_SIDE})",
        sides.signs,
    ),
    Row(
        rf"which (?:step|operation|action)[a-z ]* (?:find|solve)(?: [a-z]+)*:? {_ONE_LETTER}",
        sides.steps,
    ),
    Row(
        r"(?:an|the) angle (?:measures|has a measure of|is) (?P<n>\d+)(?:°| degrees)[.] "
        r"(?:which|what) (?:type|kind|sort) of angle is (?:it|this|that)",
        sides.angles,
    ),
    Row(
        r"(?:which|what) (?:(?:type|kind|sort) of angle|word describes an angle that) "
        r"(?:measures|has a measure of|is) (?P<n>\d+)(?:°| degrees)",
        sides.angles,
    ),
    Row(
        rf"{_SAME} (?:pair of numbers|two numbers) (?:has|have) {{NOT}}an? "
        rf"(?P<of>sum|difference|product|quotient) of {_N}",
        sides.pairs,
    ),
    Row(
        rf"{_SAME} pairs? of (?:ratios|fractions) (?:{_CAN}{{NOT}}forms? a proportion"
        r"|(?:is|are) {NOT}(?:equivalent|equal|proportional))",
        sides.proportions,
    ),
    Row(
        rf"{_SAME}(?: {_LIST})?(?: {_HAS})?(?: (?:the|these))?(?: {_NUMBERS})? ?{_IN_ORDER}"
        rf"(?:[:.?] {_GIVEN})?",
        lists.ordered,
    ),
    Row(
        rf"(?:order|arrange|write|put|list)(?: (?:the|these))?(?: {_NUMBERS})?(?: in order)?,? "
        rf"{_FROM}"
        rf"[:.] {_GIVEN}",
        lists.ordered,
    ),
    Row(
        rf"{_SAME}(?: {_LIST})?(?: {_HAS})? all(?: of)?(?: the)? factors of {_N}",
        lists.all_factors,
    ),
    Row(rf"what are (?:all )?(?:of )?the factors of {_N}", lists.all_factors),
    Row(
        rf"{_SAME}(?: {_LIST})? {_HAS}(?: only)?(?: the)?"
        rf"(?: first (?P<count>two|three|four|five|six))? multiples of {_N}",
        lists.multiples,
    ),
    Row(
        rf"(?:{_WHICH} (?:shows|is|represents)|what is|find|give|write)(?: the)? "
        rf"prime factorization (?:of|for) {_N}",
        lists.prime_factors,
    ),
    Row(rf"write {_N} as a product of (?:its )?prime (?:factors|numbers)", lists.prime_factors),
    Row(rf"{_WHICH} (?:shows|is) {{NOT}}a prime factorization", lists.prime_factors),
    Row(
        rf"(?:{_WRITE}|what is|write|express|{_WHICH} (?:shows|is)) (?:the number )?{_N},?"
        rf"{_WRITTEN} in scientific notation",
        scientific.scientific,
    ),
    Row(rf"{_WHICH} {_SHOWS} (?:an example of )?{_PROPERTY}", properties.shows),
    Row(
        rf"{_SAME} property{_OPERATIONS} (?:is|was) {_SHOWN}(?: (?:by|in))? {_THE_EQUATION}{_REL}",
        properties.shown,
    ),
    Row(rf"{_THE_EQUATION}{_REL} {_SHOWS} {_SAME} property{_OPERATIONS}", properties.shown),
    Row(
        rf"{_SAME} property{_OPERATIONS} (?:does|do) {_THE_EQUATION}{_REL} {_SHOWS}",
        properties.shown,
    ),
    Row(
        r"(?:what|which) (?:is the )?rule (?:for|of|describes|fits|was used to make|makes) "
        rf"(?:the|this) (?:number )?(?:pattern|sequence)(?: below)?[:?.]? {_GIVEN}",
        lists.rules,
    ),
    Row(
        r"estimate (?P<n>[^a-wyz]+)[.] the (?:sum|difference|product|quotient) is between "
        r"(?:what|which)(?: two)?(?: numbers)?",
        lists.between,
    ),
    Row(
        rf"(?:which|what)(?: of these)? (?:integer|number|temperature|value)s? is (?:the )?"
        rf"(?P<end>{lists.LEAST}|greatest|largest|highest|warmest)",
        lists.extreme,
    ),
    Row(rf"{_IN_WHICH} {_WORTH} (?P<worth>[\d,.]+)", lists.digits),
    Row(rf"{_IN_WHICH} (?:appear )?in the {_PLACE}", lists.digits),
    Row(rf"{_WHICH} (?:has|have) {_DIGIT} in the {_PLACE}", lists.digits),
)
