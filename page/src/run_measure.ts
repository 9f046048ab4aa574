// SPDX-License-Identifier: GPL-3.0-or-later
/* run_measure: at the machine a size is measured as it really came out. What it would move is shown first; once it is accepted it
 * counts from then on in this job. Beside it the trial cut: what was wanted and what was got tell which stop to move. */
import { type Finding, type LedgerPlace, type Moved, type Step, type Texts, type TrialAnswer, type TrialDimension, Refused,
    api } from './api.js';
import { type Child, fill, freshId, h } from './dom.js';
import { findingList } from './findings.js';
import { bigFigure, moveList, movedMark, movedTable, sentence } from './run_parts.js';
import { say } from './view.js';

export interface MeasureUse {
    job: number;
    /** Newest revision of the job, as it was when its figures were reckoned. */
    revision: () => number;
    texts: () => Texts;
    /** The keyboard that a phone shows for lengths. */
    keys: () => string;
    /** The size as drawn when a measured one stands in its place, or ''. */
    drawn: (place: LedgerPlace) => string;
    /** A halt that the job has not as it is now. */
    isNewHalt: (finding: Finding) => boolean;
    /** A measured size was accepted; everything is reckoned anew. */
    accepted: (moved: HTMLElement) => Promise<void>;
}

function refusal(fault: unknown): HTMLElement {
    const words = fault instanceof Refused ? `${sentence(fault.what)} ${sentence(fault.remedy)}`
        : `Something is wrong in this page: ${String(fault)}`;
    return h('p', { class: 'level-wrong', role: 'alert' }, words);
}

function lengthInput(id: string, keys: string): HTMLInputElement {
    return h('input', { id, inputmode: keys, autocomplete: 'off', maxlength: 60, required: true, class: 'length' });
}

/* ---- measured sizes ---- */

/** Sent in place of a size: the drawn one counts again. */
const AS_DRAWN = '';

const TEMPLATES_MOVE = 'Templates move with it: one that is made already must be made anew.';

/** What a measured size would move, with the buttons to accept it or to leave it. */
function triedPart(words: string, moved: Moved[], halts: Finding[], accept: () => void, leave: () => void): HTMLElement[] {
    return [movedTable(moved, moved.length === 1 ? 'One figure would move' : `${moved.length} figures would move`),
        moved.some((one) => one.id.startsWith('templates/')) ? h('p', { class: 'care' }, TEMPLATES_MOVE) : null,
        halts.length ? h('div', { class: 'halts' }, h('p', {}, h('strong', {}, 'It brings a halt:')), findingList(halts, {}))
            : null,
        h('div', { class: 'row' }, h('button', { type: 'button', class: 'main tall accept', onclick: accept }, `Accept ${words}`),
            h('button', { type: 'button', class: 'tall', onclick: leave }, 'Leave it'))].filter((one) => one !== null);
}

function placeForm(place: LedgerPlace, use: MeasureUse): HTMLElement {
    const id = freshId('measured'), input = lengthInput(id, use.keys()), drawn = use.drawn(place);
    const seen = h('div', { class: 'tried', 'aria-live': 'polite' });
    const send = (text: string, only_try: boolean) =>
        api.measured(use.job, use.revision(), place.key, place.file, text, '', only_try);
    const accept = async (text: string): Promise<void> => {
        const { moved } = await send(text, false);
        await use.accepted(movedTable(moved, `What ${place.label} has moved`));
        say(`Counts from now on: ${place.label}`);
    };
    const attempt = async (text: string): Promise<void> => {
        const { moved, findings } = await send(text, true), halts = (findings ?? []).filter((one) => use.isNewHalt(one));
        fill(seen, triedPart(text || drawn, moved, halts, () => guard(() => accept(text)), () => { fill(seen); input.focus(); }));
        seen.querySelector<HTMLElement>('.accept')?.focus({ preventScroll: true });
        seen.scrollIntoView({ block: 'nearest' });
    };
    const guard = (run: () => Promise<void>): void => void run().catch((fault: unknown) => fill(seen, refusal(fault)));
    const sent = (event: Event): void => { event.preventDefault(); guard(() => attempt(input.value.trim())); };
    return h('form', { class: 'place', onsubmit: sent },
        h('label', { for: id }, h('strong', {}, place.label), ' ',
            h('span', {}, drawn ? `measured ${place.now}, drawn ${drawn}` : `reckoned with ${place.now}`)),
        h('div', { class: 'row' }, input, h('button', { class: 'tall' }, 'See what it moves'),
            drawn ? h('button', { type: 'button', class: 'tall', onclick: () => guard(() => attempt(AS_DRAWN)) },
                `Take the drawn ${drawn} again`) : null), seen);
}

const MEASURE_WORDS = 'Measure what is really there. A size that you accept counts in this job from then on. '
    + 'To mend it, type it anew.';

/** The sizes that can be measured at this card; last: what the one accepted last has moved. */
export function measuredPart(step: Step, use: MeasureUse, last: HTMLElement | null): HTMLElement | null {
    if (!step.ledger.length && !last) return null;
    return h('section', { class: 'part measured' }, h('h2', {}, 'Measured sizes'), last,
        step.ledger.length ? h('p', { class: 'quiet' }, MEASURE_WORDS) : null, step.ledger.map((place) => placeForm(place, use)));
}

/* ---- trial cuts ---- */

const TURN_OVER = 'Cut the test piece, turn it over and cut it again with nothing moved. Both times measure from the '
    + 'side that lay down at first (or touched the stop at first) to the near wall of the cut.';

function field(label: string, input: HTMLElement): HTMLElement {
    return h('div', {}, h('label', { for: input.id }, label), input);
}

/** What is asked of the program when the form is sent, and what it answers. */
function trialForm(title: string, fields: Child[], ask: () => Promise<TrialAnswer>,
    answered: (answer: TrialAnswer) => void): HTMLElement {
    const seen = h('div', { 'aria-live': 'polite' });
    const tell = async (): Promise<void> => {
        try {
            const answer = await ask();
            fill(seen, moveList(answer));
            answered(answer);
            seen.scrollIntoView({ block: 'nearest' });
        } catch (fault) {
            fill(seen, refusal(fault));
        }
    };
    return h('form', { class: 'trial', onsubmit: (event: Event) => { event.preventDefault(); void tell(); } },
        h('h3', {}, title), fields, seen);
}

function gotForm(step: Step, use: MeasureUse): HTMLElement {
    const got = lengthInput(freshId('got'), use.keys()), wanted = lengthInput(freshId('wanted'), use.keys());
    const which = h('select', { id: freshId('of'), class: 'tall', onchange: () => choose() });
    const whichField = field('What was measured', which);
    let dimensions: TrialDimension[] = [], own = step.measure?.wanted ?? '';
    wanted.value = own;
    whichField.hidden = true;
    const choose = (): void => {
        own = dimensions.find((one) => one.of === which.value)?.wanted ?? own;
        wanted.value = own;
    };
    const ask = (): Promise<TrialAnswer> => {
        const other = wanted.value.trim(), of = dimensions.find((one) => one.of === which.value)?.of;
        return api.trial(use.texts(), step.key, { got: got.value.trim(), ...(of ? { of } : {}),
            ...(other && other !== own ? { wanted: other } : {}) });
    };
    const answered = (answer: TrialAnswer): void => {
        if (dimensions.length || !answer.dimensions?.length) return;
        dimensions = answer.dimensions;
        fill(which, dimensions.map((one) => h('option', { value: one.of }, one.what)));
        whichField.hidden = dimensions.length < 2;
    };
    const fields = h('div', { class: 'row' }, whichField, field('Wanted', wanted), field('Got', got),
        h('button', { class: 'tall' }, 'What to move'));
    return trialForm('Trial cut: what to move', [fields], ask, answered);
}

function flipForm(step: Step, use: MeasureUse): HTMLElement {
    const first = lengthInput(freshId('first'), use.keys()), second = lengthInput(freshId('second'), use.keys());
    const turned = h('select', { id: freshId('turned'), class: 'tall' }, h('option', { value: '' }, 'over, along its length'),
        h('option', { value: 'along' }, 'end for end, at the stop'));
    const fields = h('div', { class: 'row' }, field('First cut', first), field('After turning', second),
        field('How it was turned', turned), h('button', { class: 'tall' }, 'What to move'));
    const ask = (): Promise<TrialAnswer> => api.trial(use.texts(), step.key,
        { flip: [first.value.trim(), second.value.trim()], along: turned.value === 'along' });
    return trialForm('Is the cut in the middle? Turn the piece', [h('p', {}, TURN_OVER), fields], ask, () => {});
}

/** What to measure on the first piece, and what to move when it is off. was: the wanted size as drawn where it was moved. */
export function trialPart(step: Step, use: MeasureUse, was: string): HTMLElement | null {
    const measure = step.measure;
    if (!measure && !step.centred) return null;
    return h('section', { class: 'part' }, h('h2', {}, 'First piece: measure'),
        measure ? [h('p', {}, sentence(measure.what)), bigFigure(measure.wanted, '', ''), movedMark(was),
            measure.least && measure.most ? h('p', { class: 'limits' }, `between ${measure.least} and ${measure.most}`) : null,
            measure.if_off ? h('p', {}, sentence(`If it is off: ${measure.if_off}`)) : null, gotForm(step, use)] : null,
        step.centred ? flipForm(step, use) : null);
}
