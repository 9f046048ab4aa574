// SPDX-License-Identifier: GPL-3.0-or-later
/* compare: two revisions side by side: which lines of the text differ, and which figures moved. */
import { type Moved, type Revision, api } from './api.js';
import { coded, fill, freshId, h, whenWords } from './dom.js';
import { figures, question, sayWrong } from './view.js';

type Line = { kind: 'same' | 'gone' | 'come'; text: string };
const LINES_MOST = 4000; // the table of the longest common lines grows with the square

/** What came and went between two texts, line by line (longest common subsequence, ends that are alike left out of the table). */
export function differingLines(before: string, after: string): Line[] {
    const a = before.split('\n'),
        b = after.split('\n');
    let head = 0,
        tail = 0;
    while (head < a.length && head < b.length && a[head] === b[head]) head++;
    while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
    const mid = (one: string[]) => one.slice(head, one.length - tail),
        x = mid(a),
        y = mid(b);
    const same = (list: string[]): Line[] => list.map((text) => ({ kind: 'same', text }));
    const middle: Line[] = [];
    if (x.length > LINES_MOST || y.length > LINES_MOST) {
        middle.push(...x.map((text): Line => ({ kind: 'gone', text })), ...y.map((text): Line => ({ kind: 'come', text })));
    } else {
        const wide = y.length + 1,
            longest = new Uint16Array((x.length + 1) * wide);
        for (let i = x.length - 1; i >= 0; i--)
            for (let j = y.length - 1; j >= 0; j--)
                longest[i * wide + j] =
                    x[i] === y[j]
                        ? longest[(i + 1) * wide + j + 1] + 1
                        : Math.max(longest[(i + 1) * wide + j], longest[i * wide + j + 1]);
        for (let i = 0, j = 0; i < x.length || j < y.length;) {
            if (i < x.length && j < y.length && x[i] === y[j]) {
                middle.push({ kind: 'same', text: x[i] });
                i++;
                j++;
            } else if (i < x.length && (j === y.length || longest[(i + 1) * wide + j] >= longest[i * wide + j + 1]))
                middle.push({ kind: 'gone', text: x[i++] });
            else middle.push({ kind: 'come', text: y[j++] });
        }
    }
    return [...same(a.slice(0, head)), ...middle, ...same(a.slice(a.length - tail))];
}

const AROUND = 2;
function lineList(lines: Line[]): HTMLElement {
    const near = lines.map((_, i) => lines.slice(Math.max(0, i - AROUND), i + AROUND + 1).some((one) => one.kind !== 'same'));
    const shown: HTMLElement[] = [];
    lines.forEach((line, i) => {
        if (near[i])
            shown.push(
                h(
                    'div',
                    { class: `line line-${line.kind}` },
                    h('span', { class: 'sign' }, { same: ' ', gone: '−', come: '+' }[line.kind]),
                    line.kind === 'same' ? null : h('span', { class: 'unseen' }, line.kind === 'gone' ? 'gone: ' : 'new: '),
                    line.text,
                ),
            );
        else if (i > 0 && near[i - 1]) shown.push(h('div', { class: 'line quiet' }, '…'));
    });
    return h('div', { class: 'lines' }, shown.length ? shown : h('p', {}, 'The texts are the same.'));
}

export function movedTable(moved: Moved[]): HTMLElement {
    if (!moved.length) return h('p', {}, 'No figure moved.');
    return h(
        'table',
        { class: 'moved' },
        h(
            'thead',
            {},
            h(
                'tr',
                {},
                ['Where', 'Figure', 'Was', 'Is'].map((one) => h('th', { scope: 'col' }, one)),
            ),
        ),
        h(
            'tbody',
            {},
            moved.map((one) =>
                h(
                    'tr',
                    {},
                    h('td', {}, coded(one.where)),
                    h('td', {}, one.label),
                    h('td', { class: 'number' }, one.before || '–'),
                    h('td', { class: 'number' }, h('strong', {}, one.after || '–')),
                ),
            ),
        ),
    );
}

/** Asks for two revisions and shows what is between them. now: the text as it stands on the page. */
export async function compare(job: number, shop: number, revisions: Revision[], now: string): Promise<void> {
    const options = () => [
        h('option', { value: 0 }, 'as it stands now'),
        ...revisions.map((one) =>
            h('option', { value: one.number }, `${one.number}, ${whenWords(one.when_s)}${one.why ? `: ${one.why}` : ''}`),
        ),
    ];
    const first = freshId('first'),
        second = freshId('second'),
        body = h('div', { 'aria-live': 'polite' });
    const from = h('select', { id: first }, options()),
        to = h('select', { id: second }, options());
    from.value = String(revisions.find((one) => one.number > 0)?.number ?? 0);
    to.value = '0';
    if (revisions.length > 1) from.value = String(revisions[1].number);
    const textOf = async (number: number) => (number === 0 ? now : (await api.text('jobs', job, number)).text);
    let turn = 0;
    const show = async (): Promise<void> => {
        const mine = ++turn;
        try {
            const [before, after] = await Promise.all([textOf(Number(from.value)), textOf(Number(to.value))]);
            const answer = await api.reckon({ text: after, shop, figures: figures() || null, compare_with: { text: before } });
            if (mine === turn)
                fill(
                    body,
                    h('h3', {}, 'The text'),
                    lineList(differingLines(before, after)),
                    h('h3', {}, 'The figures'),
                    answer.moved
                        ? movedTable(answer.moved)
                        : h('p', {}, 'One of the two cannot be read as a job, so there are no figures to hold side by side.'),
                );
        } catch (fault) {
            sayWrong(fault);
        }
    };
    from.addEventListener('change', () => void show());
    to.addEventListener('change', () => void show());
    const shown = question(
        'Two revisions side by side',
        [h('div', { class: 'row' }, h('label', { for: first }, 'From'), from, h('label', { for: second }, 'to'), to), body],
        [{ label: 'Close', value: '', main: true }],
    );
    await show();
    await shown;
}
