// SPDX-License-Identifier: GPL-3.0-or-later
/* Descent by precedence, one function for each level; the steps come out in the order in which they are reckoned.
 *
 *     sum     = product { (+ | -) product }
 *     product = signed { (* | × | /) signed }
 *     signed  = { + | - } primary
 *     primary = literal | ( sum ) | min( sum { , sum } ) | max( ... ) | name | name.key
 *     name    = word { blank word }            a word after a number is a unit, everywhere else it belongs to a name */
#include "job/formula.h"

#include "job/characters.h"

#include <assert.h>
#include <string.h>

typedef struct reading {
    tw_arena      *arena;
    tw_text        text;
    size_t         at;
    tw_names_known names;
    tw_step       *steps;         // [TW_FORMULA_MOST_STEPS]
    int            count;
    int            depth;         // of brackets
    bool           after_divide;  // the last sign was a division sign
    tw_fault      *fault;
} reading;

static bool refuse(reading *r, size_t at, const char *what, const char *remedy)
{
    *r->fault = (tw_fault){ at, what, remedy };
    return false;
}

static bool add_step(reading *r, tw_step step)
{
    if (r->count == TW_FORMULA_MOST_STEPS)
        return refuse(r, step.at, "the sum is too long", "name parts of it under `amounts:`");
    r->steps[r->count++] = step;
    return true;
}

static void skip_blanks(reading *r) { r->at = tw_skip_blanks(r->text, r->at); }

static tw_character here(const reading *r) { return tw_character_at(r->text, r->at); }

/* Takes the character when it stands here, after blanks. */
static bool take(reading *r, uint32_t code)
{
    skip_blanks(r);
    tw_character character = here(r);
    if (character.length == 0 || character.code != code) return false;
    r->at += character.length;
    return true;
}

static bool read_sum(reading *r);

static bool refuse_unclosed(reading *r, size_t opened)
{
    skip_blanks(r);
    bool ends = here(r).length == 0;
    if (ends) return refuse(r, opened, "the bracket that opens here is not closed",
                            "end it with `)`; in a list, an amount with commas goes in quotes");
    return refuse(r, r->at, tw_format(r->arena, "%s stands where a sign or a bracket belongs", tw_shown_character(r->arena, here(r))), "");
}

static bool read_bracket(reading *r)
{
    size_t opened = r->at - 1;
    if (++r->depth > TW_FORMULA_MOST_DEPTH) return refuse(r, opened, "brackets are nested too deep", "name parts of it under `amounts:`");
    if (!read_sum(r)) return false;
    r->depth--;
    return take(r, ')') || refuse_unclosed(r, opened);
}

/* min( ... ) or max( ... ), r->at behind the bracket. */
static bool read_function(reading *r, tw_sum sum, size_t start)
{
    size_t opened = r->at - 1;
    if (++r->depth > TW_FORMULA_MOST_DEPTH) return refuse(r, opened, "brackets are nested too deep", "name parts of it under `amounts:`");
    if (!read_sum(r)) return false;
    while (take(r, ',')) {
        if (!read_sum(r) || !add_step(r, (tw_step){ .kind = TW_STEP_SUM, .sum = sum, .at = start })) return false;
    }
    r->depth--;
    return take(r, ')') || refuse_unclosed(r, opened);
}

/* Words joined by single blanks, from r->at. */
static tw_text take_words(reading *r)
{
    size_t start = r->at, end = start + tw_word_at(r->text, start).length;
    for (;;) {
        bool blank = end < r->text.length && r->text.bytes[end] == ' ';
        tw_character next = tw_character_at(r->text, end + 1);
        if (!blank || (!tw_is_letter(next.code) && !tw_is_digit(next.code))) break;
        end++;
        while (end < r->text.length && (tw_is_letter(next.code) || tw_is_digit(next.code))) {
            end += next.length;
            next = tw_character_at(r->text, end);
        }
    }
    r->at = end;
    return (tw_text){ r->text.bytes + start, end - start };
}

static bool read_name(reading *r, tw_text owner, size_t start)
{
    tw_text key = { "", 0 };
    if (r->at < r->text.length && r->text.bytes[r->at] == '.') {
        r->at++;
        if (!tw_is_letter(here(r).code)) return refuse(r, r->at, "a key is missing after the point", "write post.width");
        key = take_words(r);
    }
    const char *what, *remedy;
    int cell = r->names.find(r->names.context, owner, key, &what, &remedy);
    if (cell < 0) return refuse(r, start, what, remedy);
    return add_step(r, (tw_step){ .kind = TW_STEP_CELL, .cell = cell, .at = start });
}

static bool read_word(reading *r)
{
    size_t start = r->at;
    tw_text words = take_words(r);
    if (!take(r, '(')) {
        r->at = start + words.length;
        return read_name(r, words, start);
    }
    if (tw_text_is(words, "min")) return read_function(r, TW_LEAST, start);
    if (tw_text_is(words, "max")) return read_function(r, TW_MOST, start);
    return refuse(r, start, tw_format(r->arena, "%s( is not known", tw_text_copy(r->arena, words)), "min( and max( are");
}

static bool read_literal(reading *r)
{
    size_t start = r->at;
    tw_literal literal;
    bool divided = r->after_divide;
    if (!tw_literal_read(r->arena, r->text, &r->at, &literal, r->fault)) return false;
    if (divided && literal.fraction)
        return refuse(r, start, "a fraction after a division sign can be read in two ways", "put it in brackets");
    return add_step(r, (tw_step){ .kind = TW_STEP_QUANTITY, .quantity = literal.quantity, .at = start });
}

static bool refuse_primary(reading *r)
{
    tw_character character = here(r);
    if (character.length == 0) return refuse(r, r->at, "an amount is missing here", "write a number with its unit: 38 mm");
    return refuse(r, r->at, tw_format(r->arena, "%s stands where an amount belongs", tw_shown_character(r->arena, character)),
                  "write a number with its unit: 38 mm");
}

static bool read_primary(reading *r)
{
    skip_blanks(r);
    if (take(r, '(')) return read_bracket(r);
    if (tw_literal_begins(r->text, r->at)) return read_literal(r);
    if (tw_is_letter(here(r).code)) return read_word(r);
    return refuse_primary(r);
}

static bool is_minus(uint32_t code) { return code == '-' || code == 0x2212; }

static bool read_signed(reading *r)
{
    bool turned = false;
    size_t start = tw_skip_blanks(r->text, r->at);
    for (skip_blanks(r); is_minus(here(r).code) || here(r).code == '+'; skip_blanks(r)) {
        turned ^= is_minus(here(r).code);
        r->at += here(r).length;
    }
    if (!read_primary(r)) return false;
    return !turned || add_step(r, (tw_step){ .kind = TW_STEP_TURN_SIGN, .at = start });
}

static bool sign_of_product(uint32_t code, tw_sum *sum)
{
    *sum = code == '/' || code == 0xF7 ? TW_DIVIDE : TW_MULTIPLY;
    return code == '*' || code == 0xD7 || code == '/' || code == 0xF7;
}

static bool sign_of_sum(uint32_t code, tw_sum *sum)
{
    *sum = code == '+' ? TW_ADD : TW_SUBTRACT;
    return code == '+' || is_minus(code);
}

/* One level: operands read by `operand`, joined by the signs of `sign_of`, from the left. */
static bool read_level(reading *r, bool (*operand)(reading *), bool (*sign_of)(uint32_t, tw_sum *))
{
    r->after_divide = false;
    if (!operand(r)) return false;
    for (;;) {
        tw_sum sum;
        skip_blanks(r);
        if (here(r).length == 0 || !sign_of(here(r).code, &sum)) return true;
        size_t at = r->at;
        r->at += here(r).length;
        r->after_divide = sum == TW_DIVIDE;
        if (!operand(r) || !add_step(r, (tw_step){ .kind = TW_STEP_SUM, .sum = sum, .at = at })) return false;
        r->after_divide = false;
    }
}

static bool read_product(reading *r) { return read_level(r, read_signed, sign_of_product); }
static bool read_sum(reading *r) { return read_level(r, read_product, sign_of_sum); }

/* Something is left over behind a whole amount. */
static bool refuse_rest(reading *r)
{
    tw_character character = here(r);
    bool digit_before = r->at > 0 && tw_is_digit((unsigned char)r->text.bytes[r->at - 1]);
    if (character.code == ',' && digit_before && r->at + 1 < r->text.length && tw_is_digit((unsigned char)r->text.bytes[r->at + 1]))
        return refuse(r, r->at, "a comma stands in the number", "write a point: 1.5");
    if (character.code == ')') return refuse(r, r->at, "this bracket was not opened", "take it out");
    if (character.code == '#') return refuse(r, r->at, "a comment begins with a space before the `#`", "put a space before it");
    if (character.code == ':') return refuse(r, r->at, "a colon stands where a sign belongs", "a slope is two plain numbers: 1:12");
    if (tw_literal_begins(r->text, r->at) || tw_is_letter(character.code))
        return refuse(r, r->at, "a sign is missing between two amounts", "write + - * or / between them");
    return refuse(r, r->at, tw_format(r->arena, "%s has no meaning in an amount", tw_shown_character(r->arena, character)), "");
}

bool tw_formula_read(tw_arena *arena, tw_text text, tw_names_known names, tw_formula *formula, tw_fault *fault)
{
    tw_step room[TW_FORMULA_MOST_STEPS];
    reading r = { .arena = arena, .text = text, .names = names, .steps = room, .fault = fault };
    if (text.length > TW_FORMULA_MOST_BYTES)
        return refuse(&r, 0, tw_format(arena, "the amount is longer than %d bytes", TW_FORMULA_MOST_BYTES), "name parts of it under `amounts:`");
    if (!read_sum(&r)) return false;
    skip_blanks(&r);
    if (r.at < text.length) return refuse_rest(&r);
    tw_step *steps = TW_NEW_ARRAY(arena, tw_step, r.count);
    memcpy(steps, r.steps, (size_t)r.count * sizeof *steps);
    *formula = (tw_formula){ steps, r.count };
    return true;
}

bool tw_formula_reckon(tw_arena *arena, const tw_formula *formula, double unit_mm, tw_cell_value value, void *context,
                       tw_quantity *result, tw_fault *fault)
{
    tw_quantity stack[TW_FORMULA_MOST_STEPS];
    int height = 0;
    for (int i = 0; i < formula->count; i++) {
        const tw_step *step = &formula->steps[i];
        switch (step->kind) {
        case TW_STEP_QUANTITY: stack[height++] = step->quantity; break;
        case TW_STEP_CELL: stack[height++] = value(context, step->cell); break;
        case TW_STEP_TURN_SIGN:
            assert(height >= 1);
            stack[height - 1].value = -stack[height - 1].value;
            break;
        case TW_STEP_SUM:
            assert(height >= 2);
            height--;
            fault->at = step->at;
            if (!tw_quantity_reckon(arena, step->sum, stack[height - 1], stack[height], unit_mm, &stack[height - 1],
                                    &fault->what, &fault->remedy)) return false;
            break;
        }
    }
    assert(height == 1);
    *result = stack[0];
    return true;
}
