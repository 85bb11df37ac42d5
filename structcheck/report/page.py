"""The report: one self-contained page with the verdict, the figures, the working, the assumptions and the input."""

import math
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup

from structcheck.findings import Finding, Result
from structcheck.press.cases import jack_forces
from structcheck.press.model import setting_of
from structcheck.press.reading import read_press
from structcheck.questions import check_text
from structcheck.record import record
from structcheck.report.figures import Figure, Panel, level
from structcheck.report.figures_press import frame_of, part_figures
from structcheck.report.page_working import working_of
from structcheck.report.prose import prose
from structcheck.report.rated import largest_text
from structcheck.report.record import record_of
from structcheck.report.table import (
    BY_THE_CLAUSE,
    LOW_TIMES_ON_YIELD,
    basis_words,
    capacity_of,
    clause_of,
    conditions,
    demand_of,
    failing,
    governing_words,
    use_of,
)
from structcheck.report.working import notebook
from structcheck.shapes.section import Section
from structcheck.sizing.rated import Largest, RatedLoad, rated_load

TEMPLATES = Path(__file__).parent / "templates"

VERDICTS: Mapping[str, tuple[str, str, str]] = {
    "holds": ("Holds", "✓", "Every check on the list of every part holds. That is not all there is to a press."),
    "fails": ("Fails", "✗", ""),
    "incomplete": ("Incomplete", "?", "Not everything that matters could be checked. This is not a pass."),
    "holds if": ("Holds if all of this is so:", "?", "Confirm each before you build: no one has said that it is so."),
}


@record
class Page:
    """A finished page and the result it shows."""

    html: str
    result: Result
    rated: RatedLoad


def page(text: str, name: str = "", *, sections: tuple[Section, ...] = (), date: str | None = None) -> Page:
    """Check the press in a file's text and set it out as a page. Raises InputError as a check does."""
    result = check_text(text, name, sections=sections, working=True)
    record = record_of(result, date)
    press = read_press(text, name, sections=sections)
    rated = rated_load(press, file=name, sections=sections, as_stated=result)
    forces = jack_forces(press.jack, press.basis)
    setting = setting_of(press, forces, sections)
    drawn = frame_of(press, setting, forces)
    figures = part_figures(press, setting, result, drawn.answer if drawn else None)
    frame, states = (drawn.figures(result, forces), drawn.states(forces)) if drawn else ((), ())
    context = _context(result, rated, figures, frame, states)
    html = (
        _environment()
        .get_template("page.html.j2")
        .render(context, record=record, file=Path(name).name or "the description", input=text)
    )
    return Page(html, result, rated)


def _environment() -> jinja2.Environment:
    made = jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES), autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True
    )
    made.globals["figure_of"] = _figure
    made.globals["use"] = _use
    made.filters["prose"] = prose
    return made


def _figure(figure: Figure | Panel) -> Markup:
    """A figure with its caption; a panel's figures stand side by side, below each other on a phone."""
    caption = Markup("<figcaption>{}</figcaption>").format(figure.caption) if figure.caption else Markup("")
    # The drawings are ours; every text in them was escaped when they were drawn.
    if isinstance(figure, Panel):
        drawn = Markup("").join(
            Markup('<div style="--wide: {}rem">{}</div>').format(one.wide, Markup(one.svg)) for one in figure.figures
        )
        return Markup('<figure><div class="panel" style="--least: {}rem">{}</div>{}</figure>').format(
            figure.least, drawn, caption
        )
    return Markup('<figure style="--wide: {}rem">{}{}</figure>').format(figure.wide, Markup(figure.svg), caption)


def _use(f: Mapping[str, Any]) -> Markup:
    """A bar in the one hue with the number beside it."""
    if f["use"] == "-":
        return Markup('<span class="use"><b>-</b></span>')
    if f["use"] == "over":
        words = "nothing left"
        bar = '<span class="bar over" aria-hidden="true"><i style="width:100%"></i></span>'
        return Markup('<span class="use">{}<b>{}</b></span>').format(Markup(bar), words)
    step = level(f["utilisation"])
    shade = "over" if step == 6 else f"l{step}"
    width = f"{100 * min(1.0, f['utilisation']):.1f}"
    return Markup(
        '<span class="use"><span class="bar {0}" aria-hidden="true"><i style="width:{1}%"></i></span><b>{2}</b></span>'
    ).format(shade, width, f["use"])


def _context(
    result: Result,
    rated: RatedLoad,
    figures: Mapping[str, Figure | Panel],
    frame: tuple[Figure | Panel, ...],
    states: tuple[Panel, ...],
) -> dict[str, Any]:
    unchecked = [f for f in result.findings if f.verdict == "not checked"]
    contents = [("answer", "The answer"), ("parts", "Part by part"), ("unchecked", "Not checked")]
    contents += [("assumed", "Assumed"), ("basis", "Basis"), ("input", "Input")]
    if frame or result.drawing:
        contents.insert(1, ("frame", "The press"))
    if states:
        contents.insert(3, ("states", "Corners"))
    places = {part: f"part-{number}" for number, part in enumerate(_parts(result, figures), 1)}
    return {
        "title": result.title,
        "style": Markup((TEMPLATES / "page.css").read_text(encoding="utf-8")),
        "script": Markup((TEMPLATES / "page.js").read_text(encoding="utf-8")),
        "contents": contents,
        "verdict": _verdict(result, len(unchecked)),
        "conditions": conditions(result) if result.verdict == "holds if" else [],
        "highest": _highest(result),
        "yielding": _yielding(result),
        "rated": _rated(rated, result),
        "first": [_row(f) | {"place": places[f.part]} for f in result.first_to_go[:3]],
        "caution": result.caution,
        "frame": frame,
        "states": states,
        "parts": list(_sections(result, places, figures)),
        "by_the_clause": BY_THE_CLAUSE if any(map(clause_of, result.findings)) else "",
        "unchecked": unchecked,
        "drawing": result.drawing,
        "never": result.does_not_apply,
        "assumed": result.assumptions,
        "advice": list(dict.fromkeys(result.outcome.advice)),
        "basis": list(basis_words(result.basis)),
        "answers": _general_answers(result, list(places)),
    }


def _general_answers(result: Result, parts: list[str]) -> list[str]:
    """Answers that belong to no part's section."""
    return [text for text in result.outcome.answers if not any(text.startswith(f"{part}: ") for part in parts)]


def _verdict(result: Result, skipped: int) -> dict[str, str]:
    word, mark, sentence = VERDICTS[result.verdict]
    if result.verdict == "fails":
        over = sum(f.verdict == "fails" for f in result.findings)
        sentence = (
            f"{over} check{'s are' if over > 1 else ' is'} over the limit: {failing(result)}. Do not press with it."
        )
    also = f"And {skipped} that matter could not be done." if result.verdict == "fails" and skipped else ""
    return {
        "word": word,
        "short": "holds, on conditions" if result.verdict == "holds if" else word,
        "mark": mark,
        "sentence": sentence[:1].upper() + sentence[1:],
        "also": also,
        "kind": result.verdict.replace(" ", "-"),
    }


def _highest(result: Result) -> dict[str, str]:
    if result.governing is None:
        return {"figure": "none", "words": "no check could be done"}
    return {"figure": use_of(result.governing), "words": governing_words(result)}


def _yielding(result: Result) -> dict[str, Any]:
    found = result.times_on_yield
    if found is None:
        return {"figure": "none", "words": "no part here has a yield stress to compare with", "low": False}
    figure = f"{math.floor(found.value * 100) / 100:.2f}"
    return {"figure": figure, "words": found.part, "low": found.value < LOW_TIMES_ON_YIELD}


def _rated(rated: RatedLoad, stated: Result) -> dict[str, Any]:
    met = ", if the conditions above are met" if stated.verdict == "holds if" else ", if what it rests on is so"
    condition = met if rated.result.conditions else ""

    def words(largest: Largest) -> dict[str, str]:
        if largest.rating is None:
            return {"figure": "none" if largest.governing else "–", "words": largest.reason}
        figure, _, tonnes = largest_text(largest).partition(" (")
        first = largest.governing[0]
        used = f"{tonnes.rstrip(')')}{condition}; then {first.part}, {first.check} is used up"
        return {"figure": figure, "words": used}

    anyway = [f"{f.part}, {f.check} fails whatever the jack is rated ({use_of(f)})" for f in rated.fails_anyway]
    notes = [*anyway, *rated.notes]
    if rated.not_checked:
        notes.insert(0, "No rating: not everything that matters could be checked; these are the largest by what was.")
    return {"strength": words(rated.strength), "stiffness": words(rated.stiffness), "notes": notes}


def _parts(result: Result, figures: Mapping[str, Figure | Panel]) -> list[str]:
    named = [f.part for f in result.findings] + [n.part for n in result.does_not_apply] + list(figures)
    return list(dict.fromkeys(named))


def _sections(
    result: Result, places: Mapping[str, str], figures: Mapping[str, Figure | Panel]
) -> Iterator[dict[str, Any]]:
    worked = {part.part: part for part in notebook(result)}
    for part, place in places.items():
        own = [f for f in result.findings if f.part == part]
        judged = sorted((f for f in own if f.verdict != "not checked"), key=_size, reverse=True)
        skipped = [(f.check, f.reason) for f in own if f.verdict == "not checked"]
        answers = [text for text in result.outcome.answers if text.startswith(f"{part}: ")]
        yield {
            "name": part,
            "place": place,
            "answer": _answer(judged, bool(skipped)),
            "kind": "fails" if any(f.verdict == "fails" for f in judged) else "holds",
            "figures": [figures[part]] if part in figures else [],
            "rows": [_row(f) for f in judged],
            "reasons": [(f.check, f.reason) for f in judged if f.reason],
            "answers": [text.removeprefix(f"{part}: ") for text in answers],
            "skipped": skipped,
            "assumed": [a.text for a in result.assumptions if a.part == part],
            "working": working_of(worked[part]) if part in worked and worked[part].told else [],
        }


def _size(finding: Finding) -> float:
    return math.inf if finding.utilisation is None else finding.utilisation


def _answer(judged: list[Finding], skipped: bool) -> str:
    if not judged:
        return "not checked" if skipped else "nothing to check"
    worst = judged[0]
    state = "fails" if worst.verdict == "fails" else "holds where checked" if skipped else "holds"
    return f"{use_of(worst)} {state}".removeprefix("- ")


def _row(f: Finding) -> dict[str, Any]:
    return {
        "part": f.part,
        "check": f.check,
        "case": f.case,
        "demand": demand_of(f),
        "capacity": capacity_of(f),
        "use": use_of(f),
        "utilisation": f.utilisation,
        "full": "" if f.utilisation is None else repr(f.utilisation),
        "clause": clause_of(f),
        "verdict": f.verdict,
        "kind": f.verdict.replace(" ", "-"),
        "source": f.source,
        "user_force": f.user_force,
    }
