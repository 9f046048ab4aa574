// SPDX-License-Identifier: GPL-3.0-or-later
/* add: new pieces, and joints between two faces that are pointed at. What can join them, and how it is written, is the program's to say. */
import { type Change, type FaceSpot, type Finding, type Model, type Proposal, type Texts, api } from './api.js';
import { fill, freshId, h } from './dom.js';
import { findingList, sayRefused } from './findings.js';
import { nameOf, pathWord } from './path.js';
import { figures, question, sayWrong } from './view.js';

export const faceNames = ['face', 'back', 'face edge', 'back edge', 'left end', 'right end'] as const;

type Apply = (changes: Change[], why: string) => Promise<Finding[]>;

/** Asks for a new piece and adds it. */
export async function addPiece(model: Model, apply: Apply): Promise<void> {
    const ask = (label: string, value: string, hint = '') => {
        const id = freshId('ask'),
            input = h('input', { id, value, required: true, maxlength: 200, autocomplete: 'off' });
        return {
            input,
            row: h('p', {}, h('label', { for: id }, label), input, hint ? h('span', { class: 'quiet small' }, hint) : null),
        };
    };
    const first = model.pieces[0],
        sized = (key: string, fallback: string) => first?.values.find((one) => one.path.endsWith(`/${key}`))?.written || fallback;
    const unit = model.job.units || 'mm';
    const name = ask('Name', ''),
        count = ask('How many in one set', '1'),
        length = ask('Length, tenons included', unit === 'in' ? '24' : '600', ` ${unit}, or with its unit`),
        width = ask('Width', sized('width', unit === 'in' ? '3' : '75')),
        thickness = ask('Thickness', sized('thickness', unit === 'in' ? '1' : '25')),
        timber = ask('Timber', first?.timber ?? 'Oak, white');
    const faults = h('div', { role: 'alert' });
    for (;;) {
        const answer = await question(
            'A new piece',
            [name.row, count.row, length.row, width.row, thickness.row, timber.row, faults],
            [
                { label: 'Add it', value: 'add', main: true },
                { label: 'Leave it', value: '' },
            ],
        );
        if (answer !== 'add') return;
        const wrong = await apply(
            [
                {
                    kind: 'add',
                    path: `pieces/${pathWord(name.input.value.trim())}`,
                    entries: [
                        { key: 'count', value: count.input.value },
                        { key: 'length', value: length.input.value },
                        { key: 'width', value: width.input.value },
                        { key: 'thickness', value: thickness.input.value },
                        { key: 'timber', value: timber.input.value },
                    ],
                },
            ],
            `Added the piece ${name.input.value.trim()}`,
        );
        if (!wrong.length) return;
        fill(faults, findingList(wrong, {}, false));
    }
}

/** How a place along a piece is written in fields here: whole millimetres, or inches to a sixteenth. */
interface Along {
    unit: string;
    step: number;
    mm: number;
}
function alongOf(model: Model): Along {
    const inches = figures() ? figures().startsWith('in') : ['in', 'ft'].includes(model.job.units);
    return inches ? { unit: 'in', step: 1 / 16, mm: 25.4 } : { unit: 'mm', step: 1, mm: 1 };
}
function alongText(along: Along, mm: number): string {
    return String(Math.round(mm / along.mm / along.step) * along.step);
}

/** Words for a spot: "face of post, 190 mm from its left end". */
export function spotWords(model: Model, spot: FaceSpot): string {
    const along = alongOf(model);
    return `${spot.face} of ${spot.piece}${spot.face.endsWith('end') ? '' : `, ${alongText(along, spot.at)} ${along.unit} from its left end`}`;
}

/** A spot by choosing from lists, for those who do not point. */
function spotFields(
    model: Model,
    label: string,
    given: FaceSpot | null,
    proposed: { piece: string; face: string },
): { row: HTMLElement; spot: () => FaceSpot; listen: (run: () => void) => void } {
    const piece = h(
        'select',
        { 'aria-label': `${label}: piece` },
        model.pieces.map((one) => h('option', { value: one.name }, one.name)),
    );
    const face = h(
        'select',
        { 'aria-label': `${label}: face` },
        faceNames.map((one) => h('option', { value: one }, one)),
    );
    const along = alongOf(model),
        at = h('input', {
            'aria-label': `${label}: ${along.unit} from the left end`,
            type: 'number',
            min: 0,
            step: 'any',
            value: '0',
        });
    const place = h('span', {}, at, ` ${along.unit} from its left end`),
        places = () => {
            place.hidden = face.value.endsWith('end');
        };
    const middle = () => {
        at.value = alongText(
            along,
            (model.pieces.find((one) => one.name === piece.value)?.values.find((one) => one.path.endsWith('/length'))?.value ??
                0) / 2,
        );
    };
    if (given) {
        piece.value = given.piece;
        face.value = given.face;
        at.value = alongText(along, given.at);
    } else {
        piece.value = proposed.piece;
        face.value = proposed.face;
        middle();
    }
    piece.addEventListener('change', middle);
    face.addEventListener('change', places);
    places();
    return {
        row: h('p', { class: 'row' }, h('strong', {}, label), face, ' of ', piece, place),
        spot: () => ({
            piece: piece.value,
            face: face.value,
            at: Number(at.value) * along.mm,
            across: given && given.piece === piece.value && given.face === face.value ? given.across : 0,
        }),
        listen: (run) => {
            for (const one of [piece, face, at]) one.addEventListener('change', run);
        },
    };
}

/** Joins two pieces: by the faces pointed at, or chosen from lists here. */
export async function addJoint(
    model: Model,
    texts: Texts,
    apply: Apply,
    first: FaceSpot | null = null,
    second: FaceSpot | null = null,
): Promise<void> {
    const names = model.pieces.map((each) => each.name),
        last = names[names.length - 1] ?? '';
    const one = spotFields(model, 'This', first, { piece: last, face: 'left end' });
    const other = spotFields(model, 'meets this', second, { piece: names.find((name) => name !== last) ?? last, face: 'face' });
    const list = h('fieldset', { class: 'proposals' }),
        faults = h('div', { role: 'alert' });
    let proposals: Proposal[] = [],
        turn = 0;
    const show = async (): Promise<void> => {
        const mine = ++turn;
        try {
            const answer = await api.propose(texts, one.spot(), other.spot());
            if (mine !== turn) return;
            proposals = answer.proposals;
            fill(
                list,
                h('legend', {}, 'Joints that fit there'),
                proposals.length
                    ? proposals.map((proposal, i) =>
                          h(
                              'label',
                              { class: 'choice' },
                              h('input', { type: 'radio', name: 'proposal', value: i, checked: i === 0 }),
                              ' ',
                              proposal.label,
                          ),
                      )
                    : h(
                          'p',
                          {},
                          'No joint of ours joins these two faces so. Choose the end of one piece and the face, edge or end of another that it runs into; or a face of each where they cross.',
                      ),
            );
        } catch (fault) {
            sayWrong(fault);
        }
    };
    one.listen(() => void show());
    other.listen(() => void show());
    await show();
    for (;;) {
        const answer = await question(
            'A joint between two pieces',
            [one.row, other.row, list, faults],
            [
                { label: 'Add it', value: 'add', main: true },
                { label: 'Leave it', value: '' },
            ],
        );
        const chosen = proposals[Number(list.querySelector<HTMLInputElement>('input:checked')?.value ?? -1)];
        if (answer !== 'add' || !chosen) return;
        const wrong = await apply(chosen.changes, `Added a joint: ${chosen.kind}`);
        if (!wrong.length) return;
        fill(faults, findingList(wrong, {}, false));
    }
}

/** Takes a piece or a joint away, with what hangs on it, after asking. */
export async function takeAway(texts: Texts, of: 'pieces' | 'joints' | 'profiles', name: string, apply: Apply): Promise<void> {
    try {
        const { changes } = await api.removal(texts, of, name);
        const others = changes
            .filter((one) => one.path.split('/')[1] !== name)
            .map((one) => nameOf(one.path.split('/')[1] ?? ''));
        const answer = await question(
            `Take ${name} away?`,
            others.length ? h('p', {}, 'With it go: ', [...new Set(others)].join(', '), '.') : h('p', {}, 'Undo brings it back.'),
            [
                { label: 'Take it away', value: 'away', danger: true },
                { label: 'Leave it', value: '', main: true },
            ],
        );
        if (answer === 'away') await sayRefused(`${name} cannot be taken away now`, await apply(changes, `Took ${name} away`));
    } catch (fault) {
        sayWrong(fault);
    }
}
