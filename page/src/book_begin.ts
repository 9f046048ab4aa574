// SPDX-License-Identifier: GPL-3.0-or-later
/* book_begin: begin a job from a starting design. The design is a text with a few main sizes; the maker changes it at the
 * desk. */
import { api } from './api.js';
import { type Child, freshId, h } from './dom.js';
import { sayRight, sayWrong } from './view.js';

function radio(name: string, value: string, checked: boolean, ...label: Child[]): HTMLElement {
    return h('label', { class: 'choice' }, h('input', { type: 'radio', name, value, checked, required: true }),
        h('span', {}, label));
}

/** The form: design, units, a name. It leads to the desk. */
export async function beginPart(): Promise<HTMLElement> {
    const { designs } = await api.words(), nameId = freshId('name'),
        name = h('input', { id: nameId, maxlength: 120, autocomplete: 'off' });
    const begin = async (form: HTMLFormElement): Promise<void> => {
        const data = new FormData(form), kind = String(data.get('design') ?? '');
        const units = data.get('units') === 'in' ? 'in' : 'mm';
        try {
            sayRight();
            const { id } = await api.begin(kind, units, name.value.trim() || undefined);
            localStorage.setItem('begin-units', units);
            location.hash = `#/job/${id}`;
        } catch (fault) {
            sayWrong(fault);
        }
    };
    const inches = localStorage.getItem('begin-units') === 'in';
    return h('form', { class: 'begin',
        onsubmit: (event: Event) => { event.preventDefault(); void begin(event.target as HTMLFormElement); } },
        h('h2', { id: 'begin-title' }, 'Begin a job'),
        h('fieldset', {}, h('legend', {}, 'From a starting design'), h('div', { class: 'designs' }, designs.map((one, index) =>
            radio('design', one.kind, index === 0, h('strong', {}, one.title), h('span', { class: 'quiet' }, one.meaning))))),
        h('div', { class: 'row begin-foot' }, h('fieldset', { class: 'units' }, h('legend', {}, 'Sizes in'),
            radio('units', 'mm', !inches, 'millimetres'), radio('units', 'in', inches, 'inches')),
            h('div', {}, h('label', { for: nameId }, 'Name of the job, if you have one'), h('br'), name),
                h('button', { class: 'main' }, 'Begin')));
}
