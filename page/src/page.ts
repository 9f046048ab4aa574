// SPDX-License-Identifier: GPL-3.0-or-later
/* page: which view an address shows. #/ the book; #/job/12 a job at the desk; #/job/12/run at the machine; #/job/12/papers; #/shop/3. */
import { h } from './dom.js';
import { type View, sayRight, sayWrong } from './view.js';
import { book } from './book.js';
import { desk } from './desk.js';
import { papers } from './papers.js';
import { run } from './run.js';
import { shop } from './shop.js';

function viewOf(parts: string[]): View {
    if (parts[0] === 'job' && parts[2] === 'run') return run;
    if (parts[0] === 'job' && parts[2] === 'papers') return papers;
    if (parts[0] === 'job') return desk;
    return parts[0] === 'shop' ? shop : book;
}

const host = document.getElementById('page') as HTMLElement;
let leave = (): void => {};
let turn = 0;

async function show(): Promise<void> {
    const mine = ++turn,
        parts = location.hash
            .replace(/^#\/?/, '')
            .split('/')
            .map(decodeURIComponent)
            .filter((one) => one !== '');
    leave();
    leave = () => {};
    sayRight();
    const place = h('div', { class: 'view' });
    host.replaceChildren(place);
    window.scrollTo(0, 0);
    try {
        const left = await viewOf(parts)(place, parts.slice(1));
        if (mine === turn) leave = left;
        else left();
    } catch (fault) {
        sayWrong(fault);
        if (mine === turn && !place.hasChildNodes())
            place.append(h('main', {}, h('p', {}, h('a', { href: '#/' }, 'To the book'))));
    }
}

window.addEventListener('hashchange', () => void show());
void show();
