"""How a card looks on paper: the style of its HTML page, by the size of the paper.

>>> css = style(sheet, paper)

Black on white; differences are weight, size and lines, never colour.  The
smallest type is 8 points on a card, 9 on a page.
"""

from __future__ import annotations

from dataclasses import dataclass
from string import Template
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gaugestack.cards.papersize import PaperSize
    from gaugestack.cards.sheet import Sheet

LEAST = 8.0
"""Points; nothing on a card is printed smaller."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Type:
    """Sizes of type in points: small print, text, the rows a hand works from, title."""

    small: float
    text: float
    rows: float
    title: float


WIDE = Type(small=9, text=10, rows=13.5, title=21)
NARROW = Type(small=LEAST, text=8.5, rows=10.5, title=14)

_STYLE = Template("""@page {
  size: ${width}mm ${height}mm;
  margin: ${margin}mm ${margin}mm ${foot}mm ${margin}mm;
  @bottom-left { content: "${code}"; font: ${small}pt Arial, sans-serif; }
  @bottom-right { content: counter(page) " / " counter(pages); font: ${small}pt Arial, sans-serif; }
}
* { box-sizing: border-box; }
html { background: #fff; color: #000; }
body { font: ${text}pt/1.25 "Liberation Sans", Arial, Helvetica, "DejaVu Sans", sans-serif; }
body { margin: 0 auto; max-width: ${inner}mm; }
h1 { font-size: ${title}pt; line-height: 1.15; margin: 0; overflow-wrap: anywhere; }
p { margin: 0; }
.kind { font-size: ${small}pt; font-weight: bold; text-transform: uppercase; letter-spacing: 0.1em; }
.code { border-bottom: 0.6mm solid #000; margin: 0 0 1.5mm; padding-bottom: 1mm; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; margin-bottom: 3mm; }
th, td { text-align: left; vertical-align: top; overflow-wrap: anywhere; font-weight: normal; }
tr { break-inside: avoid; page-break-inside: avoid; }
thead { display: table-header-group; }
.facts th { width: ${facts}mm; font-weight: bold; padding: 0.2mm 2mm 0.2mm 0; }
.facts td { padding: 0.2mm 0; }
.rows th, .rows td { padding: 0.5mm 1.5mm 0.5mm 0; }
.rows thead th, .rows thead td { border-bottom: 0.4mm solid #000; font-size: ${small}pt; }
.rows thead th.title { border: 0; font-size: ${text}pt; font-weight: bold; padding-top: 1mm; }
.rows tbody th, .rows tbody td { border-bottom: 0.15mm solid #000; }
.rows tbody th { font-weight: bold; }
.rows tbody th.number { white-space: nowrap; padding-right: 0; }
.rows.big tbody th, .rows.big tbody td { font-size: ${rows}pt; line-height: 1.2; }
.rows.big tbody td.no { font-size: ${text}pt; font-style: italic; }
.rows.fine tbody th, .rows.fine tbody td { font-size: ${small}pt; font-weight: normal; }
.rows.fine tbody th, .rows.fine tbody td { padding-top: 0.3mm; padding-bottom: 0.3mm; }
.figures { font-variant-numeric: tabular-nums; }
.key { font-weight: bold; }
.under { font-weight: normal; }
figure { margin: 0 0 3mm; break-inside: avoid; page-break-inside: avoid; max-width: none; }
figure svg { display: block; }
.wide figure { float: left; margin-right: 5mm; }
.after { clear: both; }
.blanks { break-inside: avoid; page-break-inside: avoid; }
.blanks .title { font-weight: bold; }
.blanks tbody th { padding: ${blank}mm 2mm 0 0; width: ${label}; }
.wide .blanks tbody th + td + th { padding-left: 5mm; }
.blanks .line { border-bottom: 0.25mm solid #000; }
footer { border-top: 0.6mm solid #000; padding-top: 1mm; clear: both; }
footer { break-inside: avoid; page-break-inside: avoid; }
.care { font-weight: bold; font-size: ${text}pt; }
.warning { font-size: ${small}pt; overflow-wrap: anywhere; }
@media screen { body { padding: ${margin}mm; max-width: ${width}mm; } }
""")


def style(sheet: Sheet, paper: PaperSize) -> str:
    """Return the style of a sheet on a paper."""
    sizes = WIDE if paper.wide else NARROW
    return _STYLE.substitute(
        code=f"{sheet.kind}, card code {sheet.code}",
        width=f"{paper.width:g}",
        height=f"{paper.height:g}",
        margin=f"{paper.margin:g}",
        foot=f"{paper.foot:g}",
        inner=f"{paper.inner:g}",
        small=f"{sizes.small:g}",
        text=f"{sizes.text:g}",
        rows=f"{sizes.rows:g}",
        title=f"{sizes.title:g}",
        facts="26" if paper.wide else "20",
        label="13%" if paper.wide else "42%",
        blank="3" if paper.wide else "2.5",
    )
