// SPDX-License-Identifier: GPL-3.0-or-later
/* run_head: the head of the views that are used in the shop: the job's name, the way to its other views, the choice of units. */
import { type Child, h } from './dom.js';
import { figureSelect } from './view.js';

export function jobHead(job: number, title: string, here: 'run' | 'papers', changed: () => void, ...more: Child[]): HTMLElement {
    const way = (name: string, words: string, parts: string) =>
        h('a', { href: `#/job/${job}${parts}`, ...(name === here ? { 'aria-current': 'page' } : {}) }, words);
    return h('header', { class: 'head' }, h('div', {}, h('span', { class: 'name' }, title), more,
        h('nav', { class: 'row', 'aria-label': 'Views of the job' }, h('a', { href: '#/' }, 'Book'), way('desk', 'Desk', ''),
            way('run', 'Machine', '/run'), way('papers', 'Papers', '/papers')), figureSelect(changed)));
}
