"""The openly licensed fonts that measure_fonts.py measures: kind, file, licence.

They are unpacked from the packages of a Linux distribution and, for the Source faces, of the
Python package index. EB Garamond and Linux Libertine are book faces with thin hairlines; the
digits of EB Garamond are old-style, so its digit height is that of a small letter.

Kinds: 1 regular sans, 2 bold sans, 3 light sans, 4 serif, 5 monospaced.
"""

VERA = "Bitstream Vera and public domain"
OFL = "SIL OFL 1.1"
APACHE = "Apache 2.0"
GPL = "GPL 2 with font exception"

TYPEFACES = [
    (1, "DejaVuSans.ttf", VERA),
    (1, "LiberationSans-Regular.ttf", GPL),
    (1, "Roboto-Regular.ttf", APACHE),
    (1, "OpenSans-Regular.ttf", APACHE),
    (1, "Inter-Regular.otf", OFL),
    (1, "SourceSansPro-Regular.ttf", OFL),
    (1, "Lato-Regular.ttf", OFL),
    (1, "Carlito-Regular.ttf", OFL),
    (2, "DejaVuSans-Bold.ttf", VERA),
    (2, "LiberationSans-Bold.ttf", GPL),
    (2, "Roboto-Bold.ttf", APACHE),
    (2, "OpenSans-Bold.ttf", APACHE),
    (2, "Inter-Bold.otf", OFL),
    (2, "SourceSansPro-Bold.ttf", OFL),
    (2, "Lato-Bold.ttf", OFL),
    (3, "Roboto-Light.ttf", APACHE),
    (3, "OpenSans-Light.ttf", APACHE),
    (3, "Inter-Light.otf", OFL),
    (3, "SourceSansPro-Light.ttf", OFL),
    (3, "Lato-Light.ttf", OFL),
    (3, "Cantarell-Light.otf", OFL),
    (4, "DejaVuSerif.ttf", VERA),
    (4, "LiberationSerif-Regular.ttf", GPL),
    (4, "SourceSerifPro-Regular.ttf", OFL),
    (4, "EBGaramond12-Regular.otf", OFL),
    (4, "LinLibertine_R.otf", OFL),
    (5, "DejaVuSansMono.ttf", VERA),
    (5, "LiberationMono-Regular.ttf", GPL),
    (5, "Hack-Regular.ttf", "MIT and Bitstream Vera"),
    (5, "FiraCode-Regular.ttf", OFL),
]
