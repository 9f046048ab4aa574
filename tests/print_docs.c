// SPDX-License-Identifier: GPL-3.0-or-later
/* Prints docs/job-file.md (argument: job) or docs/shop-file.md (shop) from the key tables:
 *
 *     build/tests/print_docs job > docs/job-file.md */
#include <stdio.h>

#include "job/job.h"
#include "joint/joint.h"

static bool to_stdout(void *context, const char *bytes, size_t count)
{
    (void)context;
    return fwrite(bytes, 1, count, stdout) == count;
}

int main(int count, char **words)
{
    tw_sink sink = { .write = to_stdout };
    tw_arena arena = { 0 };
    bool job = count == 2 && tw_text_is(tw_text_of(words[1]), "job"), shop = count == 2 && tw_text_is(tw_text_of(words[1]), "shop");
    if (job) tw_job_docs_put((const tw_joint_format *const *)tw_joint_formats(&arena), tw_joint_kind_count, &sink);
    if (shop) tw_shop_docs_put(&sink);
    tw_arena_finish(&arena);
    if (job || shop) return sink.failed || fflush(stdout) != 0;
    fputs("usage: print_docs job|shop\n", stderr);
    return 2;
}
