"""The page's style sheet."""

from baycue.coach_report.palette import DARK, LIGHT, variables

STYLE = f"""
:root {{ color-scheme: light dark; {variables(LIGHT)} }}
@media (prefers-color-scheme: dark) {{ :root {{ {variables(DARK)} }} }}
* {{ box-sizing: border-box; }}
body {{ font: 1rem/1.5 system-ui, "DejaVu Sans", sans-serif; margin: 0 auto; padding: 1rem;
  max-width: 72rem; color: var(--ink); background: var(--ground); overflow-wrap: anywhere; }}
h1 {{ font-size: 1.7rem; line-height: 1.2; margin: .5rem 0; }}
h2 {{ font-size: 1.3rem; margin: 2rem 0 .5rem; padding-top: .8rem;
  border-top: 2px solid var(--line); }}
h3 {{ font-size: 1.05rem; margin: 1rem 0 .3rem; }}
.quiet, figcaption, th {{ color: var(--quiet); }}
.skip {{ position: absolute; left: -99rem; }} .skip:focus {{ position: static; }}
a {{ color: var(--passed); }}
:focus-visible {{ outline: 3px solid var(--failed); outline-offset: 2px; }}
nav ul {{ list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .3rem 1.2rem; }}
nav a {{ display: inline-block; padding: .3rem 0; }}
.scroll {{ overflow-x: auto; }}
table {{ border-collapse: collapse; margin: .5rem 0; }}
th, td {{ text-align: left; padding: .25rem .9rem .25rem 0; vertical-align: top;
  overflow-wrap: normal; }}
th {{ font-weight: 600; }} tr {{ border-bottom: 1px solid var(--line); }}
td {{ white-space: nowrap; }} th[scope=row] {{ min-width: 8rem; }}
td.number, th.number {{ text-align: right; font-variant-numeric: tabular-nums; }}
.rate {{ font-size: 1.25rem; margin: .3rem 0; }} .rate b {{ font-size: 1.6rem; }}
.figures {{ display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr));
  gap: 1rem 2rem; align-items: start; }}
figure {{ margin: .5rem 0; min-width: 0; }}
figure svg {{ width: 100%; height: auto; max-width: 34rem; display: block; }}
svg text {{ font-family: system-ui, "DejaVu Sans", sans-serif !important; }}
img, video {{ max-width: 100%; max-height: 26rem; width: auto; height: auto; display: block;
  border: 1px solid var(--line); }}
figcaption {{ font-size: .95rem; }}
@media print {{
  @page {{ size: A4; margin: 14mm; }}
  :root {{ color-scheme: light; {variables(LIGHT)} }}
  body {{ padding: 0; font-size: 10pt; max-width: none; }}
  nav, .skip, video, .moving {{ display: none; }}
  .figures {{ grid-template-columns: 1fr 1fr; }}
  figure, tr, .keep {{ break-inside: avoid; }} h2, h3 {{ break-after: avoid; }}
  figure svg, img {{ max-height: 75mm; width: auto; max-width: 100%; }}
}}
"""
