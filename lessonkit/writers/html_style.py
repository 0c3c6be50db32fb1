"""The look of our web pages: the palette of the Word files, plain on screen, ready for paper."""

from lessonkit.writers.palette import PALETTE

STYLE = f"""
:root {{ color-scheme: light; }}
* {{ box-sizing: border-box; }}
body {{ margin: 0 auto; max-width: 60rem; padding: 1.5rem; color: #{PALETTE["dk1"]}; background: #{PALETTE["lt1"]};
  font: 1rem/1.4 Calibri, Carlito, "Segoe UI", sans-serif; }}
h1, h2, h3, h4 {{ color: #{PALETTE["dk2"]}; line-height: 1.2; margin: 1.1em 0 .3em; break-after: avoid; }}
h1 {{ font-size: 2rem; }}
h2 {{ font-size: 1.25rem; border-top: 1px solid #{PALETTE["accent6"]}; padding-top: .4em; }}
.large:is(h2, h3, h4) {{ font-size: 1.35rem; }}
h3 {{ font-size: 1.05rem; color: #{PALETTE["accent2"]}; }}
p, ul, ol {{ margin: .25em 0; }}
ul, ol {{ padding-left: 1.4em; }}
a {{ color: #{PALETTE["hlink"]}; }}
.title {{ font-size: 2.6rem; font-weight: 700; color: #{PALETTE["dk2"]}; line-height: 1.15; margin: 4rem 0 1rem; }}
.kicker {{ font-weight: 700; font-size: .8rem; letter-spacing: .12em; text-transform: uppercase;
  color: #{PALETTE["accent2"]}; margin: 1.5rem 0 0; }}
.kicker + h1 {{ margin-top: .1em; }}
.summary {{ font-size: 1.15rem; color: #{PALETTE["accent5"]}; }}
.cue {{ color: #{PALETTE["accent1"]}; }}
.letter {{ font-size: 1.15rem; line-height: 1.5; margin: .6em 0; }}
.letter-small {{ font-size: 1.05rem; margin: .4em 0; }}
h1.poster {{ font-size: min(56pt, 11vw); line-height: 1; }}
p[class^=poster] {{ line-height: 1.1; color: #{PALETTE["dk2"]}; margin: .15em 0; }}
.poster-huge {{ font-size: min(66pt, 10vw); }}
.poster-large {{ font-size: min(60pt, 10vw); }}
p.poster {{ font-size: min(54pt, 9vw); }}
.poster-small {{ font-size: min(44pt, 8vw); }}
.poster-least {{ font-size: min(34pt, 7vw); }}
.board {{ font-size: min(20pt, 5vw); line-height: 1.2; margin: .1em 0; }}
.caption, .small {{ font-size: .85rem; color: #{PALETTE["accent5"]}; }}
table {{ border-collapse: collapse; width: 100%; table-layout: fixed; margin: .4em 0 1em; }}
th, td {{ text-align: left; vertical-align: top; padding: .3em .6em .3em 0;
  border-bottom: 1px solid #{PALETTE["accent6"]};
  overflow-wrap: anywhere; }}
.wide {{ overflow-x: auto; }}
.wide table {{ min-width: 54rem; }}
.tall > *, .shaded {{ border: 1px solid #{PALETTE["accent6"]}; padding-left: .4em; }}
.tall > * {{ vertical-align: middle; border-color: #{PALETTE["accent5"]}; }}
h1.poster + table td {{ border: 0; }}
thead th {{ color: #{PALETTE["accent2"]}; border-bottom: 2px solid #{PALETTE["dk2"]}; }}
tr, figure, .note {{ break-inside: avoid; }}
.shaded {{ background: #{PALETTE["lt2"]}; print-color-adjust: exact; }}
.facts {{ display: flex; flex-wrap: wrap; gap: .3rem 2rem; border-top: 2px solid #{PALETTE["dk2"]};
  padding-top: .4em; margin: .6em 0; }}
.facts dt {{ font-size: .8rem; color: #{PALETTE["accent5"]}; }}
.facts dd {{ margin: 0; font-weight: 700; color: #{PALETTE["dk2"]}; }}
.note {{ background: #{PALETTE["lt2"]}; border-left: 6px solid #{PALETTE["accent2"]};
  padding: .5em 1em; margin: .8em 0; }}
.note > :first-child {{ margin-top: 0; border: 0; padding: 0; color: #{PALETTE["accent4"]}; font-size: 1.05rem; }}
.line {{ border-bottom: 1px solid #{PALETTE["dk1"]}; height: 2.2em; }}
.boxes {{ list-style: none; padding: 0; }}
.box {{ display: inline-block; width: .9em; height: .9em; border: 1px solid #{PALETTE["dk1"]}; margin-right: .5em; }}
.contents {{ list-style: none; padding: 0; line-height: 1.6rem; }}
.contents .level2 {{ padding-left: 1.5em; }}
figure {{ margin: .5em 0; }}
figure svg {{ width: 100%; height: auto; }}
pre, code {{ font-family: Consolas, "Liberation Mono", monospace; background: #{PALETTE["lt2"]}; }}
pre {{ padding: .5em; overflow: auto; }}
blockquote {{ margin: .4em 0; padding-left: 1em; border-left: 3px solid #{PALETTE["accent6"]};
  color: #{PALETTE["accent5"]}; }}
hr {{ border: 0; border-top: 1px solid #{PALETTE["accent6"]}; }}
.cut {{ border-top: 1px dashed #{PALETTE["accent5"]}; margin: 1rem 0; }}
.unseen {{ position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }}
footer {{ margin-top: 2rem; font-size: .8rem; color: #{PALETTE["accent5"]}; }}
@media screen and (max-width: 56rem) {{
  .lead > colgroup > col {{ width: auto !important; }}
  .lead > colgroup > col:first-child {{ width: 4.6rem !important; }}
  .lead th:first-child {{ padding-right: .2em; }}
}}
@media screen and (max-width: 40rem) {{
  th, td {{ padding-right: .25em; }}
  :is(th, td) .board {{ font-size: 3.6vw; }}
  :is(th, td) > p[class^=poster] {{ font-size: 4.5vw; }}
  .beside :is(table, tbody, tr, td) {{ display: block; border: 0; }}
  .tall > th {{ font-size: .85rem; }}
  thead th, td .small, th .small {{ font-size: .75rem; hyphens: auto; }}
  .lead, .lead :is(thead, tbody, tr, th, td) {{ display: block; padding: 0; border: 0; }}
  .lead tr {{ border-bottom: 1px solid #{PALETTE["accent6"]}; padding: .4em 0; }}
  .lead thead th:first-child {{ display: none; }}
  .lead tbody th p {{ display: inline; margin-right: .5em; }}
  .top, .top :is(thead, tbody) {{ display: block; }}
  .top tr {{ display: grid; grid-template-columns: 1fr 1fr; border-bottom: 1px solid #{PALETTE["accent6"]}; }}
  .top :is(th, td) {{ border: 0; }}
  .top tr > :first-child {{ grid-column: 1 / -1; padding-bottom: 0; }}
  .drawn {{ display: grid; grid-template-columns: minmax(0, 1fr); }}
  .drawn :is(thead, tbody, tr) {{ display: contents; }}
  .drawn colgroup {{ display: none; }}
  .drawn :is(th, td) {{ padding-right: 0; border: 0; }}
  .drawn thead th {{ border-bottom: 1px solid #{PALETTE["accent6"]}; }}
  .drawn thead th:first-child {{ order: 1; }}
  .drawn tbody :first-child:is(th, td) {{ order: 2; }}
  .drawn thead th:last-child {{ order: 3; }}
  .drawn tbody :last-child:is(th, td) {{ order: 4; }}
  .drawn figure {{ width: 100% !important; }}
  .pairs, .pairs tbody {{ display: block; }}
  .pairs tr {{ display: grid; grid-template-columns: 2fr 3fr; height: auto !important; }}
  .pairs td {{ min-height: 2.2em; padding: .4em; }}
}}
@media print {{
  :root {{ font-size: 10.5pt; }}
  body {{ max-width: none; padding: 0; font-size: 9pt; line-height: 1.22; }}
  h1 {{ font-size: 20pt; line-height: 1.14; margin: 0 0 2pt; }}
  h2 {{ font-size: 11pt; margin: 6pt 0 1pt; padding-top: 3pt; }}
  h3 {{ font-size: 9.5pt; margin: 5pt 0 1pt; }}
  p, ul, ol {{ margin: 1pt 0; }}
  table {{ margin: 2pt 0; }}
  .facts {{ row-gap: 0; margin: 2pt 0; }}
  :is(th, td) > :first-child {{ margin-top: 0; }}
  :is(th, td) > :last-child {{ margin-bottom: 0; }}
  th, td {{ padding: 1.5pt 8pt 1.5pt 0; }}
  .tall > *, .shaded {{ padding: 1pt 4pt; }}
  .kicker {{ margin: 0; }}
  table.large, .reading {{ font-size: 9.5pt; }}
  .caption, .small {{ font-size: 8pt; font-weight: 400; }}
  .summary {{ font-size: 10.5pt; }}
  .boxes {{ margin: 0; line-height: 1; }}
  .contents {{ line-height: inherit; }}
  .wide {{ overflow: visible; }}
  .wide table {{ min-width: 0; }}
  .box {{ width: 8pt; height: 8pt; }}
  .line {{ height: 21pt; }}
  .cut {{ margin: 8pt 0; }}
  footer {{ margin-top: 2pt; }}
  .new-page {{ break-before: page; }}
  .large:is(h2, h3, h4) {{ font-size: 13pt; }}
  .letter {{ font-size: 11.5pt; line-height: 1.32; margin: 4pt 0; }}
  .letter-small {{ font-size: 10pt; margin: 2pt 0; }}
  h1.poster {{ margin: 0 0 6pt; }}
  p[class^=poster] {{ margin: 0 0 6pt; }}
  h1.poster + table {{ break-inside: avoid; margin: 0; }}
  h1.poster + table svg {{ max-height: 112mm; }}
  thead {{ display: table-header-group; }}
  thead + tbody, thead + tbody > tr:first-child {{ break-before: avoid; }}
  a {{ color: inherit; text-decoration: none; }}
}}
"""
"""One style sheet for every page; it names no font that must be fetched."""
BROAD = "@media screen { body { max-width: 80rem; } }\n"
"""What is added for a page that prints across the paper."""
