"""The report as one page of HTML that needs nothing beside it and asks nothing of any network."""

from collections.abc import Mapping, Sequence
from html import escape

from baycue.coach_report.figures import TargetFigures, figures_of, outcomes_of
from baycue.coach_report.pictures import Pictures
from baycue.coach_report.plots import spread_plot, trend_plot, value_plot
from baycue.coach_report.record import PracticeRecord
from baycue.coach_report.style import STYLE
from baycue.coach_report.words import (
    CAUTIONS,
    asked,
    drift_words,
    rate_words,
    retention_words,
)
from baycue.counted import counted
from baycue.folder.summary import Tally
from baycue.plan.target import Target

_POLICY = (
    "default-src 'none'; img-src data:; media-src data:; style-src 'unsafe-inline'; "
    "base-uri 'none'; form-action 'none'"
)
"""Forbids the reader's browser any request."""
_NUMBER = ' class="number"'


def report_page(record: PracticeRecord, pictures: Mapping[Target, Pictures], made: str) -> str:
    """The page; ``made`` says by what and when."""
    figures = figures_of(record)
    body = "\n".join(
        [
            _head(record, made),
            _contents(figures),
            f'<main id="main">{_overview(record, figures)}',
            *(_target(n, f, pictures.get(f.target)) for n, f in enumerate(figures, 1)),
            _notes(record),
            _list("cautions", "Cautions", CAUTIONS),
            "</main>",
        ]
    )
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">'
        f"<title>{escape(record.student)}: how the practice went</title>"
        f"<style>{STYLE}</style></head>\n<body>\n{body}\n</body></html>\n"
    )


def _head(record: PracticeRecord, made: str) -> str:
    return (
        '<a class="skip" href="#main">To the report</a>'
        f"<header><h1>{escape(record.student)}: how the practice went</h1>"
        f'<p class="quiet">{escape(_span(record))}. {escape(made)}</p></header>'
    )


def _span(record: PracticeRecord) -> str:
    swings = sum(len(session.swings) for session in record.sessions)
    days = [session.day for session in record.sessions]
    if len(days) == 1:
        return f"{counted(swings, 'swing')}, {days[0]}"
    return f"{counted(swings, 'swing')} in {counted(len(days), 'session')}, {days[0]} to {days[-1]}"


def _contents(figures: Sequence[TargetFigures]) -> str:
    links = [f'<li><a href="#target-{n}">{escape(f.target.title)}</a></li>'
             for n, f in enumerate(figures, 1)]  # fmt: skip
    rest = '<li><a href="#notes">Notes</a></li><li><a href="#cautions">Cautions</a></li>'
    return f'<nav aria-label="Contents"><ul>{"".join(links)}{rest}</ul></nav>'


def _overview(record: PracticeRecord, figures: Sequence[TargetFigures]) -> str:
    rows = [("whole swings", outcomes_of(record))]
    rows += [(asked(f.target), f.practice) for f in figures]
    heading = "What was asked, and how often it was met"
    table = _table("target", rows)
    return f'<section aria-labelledby="asked"><h2 id="asked">{heading}</h2>{table}</section>'


def _table(first: str, rows: Sequence[tuple[str, Tally]]) -> str:
    """A table that is read row by row and, where it is too wide, scrolled by keyboard too."""
    columns = (
        (first, ""),
        ("passed (95 %)", ""),
        ("too close", _NUMBER),
        ("not measured", _NUMBER),
    )
    heads = "".join(f'<th scope="col"{kind}>{heading}</th>' for heading, kind in columns)
    cells = "".join(_row(name, tally) for name, tally in rows)
    return (
        f'<div class="scroll" tabindex="0" role="region" aria-label="Table by {first}"><table>'
        f"<thead><tr>{heads}</tr></thead><tbody>{cells}</tbody></table></div>"
    )


def _row(name: str, tally: Tally) -> str:
    return (
        f'<tr><th scope="row">{escape(name)}</th><td>{rate_words(tally)}</td>'
        f"<td{_NUMBER}>{tally.too_close}</td><td{_NUMBER}>{tally.not_measured}</td></tr>"
    )


def _target(number: int, figures: TargetFigures, pictures: Pictures | None) -> str:
    rows = [(f"{s.number}: {s.day}", s.whole) for s in figures.sessions]
    halves = [
        (f"{s.number}, {half} half", tally)
        for s in figures.sessions
        for half, tally in zip(("first", "second"), s.halves, strict=True)
    ]
    cue = f"<p>Cue: {escape(figures.target.cue)}</p>" if figures.target.cue else ""
    return (
        f'<section aria-labelledby="target-{number}">'
        f'<h2 id="target-{number}">{escape(asked(figures.target))}</h2>{cue}'
        f'<p class="rate">Passed: {escape(rate_words(figures.practice))}</p>'
        f'<div class="figures">{_plots(number, figures)}</div>{_shown(pictures)}'
        f"<h3>Session by session</h3>{_table('session', rows)}"
        f"<h3>Within each session</h3><p>{escape(drift_words(figures))}</p>"
        f"{_table('half', halves)}"
        f"<h3>Retention</h3><p>{escape(retention_words(figures))}</p></section>"
    )


def _plots(number: int, figures: TargetFigures) -> str:
    if not any(s.answer.value is not None for s in figures.shown):
        return "<p>Nothing was measured, so there is nothing to draw.</p>"
    title = figures.target.title
    plots = [
        ("Every swing in order; dashed: the bound", value_plot, "values"),
        ("How the values spread; dashed: the bound", spread_plot, "spread"),
    ]
    if sum(s.whole.pass_rate is not None for s in figures.sessions) > 1:
        plots.append(("Pass rate by session; bars: 95 %", trend_plot, "trend"))
    return "".join(
        f"<figure>{plot(figures, f'{kind}{number}', f'{title}. {caption}. {_said(figures)}')}"
        f"<figcaption>{caption}</figcaption></figure>"
        for caption, plot, kind in plots
    )


def _said(figures: TargetFigures) -> str:
    whole = figures.practice
    return f"Passed {rate_words(whole)}; {whole.too_close} too close to call."


def _shown(pictures: Pictures | None) -> str:
    if pictures is None or not pictures.shown:
        return ""
    figures = "".join(
        f'<figure class="keep"><img alt="{escape(p.alt)}" src="data:image/jpeg;base64,{p.still}">'
        + (
            f'<video class="moving" controls muted loop playsinline aria-label="{escape(p.alt)}, '
            f'moving" src="data:video/mp4;base64,{p.clip}"></video>'
            if p.clip
            else ""
        )
        + f"<figcaption>{escape(p.caption)}</figcaption></figure>"
        for p in pictures.shown
    )
    return f'<h3>How it looked</h3><div class="figures">{figures}</div>'


def _notes(record: PracticeRecord) -> str:
    told = [f"{s.day}, {s.source}: {s.note or 'kept whole'}" for s in record.sessions]
    told += [f"{s.day}, the coach: {note}" for s in record.sessions for note in s.coach_notes]
    unjudged = sum(swing.outcome is None for s in record.sessions for swing in s.swings)
    if unjudged:
        could, are = ("swing could", "is") if unjudged == 1 else ("swings could", "are")
        told.append(f"{unjudged} {could} not be judged and {are} not counted.")
    return _list("notes", "Notes", [*record.coach_notes, *told])


def _list(name: str, heading: str, lines: Sequence[str]) -> str:
    items = "".join(f"<li>{escape(line)}</li>" for line in lines)
    return f'<section><h2 id="{name}">{heading}</h2><ul>{items}</ul></section>'
