// SPDX-License-Identifier: GPL-3.0-or-later
/* run_parts: what cards are made of: large figures with their arrows, stacks of spacers, sums, what was moved. */
import type { Moved, Move, Setting, Spacer, TrialAnswer } from './api.js';
import { type Child, h } from './dom.js';

/** A sentence of the program: begins large, ends with a full stop. */
export function sentence(words: string): string {
    return words ? `${words[0].toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? '' : '.'}` : '';
}

const directions: Record<string, { arrow: string; words: string }> = {
    left: { arrow: '←', words: 'to the left' }, right: { arrow: '→', words: 'to the right' },
    up: { arrow: '↑', words: 'up' }, down: { arrow: '↓', words: 'down' },
};

/** The arrow for "to the left", "up", "deeper"; '' when the words tell of no direction. */
function arrowOf(way: string): string {
    const hit = Object.entries(directions).find(([word]) => new RegExp(`\\b${word}(wards)?\\b`).test(way));
    return hit ? hit[1].arrow : '';
}

export function bigFigure(figure: string, arrow: string, way: string): HTMLElement {
    return h('p', { class: 'big' }, arrow ? h('span', { class: 'arrow', 'aria-hidden': 'true' }, arrow) : null,
        h('strong', { class: 'figure' }, figure),
        way ? h('span', { class: 'way' }, way) : null);
}

export function why(sum: string): HTMLElement | null {
    return sum ? h('details', { class: 'why-number' }, h('summary', {}, 'Why this number?'), h('p', {}, sum)) : null;
}

export function stackList(stack: readonly Spacer[], total: string, error: string): HTMLElement | null {
    if (!stack.length) return null;
    return h('div', { class: 'stack' }, h('h4', {}, 'Stack'),
        h('ul', {}, stack.map((one) => h('li', {}, h('b', {}, one.count > 1 ? `${one.count} × ` : '', one.size),
            h('span', {}, one.name)))),
        total ? h('p', { class: 'quiet' }, `${total} together${error ? `, ${error}` : ''}`) : null);
}

/** A figure to set. was: the figure as drawn, when a measured size has moved it, or ''. */
export function settingCard(setting: Setting, was: string): HTMLElement {
    const way = directions[setting.direction];
    return h('section', { class: 'setting', 'data-label': setting.label }, h('h3', {}, setting.label),
        bigFigure(setting.figure, way?.arrow ?? '', way?.words ?? ''), movedMark(was),
        stackList(setting.stack, setting.stack_total, setting.stack_error),
        setting.between ? h('p', { class: 'between' }, sentence(setting.between)) : null, why(setting.sum));
}

export function movedMark(was: string): HTMLElement | null {
    return was ? h('p', { class: 'moved' }, h('span', { 'aria-hidden': 'true' }, '◆ '), `moved: was ${was}`) : null;
}

/** What a trial cut says is to be moved. */
export function moveList({ moves, notes, good }: TrialAnswer): HTMLElement {
    const setting = (move: Move): Child => {
        if (!move.setting) return null;
        const stack = move.setting_stack;
        return h('div', { class: 'from-now' }, h('p', {}, 'On this card from now on: ', h('b', {}, move.setting)),
            typeof stack === 'string' ? (stack ? h('p', { class: 'quiet' }, `Stack: ${stack}`) : null)
                : stackList(stack ?? [], '', ''));
    };
    return h('div', { class: 'moves' },
        good && !moves.length ? h('p', { class: 'trial-note good' }, 'It is within its limits: move nothing.') : null,
        moves.length > 1 ? h('p', { class: 'trial-note' }, 'One of these is enough: try them in this order.') : null,
        moves.map((one) => h('section', { class: 'setting' }, h('h3', {}, one.stop), bigFigure(one.by, arrowOf(one.way), one.way),
            stackList(one.stack ?? [], '', ''), setting(one), why(one.sum))),
        notes.map((note) => h('p', { class: 'trial-note' }, sentence(note))));
}

/** What is set at the machine comes first, then templates, then the rest; each group in the program's order. */
function byUse(moved: readonly Moved[]): Moved[] {
    const rank = (one: Moved): number => (one.id.startsWith('steps/') ? 0 : one.id.startsWith('templates/') ? 1 : 2);
    return [...moved].sort((a, b) => rank(a) - rank(b));
}

export function movedTable(moved: readonly Moved[], caption: string): HTMLElement {
    if (!moved.length) return h('p', {}, 'It moves no other figure.');
    const change = (one: Moved): Child[] => [one.before || 'none', h('span', { 'aria-hidden': 'true' }, ' → '),
        h('span', { class: 'unseen' }, ' becomes '), h('b', {}, one.after || 'none')];
    const rows = byUse(moved).map((one) => h('tr', {}, h('td', {}, one.where.replaceAll('`', '')), h('td', {}, one.label),
        h('td', { class: 'number' }, change(one))));
    const head = h('thead', {}, h('tr', {}, ['Where', 'What', 'From, to'].map((words) => h('th', { scope: 'col' }, words))));
    return h('div', { class: 'wide-table', tabindex: 0, role: 'region', 'aria-label': caption },
        h('table', { class: 'moved-table' }, h('caption', {}, caption), head, h('tbody', {}, rows)));
}
