// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_list: what is shown: short grain with its places in words, and the pieces and parts, each to be shown, hidden
 * or chosen. */
import { fill, freshId, h } from './dom.js';
import type { Kind, Solids, Stood } from './solid_data.js';
import type { Stage, Thing } from './solid_stage.js';

/** Names of pieces have their number; parts of one joint share a name. */
function nameOf(stood: Stood, kind: Kind): string {
    return kind.joint ? `${stood.name} (${kind.joint})` : stood.name;
}

export class ShownList {
    readonly element: HTMLElement;
    private readonly hidden = new Set<string>();
    private readonly short = h('input', { type: 'checkbox', checked: true, id: freshId('short'),
        onchange: () => this.showShort() });
    private readonly places = h('ul', { class: 'solid-short small', tabindex: 0, 'aria-label': 'Places of short grain' });
    private readonly list = h('ul', { class: 'solid-list' });

    /** choose: called with the piece whose name is pressed. */
    constructor(private readonly stage: Stage, private readonly choose: (thing: Thing) => void) {
        const all = (label: string, shown: boolean): HTMLElement =>
            h('button', { type: 'button', onclick: () => this.showAll(shown) }, label);
        this.element = h('fieldset', {}, h('legend', {}, 'Shown'),
            h('label', {}, this.short, ' Short grain'),
            h('p', { class: 'small quiet' }, h('span', { class: 'solid-swatch', 'aria-hidden': 'true' }),
                ' wood that is shorter along the grain than it is high, so that it may split off'),
            this.places,
            h('details', { open: true }, h('summary', {}, 'Pieces and parts'),
                h('p', { class: 'row' }, all('Show all', true), all('Hide all', false)), this.list));
    }

    isHidden(stood: Stood, kind: Kind): boolean {
        return this.hidden.has(nameOf(stood, kind));
    }

    refresh(solids: Solids): void {
        const found = solids.kinds.flatMap((kind) => kind.short.map((one) => `${kind.name}: ${one.words}`));
        this.short.disabled = found.length === 0;
        fill(this.places, (found.length > 0 ? found : ['None was found.']).map((words) => h('li', {}, words)));
        this.showShort();
        this.listThings();
    }

    /** Marks the piece of that name as the chosen one. */
    mark(chosen: string): void {
        for (const one of this.list.querySelectorAll('button'))
            one.setAttribute('aria-pressed', String(one.dataset.name === chosen));
    }

    private showShort(): void {
        this.stage.showShort(this.short.checked);
    }

    private listThings(): void {
        const byName = new Map<string, Thing[]>();
        for (const thing of this.stage.things) {
            const name = nameOf(thing.stood, thing.kind);
            byName.set(name, [...byName.get(name) ?? [], thing]);
        }
        fill(this.list, [...byName].map(([name, things]) => this.rowOf(name, things)));
    }

    private rowOf(name: string, things: Thing[]): HTMLElement {
        const many = things.length > 1 ? `${name}, ${things.length} of them` : name, isPiece = things[0].kind.piece !== '';
        const shown = h('input', { type: 'checkbox', checked: !this.hidden.has(name), 'aria-label': `Show ${many}`,
            onchange: () => this.setShown(name, things, shown.checked) });
        if (!isPiece) return h('li', {}, shown, h('span', {}, many));
        return h('li', {}, shown, h('button', { type: 'button', class: 'plain', 'aria-pressed': 'false', 'data-name': name,
            onclick: () => this.choose(things[0]) }, name));
    }

    private setShown(name: string, things: Thing[], shown: boolean): void {
        if (shown) this.hidden.delete(name);
        else this.hidden.add(name);
        for (const thing of things) this.stage.setShown(thing, shown);
    }

    private showAll(shown: boolean): void {
        for (const thing of this.stage.things) this.setShown(nameOf(thing.stood, thing.kind), [thing], shown);
        for (const one of this.list.querySelectorAll('input')) one.checked = shown;
    }
}
