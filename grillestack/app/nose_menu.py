"""The menu of the nose: what is drawn by hand, mirrored, traced from a photo, or typed."""

from __future__ import annotations

from collections.abc import Callable

from grillestack.app import drafts
from grillestack.app.canvas.front_view import FrontView
from grillestack.app.canvas.gestures.drawn_things import Drawn
from grillestack.app.canvas.side_strip import SideStrip
from grillestack.app.menus import SEPARATOR, Entry, Menus, Toggle
from grillestack.app.nose_acts import NoseActs
from grillestack.app.panels.draft import DraftForm
from grillestack.app.photo.trace import TracePhoto
from grillestack.app.session import Session


def nose_menu(
    menus: Menus,
    session: Session,
    views: tuple[FrontView, SideStrip],
    show_draft: Callable[[DraftForm], None],
    trace: TracePhoto,
) -> None:
    """Fill the menu of the nose."""
    front, side = views
    acts = NoseActs(session)

    def draw(drawn: Drawn) -> Callable[[], None]:
        def begin() -> None:
            side.put_tool_away()
            front.draw(drawn)

        return begin

    def draw_bonnet_line() -> None:
        front.put_tool_away()
        if not side.isVisible():
            session.message.emit(
                "The side view is hidden in so narrow a window: widen it, or type the bonnet line's points."
            )
            return
        side.draw_bonnet_line()

    def form(make: Callable[[Session], DraftForm]) -> Callable[[], None]:
        return lambda: show_draft(make(session))

    menus.menu(
        "&Nose",
        (
            Entry(
                "Draw &opening", draw(Drawn.OPENING), hint="Click the corners of an opening", row_words="Draw opening"
            ),
            Entry("Draw o&bstruction", draw(Drawn.OBSTRUCTION), row_words="Draw obstruction"),
            Entry("Draw support &window", draw(Drawn.SUPPORT_WINDOW)),
            Entry("Draw bonnet &line", draw_bonnet_line, hint="Click its points in the side view, front to back"),
            Toggle(
                "Draw &both halves",
                lambda is_on: front.draw_mirrored(mirrored=is_on),
                lambda: front.draws_mirrored,
                hint="What is drawn on one side of the centre appears on the other",
            ),
            SEPARATOR,
            Entry(
                "&Mirror about the centre", acts.mirror, hint="Make the selected outline symmetrical, or add its twin"
            ),
            SEPARATOR,
            Entry(
                "Trace &photo…",
                trace.begin,
                hint="Lay a photo true to scale under the nose, to draw over it",
                row_words="Trace photo…",
            ),
            Entry("Mar&k the photo again…", trace.mark_again),
            SEPARATOR,
            Entry("&Add opening…", form(drafts.new_opening)),
            Entry("Add obst&ruction…", form(drafts.new_obstruction)),
            Entry("&Support window…", form(drafts.new_window)),
        ),
    )
