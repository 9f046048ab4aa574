// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_pointing: a place on a piece, pointed at by a click or by the form beside the picture. What was pointed at is shaded,
 * marked, said in words and handed on. */
import type { FaceSpot } from './api.js';
import { fill, freshId, h } from './dom.js';
import { axesOfFace, faceWords, spotOnFace } from './solid_data.js';
import type { Hit, Stage, Thing } from './solid_stage.js';

/** at: from the left end; across: of a face or an end from the face edge, of an edge from the back; mm. cut: whose wall or
 *  bottom it is, '' for a side of the piece. */
export interface PickedSpot extends FaceSpot { number: number; cut: string }

/** From where along and across a face are counted. */
function fromWords(face: number): [string, string] {
    if (face >= 4) return ['From the face edge', 'From the back'];
    return ['From the left end', face < 2 ? 'From the face edge' : 'From the back'];
}

export function hitWords({ thing, face, source }: Hit): string {
    return source > 0 ? `${thing.stood.name}: ${thing.kind.cuts[source - 1]}` : `${thing.stood.name}, ${faceWords[face]}`;
}

function percents({ thing, face, spot }: Hit): [number, number] {
    const { along, across } = axesOfFace(face), of = (axis: number): number =>
        Math.round(100 * spot[axis] / thing.kind.size[axis]);
    return [of(along), of(across)];
}

export class Pointing {
    readonly element: HTMLElement;
    /** Name of the piece whose form is shown, '' for none. */
    chosen = '';
    private readonly form = h('div', { class: 'solid-pointing' });
    private readonly told = h('p', { class: 'solid-told', role: 'status' });

    /** picked: whom a place on a piece is handed to; changed: called when another piece is chosen, or none. */
    constructor(private readonly stage: Stage, private readonly picked: (spot: PickedSpot) => void,
        private readonly changed: () => void) {
        this.element = h('fieldset', {}, h('legend', {}, 'Point at a place'), this.form, this.told);
    }

    /** The bodies are others: the piece that was chosen is looked for among them. */
    refresh(): void {
        this.choose(this.stage.things.find(({ stood, kind }) => kind.piece && stood.name === this.chosen) ?? null);
    }

    /** Shades a piece and shows its form, as it was if it is the same. Null: none. */
    choose(thing: Thing | null): void {
        const same = thing !== null && thing.stood.name === this.chosen && this.form.childElementCount > 1;
        this.chosen = thing?.stood.name ?? '';
        this.stage.markSpot(null);
        this.stage.shade(thing);
        if (!thing) fill(this.form, h('p', { class: 'small' }, 'Click on a face, or choose a piece in the list above.'));
        else if (!same) this.showForm({ thing, face: 0, source: 0, spot: spotOnFace(thing.kind, 0, 0.5, 0.5) });
        this.changed();
    }

    /** A click. Parts of joints are shaded and told of, but no joint can be set on them. */
    click(hit: Hit): void {
        this.choose(null);
        if (hit.thing.kind.piece) {
            this.chosen = hit.thing.stood.name;
            this.showForm(hit);
            this.changed();
        }
        this.pick(hit);
    }

    private pick(hit: Hit): void {
        const { thing, face, source, spot } = hit, [along, across] = percents(hit), { piece, cuts } = thing.kind;
        this.stage.shade(thing, hit);
        this.stage.markSpot(hit);
        fill(this.told, `Pointed at ${hitWords(hit)}, ${along} % along and ${across} % across.`);
        if (!piece) return;
        const isEdge = face === 2 || face === 3;
        this.picked({ piece, number: thing.stood.number, face: faceWords[face], at: spot[0], across: isEdge ? spot[2] : spot[1],
            cut: source > 0 ? cuts[source - 1] : '' });
    }

    private showForm(hit: Hit): void {
        const { stood: { name } } = hit.thing;
        const face = h('select', { id: freshId('face') },
            faceWords.map((words, i) => h('option', { value: i, selected: i === hit.face }, words)));
        const sliders = percents(hit).map((value) =>
            h('input', { type: 'range', min: 0, max: 100, value, id: freshId('place') }));
        const labels = sliders.map((one) => h('label', { for: one.id }));
        const now = (): Hit => {   // the thing is looked for each time: the bodies may be others since
            const thing = this.stage.things.find((one) => one.stood.name === name && one.kind.piece) ?? hit.thing,
                at = Number(face.value), [along, across] = sliders.map((one) => Number(one.value) / 100);
            return { thing, face: at, source: 0, spot: spotOnFace(thing.kind, at, along, across) };
        };
        const label = (): void => labels.forEach((one, i) =>
            fill(one, fromWords(Number(face.value))[i], ` (${sliders[i].value} %)`));
        const show = (): void => {
            label();
            this.stage.shade(now().thing, now());
            this.stage.markSpot(now());
        };
        face.addEventListener('change', () => { show(); this.stage.lookAt(now().thing, now().face); });
        for (const one of sliders) one.addEventListener('input', show);
        label();
        fill(this.form, h('p', {}, h('strong', {}, name)), h('label', { for: face.id }, 'On its'), face, labels[0], sliders[0],
            labels[1], sliders[1], h('button', { type: 'button', class: 'main', onclick: () => this.pick(now()) }, 'Point here'));
    }
}
