"""WeasyPrint, started so that it knows no font of this machine; whoever prints takes it from here."""

import os
import warnings
from pathlib import Path

# Read by the font library when it is loaded, and again for each set of fonts.
os.environ["FONTCONFIG_FILE"] = str(Path(__file__).with_name("fonts.conf"))
with warnings.catch_warnings():
    warnings.filterwarnings("ignore", "No fonts configured")  # as it is meant to be
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

__all__ = ["CSS", "HTML", "FontConfiguration", "URLFetcher", "URLFetcherResponse"]
