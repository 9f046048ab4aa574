// SPDX-License-Identifier: GPL-3.0-or-later
/* setout: the commands `setout` and `check`. */
#ifndef TW_SETOUT_H
#define TW_SETOUT_H

#include <stdbool.h>

/// setout: all papers into the folder. shop NULL: the shop that the job names. Returns the exit code of design section 12.
int tw_command_setout(const char *job, const char *shop, const char *folder);
/// check: the findings, as text on standard error or as JSON on standard output.
int tw_command_check(const char *job, const char *shop, bool json);

#endif
