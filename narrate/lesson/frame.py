"""What all pages of a part share: margins, heading, names that are unique on a page."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from narrate.lesson import measure
from narrate.lesson.marks import PAGE_WIDTH, Build, Effect, Group, Text

MARGIN = 3_600
TOP = 2_000
WIDTH = PAGE_WIDTH - 2 * MARGIN
BOTTOM = 42_900
"""Nothing reaches below: the lowest fifth is for captions."""


def heading(label: str, size: int) -> Text:
    """The part's label at the top left, on one line."""
    while size > 1_800 and measure.box_width(label, size, bold=True) > WIDTH:
        size -= 100
    line = measure.wrap(label, size, WIDTH, bold=True)[0]
    return Text(
        x=MARGIN,
        y=TOP,
        width=measure.box_width(line, size, bold=True),
        height=measure.text_height(1, size, size),
        lines=(line,),
        size=size,
        leading=size * 5 // 4,
        bold=True,
        colour="pen",
    )


@dataclass(slots=True)
class Names:
    """Makes names unique on a page by counting."""

    taken: set[str] = field(default_factory=set)

    def unique(self, group: Group) -> Group:
        """The group under its own name, or under the first free numbered one."""
        name, number = group.name, 2
        while name in self.taken:
            name, number = f"{group.name} ({number})", number + 1
        self.taken.add(name)
        return group if name == group.name else replace(group, name=name)


@dataclass(slots=True)
class Sheet:
    """A page being filled: what is there from the start, and what comes with beats."""

    names: Names = field(default_factory=Names)
    base: list[Group] = field(default_factory=list)
    builds: list[Build] = field(default_factory=list)

    def put(self, beat: str | None, group: Group, effect: Effect = "fade", steps: int = 1) -> None:
        """Put a group on the page: with a beat, or from the start where there is none.

        A group without marks is left out: there is nothing to appear.
        """
        if not group.marks:
            return
        named = self.names.unique(group)
        if beat is None:
            self.base.append(named)
        else:
            self.builds.append(Build(beat=beat, group=named, effect=effect, steps=steps))
