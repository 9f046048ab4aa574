// SPDX-License-Identifier: GPL-3.0-or-later
/* Amounts in arguments: read by the same reader as a job's, with their range checked here. */
#include "cli/cli.h"
#include "job/job.h"

#include <math.h>
#include <string.h>

static bool refuse_amount(tw_cli *cli, const char *what, const char *text, const char *why, const char *right)
{
    tw_refuse(cli, tw_format(cli->arena, "%s \"%s\": %s", what, text, why), right);
    return false;
}

/* why quotes the text itself, and says what would be right. */
static bool refuse_read(tw_cli *cli, const char *what, const char *why)
{
    tw_refuse(cli, tw_format(cli->arena, "%s %s", what, why), "");
    return false;
}

bool tw_length_given(tw_cli *cli, const char *what, const char *text, double least, double most, double *length_mm)
{
    const char *why = "";
    if (!tw_length_read(cli->arena, tw_text_of(text), "mm", length_mm, &why)) return refuse_read(cli, what, why);
    if (*length_mm >= least && *length_mm <= most) return true;
    return refuse_amount(cli, what, text, tw_format(cli->arena, "%g mm is out of range", *length_mm),
                         tw_format(cli->arena, "a length from %g to %g mm would do", least, most));
}

bool tw_angle_given(tw_cli *cli, const char *what, const char *text, double *angle_rad)
{
    const char *why = "";
    if (strspn(text, "0123456789 /") == strlen(text) && strchr(text, '/'))  // would be read as a small part of a degree
        return refuse_amount(cli, what, text, "a fraction is no angle", "write a slope with a colon, 1:12, or degrees, 5");
    if (tw_angle_read(cli->arena, tw_text_of(text), angle_rad, &why)) return true;
    return refuse_read(cli, what, why);
}

bool tw_number_given(tw_cli *cli, const char *what, const char *text, const char *unit, double least, double most, double *value)
{
    size_t read = tw_read_number(tw_text_of(text), value);
    const char *rest = text + read;
    rest += strspn(rest, " ");
    if (read > 0 && *unit && strcmp(rest, unit) == 0) rest = "";
    const char *right = tw_format(cli->arena, "a number from %g to %g%s%s would do", least, most, *unit ? " " : "", unit);
    if (read == 0 || *rest) return refuse_amount(cli, what, text, "this is no plain number", right);
    if (!(*value >= least && *value <= most)) return refuse_amount(cli, what, text, "this is out of range", right);
    return true;
}
