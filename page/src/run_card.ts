// SPDX-License-Identifier: GPL-3.0-or-later
/* run_card: one card of the run, to be read at two metres: cautions, the picture, the figures to set, what to measure, the
 * tally. */
import type { Card, Finding, LedgerPlace, Model, Step } from './api.js';
import { fill, h } from './dom.js';
import { findingList } from './findings.js';
import { measuredPart, type MeasureUse, trialPart } from './run_measure.js';
import { movedMark, sentence, settingCard } from './run_parts.js';

export interface CardUse {
    measure: MeasureUse;
    done: boolean;
    /** The tick waits for the program. */
    waits: boolean;
    box: (number: number) => boolean;
    tickBox: (number: number, done: boolean) => void;
    untick: () => void;
    /** What the size accepted last has moved. */
    last: HTMLElement | null;
}

/** The step as it is with the sizes as drawn; null when nothing was measured. */
export function drawnStep(drawn: Model | null, step: Step): Step | null {
    return drawn?.steps.find((one) => one.key === step.key) ?? null;
}

function wasSetting(card: Card, index: number, drawn: Step | null): string {
    const now = card.settings[index], before = drawn?.card?.settings.find((one) => one.label === now.label);
    return before && before.figure !== now.figure ? before.figure : '';
}
function wasMeasure(step: Step, drawn: Step | null): string {
    const before = drawn?.measure?.wanted;
    return before && step.measure && before !== step.measure.wanted ? before : '';
}

/** What is mounted and how the piece lies, by the names that the card gives it. */
function mountedRows(card: Card): [string, string][] {
    return [['Template', card.template], ['Cutter', card.cutter], ['Follower', card.follower],
        ['Cutter stands out', card.stick_out], ['Speed', card.speed], ['Faces the cutter', card.face],
        ['Lies down', card.down], ['Hand', card.hand], ['Packing', card.packing]];
}
function wasMounted(name: string, now: string, drawn: Step | null): string {
    const before = drawn?.card && mountedRows(drawn.card).find(([other]) => other === name)?.[1];
    return before && before !== now ? before : '';
}

/** Whether a measured size has moved a figure of the step, or what is mounted for it. */
export function isMoved(step: Step, drawn: Step | null): boolean {
    const card = step.card;
    if (!drawn) return false;
    if (wasMeasure(step, drawn) !== '') return true;
    return card !== null && (card.settings.some((_, index) => wasSetting(card, index, drawn) !== '')
        || mountedRows(card).some(([name, now]) => wasMounted(name, now, drawn) !== ''));
}

type Was = (name: string, now: string) => string;

/** Names with their words; what has none is left out. was: the words as drawn where they were moved, or ''. */
function pairs(rows: [string, string][], wide = false, was: Was = () => ''): HTMLElement | null {
    const filled = rows.filter(([, words]) => words);
    if (!filled.length) return null;
    return h('dl', { class: wide ? 'mounted wide' : 'mounted' },
        filled.map(([name, words]) => h('div', {}, h('dt', {}, name), h('dd', {}, words, movedMark(was(name, words))))));
}

function cautions(step: Step): HTMLElement | null {
    if (!step.cautions.length) return null;
    const title = step.card ? 'Before the cutter turns' : 'Take care';
    return h('section', { class: 'cautions', role: 'note' }, h('h2', {}, h('span', { 'aria-hidden': 'true' }, '▲ '), title),
        h('ul', {}, step.cautions.map((one) => h('li', {}, sentence(one)))));
}

/** The turn of the feed, or its way, as a sign beside its words. */
function feedArrow(feed: string): string {
    if (/counter-?clockwise|anti-?clockwise/.test(feed)) return '↺';
    if (/clockwise/.test(feed)) return '↻';
    return /left/.test(feed) ? '←' : /right/.test(feed) ? '→' : '';
}

function cutting(card: Card): HTMLElement | null {
    if (!card.feed && !card.passes && !card.breakout) return null;
    const arrow = feedArrow(card.feed);
    return h('section', { class: 'part feed' }, h('h2', {}, 'Feed'),
        card.feed ? h('p', { class: 'feed-way' }, arrow ? h('span', { class: 'arrow', 'aria-hidden': 'true' }, arrow) : null,
            h('span', {}, sentence(card.feed))) : null,
        pairs([['Plunges', card.passes], ['Where it breaks out', card.breakout]], true));
}

/** One box for each time that the step is done. Done is done: they are all ticked then. */
function tally(step: Step, use: CardUse): HTMLElement | null {
    if (step.boxes < 2) return null;
    const changed = (event: Event): void => {
        const box = event.target as HTMLInputElement;
        use.tickBox(Number(box.value), box.checked);
    };
    const box = (number: number): HTMLElement => h('label', { class: 'box' },
        h('input', { type: 'checkbox', value: String(number), onchange: changed }), h('span', {}, String(number)));
    return h('fieldset', { class: 'part tally' }, h('legend', {}, 'Tick each'),
        h('div', { class: 'boxes' }, Array.from({ length: step.boxes }, (_, index) => box(index + 1))));
}

/** Shows on the card what is ticked, without touching what is being typed on it. */
export function showDone(card: HTMLElement, use: CardUse): void {
    const line = card.querySelector<HTMLElement>('.done-line'), state = `${use.done}, ${use.waits}`;
    if (line && line.dataset.state !== state) {
        line.dataset.state = state;
        fill(line, use.done ? [h('span', { 'aria-hidden': 'true' }, '✓ '), h('strong', {}, 'Done'),
            use.waits ? ', not yet in the book ' : ' ',
            h('button', { type: 'button', onclick: use.untick }, 'Take the tick away')] : null);
    }
    for (const box of card.querySelectorAll<HTMLInputElement>('.box input')) {
        box.checked = use.done || use.box(Number(box.value));
        box.disabled = use.done;
    }
}

/** Findings that forbid the cut: those of the card's joint or piece in full, of others how many. */
function halts(step: Step, findings: readonly Finding[], job: number): HTMLElement | null {
    const all = findings.filter((one) => one.level === 'halt' || one.level === 'wrong');
    if (!all.length) return null;
    const here = all.filter((one) => !one.about || one.about === step.joint || one.about === step.piece);
    const others = all.length - here.length, counted = others === 1 ? 'One halt stands' : `${others} halts stand`;
    return h('section', { class: 'halts', role: 'note' },
        h('h2', {}, here.length ? 'Halt: do not cut this' : 'Halt elsewhere in this job'), findingList(here, {}),
        h('p', {}, others ? `${counted} against other cuts of this job. ` : null,
            h('a', { href: `#/job/${job}` }, 'See them at the desk')));
}

export interface CardShown { step: Step; model: Model; drawn: Model | null; findings: readonly Finding[]; picture: HTMLElement }

function top(shown: CardShown, use: CardUse): HTMLElement {
    const { step, model } = shown;
    return h('div', { class: 'card-top' },
        h('p', { class: 'kicker' }, `Card ${step.number} of ${model.steps.length}`, step.piece ? ` · ${step.piece}` : ''),
        h('h1', { id: 'card-name' }, step.name), step.tally ? h('p', { class: 'tally-words' }, step.tally) : null,
        h('p', { class: 'done-line' }), halts(step, shown.findings, use.measure.job),
        step.what ? h('p', { class: 'what' }, sentence(step.what)) : null);
}

function settings(card: Card, drawn: Step | null): HTMLElement | null {
    if (!card.settings.length) return null;
    return h('div', { class: 'settings' }, card.settings.map((one, index) => settingCard(one, wasSetting(card, index, drawn))));
}

export function cardElement(shown: CardShown, use: CardUse): HTMLElement {
    const { step } = shown, drawn = drawnStep(shown.drawn, step), card = step.card;
    const element = h('article', { class: 'card', 'aria-labelledby': 'card-name', 'data-step': step.key }, top(shown, use),
        h('div', { class: 'card-left' }, cautions(step), shown.picture),
        h('div', { class: 'card-right' },
            card ? [pairs(mountedRows(card), false, (name, now) => wasMounted(name, now, drawn)), settings(card, drawn)] : null,
            pairs([['The piece comes', step.state], ['Marks to be seen', step.marks], ['Changes for this card', step.change],
                ['Try it in', step.test_piece]], true),
            card ? cutting(card) : null, trialPart(step, use.measure, wasMeasure(step, drawn)), tally(step, use),
            measuredPart(step, use.measure, use.last), step.keeps ? h('p', { class: 'keeps' }, sentence(step.keeps)) : null));
    showDone(element, use);
    return element;
}

/** The size as drawn where a measured one is reckoned with. */
export function drawnSize(model: Model, place: LedgerPlace): string {
    return model.measured.find((one) => one.key === place.key && one.file === place.file)?.drawn ?? '';
}
