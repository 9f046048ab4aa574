// SPDX-License-Identifier: GPL-3.0-or-later
/* print: sheets -> one PDF, through cairo and pango. Outside the portable core: it needs the system's fonts.
 * Debian package of the font: fonts-dejavu-core. */
#ifndef TW_PRINT_H
#define TW_PRINT_H

#include "draw/draw.h"

/// NULL when DejaVu Sans can be found, else the name of the package that has it. Without any font cairo draws no text and
/// says nothing: ask before printing.
const char *tw_print_fonts_missing(void);

/// Writes all sheets into one PDF, each page of its sheet's own size and true to scale, with an outline entry for each.
/// title: of the document. The same sheets give the same bytes on one machine. Returns false with *why set (a sentence
/// without full stop, static) when a library or the sink fails; then part of the bytes may have gone out.
/// count: 1 or more.
bool tw_print_pdf(const tw_sheet *const *sheets, int count, const char *title, tw_sink *sink, const char **why);

/// Asked before each page, which counts from 0 here. Returns false to stop.
typedef struct tw_print_watch { bool (*go_on)(void *context, int page); void *context; } tw_print_watch;
/// The same, watched. Stopped, it returns false with *why tw_print_stopped (that very text). watch may be NULL.
bool tw_print_pdf_watched(const tw_sheet *const *sheets, int count, const char *title, tw_sink *sink, const tw_print_watch *watch,
                          const char **why);
extern const char tw_print_stopped[];

#endif
