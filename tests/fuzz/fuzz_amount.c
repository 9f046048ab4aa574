// SPDX-License-Identifier: GPL-3.0-or-later
/* Any bytes as a length and as an angle: what is read is finite and in bounds, what is refused is said in print. */
#include <math.h>
#include <stdlib.h>

#include "job/characters.h"
#include "job/job.h"

#define MUST(condition) ((condition) ? (void)0 : abort())

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count);

static void check_why(const char *why)
{
    MUST(why != NULL && why[0] != '\0');
    tw_text text = tw_text_of(why);
    for (size_t at = 0; at < text.length;) {
        tw_character character = tw_character_at(text, at);
        MUST(tw_is_printable(character.code));
        at += character.length;
    }
}

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count)
{
    tw_text text = { (const char *)bytes, count };
    tw_arena arena = { 0 };
    double length = 0.5, inches = 0.5, angle = 0.5;
    const char *why = NULL;
    if (tw_length_read(&arena, text, "mm", &length, &why)) MUST(fabs(length) <= 1e6);
    else check_why(why), MUST(length == 0.5);
    bool read = tw_length_read(&arena, text, "in", &inches, &why);
    if (read) MUST(fabs(inches) <= 1e6);
    if (tw_angle_read(&arena, text, &angle, &why)) MUST(fabs(angle) <= 2.0 * TW_PI);
    else check_why(why), MUST(angle == 0.5);
    tw_arena_finish(&arena);
    return 0;
}
