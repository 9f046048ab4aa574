// SPDX-License-Identifier: GPL-3.0-or-later
/* head: the line on top of every view of one job: where one is, where one can go, how lengths are written. */
import { type Child, h } from './dom.js';
import { figureSelect } from './view.js';

export type JobPlace = 'desk' | 'run' | 'papers';

/** changed: called when other units were chosen; more: what the view itself puts there. */
export function jobHead(job: number, here: JobPlace, name: HTMLElement, changed: () => void, ...more: Child[]): HTMLElement {
    const places = [
        { place: 'desk', words: 'At the desk', to: `#/job/${job}` },
        { place: 'run', words: 'At the machine', to: `#/job/${job}/run` },
        { place: 'papers', words: 'Papers', to: `#/job/${job}/papers` },
    ] as const;
    const head = h(
        'header',
        { class: 'head' },
        h(
            'div',
            {},
            h('a', { href: '#/' }, 'Book'),
            name,
            h(
                'nav',
                { 'aria-label': 'This job', class: 'row' },
                places.map((one) => h('a', { href: one.to, 'aria-current': one.place === here ? 'page' : null }, one.words)),
            ),
            ...more,
            figureSelect(changed),
        ),
    );
    new ResizeObserver(() => document.documentElement.style.setProperty('--head', `${head.offsetHeight}px`)).observe(head);
    return head;
}
