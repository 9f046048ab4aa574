// SPDX-License-Identifier: GPL-3.0-or-later
/* Sets out a sample job and prints {"job": job.json, "csv": the cutting list, "cards": [texts of each page]} for
 * papers_json.py. Argument: which sample, 0 to 3. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../papers_jobs.h"

static bool to_stdout(void *context, const char *bytes, size_t count)
{
    (void)context;
    return fwrite(bytes, 1, count, stdout) == count;
}

static void put_cards(const tw_result *result, tw_sink *out)
{
    for (int i = 0; i < result->papers.count; i++) {
        const tw_paper_pages *paper = &result->papers.items[i];
        if (strcmp(paper->name, "cards") != 0) continue;
        for (int k = 0; k < paper->page_count; k++) {
            tw_put_text(out, k ? ", [" : "[");
            const char *comma = "";
            for (size_t m = 0; m < paper->pages[k]->count; m++) {
                if (paper->pages[k]->items[m].kind != TW_ITEM_TEXT) continue;
                tw_put_text(out, comma);
                tw_put_json_text(out, paper->pages[k]->items[m].text);
                comma = ", ";
            }
            tw_put_text(out, "]");
        }
    }
}

int main(int count, char **words)
{
    static const sample_job samples[] = {
        { .paper = "A4", .figures = "mm 0.1", .joints = true },
        { .paper = "Letter", .figures = "in 0.001", .joints = true, .long_names = true, .turned = true },
        { .paper = "A4", .figures = "mm 0.01", .joints = true, .more = "    tusk thickness: 3 mm\n" },
        { .paper = "A3", .figures = "mm 0.1" },
    };
    int which = count > 1 ? atoi(words[1]) : 0;
    if (which < 0 || which >= (int)(sizeof samples / sizeof *samples)) return 2;
    tw_result *result = sample_set_out(samples[which]);
    tw_sink out = { .write = to_stdout };
    tw_put_text(&out, "{\"job\": ");
    tw_result_put(result, TW_OUTPUT_JSON, to_stdout, NULL);
    tw_put_text(&out, ", \"csv\": ");
    tw_arena arena = {0};
    tw_gather csv = { .arena = &arena };
    tw_sink to_csv = tw_gather_sink(&csv);
    tw_paper_input input = tw_result_input(result);
    tw_csv_cutting_list_put(&input, &to_csv);
    tw_put_json_text(&out, tw_gathered(&csv).bytes);
    tw_put_text(&out, ", \"cards\": [");
    put_cards(result, &out);
    tw_put_text(&out, "]}\n");
    tw_arena_finish(&arena);
    tw_result_free(result);
    return out.failed ? 3 : 0;
}
