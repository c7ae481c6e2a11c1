"""Our own lint of the timing tree: a clean slide is broken in each way, and each is seen.

The ways are the faults that a validator, the schema and python-pptx's own reader let pass, from
breaking decks on purpose; what is right is ECMA-376 Part 1, 19.5 (Animation).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate.lesson.marks import Build, Effect, Plain, Rule
from narrate.outputs import USUAL, _deck
from narrate.outputs._form import in_form
from narrate.outputs._lint import TIMING_CHECKS, lint, lint_sections
from narrate.outputs._package import deck_part
from narrate.outputs._played import Slide
from narrate.outputs._slides import Clock, Passing, slide
from narrate.outputs._sound import Sound
from narrate.outputs._timing import Entrance, timing
from tests.outputs.samples_deck import group, sample, stack, strip, times, words

CLEAN = slide(sample().pages[1], 2, "en-US")
"""Three builds: a box (p:sp), a connector, a group; two clicks."""

GROUPED = slide(sample().pages[2], 3, "en-US")


@dataclass(frozen=True)
class Way:
    """A way to break a slide: `old` becomes `new`, once; the lint then says `says`."""

    old: str
    new: str
    says: str
    slide: str = CLEAN


def first(pattern: str, xml: str = CLEAN) -> str:
    found = re.search(pattern, xml, re.DOTALL)
    assert found, pattern
    return found[0]


MARK = first(r'id="\d+" name="stem mark 1"')
SPID = first(r"\d+", MARK)
BUILD = first(r"<p:bldP [^>]*>")
CONNECTOR = first(r'\d+(?=" name="stem mark 2")')
STEP = '<p:cond delay="indefinite"/>'
MAIN_ID = 'id="2" dur="indefinite" nodeType="mainSeq"'
PREV = first(r"<p:prevCondLst>.*?</p:prevCondLst>")
NEXT = first(r"<p:nextCondLst>.*?</p:nextCondLst>")
TO = '<p:to><p:strVal val="visible"/></p:to>'
TARGET = f'<p:spTgt spid="{SPID}"/>'
TIMING = first(r"<p:timing>.*</p:timing>")
LIST = first(r"<p:bldLst>.*</p:bldLst>")
TITLE = first(r"<p:sp>.*?</p:sp>")


RUNS = slide(
    sample().pages[1],
    2,
    "en-US",
    clock=Clock(
        starts={"rain-barrel.1.read": 0, "rain-barrel.1.asked": 7_350},
        end=14_700,
        passing=(
            Passing(group=group("caption 1", "One", words(3600, 45_000, "One")), start=50, end=900),
        ),
        sound=Sound(file="sound-0123456789abcdef.m4a", length=14_690),
    ),
)
"""It runs by itself: builds, a caption that comes and goes, and a sound."""
SPOKEN = first(r'\d+(?=" name="narration")', RUNS)
CAPTION = first(r'\d+(?=" name="caption 1")', RUNS)
NODE = first(r"<p:audio .*?</p:audio>", RUNS)
LEAVES = first(
    r'presetClass="exit" presetSubtype="0" fill="hold" [^>]*><p:stCondLst><p:cond delay="900"/>',
    RUNS,
)


def paragraph(shape: str, number: int) -> str:
    return (
        f'<p:spTgt spid="{shape}"><p:txEl><p:pRg st="{number}" end="{number}"/></p:txEl></p:spTgt>'
    )


TAKEAWAY = first(r'\d+(?=" name="takeaway")', GROUPED)
FADED = first(r'dur="400"/><p:tgtEl><p:spTgt spid="\d+"/>', GROUPED)
TAKEAWAY_TARGET = f'<p:spTgt spid="{TAKEAWAY}"/>'

WAYS = {
    "target of a missing shape": Way(TARGET, '<p:spTgt spid="999"/>', "999, which is not there"),
    "build list with a missing shape": Way(
        BUILD, BUILD.replace(SPID, "999", 1), "the build list names shape 999"
    ),
    "duplicate time id": Way('<p:cTn id="4"', '<p:cTn id="3"', "cTn id '3' stands twice"),
    "no time id": Way('<p:cTn id="4" ', "<p:cTn ", "a cTn has no id"),
    "set without to": Way(TO, "", "has a p:set without its p:to"),
    "set to hidden": Way('"visible"', '"hidden"', "does not set its shape visible"),
    "unknown filter": Way('filter="fade"', 'filter="sparkle"', "unknown filter 'sparkle'"),
    "filter of another effect": Way('filter="fade"', 'filter="wipe(left)"', "but filters by"),
    "unknown preset": Way('presetID="10"', 'presetID="77"', "unknown preset ('entr', '77', '0')"),
    "exit instead of entrance": Way(
        'presetClass="entr"', 'presetClass="exit"', "does not set its shape hidden"
    ),
    "paragraph out of range": Way(
        TAKEAWAY_TARGET, paragraph(TAKEAWAY, 1), "aims at paragraphs 1 to 1 of 1", GROUPED
    ),
    "paragraph of a shape without text": Way(
        TARGET, paragraph(SPID, 0), "aims at paragraphs 0 to 0 of 0"
    ),
    "no grpId": Way(' grpId="0" nodeType', " nodeType", "has no grpId"),
    "another grpId": Way('grpId="0" nodeType', 'grpId="1" nodeType', "with grpId 0, which no"),
    "grpId on a connector": Way(
        'fill="hold" nodeType="afterEffect"',
        'fill="hold" grpId="0" nodeType="afterEffect"',
        f"shape {CONNECTOR} is no p:sp",
    ),
    "no build list": Way(LIST, "", "is missing in the build list"),
    "shape twice in the build list": Way(BUILD, BUILD * 2, "stands twice in the build list"),
    "connector in the build list": Way(
        BUILD,
        BUILD + f'<p:bldP spid="{CONNECTOR}" grpId="0"/>',
        f"names shape {CONNECTOR}, which is no p:sp",
    ),
    "no way back": Way(PREV, "", "no p:prevCondLst"),
    "no way on": Way(NEXT, "", "no p:nextCondLst"),
    "wrong event": Way('evt="onNext"', 'evt="onPrev"', "no p:nextCondLst"),
    "step that does not wait": Way(STEP, '<p:cond delay="0"/>', "not 'indefinite'"),
    "dangling time node": Way(
        STEP,
        STEP + '<p:cond evt="onBegin" delay="0"><p:tn val="99"/></p:cond>',
        "p:tn names the time node 99",
    ),
    "unknown node type": Way('"clickEffect"', '"tapEffect"', "unknown node type 'tapEffect'"),
    "click inside a step": Way('"afterEffect"', '"clickEffect"', "is a clickEffect where after"),
    "step without a click": Way('"clickEffect"', '"afterEffect"', "where clickEffect belongs"),
    "group that starts too soon": Way(
        '<p:cond delay="1"/>', '<p:cond delay="0"/>', "starts at 0 ms, not at 1 ms"
    ),
    "main sequence elsewhere": Way('"mainSeq"', '"interactiveSeq"', "no main sequence"),
    "root of another kind": Way('"tmRoot"', '"clickPar"', "no main sequence right under"),
    "two shapes with one id": Way(
        f'id="{CONNECTOR}" name', f'id="{SPID}" name', f"shape id '{SPID}' stands twice"
    ),
    "two shapes with one name": Way(
        "stem mark 2", "stem mark 1", "shape name 'stem mark 1' stands twice"
    ),
    "timing before the colour map": Way(
        f"<p:clrMapOvr><a:masterClrMapping/></p:clrMapOvr>{TIMING}",
        f"{TIMING}<p:clrMapOvr><a:masterClrMapping/></p:clrMapOvr>",
        "not in the order",
    ),
    "no title": Way(TITLE, "", "there are 0 title placeholders"),
    "two titles": Way(
        TITLE, TITLE + re.sub(r'id="\d+" name="Title"', 'id="99" name="T"', TITLE), "are 2 title"
    ),
    "no description": Way(
        ' descr="The amount three fourths in a box"', "", "'stem mark 1' has no description"
    ),
    "run without language": Way('<a:rPr lang="en-US" sz', "<a:rPr sz", "has no language"),
    "sound that another file holds": Way(
        'embed="rIdMedia0123', 'embed="rIdMedia9123', "but holds", RUNS
    ),
    "sound that nothing holds": Way(
        first(r"<p:extLst><p:ext .*?</p:extLst>", RUNS), "", "but holds []", RUNS
    ),
    "sound on a slide that waits": Way(
        'advClick="0"', 'advClick="1"', "a slide that does not turn by itself", RUNS
    ),
    "sound without its time node": Way(NODE, "", "has a sound without its time node", RUNS),
    "sound with the node of another shape": Way(
        NODE, NODE.replace(f'spid="{SPOKEN}"', f'spid="{CAPTION}"'), "not played once each", RUNS
    ),
    "sound that is told to stop": Way("playFrom(0.0)", "stop", "not playFrom(0.0)", RUNS),
    "sound that begins late": Way(
        'nodeType="afterEffect"><p:stCondLst><p:cond delay="0"/>',
        'nodeType="afterEffect"><p:stCondLst><p:cond delay="5"/>',
        "begins its sound at 5 ms",
        RUNS,
    ),
    "sound that is longer than its slide": Way(
        'advTm="14700"', 'advTm="14600"', "of 14690 ms is longer than its slide of 14600 ms", RUNS
    ),
    "icon that is seen": Way(
        'showWhenStopped="0"', 'showWhenStopped="1"', "a sound without its time node", RUNS
    ),
    "click where none is": Way(
        '"withEffect"', '"clickEffect"', "waits for a click on a slide that runs by itself", RUNS
    ),
    "caption that leaves before it comes": Way(
        LEAVES, LEAVES.replace("900", "40"), "leaves at 40 ms, before it has come", RUNS
    ),
    "caption that sets nothing": Way(
        '"hidden"', '"visible"', "does not set its shape hidden", RUNS
    ),
    "two shapes in one effect": Way(
        FADED, re.sub(r'spid="\d+"', f'spid="{TAKEAWAY}"', FADED), "not at one shape", GROUPED
    ),
}


def test_clean_slides_have_no_faults() -> None:
    for number, page in enumerate(sample().pages, start=1):
        xml = slide(page, number, "en-US")
        assert lint(xml) == []
        read = Slide(xml)
        assert [fault for check in TIMING_CHECKS for fault in check(read)] == []
        assert not page.builds or in_form(read.timing, read.kinds)


@pytest.mark.parametrize("way", WAYS.values(), ids=WAYS.keys())
def test_each_breakage_is_seen(way: Way) -> None:
    assert way.old in way.slide
    broken = way.slide.replace(way.old, way.new, 1)
    assert any(way.says in fault for fault in lint(broken)), lint(broken)
    # The quick way must let no fault of the timing tree past, or the checks would never run.
    faults = [fault for check in TIMING_CHECKS for fault in check(Slide(broken))]
    assert in_form(Slide(broken).timing, Slide(broken).kinds) <= (not faults)


MARKS = st.sampled_from(
    [
        (words(3600, 9000, "word"),),
        (stack(3600, 9000, "3", "4"),),
        (Rule(x1=0, y1=0, x2=100, y2=0, weight=100),),
        strip(0, 0, 3, 1),
    ]
)
BUILDS = st.lists(
    st.tuples(st.booleans(), MARKS, st.sampled_from(["appear", "fade", "wipe"])),
    min_size=1,
    max_size=6,
)


def played(builds: list[tuple[bool, tuple[Plain, ...], Effect]]) -> str:
    """A slide with such builds; True begins a new beat."""
    beats = list(accumulate(int(new) for new, _, _ in builds))
    made = tuple(
        Build(beat=f"b{beat}", group=group(f"g{n}", "a mark", *marks), effect=effect)
        for n, (beat, (_, marks, effect)) in enumerate(zip(beats, builds, strict=True))
    )
    return slide(replace(sample().pages[0], builds=made), 1, "en-US")


class TestQuickWay:
    """What the quick way passes has no fault of the timing tree."""

    @given(BUILDS)
    def test_every_order_of_builds_is_of_the_form(
        self, builds: list[tuple[bool, tuple[Plain, ...], Effect]]
    ) -> None:
        read = Slide(played(builds))
        assert in_form(read.timing, read.kinds)
        assert [fault for check in TIMING_CHECKS for fault in check(read)] == []

    @given(BUILDS, st.data())
    def test_a_number_changed_anywhere_is_never_passed_with_a_fault(
        self, builds: list[tuple[bool, tuple[Plain, ...], Effect]], data: st.DataObject
    ) -> None:
        xml = played(builds)
        start = xml.index("<p:timing>")
        found = data.draw(st.sampled_from(list(re.finditer(r"(?<=\")\d+(?=\")", xml[start:]))))
        number = data.draw(st.integers(0, 40))
        at, end = start + found.start(), start + found.end()
        read = Slide(f"{xml[:at]}{number}{xml[end:]}")
        faults = [fault for check in TIMING_CHECKS for fault in check(read)]
        if in_form(read.timing, read.kinds):
            assert faults == []


class TestSelfRunning:
    """A slide that starts without a click begins with its main sequence (no source)."""

    CLOCK = Clock(starts={beat: 4000 * n for n, beat in enumerate(sample().pages[2].beats)}, end=9)

    def test_a_timed_slide_has_no_faults_and_is_of_the_form(self) -> None:
        xml = slide(sample().pages[2], 3, "en-US", clock=self.CLOCK)
        assert lint(xml) == []
        assert in_form(Slide(xml).timing, Slide(xml).kinds)
        assert [fault for check in TIMING_CHECKS for fault in check(Slide(xml))] == []

    @pytest.mark.parametrize(
        ("old", "new", "says"),
        [
            ('<p:cond evt="onBegin" delay="0"><p:tn val="2"/></p:cond>', "", "clickEffect belongs"),
            ('<p:tn val="2"/>', '<p:tn val="77"/>', "p:tn names the time node 77"),
            ('"withEffect"', '"clickEffect"', "is a clickEffect where withEffect belongs"),
            ('<p:transition spd="med"', "<p:timing></p:timing><p:transition", "not in the order"),
        ],
    )
    def test_breakages_of_a_timed_slide_are_seen(self, old: str, new: str, says: str) -> None:
        xml = slide(sample().pages[2], 3, "en-US", clock=self.CLOCK)
        assert old in xml
        assert any(says in fault for fault in lint(xml.replace(old, new, 1)))

    def test_its_first_step_waits_for_the_main_sequence(self) -> None:
        entrances = [
            Entrance(shape=int(SPID), effect="appear", trigger="after", build="filled"),
            Entrance(shape=int(CONNECTOR), effect="wipe", trigger="with", delay=900),
        ]
        xml = CLEAN.replace(TIMING, timing(entrances))
        assert lint(xml) == []
        begin = '<p:cond evt="onBegin" delay="0"><p:tn val="2"/></p:cond>'
        assert xml.count(STEP + begin) == 1
        assert lint(xml.replace(begin, ""))

    def test_no_entrance_no_tree(self) -> None:
        assert timing([]) == ""


class TestSections:
    """[MS-PPTX], element sectionLst; ECMA-376 Part 1, 19.2.1: the lists of a presentation."""

    XML = deck_part(_deck._contents(sample(), times(sample()), USUAL)[0])

    def test_clean(self) -> None:
        assert lint_sections(self.XML) == []

    @pytest.mark.parametrize(
        ("change", "says"),
        [
            (lambda xml: xml.replace("{521415D9", "{521415D8"), "the sections stand under"),
            (lambda xml: xml.replace('<p14:sldId id="257"/>', ""), "the sections list the slides"),
            (
                lambda xml: xml.replace('<p14:sldId id="257"/>', '<p14:sldId id="300"/>'),
                "the sections list the slides",
            ),
            (lambda xml: xml.replace('sldId id="257"', 'sldId id="256"'), "'256' stands twice"),
            (lambda xml: xml.replace('sldId id="256"', 'sldId id="12"'), "from 256 on"),
            (lambda xml: re.sub("<p:notesMasterIdLst.*MasterIdLst>", "", xml), "notes master"),
            (lambda xml: re.sub("<p:extLst>.*</p:extLst>", "", xml), "no list of sections"),
            (
                lambda xml: re.sub(r'(<p14:section name="\S+" id=)"[^"]*"', r'\1"{A}"', xml),
                "section id '{A}' stands twice",
            ),
        ],
    )
    def test_broken(self, change: Callable[[str], str], says: str) -> None:
        broken = change(self.XML.decode())
        assert broken != self.XML.decode()
        assert any(says in fault for fault in lint_sections(broken.encode()))
