// SPDX-License-Identifier: GPL-3.0-or-later
/* Any bytes as a job and as a shop. Beyond not crashing: what is read is whole and in range, what is refused is said, and
 * what is said prints. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../formats.h"
#include "job/characters.h"
#include "job/job.h"
#include "job/tree.h"

#define MUST(condition) ((condition) ? (void)0 : abort())

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count);

static void check_findings(const tw_findings *findings, bool read)
{
    MUST(read == !tw_findings_have(findings, TW_WRONG));
    MUST(findings->count <= TW_FINDINGS_MOST);
    for (size_t i = 0; i < findings->count; i++) {
        const tw_finding *finding = &findings->items[i];
        MUST(finding->place.line >= 1 && finding->place.column >= 1 && finding->what[0] != '\0');
        tw_text texts[] = { tw_text_of(finding->what), tw_text_of(finding->remedy) };
        for (size_t j = 0; j < 2; j++)
            for (size_t at = 0; at < texts[j].length;) {
                tw_character character = tw_character_at(texts[j], at);
                MUST(tw_is_printable(character.code));
                at += character.length;
            }
        MUST(texts[0].length + texts[1].length < 4000);
    }
}

static void check_name(const char *name)
{
    tw_text text = tw_text_of(name);
    MUST(text.length > 0 && tw_characters_before(text, text.length) <= TW_NAME_MOST);
}

static void check_amount(tw_amount amount, double least, double most)
{
    MUST(isfinite(amount.value));
    if (amount.given) MUST(amount.value >= least && amount.value <= most);
}

static void check_job(const tw_job *job)
{
    MUST(job->piece_count >= 1 && job->title.text[0] != '\0' && job->figures.parts >= 2);
    for (int i = 0; i < job->piece_count; i++) {
        const tw_piece *piece = &job->pieces[i];
        check_name(piece->name);
        check_amount(piece->length, TW_LENGTH_LEAST_MM, TW_LENGTH_MOST_MM);
        check_amount(piece->width, TW_LENGTH_LEAST_MM, TW_LENGTH_MOST_MM);
        check_amount(piece->thickness, TW_LENGTH_LEAST_MM, TW_LENGTH_MOST_MM);
        MUST(piece->length.given && piece->width.given && piece->thickness.given);
        MUST(piece->count.value >= 1.0 && piece->count.value <= TW_COUNT_MOST && piece->count.value == floor(piece->count.value));
    }
    for (int i = 0; i < job->joint_count; i++) {
        check_name(job->joints[i].name);
        MUST(job->joints[i].kind >= 0 && job->joints[i].kind < TEST_FORMATS && job->joints[i].spec != NULL);
        if (job->joints[i].kind != 0) continue;
        const test_mortise *mortise = job->joints[i].spec;
        MUST(mortise->tenon.index >= 0 && mortise->tenon.index < job->piece_count && mortise->tenon.index != mortise->into.index);
        MUST(mortise->at.count >= 1 && mortise->at.count <= TW_PLACES_MOST);
        check_amount(mortise->share, 0.1, 0.9);
    }
}

static void check_shop(const tw_shop *shop)
{
    MUST(shop->cutter_count >= 1 && shop->follower_count >= 1);
    check_amount(shop->machine.ratio, 0.2, 10.0);
    MUST(shop->machine.ratio.given && shop->machine.low_speed.value <= shop->machine.top_speed.value);
    for (int i = 0; i < shop->cutter_count; i++) {
        check_name(shop->cutters[i].name);
        MUST(shop->cutters[i].d_mm >= 0.5 && shop->cutters[i].d_mm <= 150.0);
    }
    for (int i = 0; i < shop->follower_count; i++) MUST(shop->followers[i].b_mm >= 0.5 && shop->followers[i].b_mm <= 300.0);
    for (int i = 0; i < shop->spacer_count; i++) check_amount(shop->spacers[i].size, 0.001, 2000.0);
}

/* Spans lie in the source, and a straight text stands there byte for byte. */
static void check_node(const tw_node *node, tw_text source)
{
    MUST(node->begin <= node->end && node->end <= source.length);
    if (node->kind == TW_NODE_TEXT && node->straight && node->text.length > 0)
        MUST(memcmp(source.bytes + node->begin + node->quoted, node->text.bytes, node->text.length) == 0);
    for (int i = 0; node->kind == TW_NODE_LIST && i < node->count; i++) check_node(node->items[i], source);
    for (int i = 0; node->kind == TW_NODE_MAP && i < node->count; i++) {
        check_node(node->pairs[i].key, source);
        check_node(node->pairs[i].value, source);
    }
}

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count)
{
    tw_text text = { (const char *)bytes, count };
    tw_arena arena = { 0 };
    tw_findings of_tree = { .arena = &arena }, of_job = { .arena = &arena }, of_shop = { .arena = &arena };
    tw_tree tree = tw_tree_read(&arena, text, "fuzz", &of_tree);
    if (tree.root && of_tree.count == 0) check_node(tree.root, text);
    const tw_job *job = tw_job_read(&arena, text, "fuzz", test_formats, TEST_FORMATS, &of_job);
    check_findings(&of_job, job != NULL);
    if (job) check_job(job);
    const tw_shop *shop = tw_shop_read(&arena, text, "fuzz", &of_shop);
    check_findings(&of_shop, shop != NULL);
    if (shop) check_shop(shop);
    tw_arena_finish(&arena);
    return 0;
}
