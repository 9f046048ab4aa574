// SPDX-License-Identifier: GPL-3.0-or-later
/* Sets out a job and writes drawings of it for the screen. Arguments: JOB SHOP WIDTH, then WHAT and NAME by turns; with none of
 * these every drawing there is. Writes JSON: [{"what", "name", "wide_mm", "high_mm", "svg"}], wide_mm 0 and no svg where there is
 * nothing such. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sheet/drawing.h"
#include "sheet/figures.h"
#include "sheet/writers.h"
#include "whole.h"

static bool to_stdout(void *context, const char *bytes, size_t count)
{
    (void)context;
    return fwrite(bytes, 1, count, stdout) == count;
}

static char *read_file(const char *path, size_t *bytes)
{
    FILE *file = fopen(path, "rb");
    if (!file) { fprintf(stderr, "cannot read %s\n", path); exit(2); }
    char *text = malloc(1u << 20);
    *bytes = fread(text, 1, 1u << 20, file);
    fclose(file);
    return text;
}

typedef struct dump { tw_arena arena; tw_paper_input in; double wide_mm; tw_sink out; bool some; } dump;

static void put_drawing(dump *d, const char *what, const char *name)
{
    const tw_sheet *sheet = tw_drawing_make(&d->arena, &d->in,
        (tw_drawing_ask){ .what = what, .name = name, .width_mm = d->wide_mm });
    tw_putf(&d->out, "%s{\"what\": \"%s\", \"name\": ", d->some ? ",\n" : "[", what);
    tw_put_json_text(&d->out, name);
    tw_putf(&d->out, ", \"wide_mm\": %g, \"high_mm\": %g", sheet ? sheet->width_mm : 0.0, sheet ? sheet->height_mm : 0.0);
    d->some = true;
    if (sheet) {
        tw_gather svg = { .arena = &d->arena };
        tw_sink sink = tw_gather_sink(&svg);
        tw_svg_put_screen(sheet, &sink);
        tw_put_text(&d->out, ", \"svg\": ");
        tw_put_json_text(&d->out, tw_gathered(&svg).bytes);
    }
    tw_put_text(&d->out, "}");
}

static void put_all(dump *d)
{
    const tw_job *job = d->in.job;
    put_drawing(d, "whole", "");
    put_drawing(d, "picture", "");
    put_drawing(d, "apart", "");
    for (int i = 0; i < job->piece_count; i++) put_drawing(d, "piece", job->pieces[i].name);
    for (int i = 0; i < job->piece_count; i++) put_drawing(d, "grain", job->pieces[i].name);
    for (int i = 0; i < d->in.plan_count; i++) put_drawing(d, d->in.plans[i].profile ? "profile" : "joint",
        d->in.plans[i].joint->name);
    for (int i = 0; i < d->in.templates->count; i++) put_drawing(d, "template", d->in.templates->items[i].name);
    for (int i = 0; i < d->in.run->count; i++) put_drawing(d, "card", tw_step_key(&d->arena, &d->in, i));
}

int main(int count, char **words)
{
    if (count < 4) return 2;
    tw_request request = { .job_name = words[1], .shop_name = words[2], .papers = true };
    char *job = read_file(words[1], &request.job_bytes), *shop = read_file(words[2], &request.shop_bytes);
    request.job = job;
    request.shop = shop;
    tw_result *result = tw_set_out(&request);
    if (tw_result_state(result) == TW_STATE_WRONG) return 1;
    dump d = { .in = tw_result_input(result), .wide_mm = atof(words[3]), .out = { .write = to_stdout } };
    for (int i = 4; i + 1 < count; i += 2) put_drawing(&d, words[i], words[i + 1]);
    if (count < 6) put_all(&d);
    tw_put_text(&d.out, "]\n");
    tw_arena_finish(&d.arena);
    tw_result_free(result);
    free(job);
    free(shop);
    return d.out.failed ? 3 : 0;
}
