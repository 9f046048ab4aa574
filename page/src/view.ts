// SPDX-License-Identifier: GPL-3.0-or-later
/* view: what every view of the page uses: the place it is drawn in, words to the reader, questions, the choice of units. */
import { type Child, coded, fill, freshId, h } from './dom.js';
import { Refused } from './api.js';

/** A view draws itself into `host` for the parts of its address (#/job/12/run gives ['12', 'run']). What it returns is called when it is left. */
export type View = (host: HTMLElement, parts: string[]) => Promise<() => void>;

export function setTitle(title: string): void {
    document.title = title;
}

const said = h('div', { class: 'said', role: 'status', 'aria-live': 'polite' });
const alarmed = h('div', { class: 'said alarm', role: 'alert' });
document.body.append(said, alarmed);
let saidTimer = 0;

/** A short word that goes by itself. `act` puts a button behind it: "Undo". */
export function say(words: string, act?: { label: string; run: () => void }): void {
    fill(
        said,
        h('span', {}, words),
        act &&
            h(
                'button',
                {
                    type: 'button',
                    onclick: () => {
                        fill(said);
                        act.run();
                    },
                },
                act.label,
            ),
    );
    window.clearTimeout(saidTimer);
    saidTimer = window.setTimeout(() => fill(said), act ? 12000 : 5000);
}

/** What went wrong; stays until it is closed. */
export function sayWrong(fault: unknown): void {
    if (fault instanceof DOMException && fault.name === 'AbortError') return;
    const words =
        fault instanceof Refused
            ? [
                  h('strong', {}, coded(`${fault.what[0]?.toUpperCase() ?? ''}${fault.what.slice(1)}.`)),
                  coded(fault.remedy ? ` ${fault.remedy[0].toUpperCase()}${fault.remedy.slice(1)}.` : ''),
              ]
            : [h('strong', {}, 'Something is wrong in this page. '), String(fault instanceof Error ? fault.message : fault)];
    fill(alarmed, h('span', {}, words), h('button', { type: 'button', onclick: () => fill(alarmed) }, 'Close'));
    if (!(fault instanceof Refused)) console.error(fault);
}
/** Takes away what sayWrong has said. */
export function sayRight(): void {
    fill(alarmed);
}

export interface Answer {
    label: string;
    value: string;
    main?: boolean;
    danger?: boolean;
}
/** A question in a dialog; gives the value of the button, '' when it is left by Escape. */
export function question(title: string, body: Child, answers: Answer[]): Promise<string> {
    return new Promise((resolve) => {
        const id = freshId('question');
        const dialog = h(
            'dialog',
            { class: 'question', 'aria-labelledby': id },
            h(
                'form',
                { method: 'dialog' },
                h('h2', { id }, title),
                h('div', { class: 'body' }, body),
                h(
                    'div',
                    { class: 'answers' },
                    answers.map((one) =>
                        h(
                            'button',
                            {
                                value: one.value,
                                class: one.main ? 'main' : one.danger ? 'danger' : '',
                                autofocus: one.main ?? false,
                            },
                            one.label,
                        ),
                    ),
                ),
            ),
        );
        dialog.addEventListener('close', () => {
            dialog.remove();
            resolve(dialog.returnValue);
        });
        document.body.append(dialog);
        dialog.showModal();
    });
}

/** Asks for a line of text; null when it is left. */
export async function askLine(title: string, label: string, value: string, done: string): Promise<string | null> {
    const id = freshId('line');
    const input = h('input', { id, value, required: true, maxlength: 200 });
    const answer = await question(
        title,
        [h('label', { for: id }, label), input],
        [
            { label: done, value: 'done', main: true },
            { label: 'Leave it', value: '' },
        ],
    );
    return answer === 'done' && input.value.trim() ? input.value.trim() : null;
}

/* ---- how lengths are written ---- */

export const figureChoices = [
    { value: '', label: 'as the job says' },
    { value: 'mm 0.1', label: 'mm' },
    { value: 'in 0.001', label: 'inches, decimals' },
    { value: 'in 1/64', label: 'inches, fractions' },
] as const;

/** What the reader chose, '' for what the job says. */
export function figures(): string {
    return localStorage.getItem('figures') ?? '';
}

/** A select for it; `changed` is called after a choice. */
export function figureSelect(changed: () => void): HTMLElement {
    const select = h(
        'select',
        {
            'aria-label': 'Lengths are written in',
            class: 'figures',
            onchange: () => {
                localStorage.setItem('figures', select.value);
                changed();
            },
        },
        figureChoices.map((one) => h('option', { value: one.value }, one.label)),
    );
    select.value = figures();
    return select;
}

/** Calls it after things have been quiet for so many milliseconds. */
export function afterQuiet(ms: number, run: () => void): () => void {
    let timer = 0;
    return () => {
        window.clearTimeout(timer);
        timer = window.setTimeout(run, ms);
    };
}
