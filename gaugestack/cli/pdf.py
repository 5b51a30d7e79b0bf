"""An HTML card as PDF, by the library of the extra `pdf`.

    >>> data = pdf_of(page)

The page is the same that a browser prints.  Nothing is fetched: a page that
asked for anything outside itself would be refused.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugestack.errors import UsageError

if TYPE_CHECKING:
    from typing import NoReturn

_HINT = (
    "pip install 'gaugestack[pdf]' (it needs the Pango library, on Debian: apt install libpango-1.0-0 "
    "libpangoft2-1.0-0); or take --form html and print the page from a browser"
)


def pdf_of(page: str) -> bytes:
    """Return a page as a tagged PDF.  Raises UsageError where the extra is not installed."""
    try:
        from weasyprint import HTML  # noqa: PLC0415  (an optional extra, and slow to import)
    except (ImportError, OSError):
        raise UsageError.about("--form", "PDF needs an extra that is not installed", hint=_HINT) from None
    made = HTML(string=page, url_fetcher=_refused).write_pdf(pdf_tags=True)
    return bytes(made or b"")


def _refused(url: str, *_: object, **__: object) -> NoReturn:
    """Fetch nothing."""
    raise ValueError(f"a card holds everything itself, not {url}")
